package callout

import (
	"math"
	"slices"

	"example.com/furrow/standards"
)

// Requirements is the text of a drawing as read: one or more requirements on one surface.
type Requirements struct {
	Text    string              // as it was given
	Edition standards.EditionID // as it was asked for
	Items   []Item
}

// An Item is one requirement: one limit on one parameter with what the text says about how it is measured. Entries that the text
// leaves out are zero. All lengths are in micrometres.
type Item struct {
	Line, Column int                 // where it begins, from 1
	Edition      standards.EditionID // whose rules it falls under; a motif band leads from ISO 1302 text to ISO 12085

	Side        standards.Side
	SideWritten bool
	Symbol      string  // in the spelling of the edition; empty while a question about it is open
	Limit       float64 // in the unit of the catalogue; NaN while a question about it is open
	LimitText   string  // the number as written, with a point
	Unit        string  // of LimitText; empty while open, or for a parameter without unit
	Mark        string  // a mark of older drawings: "N7", "▽▽", "RMS"
	Reference   string  // from where the level of a material ratio counts: "mean-line", "highest-peak", or a ratio
	Rule        standards.Rule
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

	Extraction string // "mechanical" or "optical"
	Removal    string // "APA", "MRR" or "NMR": any process, removal required, no removal
	Process    string
	Lay        string
	Others     []int // numbers of requirements written elsewhere: OR(1)

	Settings  Derived
	Complete  bool       // false while a question that blocks the settings is open
	Questions []Question // what is open; each blocks something
	Notes     []string

	s             *scanner
	at            map[string]span // where a part stands
	sym           standards.Symbol
	args          []string
	band          transmission
	first, second *amount
	old           *oldName // a name of another time, with the letter of its profile
	oldLetter     byte
	lastPart      string
	open          bool // a question about the parameter is open
	hidden        bool // and nothing of the requirement is certain
	limitOpen     bool // a question about the limit is open
	cutoffOpen    bool
	editionOpen   bool
	listed        bool  // it may be that another requirement holds
	onLine, soft  bool  // others stand on the line; no semicolon stands before it
	beside        *Item // the one on the line that has a class or a cut-off, where this has none
}

// Derived is what to measure with, as it follows from one requirement: the entries of a settings file, by their keys ("long.cutoff"), and
// beside them what no evaluation sets: evaluation, a and b (the operators of the motif method), max_spacing, tip_radius and rule. What is missing or 0
// does not exist there: no such filter, or, for the evaluation length, the whole length of the feature.
type Derived map[string]DerivedEntry

// A DerivedEntry is one setting with where it comes from.
type DerivedEntry struct {
	Number float64 // a length in micrometres, a count, or the order of a filter
	Word   string
	Origin
}

// Origin says where an entry of the settings comes from.
type Origin struct {
	standards.Ref
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

// A Question is what the text leaves open. Nothing is preselected.
type Question struct {
	Key     string // "class", "unit", "cutoff" ...
	Text    string
	Line    int
	Column  int
	Blocks  string // "settings", "limit" or "verdict": what cannot be used before the answer
	Answers []Answer
}

// An Answer is one way to settle a question: Then is the whole text with this answer, as a person would write it, and Edition the edition to
// read it by, where that is another one. Without Then the text stays as it is.
type Answer struct {
	Key     string
	Text    string
	Then    string
	Edition standards.EditionID
}

// Certain tells whether something of the requirement is certain while its questions are open.
func (r *Item) Certain() bool { return !r.hidden }

// Open tells whether a question of one of these keys is open.
func (r *Item) Open(keys ...string) bool {
	return slices.ContainsFunc(r.Questions, func(q Question) bool { return slices.Contains(keys, q.Key) })
}

// same tells whether two requirements of a text ask the same question.
func (q Question) same(o Question) bool {
	return q.Key == o.Key && q.Line == o.Line && q.Column == o.Column && q.Text == o.Text
}

// Open returns the questions of all requirements, each once, in the order in which they are best answered.
func (rs *Requirements) Open() []Question {
	var list []Question
	for i := range rs.Items {
		for _, q := range rs.Items[i].Questions {
			if !slices.ContainsFunc(list, q.same) {
				list = append(list, q)
			}
		}
	}
	slices.SortStableFunc(list, byOrder)
	return list
}

// Err returns nil when the settings of the requirement are complete, and otherwise the refusal, with the place in the
// text, of whoever wants to measure before the open question is answered.
func (r *Item) Err() error {
	if r.Complete {
		return nil
	}
	e := &TextError{Line: r.Line, Column: r.Column, Reason: "the settings are open", Err: ErrOpen}
	for i, q := range r.Questions {
		if i > 0 && q.Blocks != "settings" {
			continue
		}
		e.Line, e.Column, e.Reason = q.Line, q.Column, q.Text
		if q.Key == "class" {
			e.Err = standards.ErrNeedClass
		}
		if q.Blocks == "settings" {
			break
		}
	}
	return e
}

// Bounded returns the requirement as a bound for a judgement, and false while the number or its unit is open.
func (r *Item) Bounded() (standards.Bound, bool) {
	if r.Symbol == "" || r.LimitText == "" || math.IsNaN(r.Limit) {
		return standards.Bound{}, false
	}
	return standards.Bound{Symbol: r.Symbol, Side: r.Side, Value: r.Limit, Edition: r.Edition}, true
}
