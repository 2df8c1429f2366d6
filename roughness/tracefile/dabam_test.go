package tracefile_test

import (
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
