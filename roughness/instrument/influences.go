package instrument

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/internal/parallel"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// budgeting works out the lines.
type budgeting struct {
	ctx    context.Context
	p      roughness.Profile
	e      *roughness.Evaluation
	symbol string
	value  float64
	lines  []decide.Contribution
	bias   float64 // of the noise, which is in its line
	out    *TraceBudget
}

// again is the value of another trace under changed settings; change may be nil.
func (w *budgeting) again(p roughness.Profile, change func(*roughness.Settings)) (float64, error) {
	if err := w.ctx.Err(); err != nil {
		return 0, err
	}
	s := w.e.Settings
	if change != nil {
		change(&s)
	}
	e, err := roughness.Evaluate(p, s.Only(w.symbol))
	if err != nil {
		return 0, err
	}
	if v := e.Values[0]; !finite(v.Value) {
		return 0, fmt.Errorf("%s is undefined: %s", w.symbol, v.Reason)
	}
	if e.Sections != w.e.Sections {
		return 0, fmt.Errorf("the trace then holds %d sections, not %d", e.Sections, w.e.Sections)
	}
	return e.Values[0].Value, nil
}

// add takes a line, or notes why there is none. Only the end of the context ends the budget.
func (w *budgeting) add(c decide.Contribution, err error) error {
	if w.ctx.Err() != nil {
		return w.ctx.Err()
	}
	if err != nil {
		w.out.Left = append(w.out.Left, c.Name+": "+err.Error())
		return nil
	}
	if c.Source == (standards.Ref{}) {
		c.Source = standards.Ref{Doc: "on the trace itself", Basis: standards.OwnChoice}
	}
	w.lines = append(w.lines, c)
	return nil
}

// noiseLine is the name of the line whose bias is known apart.
const noiseLine = "noise"

// doses is the number of noise traces made.
const doses = 12

func (w *budgeting) noise(in BudgetInput) error {
	var layers [][]float64
	c := decide.Contribution{Name: noiseLine, Sensitivity: 1, Distribution: "normal"}
	switch {
	case len(in.Flats) > 0:
		flats, copies := withoutCopies(in.Flats)
		w.out.Copies = append(w.out.Copies, copies...)
		for _, f := range flats {
			z, err := levelled(f)
			if err != nil {
				return w.add(c, fmt.Errorf("flat, %s: %w", f.Name, err))
			}
			layers = append(layers, z)
		}
		c.Source = standards.Ref{Doc: "traces of a flat", Basis: standards.OwnChoice}
	case in.NoiseRq > 0:
		var err error
		if layers, err = w.madeNoise(in.NoiseRq); err != nil {
			return w.add(c, err)
		}
	default:
		return nil
	}
	changes, err := w.dosed(layers)
	if err != nil {
		return w.add(c, err)
	}
	n := float64(len(layers))
	if len(layers) < leastDoses { // too few to tell bias from scatter
		sum := 0.0
		for _, d := range changes {
			sum += float64(d * d)
		}
		c.U, c.DoF = math.Sqrt(sum/n), n
		return w.add(c, nil)
	}
	sum := decide.Summarise(changes)
	first := w.firstDose()
	w.bias = first * sum.Mean
	own := math.Hypot(first*sum.S/math.Sqrt(n), unsure*w.bias*(first-1))
	c.U, c.DoF = math.Hypot(w.bias, math.Hypot(sum.S, own)), n-1
	return w.add(c, nil)
}

const (
	leastDoses = 5 // from which bias and scatter can be separated (own choice)

	// extremes is how much more the first dose of noise changes a height between extreme points than one dose more on top of it, where the
	// change is larger than its scatter: 1.5 to 1.9 in simulations of ground, turned and plateau surfaces (own choice). The noise
	// reaches the highest of many points that lie close together at once, and then ever less.
	extremes = 1.7
	unsure   = 0.15 // of what is added to the bias so
)

// extreme are the parameters, by key, that are heights between extreme points.
var extreme = []string{"Rz", "Rzx", "Rt", "Rp", "Rv", "Rpt", "Rvt", "Rc", "Rcx", "R10z", "R5p", "R5v", "RzJIS", "R3z"}

// firstDose is how many times as much the noise in the trace has changed the value as one dose more of it does: for means and sums of squares once.
func (w *budgeting) firstDose() float64 {
	call, err := params.Lookup(w.e.Settings.Edition, byte(w.e.Settings.Profile), w.symbol)
	if err == nil && slices.Contains(extreme, call.Parameter.Key) {
		return extremes
	}
	return 1
}

