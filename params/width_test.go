package params_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// ripple is a wave 200 points long and 2 high; in the middle of each dale stands a hill of the given width and height, and in
// the middle of each hill nothing.
func ripple(n, width int, height float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = math.Sin(2 * math.Pi * (float64(i) + 0.5) / 200)
		if at := i % 200; at >= 150-width/2 && at < 150+(width+1)/2 {
			z[i] = height
		}
	}
	return z
}

// The least width of 1 % of the sampling length, 10 points of 1000, in its three readings. A spike 4 points wide in a dale 100 points
// wide fails it as a hill; the elements that it makes with half a dale each are 54 points wide and pass, so that it counts there.
func TestWidthReadings(t *testing.T) {
	const n = 5000
	read := func(z []float64, of params.ElementWidth, edition standards.EditionID, symbol string) params.Value {
		return ask(t, params.Input{Z: z, Dx: 0.5, Section: 1000, Choices: params.Choices{ElementWidth: of}}, edition, symbol)[symbol]
	}
	spiked := ripple(n, 4, 0.9)
	for _, c := range []struct {
		edition standards.EditionID
		spacing string
	}{{"iso-4287", "RSm"}, {"jis-b0601-2013", "RSm"}, {"jis-b0601-1994", "Sm"}, {"asme-b46.1", "RSm"}} {
		part, element, none := read(spiked, params.WidthOfPart, c.edition, c.spacing), read(spiked, params.WidthOfElement, c.edition, c.spacing), read(spiked, params.WidthNotAsked, c.edition, c.spacing)
		holds(t, string(c.edition)+" part", part.Value, 100, 0.04, "the wave of 100 µm: the spike does not count")
		holds(t, string(c.edition)+" element", element.Value, 50, 1, "two elements a wave")
		holds(t, string(c.edition)+" none", none.Value, 50, 1, "two elements a wave")
		for _, v := range []params.Value{part, element, none} {
			for _, x := range []float64{part.Value, element.Value, none.Value} {
				if !strings.Contains(v.Note, fmt.Sprintf(" %.3g µm", x)) {
					t.Errorf("%s: the note %q lacks %.3g µm", c.edition, v.Note, x)
				}
			}
			if v.Reason != "" {
				t.Errorf("%s: reason %q beside a value", c.edition, v.Reason)
			}
		}
	}
	holds(t, "RPc", read(spiked, params.WidthOfElement, "iso-4287", "RPc").Value, 200, 3, "10 mm over 50 µm")
	if v := read(spiked, params.WidthOfPart, "iso-4287", "RPc"); !strings.Contains(v.Note, " 202 per 10 mm,") || !strings.Contains(v.Note, " 100 per 10 mm,") {
		t.Errorf("RPc: note %q", v.Note)
	}
	// Two spikes close together, each 2 wide with 4 between: they make an element 6 points wide, which fails too.
	pair := ripple(n, 0, 0)
	for i := range pair {
		if at := i % 200; at >= 146 && at < 154 {
			pair[i] = []float64{0.9, 0.9, -0.9, -0.9, -0.9, -0.9, 0.9, 0.9}[at-146]
		}
	}
	if e, none := read(pair, params.WidthOfElement, "iso-4287", "RSm").Value, read(pair, params.WidthNotAsked, "iso-4287", "RSm").Value; !(e > 1.2*none) {
		t.Errorf("two narrow spikes: RSm %v by the element, %v without a width", e, none)
	}
	// Where the readings agree, or differ by less than a tenth, there is nothing to say.
	for _, z := range [][]float64{ripple(n, 0, 0), ripple(n, 20, 0.9)} {
		for of := range params.ElementWidth(3) {
			if v := read(z, of, "iso-4287", "RSm"); v.Note != "" {
				t.Errorf("note %q", v.Note)
			}
		}
	}
	// RSm is the mean of ten sections of five waves, of which the spiked ones make 1000/(5+k) points each: 9.5 % less than without is 10.5 % more
	// than with, and 10.7 % less is told in every reading.
	for _, c := range []struct {
		spikes []int // in each of the sections from the second on
		said   [2]bool
	}{{[]int{5, 1}, [2]bool{false, false}}, {[]int{5, 2, 1}, [2]bool{false, true}}, {[]int{5, 2, 2}, [2]bool{true, true}}} {
		z, want := ripple(10000, 0, 0), 100.0
		for k, n := range c.spikes {
			copy(z[1000*(k+1):], spiked[:200*n])
			want += (500/float64(5+n) - 100) / 10
		}
		part, none := read(z, params.WidthOfPart, "iso-4287", "RSm"), read(z, params.WidthNotAsked, "iso-4287", "RSm")
		if got := [2]bool{part.Note != "", none.Note != ""}; got != c.said || math.Abs(part.Value-100) > 1e-9 || math.Abs(none.Value-want) > 1e-9 {
			t.Errorf("%d spikes: %g and %g, want %g; notes %v, want %v", c.spikes, part.Value, none.Value, want, got, c.said)
		}
	}
	// ISO 21920 asks for no width.
	if a, b := read(spiked, params.WidthOfPart, "iso-21920", "Rsm"), read(spiked, params.WidthNotAsked, "iso-21920", "Rsm"); a.Value != b.Value || a.Note != "" {
		t.Errorf("Rsm of ISO 21920: %v and %v", a, b)
	}
}

// On noise the readings lie apart, and two things must hold: the
// more is asked, the fewer elements there are; and no reading depends on the direction of travel or on which side is up.
func TestWidthReadingsOnNoise(t *testing.T) {
	for seed := range uint64(60) {
		rng := rand.New(rand.NewPCG(seed, 5))
		z := make([]float64, 2000)
		for i := range z {
			z[i] = rng.NormFloat64() + math.Sin(float64(i)/20)
		}
		rng.Shuffle(100, func(i, j int) { z[i], z[j] = z[j], z[i] })
		turned, over := make([]float64, len(z)), make([]float64, len(z))
		for i, v := range z {
			turned[len(z)-1-i], over[i] = v, -v
		}
		count := func(z []float64, of params.ElementWidth) float64 {
			in := params.Input{Z: z, Dx: 1, Choices: params.Choices{ElementWidth: of}}
			c, err := params.Construct(&in, lookup(t, "asme-b46.1", 'R', "RSm"))
			if err != nil {
				t.Fatal(err)
			}
			return float64(len(c.Steps) - 1)
		}
		p, e, n := count(z, params.WidthOfPart), count(z, params.WidthOfElement), count(z, params.WidthNotAsked)
		if !(p <= e && e <= n) {
			t.Errorf("seed %d: %v elements with each part, %v with the element, %v without a width", seed, p, e, n)
		}
		for of := range params.ElementWidth(3) {
			if a, b, c := count(z, of), count(turned, of), count(over, of); a != b || a != c {
				t.Errorf("seed %d, %d: %v elements, turned round %v, turned over %v", seed, of, a, b, c)
			}
		}
	}
}
