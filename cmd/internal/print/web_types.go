package print

import "encoding/json"

// webDeclaration is the declaration as a web shop reads it.
type webDeclaration struct {
	Form        int           `json:"form"`
	Product     string        `json:"product"`
	Version     int           `json:"version"`
	Pack        string        `json:"pack"`
	GTIN        string        `json:"gtin,omitempty"`
	Market      string        `json:"market"`
	Fingerprint string        `json:"fingerprint"`
	Approved    *webApproval  `json:"approved"`
	Made        string        `json:"made"`
	Date        *webDate      `json:"date"`
	Net         webNet        `json:"net"`
	Contains    []webAllergen `json:"contains"`
	May         []webAllergen `json:"may-contain"`
	Lists       []webList     `json:"ingredients"`
	Nutrition   []webRow      `json:"nutrition-per-100-g"`
	Portion     *webPortion   `json:"portion,omitempty"`
	Texts       []webTexts    `json:"texts"`
}

type webApproval struct {
	By string `json:"by"`
	On string `json:"on"`
}

type webDate struct {
	Kind string `json:"kind"`
	Last string `json:"last-day"`
}

type webNet struct {
	Grams   json.Number `json:"grams"`
	Pieces  int64       `json:"pieces"`
	Average bool        `json:"e-mark"`
}

type webAllergen struct {
	ID    string            `json:"id"`
	Group int               `json:"group,omitempty"`
	Names map[string]string `json:"names"`
}

type webList struct {
	Title map[string]string `json:"title,omitempty"`
	Parts []webPart         `json:"parts"`
}

type webPart struct {
	Names     map[string]string `json:"names"`
	Class     string            `json:"class,omitempty"`
	Number    string            `json:"e-number,omitempty"`
	Group     string            `json:"group,omitempty"`
	Varying   bool              `json:"varying,omitempty"`
	Used      json.Number       `json:"grams-per-100-g"`
	Share     json.Number       `json:"percent-of-all"`
	Declared  *webQuantity      `json:"declared,omitempty"`
	Allergens []string          `json:"allergens"`
	Inner     []webPart         `json:"inner,omitempty"`
}

type webQuantity struct {
	Percent json.Number `json:"percent,omitempty"`
	Grams   json.Number `json:"grams-per-100-g,omitempty"`
}

type webRow struct {
	Key     string      `json:"key"`
	Of      string      `json:"of,omitempty"`
	Exact   json.Number `json:"exact"`
	Shown   json.Number `json:"shown"`
	Less    bool        `json:"less-than,omitempty"`
	Unit    string      `json:"unit"`
	Portion *webFigure  `json:"portion,omitempty"`
	Percent json.Number `json:"percent-of-daily-intake,omitempty"`
}

type webFigure struct {
	Shown json.Number `json:"shown"`
	Less  bool        `json:"less-than,omitempty"`
}

type webPortion struct {
	Grams  json.Number `json:"grams"`
	Pieces int64       `json:"pieces,omitempty"`
	InPack int64       `json:"in-pack"`
}

// webTexts is what one language says, ready to be shown.
type webTexts struct {
	Language   string     `json:"language"`
	Name       string     `json:"name"`
	Lists      []webSaid  `json:"lists"`
	May        *webSaid   `json:"may-contain"`
	Net        string     `json:"net"`
	Date       string     `json:"date,omitempty"`
	Keep       string     `json:"keep"`
	Use        string     `json:"use,omitempty"`
	Operator   string     `json:"operator"`
	Statements []string   `json:"statements"`
	Nutrition  *webTabled `json:"nutrition"`
}

// webSaid is a text cut where emphasis begins and ends.
type webSaid struct {
	Role string   `json:"role"`
	Text string   `json:"text"`
	Runs []webRun `json:"runs"`
}

type webRun struct {
	Text   string `json:"text"`
	Strong bool   `json:"strong,omitempty"`
}

type webTabled struct {
	Heading   string      `json:"heading"`
	Per       string      `json:"per"`
	Portions  string      `json:"portions,omitempty"`
	Heads     []string    `json:"heads,omitempty"`
	Rows      []webTabRow `json:"rows"`
	Reference string      `json:"reference,omitempty"`
}

type webTabRow struct {
	Name  string   `json:"name"`
	Value string   `json:"value"`
	Cells []string `json:"cells,omitempty"`
	Part  bool     `json:"part-of-above,omitempty"`
}
