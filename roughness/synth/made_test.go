package synth_test

import (
	"math"
	"testing"

	"example.com/furrow/roughness/synth"
)

func TestMade(t *testing.T) {
	sine := synth.Made{Wave: 3, Length: 100}
	near(t, "Ra of a sine", known(t, sine, "Ra"), 3/math.Pi, 1e-12)
	_, ra, _, _, _ := moments(sine.Heights(20_000, 0.1))
	near(t, "sampled Ra", ra, 3/math.Pi, 1e-4)

	sum := synth.Made{Wave: 3, Length: 100, Feed: 160, Nose: 800, Noise: 0.4, Seed: 2}
	_, _, rq, _, _ := moments(sum.Heights(160_000, 0.5))
	near(t, "Rq of a sum", rq, known(t, sum, "Rq"), 0.01)

	scratch := synth.Made{Scratch: 5}
	z := scratch.Heights(4001, 0.5)
	low, high := extent(z)
	if low != -5 || high != 0 || z[2000] != -5 || scratch.Known() != nil {
		t.Errorf("a scratch from %g to %g, %g in the middle", low, high, z[2000])
	}

	worn := synth.Made{Wave: 3, Length: 100, Plateau: 60}
	z = worn.Heights(10_000, 0.5)
	_, high = extent(z)
	level := 0
	for _, h := range z {
		if h == high {
			level++
		}
	}
	near(t, "share of the plateau", float64(level)/10_000, 0.6, 1e-3)
	if len((synth.Made{Plateau: 50}).Heights(0, 1)) != 0 {
		t.Error("no points asked for, some made")
	}
}
