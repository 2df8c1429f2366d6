package study

import (
	"slices"
	"strings"
	"testing"
)

func TestReadHeights(t *testing.T) {
	for text, want := range map[string][]float64{
		"3 1 -2 4":               {3, 1, -2, 4},
		"3;1\n−2\t4":             {3, 1, -2, 4},
		"3,5 1 -2,25 4":          {3.5, 1, -2.25, 4},
		"3.5,1,-2.25,4":          {3.5, 1, -2.25, 4},
		"3, 1, -2, 4":            {3, 1, -2, 4},
		"0.1 0.2 0.3 0.4 0.5  ;": {0.1, 0.2, 0.3, 0.4, 0.5},
	} {
		if got, err := ReadHeights(text); !slices.Equal(got, want) || err != nil {
			t.Errorf("%q: %v %v", text, got, err)
		}
	}
	for text, want := range map[string]string{
		"1 2 x3 4":               `Height 3, "x3"`,
		"1 2 3":                  "there are 3",
		"":                       "there are 0",
		"1 2 3 NaN":              `Height 4`,
		strings.Repeat("1 ", 65): "there are 65",
	} {
		if _, err := ReadHeights(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", text, err)
		}
	}
	if got := Echo([]float64{3, 1, -2, 4, 0, -5, 2, 1, -1, 3, -4, 2, 0, -3, 1, -2}); got != "16 heights, from −5 to 4, mean 0" {
		t.Error(got)
	}
}

func TestOtherHeights(t *testing.T) {
	for seed := range uint64(50) {
		z, err := OtherHeights(4+int(seed), 5, seed)
		sum := 0.0
		for _, v := range z {
			sum += v
		}
		if err != nil || len(z) != 4+int(seed) || sum != 0 || slices.Max(z) > 5 || slices.Min(z) < -5 {
			t.Errorf("%d: %v %v", seed, z, err)
		}
	}
	if _, err := OtherHeights(3, 5, 1); err == nil {
		t.Error("three heights")
	}
}

// The table of the design: sums and means as exact fractions, slopes of seven points and of neighbours.
func TestHandTable(t *testing.T) {
	z := []float64{3, 1, -2, 4, 0, -5, 2, 1, -1, 3, -4, 2, 0, -3, 1, -2}
	table := func(symbol string, neighbours bool, z []float64) *HandTable {
		r, err := (&Desk{}).Evaluate(State{Surface: Typed, Heights: z, Symbol: symbol})
		if err != nil {
			t.Fatal(err)
		}
		out, err := r.Table(neighbours)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	column := func(t *HandTable, id string) int {
		return slices.IndexFunc(t.Columns, func(c HandColumn) bool { return c.ID == id })
	}
	ra := table("Ra", false, z)
	if k := column(ra, "abs"); ra.Means[k] != "34/16 = 2.125" || ra.Sums[k] != "34" || !ra.Columns[k].Used || ra.Columns[column(ra, "z2")].Used {
		t.Errorf("%q %q", ra.Sums[k], ra.Means[k])
	}
	if k := column(ra, "z2"); ra.Means[k] != "104/16 = 6.5" || ra.Rows[5][k] != "25" || ra.Rows[5][column(ra, "z3")] != "−125" {
		t.Errorf("%q %q", ra.Means[k], ra.Rows[5])
	}
	if ra.Rows[1][column(ra, "x")] != "100" || ra.Rows[15][column(ra, "diff")] != "" || ra.Rows[0][column(ra, "diff")] != "−2" {
		t.Errorf("%q", ra.Rows[1])
	}
	rdq := table("Rdq", false, z)
	if k := column(rdq, "slope"); rdq.Rows[2][k] != "" || rdq.Rows[3][k] == "" || !slices.Contains(rdq.Notes, "Three points at each end have no slope: N_g = 10.") {
		t.Errorf("%q %q", rdq.Rows[3], rdq.Notes)
	}
	// The mean of the squares is that of Rdq, 0.03835² = 0.001471.
	if k := column(rdq, "slope2"); !strings.HasSuffix(rdq.Means[k], "/10 = 0.001471") {
		t.Errorf("%q", rdq.Means[k])
	}
	near := table("Rdq", true, z)
	if k := column(near, "slope"); near.Rows[0][k] != "−0.02" || near.Rows[15][k] != "" || !slices.Contains(near.Notes, "This is not Rdq.") {
		t.Errorf("%q %q", near.Rows[0], near.Notes)
	}
	if rmr := table("Rmr(1)", false, z); len(rmr.Notes) != 1 || rmr.Notes[0] != "With 16 points the straight lines between them are 15 × 100 = 1\u202f500 µm long; the material ratio divides by that, the mean heights by 16." {
		t.Errorf("%q", rmr.Notes)
	}
	if rk := table("Rk", false, z); !strings.HasPrefix(rk.Notes[0], "Few points: the core is shown for practice; the window of 40 % has 6 steps, that is 7 points.") {
		t.Errorf("%q", rk.Notes)
	}
	if high := table("Rv", false, []float64{5, 7, 9, 5}); !slices.Contains(high.Notes, "All heights are above zero as typed, so pit depths are negative.") {
		t.Errorf("%q", high.Notes)
	}
}
