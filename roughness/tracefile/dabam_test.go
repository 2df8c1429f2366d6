package tracefile_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// shared is where data of other people lie that may be read and not kept here.
const shared = "../../../shared/data/"

func sharedFile(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.FromSlash(shared + name))
	if err != nil {
		t.Skip("shared data not present")
	}
	return data
}

// rms is the root mean square about the mean, with the divisors n and n-1.
func rms(z []float64) (n, n1 float64) {
	mean := 0.0
	for _, v := range z {
		mean += v
	}
	mean /= float64(len(z))
	sum := 0.0
	for _, v := range z {
		sum += (v - mean) * (v - mean)
	}
	return math.Sqrt(sum / float64(len(z))), math.Sqrt(sum / float64(len(z)-1))
}

// Real files of an open metrology bank for X-ray mirrors (M. Sanchez del Rio et al., J. Synchrotron Rad. 23 (2016) 665). The
// residual heights are column 3, in nm. Published RMS values (divisor n-1) differ from those of the columns in the last digits,
// for the stored columns are rounded.
func TestResidualHeights(t *testing.T) {
	for _, c := range []struct {
		file             string
		points           int
		spacing          float64 // µm
		published        float64 // nm, by the submitting laboratory
		within           float64 // nm, what the rounding of the columns explains
		recomputedN, nm1 float64 // nm, from the column by plain sums
	}{
		{"dabam/dabam-010.dat", 435, 1020, 3.048414, 2e-4, 3.044792, 3.048298},
		{"dabam/dabam-012.dat", 443, 1000, 2.5052773, 2e-4, 2.502310, 2.505139},
		{"dabam/dabam-014.dat", 241, 1000, 15.372782, 3e-4, 15.340603, 15.372529},
		{"dabam/dabam-015.dat", 801, 1000, 97.355965, 1e-4, 97.295245, 97.356036},
	} {
		t.Run(filepath.Base(c.file), func(t *testing.T) {
			trace, err := tracefile.Read(sharedFile(t, c.file), &tracefile.Hints{ZColumn: 3})
			if err != nil {
				t.Fatal(err)
			}
			if len(trace.Profile.Z) != c.points || math.Abs(trace.Profile.Spacing-c.spacing) > 1e-9 {
				t.Errorf("%d points at %v, want %d at %v", len(trace.Profile.Z), trace.Profile.Spacing, c.points, c.spacing)
			}
			n, n1 := rms(trace.Profile.Z)
			n, n1 = n*1e3, n1*1e3
			if math.Abs(n-c.recomputedN) > 6e-7 || math.Abs(n1-c.nm1) > 6e-7 {
				t.Errorf("RMS %.6f (n), %.6f (n-1) nm, want %.6f, %.6f", n, n1, c.recomputedN, c.nm1)
			}
			if math.Abs(n1-c.published) > c.within {
				t.Errorf("RMS %.6f nm, published %.6f", n1, c.published)
			}
			t.Logf("\n%s%v", trace.Report, trace.Notes)
		})
	}
}

