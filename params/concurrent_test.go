package params_test

import (
	"math"
	"sync"
	"testing"

	"example.com/furrow/params"
)

// TestConcurrent: evaluations at the same time, and one after another on the blocks of the one before, give the same
// values to the last bit, and values already given out do not change.
func TestConcurrent(t *testing.T) {
	calls := params.Defaults("iso-21920", 'R')
	inputs := []params.Input{
		{Z: ground(1500), Dx: 0.5, Section: 300},
		{Z: ground(333), Dx: 1, Section: 66},
		threeSections(),
	}
	want := make([][]params.Value, len(inputs))
	for i := range inputs {
		want[i] = params.Evaluate(&inputs[i], calls...)
	}
	var group sync.WaitGroup
	for g := range 4 {
		group.Go(func() {
			for round := range 10 {
				i := (g + round) % len(inputs)
				for j, v := range params.Evaluate(&inputs[i], calls...) {
					if w := want[i][j]; math.Float64bits(v.Value) != math.Float64bits(w.Value) && !math.IsNaN(w.Value) {
						t.Errorf("%s = %v, before %v", v.Symbol, v.Value, w.Value)
					}
					for k, s := range v.Sections {
						if w := want[i][j].Sections[k]; s != w && !math.IsNaN(w) {
							t.Errorf("%s section %d = %v, before %v", v.Symbol, k+1, s, w)
						}
					}
				}
			}
		})
	}
	group.Wait()
}
