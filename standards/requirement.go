package standards

import "math"

// Side tells whether a limit is an upper or a lower one.
type Side uint8

// The two sides.
const (
	Upper Side = iota
	Lower
)

// String returns "upper" or "lower".
func (s Side) String() string {
	if s == Lower {
		return "lower"
	}
	return "upper"
}

// Requirements is the text of a drawing as read: one or more requirements on one surface.
type Requirements struct {
	Text    string // as it was given
	Edition string // as it was asked for
	Items   []Requirement

	reader Reader
}

// A Requirement is one limit on one parameter with what the text says about how it is measured. Entries that the text
// leaves out are zero. All lengths are in micrometres.
type Requirement struct {
	Line, Column int    // where it begins, from 1
	Edition      string // whose rules it falls under; a motif parameter leads from ISO 1302 text to ISO 12085

	Side        Side
	SideWritten bool
	Symbol      string // in the spelling of the edition; empty while a question about it is open
	Limit       float64
	LimitText   string // the number as written, with a point
	Unit        string // of LimitText; empty while open, or for a parameter without unit
	Mark        string // an old mark that is no requirement by itself: "N7", "▽▽", "RMS"
	Reference   string // "mean-line" when the level of a material ratio is said to count from there
	Rule        Rule
	RuleWritten bool

	Class         string // "Sc3"
	ShortFilter   string
	Short         float64
	LongFilter    string
	Long          float64
	WavinessLimit float64
	A, B          float64
	Section       float64
	Sections      int
	Evaluation    float64
	CutoffBy      string // "measured" when the measured value shall choose the cut-off

	Form       string
	Extraction string // "mechanical" or "optical"
	Removal    string // "APA", "MRR" or "NMR": any process, removal required, no removal
	Process    string
	Lay        string
	Direction  string
	Others     []int // numbers of requirements written elsewhere: OR(1)

	Settings  Settings
	Questions []Question
	Notes     []string

	at map[string]int // where an entry stands, for a refusal that is found later
	s  *scanner
}

// Settings is what to measure with, on plain numbers in micrometres. An entry of 0 or "" does not exist there: no such
// filter, or, for the evaluation length, the whole length of the feature. Origins tells for each entry where it comes
// from, under the keys of a settings file.
type Settings struct {
	Edition       string
	Profile       string // "R", "P" or "W"
	Short         FilterSetting
	Long          FilterSetting
	WavinessLimit float64
	Section       float64
	Sections      int
	Evaluation    float64
	A, B          float64 // operators of the motif method
	Form          string
	MaxSpacing    float64
	TipRadius     float64
	Parameters    []string
	Complete      bool // false while a question that blocks the settings is open
	Origins       map[string]Origin
}

// FilterSetting is one filter with its cut-off; Filter "" means none.
type FilterSetting struct {
	Filter string
	Order  int
	Cutoff float64
}

// Origin says where an entry of the settings comes from.
type Origin struct {
	Ref
	From        string // FromDrawing, FromStandard or SetHere
	Text        string // the rule line in words
	Unconfirmed bool   // rests on a table that was remembered but not seen
	Provisional bool   // a first estimate: the measured value decides
}

// The three origins of a setting.
const (
	FromDrawing  = "drawing"
	FromStandard = "standard"
	SetHere      = "set here"
)

// A Question is what the text leaves open. Nothing is preselected; leaving it open is always one of the answers.
type Question struct {
	Key     string // "class", "unit", "cutoff" ...
	Text    string
	Line    int
	Column  int
	Blocks  string // "settings", "limit" or "verdict": what cannot be used before the answer; empty for a mere note
	Answers []Answer
}

// An Answer is one way to settle a question. Then is the requirement with this answer.
type Answer struct {
	Key     string
	Text    string
	Then    string
	Edition string // the edition to read the text by, where the answer is another one
}

// LeaveOpen is the key of the answer that each question has: leave it open, and note it.
const LeaveOpen = "leave"

// Err returns nil when the settings of the requirement are complete, and otherwise the refusal, with the place in the
// text, of whoever wants to measure before the open question is answered.
func (r *Requirement) Err() error {
	for _, q := range r.Questions {
		if q.Blocks != "settings" {
			continue
		}
		err := ErrOpen
		if q.Key == "class" {
			err = ErrNeedClass
		}
		return &TextError{Line: q.Line, Column: q.Column, Reason: q.Text, Err: err}
	}
	return nil
}

// Bounded returns the requirement as a bound for a judgement, and false while the number or its unit is open.
func (r *Requirement) Bounded() (Bound, bool) {
	if r.Symbol == "" || r.LimitText == "" || math.IsNaN(r.Limit) {
		return Bound{}, false
	}
	return Bound{Symbol: r.Symbol, Side: r.Side, Value: r.Limit}, true
}

// setLimit fills Limit from LimitText and Unit: micrometres for a length, the number itself otherwise, NaN while the
// unit of a length is open.
func (r *Requirement) setLimit() {
	if r.LimitText == "" {
		r.Limit = math.NaN()
		return
	}
	d := decimal{text: r.LimitText}
	r.Limit = d.times(0)
	q := number
	if r.Symbol != "" {
		q = rowOf(r.Symbol).quantity
	} else if r.Unit == "" {
		r.Limit = math.NaN()
		return
	}
	if v, ok := micrometres(d, r.Unit); ok {
		r.Limit = v
	} else if r.Unit == "1/mm" { // counts are kept per centimetre
		r.Limit = d.times(1)
	} else if (q == height || q == spacing) && r.Unit == "" {
		r.Limit = math.NaN()
	}
}