// dosed is by how much the value changes with each layer of noise that is laid over the trace.
func (w *budgeting) dosed(layers [][]float64) ([]float64, error) {
	changes := make([]float64, len(layers))
	err := parallel.Do(w.ctx, len(layers), func(i int) error {
		q := w.p
		q.Z = make([]float64, len(w.p.Z))
		for k := range q.Z {
			q.Z[k] = w.p.Z[k] + layers[i][k%len(layers[i])]
		}
		v, err := w.again(q, nil)
		changes[i] = v - w.value
		return err
	})
	return changes, err
}

// madeNoise makes white noise that has the wanted Rq under the settings, always the same.
func (w *budgeting) madeNoise(rq float64) ([][]float64, error) {
	name := w.e.Settings.Profile.String() + "q"
	layers := make([][]float64, doses)
	for i := range layers {
		r := rand.New(rand.NewPCG(uint64(i), 20))
		z := make([]float64, len(w.p.Z))
		for k := range z {
			for range 12 { // normal enough: the sum of twelve uniform numbers
				z[k] += r.Float64() - 0.5
			}
		}
		e, err := roughness.Evaluate(roughness.Profile{Z: z, Spacing: w.p.Spacing}, w.e.Settings.Only(name))
		if err != nil {
			return nil, err
		}
		shown := e.Values[0].Value
		if !(shown > 0) {
			return nil, fmt.Errorf("%s of noise is undefined", name)
		}
		layers[i] = scaled(roughness.Profile{Z: z}, rq/shown).Z
	}
	return layers, nil
}

// levelled is a trace less its least-squares line.
func levelled(p roughness.Profile) ([]float64, error) {
	line, err := filter.Line{}.Fit(nil, p.Z, p.Spacing, nil)
	if err != nil {
		return nil, err
	}
	for i := range line {
		line[i] = p.Z[i] - line[i]
	}
	return line, nil
}

func (w *budgeting) tip(in BudgetInput) error {
	if in.TipTolerance == 0 {
		return nil
	}
	c := decide.Rectangular("radius of the tip", in.TipTolerance)
	// A ball that is small against the spacing touches one point only; a larger one fills what the smaller would, in proportion to the radius.
	radius := max(in.TipTolerance, ballPoints*w.p.Spacing)
	under := w.e.Smoothed // without the noise that the S-filter takes away
	traced, err := (filter.Tip{Radius: radius, Cone: w.p.Traced.ConeAngle}).Trace(nil, under, w.p.Spacing)
	if err == nil && w.e.Invalid > 0 {
		err = fmt.Errorf("the trace has %d points without a height", w.e.Invalid)
	}
	if err != nil {
		return w.add(c, err)
	}
	q := w.p
	q.Z = slices.Clone(w.p.Z)
	for i, z := range traced {
		q.Z[w.e.First+i] += (z - under[i]) * in.TipTolerance / radius
	}
	v, err := w.again(q, nil)
	c.Sensitivity = (v - w.value) / in.TipTolerance
	return w.add(c, err)
}

// ballPoints is the radius in points from which a ball touches enough of them (own choice).
const ballPoints = 10

func (w *budgeting) spacing(in BudgetInput) error {
	if !in.Spacing {
		return nil
	}
	v, err := w.again(thinned(w.p), nil)
	return w.add(decide.Rectangular("spacing of the points", math.Abs(v-w.value)), err)
}

// thinned is the trace with every second point.
func thinned(p roughness.Profile) roughness.Profile {
	q := p
	q.Z, q.Spacing = nil, 2*p.Spacing
	for i := 0; i < len(p.Z); i += 2 {
		q.Z = append(q.Z, p.Z[i])
	}
	return q
}

// step is the share over which the difference quotients are taken.
const step = 0.02

func (w *budgeting) cutoffs(in BudgetInput) error {
	if in.CutoffShare == 0 {
		return nil
	}
	c := decide.Rectangular("cut-offs of the filters", in.CutoffShare)
	var err error
	c.Sensitivity, err = decide.Sensitivity(func(x float64) (float64, error) {
		return w.again(w.p, func(s *roughness.Settings) {
			s.Short.Spec.Cutoff *= x
			s.Long.Spec.Cutoff *= x
		})
	}, 1, step)
	return w.add(c, err)
}

func (w *budgeting) travel(in BudgetInput) error {
	if in.TravelShare == 0 {
		return nil
	}
	c := decide.Rectangular("scale along the trace", in.TravelShare)
	q := w.p
	q.Spacing *= 1 + step
	v, err := w.again(q, func(s *roughness.Settings) {
		if s.Long.Off || s.Profile == roughness.P { // a section is a part of the trace, and grows with it
			s.SectionLength *= 1 + step
		}
	})
	c.Sensitivity = (v - w.value) / step
	return w.add(c, err)
}
