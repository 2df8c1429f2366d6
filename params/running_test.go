package params_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// Values from heights in turn are those of the whole profile, in all editions, for sections shorter and longer than a block, with and without
// neighbours; what needs all heights says so.
func TestRunningIsEvaluate(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	noise := func(n int) []float64 {
		z := make([]float64, n)
		for i := range z {
			z[i] = rng.ExpFloat64() - 1 + math.Sin(float64(i)/40)
		}
		return z
	}
	held := map[string]bool{}
	for _, tt := range []struct{ section, sections, lead, tail int }{
		{2, 1, 0, 0}, {2, 2, 0, 0}, {2, 3, 1, 0}, {2, 3, 3, 3}, {3, 5, 0, 2}, {7, 3, 3, 0}, {800, 5, 3, 3}, {800, 61, 0, 0}, {40000, 3, 3, 1}, {0, 1, 0, 0},
	} {
		n := tt.section * tt.sections
		if tt.section == 0 {
			n = 100001
		}
		in := params.Input{Z: noise(n), Dx: 0.5, Section: tt.section, Lead: noise(tt.lead), Tail: noise(tt.tail)}
		if tt.section == 800 { // one section is flat, the second
			clear(in.Z[800:1600])
		}
		for _, edition := range standards.EditionIDs() {
			calls := params.Defaults(edition, 'R')
			r := params.Running{Input: in, Calls: calls}
			r.Input.Z = nil
			for i, step := 0, 1; i < n; i, step = i+step, 2*step+1 {
				r.Add(in.Z[i:min(n, i+step)])
			}
			got := r.Values(tt.sections, in.Tail)
			for k, want := range params.Evaluate(&in, calls...) {
				g, key := got[k], calls[k].Parameter.Key
				if strings.HasPrefix(g.Reason, "it needs all heights") {
					if g.Unit != want.Unit || g.Source != want.Source || !math.IsNaN(g.Value) {
						t.Errorf("%s %s: %+v for %+v", edition, want.Symbol, g, want)
					}
					continue
				}
				held[key] = true
				near := func(a, b float64) bool {
					return a == b || math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) <= 1e-12*math.Max(math.Abs(b), 1e-2)
				}
				ok := near(g.Value, want.Value) && len(g.Sections) == len(want.Sections) && g.Reason == want.Reason && g.Note == want.Note
				for i := range g.Sections {
					ok = ok && near(g.Sections[i], want.Sections[i])
				}
				if !ok {
					t.Errorf("%+v, %s %s:\n%+v in turn\n%+v at once", tt, edition, want.Symbol, g, want)
				}
			}
		}
	}
	for _, key := range strings.Fields("Ra Rq Rsk Rku Rp Rv Rz Rmax Rpt Rvt Rt Rda Rdq Rdt Rdl Rdr") {
		if !held[key] {
			t.Errorf("no value of %s was compared", key)
		}
		delete(held, key)
	}
	if len(held) > 0 {
		t.Errorf("not named here: %v", held)
	}
}

func TestRunningEmptyAndFlat(t *testing.T) {
	rsk, _ := params.Lookup("iso-21920", 'R', "Rsk")
	r := params.Running{Input: params.Input{Dx: 1}, Calls: []params.Call{rsk, {}}}
	for _, v := range r.Values(1, nil) {
		if !math.IsNaN(v.Value) || v.Reason == "" {
			t.Errorf("nothing: %+v", v)
		}
	}
	r = params.Running{Input: params.Input{Dx: 1, Flat: 1e-9}, Calls: []params.Call{rsk}}
	r.Add([]float64{1e-10, -1e-10, 1e-10})
	if v := r.Values(1, nil)[0]; !math.IsNaN(v.Value) || !strings.Contains(v.Reason, "flat") {
		t.Errorf("flat: %+v", v)
	}
}
