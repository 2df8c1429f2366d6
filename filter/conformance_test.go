package filter_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"
	"sync"
	"testing"

	"example.com/furrow/filter"
)

// A subject is a filter with what it promises.
type subject struct {
	name string
	f    filter.Filter
	info filter.Info
}

// subjects are all filters at their defaults for a size of 60 at spacing 1, and the variants with other promises.
func subjects() []subject {
	var all []subject
	byKey := map[string]filter.Info{}
	for _, i := range filter.All() {
		byKey[i.Key] = i
		all = append(all, subject{i.Key, i.New(60), i})
	}
	with := func(name string, f filter.Filter, key string, change func(i *filter.Info)) {
		i := byKey[key]
		change(&i)
		all = append(all, subject{name, f, i})
	}
	keeps := func(k int) func(*filter.Info) { return func(i *filter.Info) { i.Keeps = k } }
	for _, e := range []struct {
		ends  filter.Ends
		keeps int
	}{{filter.Retain0, 0}, {filter.Retain2, 2}, {filter.Zero, -1}, {filter.Linear, 1}, {filter.LineSymmetric, 0}, {filter.PointSymmetric, 1}, {filter.Discard, 0}} {
		with("gaussian "+e.ends.String(), filter.Gaussian{Cutoff: 60, Ends: e.ends}, "gaussian", keeps(e.keeps))
		with("valley-suppression "+e.ends.String(), filter.ValleySuppression{Cutoff: 60, Ends: e.ends}, "valley-suppression", keeps(min(e.keeps, 2)))
	}
	for _, support := range []float64{0.5, 1.5} {
		with(fmt.Sprintf("gaussian support %v", support), filter.Gaussian{Cutoff: 60, Support: support}, "gaussian", keeps(1))
	}
	with("gaussian closed", filter.Gaussian{Cutoff: 60, Closed: true}, "gaussian", keeps(0))
	with("regression order 0", filter.GaussianRegression{Cutoff: 60, Order: filter.Order0}, "gaussian-regression", keeps(0))
	with("regression order 2", filter.GaussianRegression{Cutoff: 60, Order: 2}, "gaussian-regression", keeps(2))
	with("robust order 0", filter.RobustGaussian{Cutoff: 60, Order: filter.Order0}, "robust-gaussian", keeps(0))
	with("robust order 1", filter.RobustGaussian{Cutoff: 60, Order: 1}, "robust-gaussian", keeps(1))
	with("spline with tension", filter.Spline{Cutoff: 60, Tension: 0.62524}, "spline", keeps(0))
	with("spline closed", filter.Spline{Cutoff: 60, Closed: true}, "spline", keeps(0))
	with("2RC 50 %", filter.TwoRCZeroPhase{Cutoff: 60, Percent: 50}, "two-rc-zero-phase", func(i *filter.Info) { i.AtCutoff, i.Short = 0.5, 0.5 })
	with("opening, then closing", filter.DiskAlternating{Radius: 60, OpenFirst: true}, "disk-alternating", keeps(0))
	return all
}

const subjectPoints = 2400

func TestConformance(t *testing.T) {
	for _, s := range subjects() {
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			keepsPolynomials(t, s)
			followsShiftAndScale(t, s)
			sumsAndReverses(t, s)
			transmits(t, s)
			leavesItsInputAlone(t, s)
		})
	}
}

func keepsPolynomials(t *testing.T, s subject) {
	for degree := 0; degree <= s.info.Keeps; degree++ {
		z := make([]float64, subjectPoints)
		for i := range z {
			z[i] = 5 + 3*math.Pow(float64(i)/1000-0.7, float64(degree))
		}
		near(t, fmt.Sprintf("change of a polynomial of degree %d", degree), greatest(apply(t, s.f, z, 1), z), 0, 1e-10, "promised by Keeps")
	}
}

