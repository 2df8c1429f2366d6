package outputs

import (
	"context"
	"fmt"
	"io"
	"math"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/standards"
)

// placed puts where an evaluation lies on its trace, its values and what it says.
func (d *digest) placed(e *roughness.Evaluation, err error) {
	d.put(err)
	if e != nil {
		from, to := e.Room()
		d.put([]any{e.First, e.Start, e.Sections, e.SectionPoints, e.Invalid, e.Points, from, to, e.Values, e.Notes, e.Settings, e.Origins})
	}
}

// Traces of each length, with gaps, parts left out and starts of each place, at once and in blocks, under settings one after the other.
func TestLengths(t *testing.T) {
	keep(t, "lengths", func(p *page) {
		ctx := context.Background()
		whole := short("turned", 460)
		look := func(d *digest, trace roughness.Profile, s *roughness.Settings) {
			e, err := roughness.Evaluate(trace, s)
			d.placed(e, err)
			room, err := roughness.RoomFor(trace, s)
			d.put([]any{room, err})
			z, first := roughness.Entering(trace, s)
			d.put([]any{len(z), first})
		}
		inBlocks := func(d *digest, trace roughness.Profile, s *roughness.Settings, stated, block int) {
			ev, err := roughness.NewEvaluator(s)
			if err != nil {
				d.put(err)
				return
			}
			rest := trace.Z
			e, err := ev.EvaluateLong(ctx, roughness.LongProfile{Spacing: trace.Spacing, Points: stated, Traced: trace.Traced, Heights: func(z []float64) (int, error) {
				n := copy(z[:min(block, len(z))], rest)
				if rest = rest[n:]; n == 0 {
					return 0, io.EOF
				}
				return n, nil
			}})
			d.placed(e, err)
		}
		part := func(n int) roughness.Profile { q := whole; q.Z = q.Z[:n]; return q }
		zero, some := 0.0, 55.0
		settings := []*roughness.Settings{narrowly(3, "Ra"), narrowly(2, "Ra", "Rz"), {Long: roughness.Band{Spec: filter.Spec{Cutoff: 25, Ends: "discard"}}, Sections: 4, Parameters: []string{"Ra"}}, {Profile: roughness.P, Parameters: []string{"Pa"}}, {Input: roughness.Filtered, Sections: 3, SectionLength: 50, Parameters: []string{"Rq"}, Start: &zero},
			{Input: roughness.Filtered, Sections: 7, Parameters: []string{"Rz"}}, {Long: roughness.Band{Spec: filter.Spec{Cutoff: 40}}, Form: roughness.FormSpec{Kind: "none"}, SectionLength: 33.3, Sections: 2, Start: &some, Parameters: []string{"Ra", "Rsm"}, Crop: [2]float64{10.5, 0}}, {Edition: standards.ISO4287, Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}, Short: roughness.Band{Off: true}, Parameters: []string{"Ra"}, Form: roughness.FormSpec{Kind: "none"}}}
		lengths := []int{0, 1, 2, 3, 4, 6, 7, 13, 20, 21, 22, 39, 40, 41, 49, 50, 51, 55, 56, 79, 80, 81, 88, 99, 100, 101, 119, 120, 121, 149, 150, 151, 159, 160, 161, 199, 200, 201, 239, 240, 241, 279, 280, 281, 319, 320, 321, 322, 400, 401}
		for i, s := range settings {
			var d, long digest
			for _, n := range lengths {
				look(&d, part(n), s)
				for _, stated := range []int{n, 0, n + 1} {
					inBlocks(&long, part(n), s, stated, 7+n%5*40)
				}
			}
			p.digest(fmt.Sprint("lengths under ", i+1), &d)
			p.digest(fmt.Sprint("in blocks under ", i+1), &long)
			var gaps, left, starts, spacings digest
			for _, length := range []int{1, 2, 3, 19, 20, 21, 39, 40, 41, 42, 44, 60} {
				for _, at := range []int{0, 1, 100, 459 - length, 460 - length} {
					q := whole
					q.Z = with(q.Z, func(z []float64) {
						for k := range length {
							z[at+k] = math.NaN()
						}
						if length%2 == 1 {
							z[300] = math.Inf(1)
						}
					})
					look(&gaps, q, s)
					inBlocks(&gaps, q, s, 460, 64)
					own := *s
					for _, bridge := range []float64{0, 1, 20, 40, 41} {
						own.Bridge = &bridge
						if at == 100 {
							look(&gaps, q, &own)
							inBlocks(&gaps, q, &own, 460, 460)
						}
					}
					own = *s
					own.Exclude = []roughness.Exclusion{{From: float64(at), To: float64(at + length), Reason: "dust"}, {From: 290.5, To: 291, Reason: "a pore"}}
					look(&left, whole, &own)
					if at == 100 {
						own.Exclude[0].To = float64(at) - 1e-10
						look(&left, q, &own)
						own.Exclude[0].To = float64(at) + 46 + 1e-10
						look(&left, q, &own)
					}
				}
			}
			p.digest(fmt.Sprint("gaps under ", i+1), &gaps)
			p.digest(fmt.Sprint("left out under ", i+1), &left)
			for _, at := range []float64{0, 0.49, 0.5, 1, 19.9, 39.5, 40, 79.5, 80, 100, 219, 220, 221, 299, 300, 379, 380, 381, 400, 459, 460, 1e5, 1e12} {
				own := *s
				own.Start = &at
				look(&starts, whole, &own)
				own.Start, own.Crop = s.Start, [2]float64{at, 0}
				look(&starts, whole, &own)
				inBlocks(&starts, whole, &own, 460, 100)
				own.Crop = [2]float64{5, at}
				look(&starts, whole, &own)
			}
			p.digest(fmt.Sprint("starts under ", i+1), &starts)
			for _, dx := range []float64{1e-4, 0.2, 0.5, 0.6249999999, 0.625, 0.6250000001, 0.63, 1.99, 2, 2.01, 6.25, 10, 20, 40, 79, 81, 1e4} {
				q := whole
				q.Spacing, q.Traced.TipRadius = dx, []float64{0, 2, 5, 10}[int(dx)%4]
				q.Traced.Skid = roughness.SkidUse(int(dx) % 3)
				look(&spacings, q, s)
			}
			p.digest(fmt.Sprint("spacings under ", i+1), &spacings)
		}
		for i, cutoff := range []float64{80, 250, 800, 2500, 8000} {
			for k, edition := range standards.EditionIDs() {
				var d digest
				s := &roughness.Settings{Edition: edition, Long: roughness.Band{Spec: filter.Spec{Cutoff: cutoff}}, Sections: 1, SectionLength: 100}
				for _, dx := range []float64{0.5, 0.500000001, 1.5, 1.51, 5, 5.01} {
					for _, tip := range []float64{2, 2.01, 5, 5.1, 10, 11} {
						q := whole
						q.Z, q.Spacing, q.Traced.TipRadius = whole.Z[:200], dx, tip
						room, err := roughness.RoomFor(q, s)
						d.put([]any{room, err})
					}
				}
				p.digest(fmt.Sprint("points and tips ", i+1, " ", k+1), &d)
			}
		}
		// one evaluator after another on the same traces keeps the steps that have not changed
		var chain digest
		ev, err := roughness.NewEvaluator(settings[0])
		if err != nil {
			t.Fatal(err)
		}
		for k := range 40 {
			s := *settings[k*3%len(settings)]
			if k%4 == 3 {
				s.Invert = true
			}
			if k%5 == 4 {
				s.Exclude = []roughness.Exclusion{{From: 100, To: 103, Reason: "dust"}}
			}
			if ev, err = ev.With(&s); err != nil {
				t.Fatal(err)
			}
			trace := part(460 - k/7*20)
			if k%6 == 5 {
				trace.Z = with(trace.Z, func(z []float64) { z[200] += 0.5 })
			}
			e, err := ev.Evaluate(ctx, trace)
			chain.placed(e, err)
			e, err = ev.Measure(ctx, trace)
			chain.placed(e, err)
			if e2, err := roughness.Evaluate(trace, &s); err == nil && e != nil && fmt.Sprint(e2.Values) != fmt.Sprint(e.Values) {
				t.Errorf("call %d: %v, and %v without an evaluator", k, e.Values, e2.Values)
			}
		}
		p.digest("one after the other", &chain)
	})
}
