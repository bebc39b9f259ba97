package shop

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// Step is one step of work.
type Step struct {
	Pos       diag.Pos
	ID        Text                   `key:"id" must:"yes" help:"Short name of the step; other steps name it under needs."`
	Do        Words                  `key:"do" must:"yes" help:"What to do, the verb first, per language. {take:butter} stands for the amount of that line: of a product the one of a piece, of a formula that of the batch."`
	Short     Words                  `key:"short" help:"The same in at most 60 characters, for the card on the wall, per language; do: when left out."`
	Never     Words                  `key:"never" help:"What must not be done, per language, such as: do not whisk once cold."`
	Or        Words                  `key:"or" help:"Another way to do it that is as good, per language, such as: on the marble instead of with seed chocolate."`
	Needs     []Text                 `key:"needs" help:"Steps that must be done before. A formula or a step whose product goes in is needed anyway."`
	Starts    *Starts                `key:"starts" help:"Another step that is going on when this one starts, and at which of its temperatures."`
	Hand      Text                   `key:"hand" one:"1|2|3|4" help:"Who does it, where several work side by side: 1 for the first pair of hands."`
	Uses      []Use                  `key:"uses" help:"Lines that go in at this step: [butter, {line: caster-sugar, share: 50 %}, {step: A1}]."`
	InWork    diag.At[unit.Mass]     `key:"in-work" help:"For chocolate that is tempered and the like: how much is worked with at least; what is not used goes back."`
	Tool      Words                  `key:"tool" help:"Tool and setting, per language."`
	Mixer     []Mixer                `key:"mixer" help:"Speeds of the mixer, one after the other, such as [{speed: 1, for: 4 min}, {speed: 2, for: 6 min}]."`
	Size      *Size                  `key:"size" help:"Thickness, diameter and the like."`
	Kind      Text                   `key:"kind" one:"mix|rest|shape|chill|freeze|toast|poach|boil|cook|bake|cool|temper|melt|set|fill|finish|pack" must:"yes" help:"What sort of work it is."`
	Of        Text                   `key:"of" one:"custard|pastry-cream|swiss-meringue|italian-meringue|bombe|syrup|caramel|soft-caramel|marshmallow|gelatine|pectin|jam|dark-chocolate|milk-chocolate|white-chocolate|ganache|glaze|choux|sweet-pastry|shortbread|nuts|fruit|lean-dough|rich-dough|laminated-dough|butter|egg" help:"What is worked on, where its temperatures are known; they are held against the usual ones."`
	Because   Text                   `key:"because" help:"Why a temperature of this step is outside the usual range, where that is meant."`
	Tools     []Text                 `key:"uses-tool" help:"Tools of shop.yaml that the step needs for itself; a step that bakes or toasts needs the oven anyway."`
	Readings  []Reading              `key:"readings" help:"What the mix measured on other days."`
	HandsOn   diag.At[unit.Span]     `key:"hands-on" must:"yes" help:"Hands-on time, of the whole batch, or per what stands below it."`
	Per       diag.At[Per]           `key:"per" help:"What the hands-on time is for, so that it grows with the batch: 48 pieces, tray, load of the oven, bowl, 1.5 kg; or batch, where it is the same for every batch. Loads and bowls go one after the other, waiting too; a step of a product that bakes is per load anyway."`
	Day       diag.At[int]           `key:"day" help:"How many days before the day on which all is ready it is done, such as -1 for the day before."`
	Waiting   diag.At[unit.Wait]     `key:"waiting" help:"Waiting time after it, such as 20 min, or from when to when, such as 12 to 16 h; that of its phases when left out."`
	In        *Climate               `key:"in" help:"Where it waits: room, cold-room, or {place: proofer, at: 26 °C, humidity: 75 to 80 %}."`
	Set       []diag.At[unit.Target] `key:"set" help:"What the oven or hob is set to, one after the other, such as [180 °C, 165 °C]; an oven with more to say has phases."`
	Phases    []Phase                `key:"phases" help:"What the oven does, one phase after the other."`
	Reach     []Reach                `key:"reach" help:"Temperatures to reach, in order; where there are several, or a limit has one too, each says of what: [{to: 175 °C, of: {en: sugar}}]."`
	Hold      *Hold                  `key:"hold" help:"A temperature at which it is kept for a time, where that is no critical limit."`
	Core      diag.At[unit.Target]   `key:"core" help:"Temperature inside the piece."`
	Look      Words                  `key:"look" help:"What it looks like when it is done, per language."`
	Picture   *Picture               `key:"picture" help:"A drawing or a photograph that stands beside the step."`
	EndWeight diag.At[bool]          `key:"end-weight" help:"Set where the pan is weighed until the formula's weight after the loss is reached."`
	Limit     *Limit                 `key:"limit" help:"A critical limit."`
	Cautions  []Text                 `key:"cautions" help:"What can hurt whoever does it: hot-sugar, raw-egg, hot-oven." list:"caution"`
}

