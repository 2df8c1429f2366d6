package study

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// The example of the design, whose check was worked out outside with zlib's crc32.
const exampleLink = "s1~syRz~sudground-rod~fiSc3~wap~quabhn~hi2~zzAWXV"

func TestLinkExample(t *testing.T) {
	s := State{Symbol: "Rz", Surface: Demo, Demo: "ground-rod", Filter: Removal{Kind: "class", Class: "Sc3"}, Way: "predict", Questions: "abhn", Hide: 2}
	if got, err := s.Link(); got != exampleLink || err != nil {
		t.Errorf("%q %v, want %q", got, err, exampleLink)
	}
	got, notes, err := OpenLink("#" + exampleLink)
	if err != nil || len(notes) > 0 || !reflect.DeepEqual(got, s.Complete()) {
		t.Errorf("%+v %v %v", got, notes, err)
	}
}

// anyState is a random exercise with everything that a link can hold.
func anyState(r *synth.Random) State {
	pick := func(n int) int { return int(r.Uint32() % uint32(n)) }
	number := func(low, high float64) float64 {
		return math.Round((low+(high-low)*r.Uniform())*1e4) / 1e4
	}
	s := State{Letter: "R", Way: []string{"look", "predict", "work"}[pick(3)], Fade: pick(5), Hide: pick(3), Turned: pick(2) == 1, Every: []int{1, 2, 4}[pick(3)]}
	editions := standards.EditionIDs()
	s.Edition = editions[pick(len(editions))]
	for _, letter := range "RPW" {
		if len(params.Defaults(s.Edition, byte(letter))) > 0 && pick(3) == 0 {
			s.Letter = string(letter)
		}
	}
	calls := params.Defaults(s.Edition, s.Letter[0])
	if len(calls) == 0 {
		s.Edition, calls = "iso-21920", params.Defaults("iso-21920", s.Letter[0])
	}
	s.Symbol = calls[pick(len(calls))].String()
	s.Surface = []string{Demo, Made, Typed, Sheet}[pick(4)]
	switch s.Surface {
	case Demo:
		s.Demo = synth.Demos()[pick(4)].Key
	case Made:
		s.Length, s.Spacing = number(1, 10), number(0.3, 1)
		for _, in := range ingredients {
			for k := range in.Most {
				if pick(3) > 0 {
					break
				}
				p := in.part(k, s.Length)
				for i := range p.Values {
					f := in.field(k, i, s.Length)
					if p.Values[i] = number(f.Low, f.High); f.Whole {
						p.Values[i] = math.Round(p.Values[i])
					}
				}
				if in.must != nil {
					if i, _ := in.must(p.Values, s.Spacing); i >= 0 {
						p.Values[i] = f64(in.Kind == "feed", 0.01, 3)
					}
				}
				s.Parts = append(s.Parts, p)
			}
		}
	case Typed:
		s.Spacing = number(1, 200)
		s.Line = []string{"zero", "mean", "line"}[pick(3)]
		for range 4 + pick(61) {
			s.Heights = append(s.Heights, number(-99, 99))
		}
	case Sheet:
		s.File = &SheetFile{pick(100000), fmt.Sprintf("%08x", r.Uint32())}
	}
	for range pick(9) {
		s.Moved = append(s.Moved, MovedPoint{1 + pick(4), number(-9, 9), 1 + pick(9)})
	}
	s.Filter = []Removal{{}, {Kind: "class"}, {Kind: "own", Long: number(0.1, 8), Short: number(0, 25)}}[pick(3)]
	if s.Filter.Kind == "" && s.Letter != "R" {
		s.Filter.Kind = "class"
	}
	if pick(2) == 0 {
		s.Sections = Sections{Number: pick(8), Length: number(0, 2)}
		if pick(2) == 0 {
			start := number(0, 2)
			s.Sections.Start = &start
		}
	}
	if pick(2) == 0 {
		s.Move = "cut-level"
	}
	for c := 'a'; c <= 'p'; c++ {
		if pick(2) == 0 {
			s.Questions += string(c)
		}
	}
	return s
}

func f64(first bool, a, b float64) float64 {
	if first {
		return a
	}
	return b
}

// Text, state and text again, for a thousand random exercises; every cut and every changed sign is noticed.
func TestLinkRoundTrip(t *testing.T) {
	r := synth.NewRandom(11, 3)
	longest := 0
	for i := range 1000 {
		s := anyState(r).Complete()
		text, err := s.Link()
		if err != nil {
			t.Fatalf("%d: %v", i, err)
		}
		longest = max(longest, len(text))
		got, notes, err := OpenLink(text)
		if err != nil || len(notes) > 0 {
			t.Fatalf("%d: %s: %v %v", i, text, notes, err)
		}
		if again, err := got.Link(); again != text || err != nil {
			t.Fatalf("%d: %s becomes %s %v", i, text, again, err)
		}
		if !reflect.DeepEqual(got, s) {
			t.Fatalf("%d: %s: %+v, want %+v", i, text, got, s)
		}
	}
	if longest > mostLink || longest < 300 {
		t.Errorf("the longest link has %d signs", longest)
	}
	for i := range len(exampleLink) {
		if _, _, err := OpenLink(exampleLink[:i]); err == nil {
			t.Errorf("cut at %d is not noticed", i)
		}
		for _, sign := range []byte("0aZ~") {
			changed := exampleLink[:i] + string(sign) + exampleLink[i+1:]
			if strings.EqualFold(changed, exampleLink) && i >= len(exampleLink)-4 {
				continue
			}
			if _, _, err := OpenLink(changed); err == nil && changed != exampleLink {
				t.Errorf("%q is not noticed", changed)
			}
		}
	}
}

// sealed puts the check on the text of a link.
func sealed(body string) string { return body + "~zz" + written(checksum([]byte(body)), 4) }

// Another version and fields that are not known open with what was understood, and one sentence says what was not.
func TestLinkOfAnotherVersion(t *testing.T) {
	s, notes, err := OpenLink(sealed("s9~syRq~sudhoned-bore~xx12~fa7~wap"))
	if err != nil || s.Symbol != "Rq" || s.Demo != "honed-bore" || s.Way != "predict" || s.Fade != 0 {
		t.Errorf("%+v %v", s, err)
	}
	if len(notes) != 2 || !strings.Contains(notes[0], `"s9"`) || !strings.Contains(notes[1], "xx12") || !strings.Contains(notes[1], "7 is not from 0 to 4") {
		t.Errorf("%q", notes)
	}
	var refused *LinkError
	if _, _, err := OpenLink(sealed("s1~syRz~sum~fe9_0.1")); !errors.As(err, &refused) {
		t.Errorf("a feed that cannot be: %v", err)
	}
}

// Too long a link says what to take out.
func TestLinkTooLong(t *testing.T) {
	s := State{Surface: Typed}
	for i := range 64 {
		s.Heights = append(s.Heights, -123456.123456+float64(i)*1e-5)
	}
	for i := range 8 {
		s.Moved = append(s.Moved, MovedPoint{i + 1, 123456.123456, 1})
	}
	var refused *RefusedError
	if text, err := s.Link(); len(text) > mostLink || err == nil && len(text) == 0 || err != nil && (!errors.As(err, &refused) || !strings.Contains(refused.Text, "heights")) {
		t.Errorf("%d signs, %v", len(text), err)
	}
}
