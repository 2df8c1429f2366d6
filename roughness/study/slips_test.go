package study

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness/synth"
)

// Whoever divides the third moment by Rq² instead of Rq³, or the fourth by Rq² instead of Rq⁴, is told so.
func TestSlipsOfMoments(t *testing.T) {
	for symbol, power := range map[string]float64{"Rsk": 3, "Rku": 4} {
		r, err := (&Desk{}).Evaluate(State{Symbol: symbol, Surface: Typed, Heights: typedHeights})
		if err != nil {
			t.Fatal(err)
		}
		b, err := r.Blanks(LastBlank)
		if err != nil || len(b.Blanks) != 1 {
			t.Fatalf("%s: %v, %v", symbol, b, err)
		}
		z := r.Input.Z
		moment, rq := 0.0, params.Rq(z)
		for _, v := range z {
			moment += math.Pow(v, power) / float64(len(z))
		}
		got, err := b.Check([]string{fmt.Sprintf("%.6f", moment/rq/rq)}, 0, false)
		if err != nil || got.Goes || !strings.Contains(got.Reply, map[string]string{"Rsk": "divides by Rq³", "Rku": "divides by Rq⁴"}[symbol]) {
			t.Errorf("%s: %+v, %v", symbol, got, err)
		}
	}
}

// Where every second point is kept, an ordinate that is left out cannot be moved, and one that is kept can.
func TestOrdinateLeftOut(t *testing.T) {
	d := &Desk{}
	heights := append(slices.Clone(typedHeights), typedHeights...)
	for point, kept := range map[int]bool{3: true, 4: false, 31: true, 32: false} {
		r, err := d.Evaluate(State{Symbol: "Ra", Surface: Typed, Heights: heights, Every: 2, Point: point})
		if err != nil {
			t.Fatal(err)
		}
		_, err = r.Set("ordinate-height", 4)
		var refused *RefusedError
		if errors.As(err, &refused) == kept || !kept && refused.ID != "ordinate-height" {
			t.Errorf("point %d: %v", point, err)
		}
	}
}

// The question about Rt proposes to move an ordinate of the section that holds the highest peak, as its reason names it.
func TestSectionToTry(t *testing.T) {
	d, asked := &Desk{}, 0
	for _, demo := range synth.Demos() {
		s := State{Symbol: "Rt", Surface: Demo, Demo: demo.Key}
		offered, _, err := d.Ask(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range offered {
			reply, err := d.Reply(s, p.Letter, -1)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(reply.Try, "one ordinate of section ") || !strings.Contains(reply.Reason, "highest peak (section ") {
				continue
			}
			var section int
			if _, err := fmt.Sscanf(reply.Try[strings.Index(reply.Try, "section "):], "section %d", &section); err != nil {
				t.Fatal(err)
			}
			asked++
			if !strings.Contains(reply.Reason, fmt.Sprintf("highest peak (section %d)", section)) {
				t.Errorf("%q, but %q", reply.Try, reply.Reason)
			}
		}
	}
	if asked == 0 {
		t.Error("no such question")
	}
}