// Use is what goes in at a step: a line, or the product of an earlier step.
// Exactly one of Line and Step is given.
type Use struct {
	Pos   diag.Pos
	Line  Text                `key:"line" alone:"yes" help:"Line of the formula, or of the product's parts."`
	Step  Text                `key:"step" help:"Step whose product goes in."`
	Share diag.At[unit.Share] `key:"share" help:"How much of it, where not all goes in at once, such as 50 %; the shares of a line make 100 %."`
}

// Part is the share of the line that goes in, all of it where nothing is
// written; never less than nothing, nor more than all.
func (u Use) Part() unit.Share {
	if !u.Share.Set() {
		return unit.Whole
	}
	return min(max(u.Share.V, 0), unit.Whole)
}

// Starts names the step that is going on when another one starts.
type Starts struct {
	Pos  diag.Pos
	With Text                 `key:"with" must:"yes" help:"Id of the step that is going on."`
	At   diag.At[unit.Target] `key:"at" help:"Temperature of that step at which this one starts, such as 114 °C."`
}

// Mixer is one speed of the mixer for a while.
type Mixer struct {
	Pos   diag.Pos
	Speed diag.At[int]       `key:"speed" must:"yes" help:"Speed, as on the machine: 1 is the slowest."`
	For   diag.At[unit.Wait] `key:"for" must:"yes" help:"How long, such as 4 min."`
	With  Text               `key:"with" one:"beater|hook|whisk" help:"Tool in the mixer."`
}

// Size is how thick, how wide, how often.
type Size struct {
	Pos       diag.Pos
	Turns     []Text               `key:"turns" one:"single|double" help:"Turns of a laminated dough: single folds it in three, double in four."`
	Thickness diag.At[unit.Length] `key:"thickness" help:"How thick it is sheeted or spread, such as 2.5 mm."`
	Diameter  diag.At[unit.Length] `key:"diameter" help:"Diameter of a ring, cutter or piece."`
	Nozzle    diag.At[unit.Length] `key:"nozzle" help:"Diameter of the nozzle."`
	Cut       diag.At[unit.Extent] `key:"cut" help:"Size of a cut piece, such as 30 × 110 mm."`
	Frame     diag.At[unit.Extent] `key:"frame" help:"Inside of the frame or mould that the formula as written fills, such as 300 × 400 × 10 mm; the card says how many a batch fills."`
}

// Climate is where something waits: the place, how warm and how damp.
type Climate struct {
	Pos      diag.Pos
	Place    Text                 `key:"place" alone:"yes" must:"yes" one:"room|cold-room|freezer|blast-chiller|proofer|water-bath" help:"The place."`
	At       diag.At[unit.Target] `key:"at" help:"How warm it is there, such as 26 °C."`
	Humidity diag.At[Humidity]    `key:"humidity" help:"Relative humidity of its air, such as 75 to 80 % or ≤ 60 %."`
}

