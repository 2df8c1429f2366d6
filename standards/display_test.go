package standards_test

import (
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
		{0, 0, "0"}, {9.99, 1, "10.0"}, {0.05, 1, "0.1"}, {0.049, 1, "0.0"}, {99.5, 0, "100"}, {1e-300, 20, "0.00000000000000000000"},
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

func TestShow(t *testing.T) {
	limit := func(v float64) standards.Bound { return standards.Bound{Symbol: "Ra", Value: v} }
	for _, c := range []struct {
		symbol string
		v      float64
		unit   string
		bounds []standards.Bound
		want   string
	}{
		{"Ra", 0.04213, "µm", nil, "0.0421"}, {"Ra", 0.42134, "µm", nil, "0.421"}, {"Ra", 12.345, "µm", nil, "12.35"},
		{"Rz", 3.1415, "µm", nil, "3.14"}, {"Rmr(0.5)", 61.23, "µm", nil, "61.2"}, {"Ra", 0.42134, "nm", nil, "421"},
		{"Ra", 1.6002, "µin", nil, "63.0"}, {"Rsk", -0.12345, "µm", nil, "-0.123"},
		{"Ra", 0.80049, "µm", []standards.Bound{limit(0.8)}, "0.8005"}, // 0.800 would not exceed the limit
		{"Ra", 0.8, "µm", []standards.Bound{limit(0.8)}, "0.800"},
		{"Ra", 0.79996, "µm", []standards.Bound{limit(0.8)}, "0.79996"},
		{"Ra", 1.6003, "µin", []standards.Bound{limit(1.6002)}, "63.004"},
		{"Ra", 1.6002, "µin", []standards.Bound{limit(1.6002)}, "63.0"},
	} {
		if got := standards.Show(c.symbol, c.v, c.unit, c.bounds...); got != c.want {
			t.Errorf("%s %g %s: %s, want %s", c.symbol, c.v, c.unit, got, c.want)
		}
	}
	// Near a limit, in any unit, the display and the limit stand to each other as the numbers do.
	r := rand.New(rand.NewPCG(3, 3))
	factors := map[string]float64{"µm": 1, "nm": 1000, "µin": 1 / 0.0254, "mm": 0.001}
	for range 3000 {
		lim, _ := strconv.ParseFloat(standards.RoundHalfUp(10*r.Float64()+0.01, 2), 64)
		v := lim * (1 + math.Pow(10, -1-10*r.Float64())*float64(r.IntN(3)-1))
		for unit, f := range factors {
			shown, err := strconv.ParseFloat(standards.Show("Rz", v, unit, limit(lim)), 64)
			if err != nil {
				t.Fatal(err)
			}
			edge, _ := strconv.ParseFloat(strconv.FormatFloat(lim*f, 'g', 12, 64), 64)
			if (v > lim) != (shown > edge) || (v < lim) != (shown < edge) {
				t.Fatalf("%.17g against %g in %s shows %.17g against %.12g", v, lim, unit, shown, edge)
			}
		}
	}
}
