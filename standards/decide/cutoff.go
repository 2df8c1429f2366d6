package decide

import (
	"fmt"

	"example.com/furrow/standards"
)

// A Turn is one measurement on the way to the cut-off.
type Turn struct {
	Cutoff float64 // measured with
	Value  float64 // of the parameter that chooses
	Asks   float64 // the cut-off that the value belongs to
	Text   string
}

// Found is the cut-off that was looked for, with every turn that led to it.
type Found struct {
	Cutoff float64
	Value  float64 // measured with that cut-off
	Turns  []Turn
	Stable bool // the value belongs to the cut-off it was measured with
	Note   string
}

// FindCutoff finds the cut-off when the drawing does not state it. by is the parameter that chooses: Ra or Rz for a
// profile without a period, RSm for a periodic one. estimate is a first guess of its value, by eye or by comparison; 0
// begins with the default cut-off. measure returns the value for a cut-off, in micrometres.
//
// Without a period (ISO 4288:1996, 7.2.1): measure, go to the cut-off of the value, until both agree; then try the next
// shorter one, which wins when its value agrees too. With a period (7.2.2): measure, go to the cut-off of the value.
// An edition whose limits choose the class (ISO 21920-3) is searched the same way without the shorter one; that is
// what its Annex D recommends in substance when nothing is specified. Where values go to and fro at a border of the
// table, the longer cut-off is kept, and said.
//
// When measure fails, the turns so far are returned with its error.
func FindCutoff(e standards.Edition, by string, estimate float64, measure func(cutoff float64) (float64, error)) (Found, error) {
	var table standards.Steps
	for _, s := range e.Steps {
		if s.By == by {
			table = s
		}
	}
	if table.By == "" {
		return Found{}, fmt.Errorf("decide: %s has no table by %s", e.ID, by)
	}
	f := finder{e: e, t: table, measure: measure, tried: map[int]float64{}}
	at := 0
	for i, r := range e.Rows {
		if r.Long == e.Default.Long {
			at = i
		}
	}
	if estimate > 0 {
		at = f.row(estimate)
	}
	last, err := f.settle(at)
	if err != nil {
		return f.found, err
	}
	if by != "RSm" && !e.FromLimit && f.found.Stable && last > 0 {
		if _, done := f.tried[last-1]; !done {
			v, err := f.turn(last-1, "The next shorter cut-off is tried too. ")
			if err != nil {
				return f.found, err
			}
			if f.row(v) == last-1 {
				last = last - 1
				f.found.Note = "The shorter cut-off agrees with its own value as well, and is the right one."
			} else {
				f.found.Note = "The shorter cut-off does not agree with its value; the longer one stays."
			}
		}
	}
	f.found.Cutoff, f.found.Value = e.Rows[last].Long, f.tried[last]
	return f.found, nil
}

// finder runs the search.
type finder struct {
	e       standards.Edition
	t       standards.Steps
	measure func(float64) (float64, error)
	tried   map[int]float64
	found   Found
}

// row returns the row of a value; one below the table belongs to the finest, one above to the coarsest.
func (f *finder) row(v float64) int {
	if i, ok := f.t.Row(v); ok {
		return i
	}
	if v <= f.t.Above {
		return 0
	}
	return len(f.e.Rows) - 1
}

// turn measures once and logs it.
func (f *finder) turn(at int, why string) (float64, error) {
	cutoff := f.e.Rows[at].Long
	v, err := f.measure(cutoff)
	if err != nil {
		return 0, fmt.Errorf("decide: measuring with %s: %w", standards.Length(cutoff), err)
	}
	if !finite(v) || v < 0 {
		return 0, fmt.Errorf("decide: measuring with %s gave %g", standards.Length(cutoff), v)
	}
	f.tried[at] = v
	row := f.row(v)
	t := Turn{Cutoff: cutoff, Value: v, Asks: f.e.Rows[row].Long}
	shown := besides(v, f.t.UpTo[row]) + " µm"
	if f.t.By == "RSm" {
		shown = standards.Length(v)
	}
	verdict := "which agrees"
	if t.Asks != t.Cutoff {
		verdict = "which asks for " + standards.Length(t.Asks)
	}
	if _, ok := f.t.Row(v); !ok {
		verdict += " (outside the table)"
	}
	t.Text = fmt.Sprintf("%sWith %s, %s is %s, %s.", why, standards.Length(cutoff), f.t.By, shown, verdict)
	f.found.Turns = append(f.found.Turns, t)
	return v, nil
}

// settle goes from row to row until value and cut-off agree, or a row comes up again.
func (f *finder) settle(at int) (int, error) {
	for {
		v, err := f.turn(at, "")
		if err != nil {
			return 0, err
		}
		next := f.row(v)
		if next == at {
			f.found.Stable = true
			return at, nil
		}
		if _, again := f.tried[next]; again {
			longer := max(at, next)
			f.found.Note = fmt.Sprintf("The values alternate between %s and %s; the longer cut-off is kept (own rule).",
				standards.Length(f.e.Rows[min(at, next)].Long), standards.Length(f.e.Rows[longer].Long))
			return longer, nil
		}
		at = next
	}
}
