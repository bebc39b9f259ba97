package cli

import (
	"encoding/json"
	"io"

	"chablon/cmd/internal/print"
	"chablon/labels/diag"
)

// finding is a finding for another program: one JSON object a line, the place
// as it can be opened from where the command was given, counted from 1.
type finding struct {
	File    string `json:"file,omitempty"`
	Line    int    `json:"line,omitempty"`
	Col     int    `json:"col,omitempty"`
	Kind    string `json:"kind"` // error or caution
	Rule    string `json:"rule"`
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
}

// asJSON writes every finding, a line each; it returns errFindings when one is
// an error.
func asJSON(w io.Writer, p *print.Press, found *diag.List) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	for _, d := range found.All() {
		f := finding{File: placed(p, d).Pos.File, Line: d.Pos.Line, Col: d.Pos.Col, Kind: "error", Rule: d.Rule, Message: diag.Visible(d.Msg), Hint: diag.Visible(d.Hint)}
		if d.Warning {
			f.Kind = "caution"
		}
		if err := enc.Encode(f); err != nil {
			return err
		}
	}
	if found.Errors() > 0 {
		return errFindings
	}
	return nil
}
