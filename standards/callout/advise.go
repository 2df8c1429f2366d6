package callout

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"example.com/furrow/standards"
)

// A Surface is what is known about the surface before it is traced. Entries of 0 are not known.
type Surface struct {
	Length  float64 // that can be traced, in micrometres
	Spacing float64 // of the tool marks, in micrometres
	Ra, Rz  float64 // expected, in micrometres
	Soft    bool    // aluminium, copper, plastics, lacquer: the tip may leave a mark
	RunUp   float64 // cut-offs of run-up on each side, when another than the filter's least is wanted
}

// A Plan is how to trace a surface so that the settings can be kept. Lengths are in micrometres.
type Plan struct {
	Lead, Tail float64 // run-up before and over-travel after the evaluation length
	Evaluation float64
	Traverse   float64 // all three together
	MaxSpacing float64 // between points
	TipRadius  float64
	TipAllowed float64 // a larger radius that makes no significant difference here; 0 when there is none
	Cone       float64 // angle of the tip, degrees
	Steepest   float64 // flank that such a tip can follow, degrees
	Force      float64 // static, mN
	SpeedFrom  float64 // traverse speed, µm/s
	SpeedTo    float64
	Fit        LengthFit
	Notes      []string
	Origins    map[string]Origin
}

// A LengthFit says whether the surface is long enough. Nothing is ever shortened in silence: fewer sections are stated, and
// the cut-off stays.
type LengthFit struct {
	Known          bool // the length of the surface is known
	Fits           bool
	Missing        float64 // length that is missing for all sections
	Sections       int     // that fit with run-up
	SectionsNoRun  int     // that fit when the filter needs no run-up, such as with the moment criterion at the ends
	Text           string
	StatedInSymbol string // how ISO 1302 text states the number: "Rz3"
}

// Advise works out how to trace a surface under the settings of a requirement, which must be complete.
func Advise(r *Item, s Surface) (Plan, error) {
	t := r.Settings
	if !r.Complete {
		return Plan{}, fmt.Errorf("callout: no plan: %w", ErrOpen)
	}
	for _, v := range []float64{s.Length, s.Spacing, s.Ra, s.Rz, s.RunUp} {
		if !(v >= 0) || math.IsInf(v, 0) {
			return Plan{}, errors.New("callout: the known values of a surface must be numbers of 0 or more")
		}
	}
	tip := ref("ISO 3274:1996", "Table 1", standards.Excerpt)
	if r.Edition == standards.ISO21920 {
		tip = ref("ISO 25178-601:2025", "", standards.Excerpt)
	}
	p := Plan{Evaluation: t["evaluation"].Number, MaxSpacing: t["max_spacing"].Number, TipRadius: t["tip_radius"].Number, Cone: 60, Steepest: 60, Force: 0.75,
		Origins: map[string]Origin{
			"cone": from(tip, "60° unless 90° is stated"), "force": from(tip, "0.75 mN at mid position"),
			"steepest": own("geometry", "90° less half the cone angle"),
			"speed":    practice("not fixed by a standard; slower when the tip can lift off"),
		}}
	for _, k := range []string{"evaluation", "max_spacing", "tip_radius"} {
		if e, ok := t[k]; ok {
			p.Origins[k] = e.Origin
		}
	}
	p.runUp(t, s)
	if p.Evaluation == 0 {
		p.Evaluation = max(0, s.Length-p.Lead-p.Tail)
	}
	p.Traverse = p.Lead + p.Evaluation + p.Tail
	p.speed(t)
	p.fit(t, s)
	p.remarks(r, s)
	return p, nil
}

// practice is the origin of what no standard fixes.
func practice(text string) Origin { return from(ref("common practice", "", standards.Trade), text) }

// runUp finds what the filter takes at both ends: half a cut-off each for one that is symmetrical, two cut-offs before
// for a 2RC filter, nothing for P-parameters and motifs.
func (p *Plan) runUp(t Derived, s Surface) {
	long, limit := t["long.cutoff"].Number, t["waviness_limit"].Number
	lead, tail, why := long/2, long/2, practice("half a cut-off on each side")
	switch {
	case long == 0:
		lead, tail, why.Text = 0, 0, "none: no long-wave filter"
	case t["long.filter"].Word == "two-rc":
		lead, tail, why.Text = 2*long, 0, "two cut-offs before, none after: the 2RC filter looks back only"
	case limit > 0:
		lead, tail, why.Text = limit/2, limit/2, "half the long limit of the waviness on each side"
	}
	if s.RunUp > 0 && long > 0 {
		lead, tail = s.RunUp*long, s.RunUp*long
		why = own("as asked", standards.Digits(s.RunUp)+" cut-offs on each side, as asked")
		why.From = SetHere
	}
	p.Lead, p.Tail, p.Origins["run_up"] = lead, tail, why
}