// All filters but those with zeros outside pass a shift through; all scale but the disk, and envelopes turn over with the sign.
func followsShiftAndScale(t *testing.T, s subject) {
	z := rough(subjectPoints, 3)
	w := apply(t, s.f, z, 1)
	high, tall := slices.Clone(z), slices.Clone(z)
	for i := range z {
		high[i] += 100
		tall[i] *= 2.5
	}
	if s.info.Keeps >= 0 {
		for i, v := range apply(t, s.f, high, 1) {
			if math.Abs(v-w[i]-100) > 1e-9 {
				t.Fatalf("shift by 100 becomes %.15g at %d", v-w[i], i)
			}
		}
	}
	if s.info.Size() != "radius" {
		for i, v := range apply(t, s.f, tall, 1) {
			if math.Abs(v-2.5*w[i]) > 1e-9 {
				t.Fatalf("2.5 times becomes %.15g times at %d", v/w[i], i)
			}
		}
	}
}

func sumsAndReverses(t *testing.T, s subject) {
	a, b := rough(subjectPoints, 3), rough(subjectPoints, 4)
	wa := apply(t, s.f, a, 1)
	if s.info.Linear() {
		wb := apply(t, s.f, b, 1)
		sum, want := make([]float64, len(a)), make([]float64, len(a))
		for i := range a {
			sum[i], want[i] = a[i]-3*b[i], wa[i]-3*wb[i]
		}
		near(t, "difference from linearity", greatest(apply(t, s.f, sum, 1), want), 0, 1e-11, "linear")
	}
	for i := range a {
		if r := a[i] - wa[i]; math.Abs(wa[i]+r-a[i]) > 1e-15*(math.Abs(a[i])+math.Abs(wa[i])) {
			t.Fatalf("w + r - z = %g at %d", wa[i]+r-a[i], i)
		}
	}
	back := slices.Clone(a)
	slices.Reverse(back)
	wr := apply(t, s.f, back, 1)
	slices.Reverse(wr)
	if d := greatest(wr, wa); s.info.Symmetric && d > 1e-10 {
		t.Errorf("reversed profile gives another result: %g", d)
	} else if !s.info.Symmetric && d < 1e-3 {
		t.Errorf("said to depend on the direction, but does not: %g", d)
	}
}

// A sine shows what the formula says, at the cut-off and elsewhere; a filter without a formula says NaN.
func transmits(t *testing.T, s subject) {
	size := 60.0
	if !s.info.Linear() {
		if !math.IsNaN(s.f.Transmission(size)) {
			t.Error("not linear, yet it has a transmission")
		}
		return
	}
	near(t, "transmission at the cut-off", s.f.Transmission(size), s.info.AtCutoff, 1e-9, "AtCutoff")
	near(t, "transmission of endless waves", s.f.Transmission(1e9), 1, 1e-9, "constants pass")
	near(t, "transmission of the shortest waves", s.f.Transmission(1e-200), 0, 1e-9, "detail does not pass")
	for _, share := range []float64{0.4, 0.5, 1, 1.5, 2, 4} {
		wavelength := share * size
		want := s.f.Transmission(wavelength)
		tol := 1e-6
		switch f := s.f.(type) {
		case filter.Spline:
			want = f.TransmissionAt(wavelength, 1)
		case filter.TwoRC, filter.TwoRCZeroPhase:
			tol = 3e-3 // exact at the cut-off; elsewhere the recursion differs by the spacing
			if share == 1 {
				tol = 1e-6
			}
		case filter.Gaussian:
			if f.Support == 0.5 {
				tol = 1.5e-2
			}
		}
		// The middle waves, whole in number, by their Fourier sum. Closed profiles hold whole waves.
		n := int(8 * size * 5)
		z := sine(n, 1, wavelength, 0.3)
		w := apply(t, s.f, z, 1)
		var in, out complex128
		for i := int(14 * size); i < int(26*size); i++ {
			e := cmplx.Exp(complex(0, -2*math.Pi*float64(i)/wavelength))
			in += complex(z[i], 0) * e
			out += complex(w[i], 0) * e
		}
		near(t, fmt.Sprintf("amplitude of a sine of %v cut-offs", share), cmplx.Abs(out)/cmplx.Abs(in), want, tol, "Transmission")
		if s.info.Symmetric {
			near(t, "phase", cmplx.Phase(out/in)*want, 0, 1e-6, "symmetric")
		}
		if share == 1 {
			near(t, "short waves at the cut-off", cmplx.Abs(in-out)/cmplx.Abs(in), s.info.Short, max(tol, 1e-6), "Short")
		}
	}
}

