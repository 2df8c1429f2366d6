package study

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"example.com/furrow/roughness/synth"
)

func example(t *testing.T) State {
	t.Helper()
	s, _, err := OpenLink(exampleLink)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The example of the design, worked out outside with zlib's crc32.
func TestCodeExample(t *testing.T) {
	code, err := example(t).Code(Answers{Options: []int{4, 2, 0, 2}, Guess: 3, Tag: 0x2a5})
	if err != nil || code != "5BKQ-CN5H-0QZZ-ZZZZ-YCJR-APY1" {
		t.Errorf("%s %v", code, err)
	}
}

func TestCodeRoundTrip(t *testing.T) {
	s, r := example(t), synth.NewRandom(5, 1)
	for range 200 {
		a := Answers{Tag: int(r.Uint32() & 0xfff), Guess: math.NaN()}
		for range mostQuestions {
			a.Options = append(a.Options, int(r.Uint32()%8))
		}
		if r.Uniform() < 0.7 {
			a.Guess = math.Round(100+899*r.Uniform()) * math.Pow(10, float64(r.Uint32()%14)-7)
			if r.Uniform() < 0.3 {
				a.Guess = -a.Guess
			}
		}
		code, err := s.Code(a)
		if err != nil {
			t.Fatal(err)
		}
		c, err := s.ReadCodes("someone: " + strings.ToLower(code) + " thanks")
		if err != nil || len(c.Read) != 1 {
			t.Fatalf("%s: %+v %v", code, c, err)
		}
		got := c.Read[0]
		if math.Abs(got.Guess-a.Guess) > 1e-12*math.Abs(a.Guess) || math.IsNaN(got.Guess) != math.IsNaN(a.Guess) {
			t.Errorf("guess %v, want %v", got.Guess, a.Guess)
		}
		if !reflect.DeepEqual(got.Options, a.Options) || got.Tag != a.Tag {
			t.Errorf("%+v, want %+v", got, a)
		}
	}
}

// Every single wrong sign and every swap of neighbours is noticed.
func TestCodeFaults(t *testing.T) {
	s := example(t)
	code := "5BKQCN5H0QZZZZZZYCJRAPY1"
	for i := range code {
		for _, sign := range signs {
			if byte(sign) == code[i] {
				continue
			}
			if c, _ := s.ReadCodes(code[:i] + string(sign) + code[i+1:]); len(c.Read) > 0 {
				t.Errorf("sign %d as %c is not noticed", i, sign)
			}
		}
		if i > 0 && code[i] != code[i-1] {
			if c, _ := s.ReadCodes(code[:i-1] + string(code[i]) + string(code[i-1]) + code[i+1:]); len(c.Read) > 0 {
				t.Errorf("signs %d and %d swapped is not noticed", i, i+1)
			}
		}
	}
}

// Thirty codes of a class, with faults.
func TestClass(t *testing.T) {
	s := example(t)
	var lines []string
	for i := range 30 {
		code, err := s.Code(Answers{Options: []int{i % 5, 1, 2, 0}, Guess: math.NaN(), Tag: i})
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, code)
	}
	lines[3] = lines[3][:10] + map[bool]string{true: "A", false: "B"}[lines[3][10] != 'A'] + lines[3][11:] // one sign
	lines[7] = lines[6]                                                                                    // twice
	lines[9] = "good morning"
	other := s
	other.Questions = "ab"
	lines[11], _ = other.Code(Answers{Guess: math.NaN()})
	same, _ := s.Code(Answers{Options: []int{4, 4}, Guess: 1, Tag: 20})
	c, err := s.ReadCodes(strings.Join(append(lines, same), "\n"))
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"27 codes read.", "1 line without a code.", "1 code of another exercise.", "1 code more than once, counted once.",
		"1 code with the tag of a different code: perhaps one student twice, perhaps chance.", "Line 4: one sign is wrong or missing."}
	if !reflect.DeepEqual(c.Said, want) || len(c.Read) != 27 {
		t.Errorf("%q", c.Said)
	}
}