// The other scans of the bank hold slopes. The number of points is that of the rows below the header lines which the bank's own
// description counts; slope RMS values are published.
func TestMirrorSlopes(t *testing.T) {
	for _, c := range []struct {
		file     string
		hints    tracefile.Hints
		spacing  float64 // µm
		rms, nm1 float64 // µrad, divisor n or n-1; 0 where nothing is published
		within   float64
	}{
		{file: "001", spacing: 1000},
		{file: "004", spacing: 200},
		{file: "006", hints: tracefile.Hints{ZColumn: 2}, spacing: 250},
		{file: "012", hints: tracefile.Hints{ZColumn: 5}, spacing: 1000, nm1: 0.318848, within: 6e-7},
		{file: "013", hints: tracefile.Hints{ZColumn: 5}, spacing: 1000, nm1: 1.5106354, within: 6e-7},
		{file: "014", hints: tracefile.Hints{ZColumn: 5}, spacing: 1000, nm1: 1.0503953, within: 6e-7},
		{file: "015", hints: tracefile.Hints{ZColumn: 5}, spacing: 1000, nm1: 2.126065, within: 6e-7},
		{file: "020", spacing: 500},
		{file: "024", hints: tracefile.Hints{Trace: 2, XUnit: "mm", ZUnit: "µrad"}, spacing: 1000},
		{file: "026", spacing: 1000},
		{file: "030", hints: tracefile.Hints{XUnit: "mm", ZUnit: "rad"}, spacing: 1000},
		{file: "045", hints: tracefile.Hints{XUnit: "mm", ZUnit: "µrad"}, spacing: 1000},
		{file: "066", hints: tracefile.Hints{XUnit: "mm", ZUnit: "µrad"}, spacing: 1000},
		{file: "079", hints: tracefile.Hints{XUnit: "mm", ZUnit: "µrad"}, spacing: 1000, rms: 0.161316, within: 6e-7},
		{file: "083", hints: tracefile.Hints{XUnit: "mm", ZUnit: "rad"}, spacing: 735.294},
		{file: "094", hints: tracefile.Hints{ZColumn: 2}, spacing: 500},
	} {
		t.Run(c.file, func(t *testing.T) {
			data := sharedFile(t, "dabam/dabam-"+c.file+".dat")
			var about struct {
				Lines  int     `json:"FILE_HEADER_LINES"`
				Factor float64 `json:"X1_FACTOR"`
			}
			if err := json.Unmarshal(sharedFile(t, "dabam/dabam-"+c.file+".txt"), &about); err != nil {
				t.Fatal(err)
			}
			points := 0
			for i, line := range bytes.Split(data, []byte("\n")) {
				if i >= about.Lines && len(bytes.TrimSpace(line)) > 0 {
					points++
				}
			}
			if _, err := tracefile.Read(data, &c.hints); !errors.Is(err, tracefile.ErrOpen) {
				t.Errorf("slopes were taken for heights: %v", err)
			}
			integrated := c.hints
			integrated.Integrate = true
			trace, err := tracefile.Read(data, &integrated)
			if err != nil {
				t.Fatal(err)
			}
			if n := len(trace.Profile.Z); n != points {
				t.Errorf("%d points, want %d", n, points)
			}
			if math.Abs(trace.Profile.Spacing-c.spacing) > 2e-3*c.spacing {
				t.Errorf("spacing %v, want %v", trace.Profile.Spacing, c.spacing)
			}
			plain := c.hints
			plain.ZUnit = "µm" // the numbers as they stand
			trace, err = tracefile.Read(data, &plain)
			if err != nil {
				t.Fatal(err)
			}
			n, n1 := rms(trace.Profile.Z)
			if c.rms > 0 && math.Abs(n-c.rms) > c.within || c.nm1 > 0 && math.Abs(n1-c.nm1) > c.within {
				t.Errorf("RMS %.7f (n) %.7f (n-1)", n, n1)
			}
			t.Logf("\n%s%v", trace.Report, trace.Notes)
		})
	}
}

// Slopes of the file integrated by trapezoids, a parabola removed: RMS and peak to valley as recomputed from the published
// slopes (the bank's own 0.990542 and 4.505771 nm come from another integration).
func TestIntegratedSlopes(t *testing.T) {
	trace, err := tracefile.Read(sharedFile(t, "dabam/dabam-079.dat"), &tracefile.Hints{XUnit: "mm", ZUnit: "µrad", Integrate: true})
	if err != nil {
		t.Fatal(err)
	}
	z := trace.Profile.Z
	// Least squares with the polynomials 1, t, t² - mean, orthogonal on the symmetric grid t = -m ... m.
	m := float64(len(z)-1) / 2
	var q, s [3]float64
	basis := func(i int) [3]float64 {
		t := float64(i) - m
		return [3]float64{1, t, t*t - m*(m+1)/3}
	}
	for i, v := range z {
		for k, p := range basis(i) {
			s[k] += p * v
			q[k] += p * p
		}
	}
	rest := make([]float64, len(z))
	low, high := math.Inf(1), math.Inf(-1)
	for i, v := range z {
		for k, p := range basis(i) {
			v -= p * s[k] / q[k]
		}
		rest[i] = v * 1e3
		low, high = min(low, rest[i]), max(high, rest[i])
	}
	n, _ := rms(rest)
	if math.Abs(n-0.991573) > 6e-7 || math.Abs(high-low-4.515876) > 1e-6 {
		t.Errorf("RMS %.8f nm, peak to valley %.8f nm, want 0.991573, 4.515876", n, high-low)
	}
}
