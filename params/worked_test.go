package params_test

import (
	"math"
	"strings"
	"testing"

	"example.com/furrow/params"
)

func worked(form string, result float64, terms ...float64) params.Arithmetic {
	return params.Arithmetic{Symbol: "Rz", Form: form, Terms: terms, Result: result, Unit: params.Micrometre}
}

// Worked lines as they are printed: terms with the digits of the result, whole terms whole, − and × for the eye, thousands apart, and ≈ where
// the printed numbers do not come out as printed.
func TestWorkedLines(t *testing.T) {
	share := 0.5 * math.Erfc(1.25/math.Sqrt2) // of a normal distribution, above 1.25
	count := worked("{1}", 1234567, 1234567)
	count.Unit = params.None
	for _, c := range []struct {
		a      params.Arithmetic
		digits int
		want   string
	}{
		{worked("({1} + {2} + {3}) / 3", 4.009, 1.999, 3.998, 6.03), 4, "(1.999 + 3.998 + 6.030) / 3 = 12.027 / 3 = 4.009"},
		{worked("({1} + {2}) / 2", 2.5, 2, 3), 3, "(2 + 3) / 2 = 5.00 / 2 = 2.50"},
		{worked("({1} + {2}) / {3}", 2.5, 2, 3, 2), 3, "(2 + 3) / 2 = 5.00 / 2 = 2.50"}, // a whole number divides, wherever it comes from
		{worked("({1} + {2}) / {3}", 2, 2, 3, 2.5), 3, "(2 + 3) / 2.50 = 2.00"},
		{worked("{1} - {2}", 3.5, 1.25, -2.25), 3, "1.25 − (−2.25) = 3.50"},
		{worked("{1} - {2}", -1.5, -1.25, 0.25), 3, "−1.25 − 0.25 = −1.50"},
		{worked("{1} · {2} / {3}", -0.6, -1.5, 1, -2.5), 3, "−1.50 × 1 / (−2.50) ≈ −0.600"},
		{worked("{1}² + {2}³ + {3}⁴", 2.25-8+5.0625, -1.5, -2, 1.5), 3, "(−1.50)² + (−2)³ + 1.50⁴ = −0.688"},
		{worked("√({1} / {2})", 1.5, 9, 4), 3, "√(9 / 4) = 1.50"},
		{worked("√{1}", math.Sqrt(1.69), 1.69), 2, "√1.7 = 1.3"},
		{worked("|{1} - {2}|", 2.5, 1, 3.5), 3, "|1 − 3.50| = 2.50"},
		{worked("max({1}, {2}, {3})", 3.5, 1.5, 3.5, 2), 3, "max(1.50, 3.50, 2) = 3.50"},
		{worked("100 · Φ({1})", 100*share, -1.25), 3, "100 × Φ(−1.25) = 10.6"},
		{worked("2π · {1}", 2*math.Pi*0.5, 0.5), 3, "2π × 0.500 = 3.14"},
		{worked("{1} · {2}", 1.0/3*3, 1.0/3, 3), 3, "0.333 × 3 = 1.00"},
		{worked("{1} + {2}", 12345.6789+1e6, 12345.6789, 1e6), 12, "12\u202f345.67890 + 1\u202f000\u202f000 = 1\u202f012\u202f345.67890"},
		{worked("{1} / {2}", 1e6/0.0123456, 1e6, 0.0123456), 6, "1\u202f000\u202f000 / 0.0123456 = 81\u202f000\u202f518"},
		{worked("({1} + … + {2}) / 9 = {3} / 9", 1.5, 1.25, 1.75, 13.5), 3, "(1.25 + … + 1.75) / 9 = 13.50 / 9 = 1.50"},
		{worked("{1}, …, {2}", 4.25, 4.25, 4.25), 3, "4.25, …, 4.25 ≈ 4.25"},
		{count, 3, "1\u202f234\u202f567 = 1\u202f234\u202f567"},
		{worked("{1}", 1234567.25, 1234567.25), 3, "1\u202f234\u202f567 = 1\u202f234\u202f567"},
		{worked("{1}", math.NaN(), math.NaN()), 3, "NaN ≈ NaN"},
		{worked("{1} + {4} + {0}", 1, 1), 3, "1 + 4 + 0 ≈ 1.00"}, // no such term
		{worked("{1", 1, 1), 3, "1 = 1.00"},
		// From 1 to 12 digits, whatever is asked for.
		{worked("{1}", 2.0/3, 2.0/3), 0, "0.7 = 0.7"}, {worked("{1}", 2.0/3, 2.0/3), 99, "0.666666666667 = 0.666666666667"},
		// What rounding leaves of a sum that cancels is 0: less than 1e-12 of the largest term, whole terms aside.
		{worked("{1} - {2}", 0.95e-12*0.5, 0.5, 0.5-0.95e-12*0.5), 3, "0.50 − 0.50 = 0"},
		{worked("{1} + {2}", 0.95e-12*0.5, 0.95e-12*0.5, -0.5), 3, "0 + (−0.50) ≈ 0"},
		{worked("{1} + {2}", 1.06e-12*0.5, 0.5, -0.25), 2, "0.50000000000000 + (−0.25000000000000) ≈ 0.00000000000053"},
		{worked("{1} - {2}", 0.4e-12, 1, 1), 2, "1 − 1 ≈ 0.00000000000040"},
		{worked("{1} + {2}", 0.4e-12, math.Inf(1), 0.25), 2, "+Inf + 0.25000000000000 ≈ 0.00000000000040"},
	} {
		line := c.a.Work(c.digits)
		if got := strings.Join(line.Parts, " = ") + " " + line.Sign + " " + line.Result; got != c.want {
			t.Errorf("%s with %v: %q, want %q", c.a.Form, c.a.Terms, got, c.want)
		}
	}
}

// The value of what is printed, worked out again; none where terms are left out or nothing can be read.
func TestWorkedLineValue(t *testing.T) {
	for text, want := range map[string]float64{
		"12\u202f345.5 − 0.5 × 3": 12344, "1 − 2 − 3": -4, "8 / 4 / 2": 1, "2 × 3²": 18, "(−2)² × 3⁴ / 2³": 40.5, "−2²": -4, "√16 + √(9)": 7, "|−3| + |2 − 5|": 6, "max(1, 5, 3) − max(−2, −4)": 7,
		"Φ(0)": 0.5, "2π": 2 * math.Pi, "π": math.NaN(), "1 + … + 3": math.NaN(), "": math.NaN(), "(1": math.NaN(), "1)": math.NaN(), "|1": math.NaN(), "1.2.3": math.NaN(), "1 +": math.NaN(), "max(1; 2)": math.NaN(),
	} {
		got, ok := params.WorkedLine{Parts: []string{"9 × 9", text}}.Value()
		if ok == math.IsNaN(want) || ok && math.Abs(got-want) > 1e-12 {
			t.Errorf("%s = %v, %t, want %v", text, got, ok, want)
		}
	}
	if v, ok := (params.WorkedLine{}).Value(); ok || v != 0 {
		t.Errorf("no parts: %v", v)
	}
}
