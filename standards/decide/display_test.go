package decide_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

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
		if got := decide.Show(c.symbol, c.v, c.unit, c.bounds...); got != c.want {
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
			shown, err := strconv.ParseFloat(decide.Show("Rz", v, unit, limit(lim)), 64)
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