// speed gives the usual traverse speeds; no standard fixes them.
func (p *Plan) speed(t Derived) {
	c := cmp.Or(t["long.cutoff"].Number, 300*t["short.cutoff"].Number)
	p.SpeedFrom, p.SpeedTo = 500, 1000
	switch {
	case c <= 80:
		p.SpeedFrom, p.SpeedTo = 100, 150
	case c <= 800:
		p.SpeedFrom, p.SpeedTo = 250, 500
	}
}

// fit holds the length of the surface against the plan.
func (p *Plan) fit(t Derived, s Surface) {
	f := &p.Fit
	if s.Length == 0 {
		f.Text = "The length of the surface is not known."
		return
	}
	f.Known = true
	section, sections := t["section"].Number, int(t["sections"].Number)
	if section == 0 {
		f.Fits, f.Text = true, "The whole feature is evaluated."
		return
	}
	whole := func(length float64) int {
		return min(sections, max(0, int(math.Floor(length/section*(1+1e-9)))))
	}
	f.Sections, f.SectionsNoRun = whole(s.Length-p.Lead-p.Tail), whole(s.Length)
	if f.Sections >= sections {
		f.Fits = true
		f.Text = fmt.Sprintf("It fits: %s of %s are needed.", standards.Length(p.Traverse), standards.Length(s.Length))
		return
	}
	f.Missing = p.Traverse - s.Length
	text := fmt.Sprintf("%s are missing for %s sections.", standards.Length(f.Missing), standards.InWords(sections))
	if f.Sections > 0 {
		text += fitWords(f.Sections) + " with run-up: evaluate that many, and state the number."
	} else {
		text += " No section fits with run-up."
	}
	if f.SectionsNoRun > f.Sections {
		text += fitWords(f.SectionsNoRun) + " when the filter keeps the moments at the ends and needs no run-up."
	}
	if n := cmp.Or(f.Sections, f.SectionsNoRun); n > 0 {
		f.StatedInSymbol = statedSymbol(t["parameters"].Word, n)
		text += " The cut-off stays as it is."
	} else {
		text += " The surface is shorter than one section: agree and state another cut-off or length. Nothing is chosen here."
	}
	f.Text = text
}

// fitWords says how many sections fit.
func fitWords(n int) string {
	if n == 1 {
		return " One section fits"
	}
	return " " + capital(standards.InWords(n)) + " sections fit"
}

// statedSymbol writes the number of sections into the symbol as ISO 1302 does; empty for a symbol with brackets, and for Rmax.
func statedSymbol(symbol string, n int) string {
	if y, _ := standards.FindSymbol("", symbol); len(symbol) > 4 || symbol == "Rmax" || y.Min > 0 {
		return ""
	}
	return fmt.Sprint(symbol, n)
}

// remarks adds what should be known before tracing.
func (p *Plan) remarks(r *Item, s Surface) {
	note := func(text string) { p.Notes = append(p.Notes, text) }
	long := r.Settings["long.cutoff"].Number
	if long == 800 && r.Edition != standards.ISO12085 && (s.Ra > 0.5 || s.Rz > 3) {
		p.TipAllowed = 5
		o := from(ref("ISO 3274:1996", "Table 1, note 1", standards.Excerpt), "Ra above 0.5 µm or Rz above 3 µm: 5 µm makes no significant difference")
		if r.Edition == standards.ISO21920 {
			o.Unconfirmed = true
			o.Text += "; we have not seen whether ISO 21920-3 says the same"
		}
		p.Origins["tip_allowed"] = o
	}
	if long > 0 && s.Spacing > long/2 {
		note(fmt.Sprintf("The marks stand %s apart, more than half the cut-off of %s: the filter treats part of them as waviness. ISO 4288 gives such a spacing a longer cut-off.",
			standards.Length(s.Spacing), standards.Length(long)))
	}
	if s.Soft {
		note("A tip of 2 µm at 0.75 mN can leave a mark on soft metal, plastics and lacquer: look at the track under the microscope; a larger radius, less force or a replica helps.")
	}
	if r.Settings["short.cutoff"].Number == 0 {
		note("No filter removes the short waves, so the radius of the tip changes the value: state it.")
	}
}