func leavesItsInputAlone(t *testing.T, s subject) {
	z := rough(700, 8)
	kept := slices.Clone(z)
	w := apply(t, s.f, z, 1)
	if !slices.Equal(z, kept) {
		t.Error("the input was changed")
	}
	given := make([]float64, len(z))
	if got, err := s.f.Apply(given, z, 1); err != nil || &got[0] != &given[0] || !slices.Equal(given, w) {
		t.Errorf("into a slice: %v", err)
	}
	if got, err := s.f.Apply(kept, kept, 1); err != nil || !slices.Equal(got, w) {
		t.Errorf("in place: %v", err)
	}
	var wait sync.WaitGroup
	for range 4 {
		wait.Go(func() {
			if got, err := s.f.Apply(nil, z, 1); err != nil || !slices.Equal(got, w) {
				t.Errorf("at the same time: %v", err)
			}
		})
	}
	wait.Wait()
	if _, err := s.f.Apply(nil, z, 0); err == nil {
		t.Error("spacing 0 is not refused")
	}
	if _, err := s.f.Apply(nil, []float64{1, math.NaN(), 2}, 1); err == nil {
		t.Error("NaN is not refused")
	}
	defer func() {
		if recover() == nil {
			t.Error("a result slice of another length is not refused")
		}
	}()
	s.f.Apply(make([]float64, 3), z, 1)
}

// Two passes at λc/√2 are one at λc.
func TestSemigroup(t *testing.T) {
	z := rough(4000, 5)
	half := filter.Gaussian{Cutoff: 300 / math.Sqrt2, Support: 1.5}
	twice := apply(t, half, apply(t, half, z, 1), 1)
	once := apply(t, filter.Gaussian{Cutoff: 300, Support: 1.5}, z, 1)
	near(t, "difference away from the ends", greatest(twice[800:3200], once[800:3200]), 0, 1e-13, "exponents add in quadrature")
}

// With all weights 1, that is in the first pass, the robust filters are the linear ones.
func TestRobustFirstPass(t *testing.T) {
	z := rough(3000, 5)
	for order := 1; order <= 2; order++ {
		linear := apply(t, filter.GaussianRegression{Cutoff: 300, Order: order}, z, 1)
		robust := apply(t, filter.RobustGaussian{Cutoff: 300, Order: order, Passes: 1}, z, 1)
		near(t, "Gaussian", greatest(linear, robust), 0, 1e-13, "all weights 1")
	}
	linear := apply(t, filter.Spline{Cutoff: 300}, z, 1)
	robust := apply(t, filter.RobustSpline{Cutoff: 300, Passes: 1}, z, 1)
	near(t, "spline", greatest(linear, robust), 0, 1e-13, "all weights 1")
}

// The sum of a spline is the sum of the profile, and so it is for closed profiles.
func TestSums(t *testing.T) {
	z := rough(999, 11)
	for _, f := range []filter.Filter{
		filter.Spline{Cutoff: 60}, filter.Spline{Cutoff: 60, Tension: 0.62524}, filter.Spline{Cutoff: 60, Closed: true}, filter.Gaussian{Cutoff: 60, Closed: true},
	} {
		var a, b float64
		for i, v := range apply(t, f, z, 1) {
			a, b = a+v, b+z[i]
		}
		near(t, fmt.Sprintf("sum of %#v", f), a, b, 1e-10, "rows of the differences sum to zero")
	}
}

// Each row is complete, and its key, its letters and its word are its own.
func TestAll(t *testing.T) {
	seen := map[string]string{}
	for _, i := range filter.All() {
		if i.Key == "" || i.Name == "" || i.Said == "" || i.Says == "" || i.Hint == "" || i.Source == "" || i.Basis == "" {
			t.Errorf("%s: row not complete", i.Key)
		}
		if base := filter.Find(i.Base); i.Base != "" && (base == nil || !base.Linear()) {
			t.Errorf("%s: its base %q is no linear filter", i.Key, i.Base)
		}
		for kind, word := range map[string]string{"key": i.Key, "letters": i.Letters, "word": i.Word} {
			if other := seen[kind+word]; word != "" && other != "" {
				t.Errorf("%s and %s have the same %s", i.Key, other, kind)
			}
			seen[kind+word] = i.Key
		}
	}
}

func nameOf(f filter.Filter) string { return fmt.Sprintf("%#v", f) }