// Phase is what the oven does for a while.
type Phase struct {
	Pos   diag.Pos
	Set   diag.At[unit.Target] `key:"set" must:"yes" help:"What the oven is set to."`
	For   diag.At[unit.Wait]   `key:"for" must:"yes" help:"How long, such as 25 min."`
	Door  Text                 `key:"door" one:"shut|ajar" help:"shut: nobody opens it; ajar: open by a hand's breadth."`
	Steam diag.At[unit.Span]   `key:"steam" help:"How long steam is given at the start, such as 3 s."`
	Fan   Text                 `key:"fan" one:"off|low|high" help:"Fan of the oven."`
	Vent  Text                 `key:"vent" one:"shut|open" help:"Flap through which steam leaves the oven."`
}

// Reach is a temperature to reach, and of what.
type Reach struct {
	Pos diag.Pos
	To  diag.At[unit.Target] `key:"to" alone:"yes" must:"yes" help:"Temperature to reach."`
	Of  Words                `key:"of" help:"What has that temperature, per language, such as: sugar."`
}

// Hold is a temperature that is kept for a time.
type Hold struct {
	Pos diag.Pos
	At  diag.At[unit.Target] `key:"at" must:"yes" help:"Temperature to keep, such as 40 to 45 °C."`
	For diag.At[unit.Wait]   `key:"for" help:"How long; until it is used up when left out."`
}

// Picture is a drawing or a photograph in the shop's folder.
type Picture struct {
	Pos   diag.Pos
	File  Text  `key:"file" must:"yes" help:"PNG or JPEG in the shop's folder, such as pictures/fold.png."`
	Shows Words `key:"shows" must:"yes" help:"What can be seen on it, per language, for whoever cannot see it."`
}

// Limit is a critical limit: it must be met, or else.
type Limit struct {
	Pos     diag.Pos
	From    diag.At[unit.Target] `key:"from" help:"Temperature from which the time counts, such as 63 °C."`
	Reach   diag.At[unit.Target] `key:"reach" help:"Temperature to reach."`
	Within  diag.At[unit.Span]   `key:"within" help:"Time in which it must be reached."`
	Hold    diag.At[unit.Span]   `key:"hold" help:"Time for which it must be held."`
	Record  diag.At[bool]        `key:"record" help:"Set where it is written down each time; the card then has lines for it. A limit with within: has them anyway."`
	Measure Words                `key:"measure" must:"yes" help:"How it is measured, per language."`
	IfNot   Words                `key:"if-not" must:"yes" help:"What to do when it is missed, per language."`
}

// After gives the ids of the steps that must be done before: those it needs,
// and those whose product goes in.
func (s *Step) After() []Text {
	all := slices.Clone(s.Needs)
	for _, u := range s.Uses {
		if u.Step.Set() {
			all = append(all, u.Step)
		}
	}
	return all
}

// follows gives the steps that the step comes behind in the order of work:
// those that must be done before, and the one that it starts with.
func (s *Step) follows() []Text {
	all := s.After()
	if s.Starts != nil && s.Starts.With.Set() {
		all = append(all, s.Starts.With)
	}
	return all
}

// Waits is how long the step waits: as written, or as long as its phases take.
func (s *Step) Waits() unit.Wait {
	if s.Waiting.Set() || s.Waiting.V.Most > 0 {
		return s.Waiting.V
	}
	return s.phased()
}

// Settings are what the oven or hob is set to, one after the other.
func (s *Step) Settings() []diag.At[unit.Target] {
	all := slices.Clone(s.Set)
	for _, p := range s.Phases {
		all = append(all, p.Set)
	}
	return all
}

// phased is how long the phases take.
func (s *Step) phased() unit.Wait {
	var sum unit.Wait
	for _, p := range s.Phases {
		sum = sum.Plus(p.For.V)
	}
	return sum
}
