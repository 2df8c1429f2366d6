package standards_test

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/standards"
)

// Halves go away from zero, by the decimal number as it is written.
func TestRoundHalfUp(t *testing.T) {
	for _, c := range []struct {
		v    float64
		d    int
		want string
	}{
		{2.675, 2, "2.68"}, {0.125, 2, "0.13"}, {0.5, 0, "1"}, {1.5, 0, "2"}, {2.5, 0, "3"}, {-2.5, 0, "-3"}, {0.04, 1, "0.0"}, {-0.04, 1, "0.0"},
		{0.999, 2, "1.00"}, {0.0005, 3, "0.001"}, {1e-9, 3, "0.000"}, {1234.5678, 1, "1234.6"}, {0, 2, "0.00"}, {3, 2, "3.00"}, {1e21, 1, "1000000000000000000000.0"},
		{0, 0, "0"}, {9.99, 1, "10.0"}, {0.05, 1, "0.1"}, {0.049, 1, "0.0"}, {99.5, 0, "100"}, {1e-300, 20, "0.00000000000000000000"}, {1.5, 20, "1.50000000000000000000"}, {1.5, 21, "1.50000000000000000000"}, {1.5, -1, "2"}, {14, -1, "14"},
	} {
		if got := standards.RoundHalfUp(c.v, c.d); got != c.want {
			t.Errorf("%g to %d: %s, want %s", c.v, c.d, got, c.want)
		}
	}
}

// Against exact rational arithmetic.
func TestRoundHalfUpExact(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 3000 {
		v := math.Exp(8*r.NormFloat64()) * float64(1-2*r.IntN(2))
		if r.IntN(2) == 0 {
			v = math.Round(v*1000) / 1000
		}
		d := r.IntN(6)
		x, _ := new(big.Rat).SetString(strconv.FormatFloat(v, 'e', -1, 64))
		if got, want := standards.RoundHalfUp(v, d), x.FloatString(d); got != want && (got != strings.TrimPrefix(want, "-") || strings.Trim(want, "-0.") != "") {
			t.Fatalf("%g to %d: %s, want %s", v, d, got, want)
		}
	}
}

// The packages go, what an error says stays.
func TestBare(t *testing.T) {
	for text, want := range map[string]string{
		"roughness: long.cutoff: must be a length":                  "long.cutoff: must be a length",
		"judge: decide: the uncertainty":                            "the uncertainty",
		"decide: measuring with 0.8 mm: roughness: it is too short": "measuring with 0.8 mm: it is too short",
		`record: "judge: x" is no key`:                              `"judge: x" is no key`,
		"a filter: none":                                            "a filter: none",
	} {
		if got := standards.Bare(errors.New(text)); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Two lengths are near up to a billionth of the second one.
func TestNear(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		want bool
	}{
		{800, 800, true}, {800 * (1 + 0.95e-9), 800, true}, {800 * (1 - 0.95e-9), 800, true}, {800 * (1 + 1.05e-9), 800, false}, {800 * (1 - 1.05e-9), 800, false}, {0, 0, true}, {1e-12, 0, false}, {-1e-12, 0, false},
		{0.1 + 0.2, 0.3, true}, {math.NaN(), 1, false}, {1, math.NaN(), false},
	} {
		if got := standards.Near(c.a, c.b); got != c.want {
			t.Errorf("%.12g and %.12g: %v", c.a, c.b, got)
		}
	}
}

func TestNumbersInWords(t *testing.T) {
	for _, c := range []struct {
		got, want string
	}{
		{standards.Digits(1234567), "1234570"}, {standards.Digits(0.00012345678), "0.000123457"}, {standards.Digits(-2.5), "-2.5"}, {standards.Digits(0), "0"}, {standards.Digits(math.NaN()), "?"},
		{standards.Length(2.5), "2.5 µm"}, {standards.Length(49.9999), "49.9999 µm"}, {standards.Length(50), "0.05 mm"}, {standards.Length(800), "0.8 mm"}, {standards.Length(123456789), "123457 mm"},
		{standards.InWords(0), "no"}, {standards.InWords(1), "one"}, {standards.InWords(12), "twelve"}, {standards.InWords(13), "13"}, {standards.InWords(-1), "-1"},
		{standards.RoundHalfUp(math.NaN(), 2), "NaN"}, {standards.RoundHalfUp(math.Inf(1), 2), "+Inf"}, {standards.RoundHalfUp(math.Inf(-1), 2), "-Inf"},
		{standards.Upper.String(), "upper"}, {standards.Lower.String(), "lower"},
		{standards.Ref{Doc: "ISO 21920-2:2021", Clause: "4.2.2"}.String(), "ISO 21920-2:2021, 4.2.2"}, {standards.Ref{Doc: "ISO 1302:1992"}.String(), "ISO 1302:1992"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
