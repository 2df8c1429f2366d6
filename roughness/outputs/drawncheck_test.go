package outputs

import (
	"context"
	"fmt"
	"math"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/instrument"
	rec "example.com/furrow/roughness/record"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// groove draws a groove of whole heights, and where it is to be measured.
func (s *source) groove() (p roughness.Profile, centre, width float64) {
	p = roughness.Profile{Z: make([]float64, one(s, 28, 30, 31, 36, 40, 50, 61)), Spacing: one(s, 1, 0.5, 2), Name: "groove"}
	n := len(p.Z)
	from, to, depth := s.upTo(n), s.upTo(n), one(s, 1.0, 2, 4, 5, -2)
	if s.often(60) {
		from, to = n/2-one(s, 3, 4, 5, 6), n/2+one(s, 3, 4, 5, 6)
	}
	for i := from; i < to; i++ {
		p.Z[i] -= depth
	}
	for range one(s, 0, 0, 1, 2, 4, 20) {
		p.Z[s.upTo(n)] += one(s, 1, -1, 0.5, -0.5, -2)
	}
	if s.often(30) {
		tilt := one(s, 0.125, -0.25, 0.0625)
		for i := range p.Z {
			p.Z[i] += tilt * float64(i)
		}
	}
	if s.often(10) {
		p.Z[one(s, 0, from, n/2, n-1)] = math.NaN()
	}
	return p, float64(from+to-1) / 2 * p.Spacing, float64(max(1, to-from)) * one(s, 1, 1, 1, 1.2, 0.5) * p.Spacing
}

// Checks of an instrument drawn from short lists of round numbers, so that borders are met exactly.
func TestChecksDrawn(t *testing.T) {
	keep(t, "drawn-checks", func(p *page) {
		ctx := context.Background()
		for i := range 20 {
			s := source(i)
			var d digest
			for range 150 {
				g, centre, width := s.groove()
				found, err := instrument.FindGroove(g)
				d.put([]any{found, err})
				measured, err := instrument.MeasureGroove(g, centre, width)
				d.put([]any{measured, err})
				d.put(inspect.Clips(g.Z))
				d.put(inspect.Look(g, inspect.Conditions{Short: one(&s, 0, 2.5, 4, 5, 8), Long: one(&s, 0, 8.0, 10), Section: one(&s, 0, 5, 10.0), Sections: s.upTo(6), Filtered: s.often(20)}))
			}
			p.digest(fmt.Sprint("grooves ", i+1), &d)
		}
		trace := short("turned", 340)
		e, err := roughness.Evaluate(trace, narrowly(3, "Rz", "Ra", "Rsm"))
		if err != nil {
			t.Fatal(err)
		}
		for i := range 20 {
			s := source(100 + i)
			var d digest
			for range 20 {
				var list []roughness.Profile
				for range one(&s, 0, 1, 2, 3, 4, 5, 5, 6) {
					list = append(list, scaled(trace, one(&s, 1, 1.01, 1.02, 0.99, 1.03, 0.5)))
				}
				if s.often(20) {
					list = append(list, roughness.Profile{Z: trace.Z[:one(&s, 0, 1, 40, 240, 300)], Spacing: one(&s, 1, 0.5), Name: one(&s, "", "cut")}, scaled(trace, 0))
				}
				v := one(&s, e.Values...)
				sp := instrument.Specimen{Type: one(&s, "", "C1", "C2", "D1", "A1"), Symbol: one(&s, v.Symbol, v.Symbol, v.Symbol, v.Symbol, "d"), Value: v.Value * one(&s, 1, 1.01, 1.02, 1.03, 1.05, 1.1, 0.9, 1.25), Expanded: v.Value * one(&s, 0, 0.01, 0.02, 0.1), K: one(&s, 0.0, 1, 2, 3, 0.1, 10)}
				if sp.Type == "A1" && s.often(80) {
					sp.Symbol, sp.Value = "d", one(&s, 1, 2.0, 4)
					g, centre, width := s.groove()
					list = append(list, g)
					if s.often(50) {
						sp.Centre, sp.Groove = centre, width
					}
				}
				c, err := instrument.CheckSpecimen(ctx, list, narrowly(3), sp, instrument.Allowance{Absolute: one(&s, 0, 0.01, 0.02), Share: one(&s, 0, 0.01, 0.02, 0.03, 0.1)}, instrument.Session{Gain: one(&s, 0, 1, 1.02)})
				if d.put([]any{c, err}); c != nil {
					d.put(rec.AppendCheck(nil, c.Check()))
				}
				noise, err := instrument.CheckNoise(ctx, list, narrowly(3), []standards.Bound{{Symbol: v.Symbol, Value: v.Value * one(&s, 1, 4, 5, 10.0, 10.1, 20)}}[:s.upTo(2)], instrument.Session{})
				if d.put([]any{noise, err}); noise != nil {
					d.put(rec.AppendCheck(nil, noise.Check()))
					for _, symbol := range []string{"Ra", "Rz", "Rsm"} {
						corrected, err := noise.Correct(e, symbol)
						d.put([]any{corrected, err})
					}
				}
				in := instrument.BudgetInput{NoiseRq: one(&s, 0, 0, 0.01, 0.1), TipTolerance: one(&s, 0, 0, 0.5, 1), CutoffShare: one(&s, 0, 0, 0.02, 0.5, 0.51), TravelShare: one(&s, 0, 0, 0.01, 0.5, 0.6), Spacing: s.often(30), Others: list[:min(len(list), s.upTo(5))], TextureInput: decide.TextureInput{CertificateValue: v.Value, CertificateU: v.Value * one(&s, 0, 0.02, 0.04), SpecimenS: v.Value * one(&s, 0, 0.01), SpecimenN: s.upTo(6), DriftShare: one(&s, 0, 0.01), WorkpieceS: one(&s, 0, 0, 0.01), WorkpieceN: one(&s, 0, 0, 0, 1, 5), Noise: one(&s, 0, 0, 0, 0.01), TipEffect: one(&s, 0, 0, 0, 0.01)}}
				b, err := instrument.BudgetOn(ctx, trace, narrowly(2), v.Symbol, in)
				if d.put([]any{b, err}); b != nil {
					d.put(rec.AppendCheck(nil, b.Check(instrument.Session{})))
				}
			}
			p.digest(fmt.Sprint("checks ", i+1), &d)
		}
	})
}
