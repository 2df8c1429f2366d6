package instrument

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"

	"example.com/furrow/filter"
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
	e, err := evaluate(p, &s, w.symbol)
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

// doses is the number of noise traces made.
const doses = 12

func (w *budgeting) noise(in BudgetInput) error {
	var layers [][]float64
	c := decide.Contribution{Name: "noise", Sensitivity: 1, Distribution: "normal"}
	switch {
	case len(in.Flats) > 0:
		for i, f := range in.Flats {
			z, err := levelled(f)
			if err != nil {
				return w.add(c, fmt.Errorf("flat %d: %w", i+1, err))
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
	values := make([]float64, len(layers))
	err := parallel.Do(w.ctx, len(layers), func(i int) error {
		q := w.p
		q.Z = make([]float64, len(w.p.Z))
		for k := range q.Z {
			q.Z[k] = w.p.Z[k] + layers[i][k%len(layers[i])]
		}
		var err error
		values[i], err = w.again(q, nil)
		return err
	})
	sum := 0.0
	for _, v := range values {
		sum += float64((v - w.value) * (v - w.value))
	}
	c.U, c.DoF = math.Sqrt(sum/float64(len(layers))), float64(len(layers))
	return w.add(c, err)
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
		e, err := evaluate(roughness.Profile{Z: z, Spacing: w.p.Spacing}, &w.e.Settings, name)
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
	cone := w.p.Traced.ConeAngle
	c := decide.Rectangular("radius of the tip", in.TipTolerance)
	q := w.p
	var err error
	if q.Z, err = (filter.Tip{Radius: in.TipTolerance, Cone: cone}).Trace(nil, w.p.Z, w.p.Spacing); err != nil {
		return w.add(c, err)
	}
	v, err := w.again(q, nil)
	c.Sensitivity = (v - w.value) / in.TipTolerance
	return w.add(c, err)
}

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
