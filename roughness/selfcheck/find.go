package selfcheck

import (
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/cmplx"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// The finders of parameters: "Ra", or with an edition before it "iso-4287 R3z".

// call looks a name up, as a roughness, waviness or primary parameter.
func call(name string) (c params.Call, err error) {
	edition, symbol, ok := strings.Cut(name, " ")
	if !ok {
		edition, symbol = roughness.DefaultEdition, name
	}
	for _, letter := range []byte("RWP") {
		if c, err = params.Lookup(standards.EditionID(edition), letter, symbol); err == nil {
			break
		}
	}
	return c, err
}

// on evaluates parameters on a profile as it stands.
func on(z []float64, dx float64, sections int) func() finder {
	return func() finder { return over(params.Input{Z: z, Dx: dx, Section: len(z) / sections}) }
}

func over(in params.Input) finder {
	return func(name string) (float64, string, error) {
		c, err := call(name)
		if err != nil {
			return 0, "", err
		}
		v := params.Evaluate(&in, c)[0]
		if v.Reason != "" {
			err = errors.New(v.Reason)
		}
		return v.Value, c.Parameter.Key, err
	}
}

// wave evaluates parameters on a wave of the wavelength 400. With 11 waves in 40 005 points no two points stand at the same place of their
// waves, so that the sorted heights are as fine as the points.
func wave(f func(u float64) float64) func() finder {
	return func() finder {
		const points, periods, length = 40005, 11, 4400.0
		return over(params.Input{Z: sampled(points, periods, f), Dx: length / points, Section: points / 5})
	}
}

// sampled returns n heights of f, whose period is 1, in the middle of equal steps over a number of periods.
func sampled(n, periods int, f func(u float64) float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		u := (float64(i) + 0.5) * float64(periods) / float64(n)
		z[i] = f(u - math.Floor(u))
	}
	return z
}

// The waves of amplitude or height 1 and mean 0.
func sine(u float64) float64     { return math.Sin(2 * math.Pi * u) }
func triangle(u float64) float64 { return 1 - 4*math.Abs(u-0.5) }
func sawtooth(u float64) float64 { return 2*u - 1 }
func square(u float64) float64   { return levels(0.5)(u) * 2 }
func cusp(u float64) float64     { return (2*u-1)*(2*u-1) - 1.0/3 }

// levels are two levels a distance of 1 apart, the upper one over the share d.
func levels(d float64) func(u float64) float64 {
	return func(u float64) float64 {
		if u < d {
			return 1 - d
		}
		return -d
	}
}

// curve evaluates parameters on n heights whose material ratio curve is f, in an order that does not matter.
func curve(n int, f func(p float64) float64) func() finder {
	return func() finder {
		z := make([]float64, n)
		for i := range z {
			z[i*7919%n] = f((float64(i) + 0.5) / float64(n))
		}
		return over(params.Input{Z: z, Dx: 1})
	}
}

// twoLines is a curve that is two straight lines on normal paper.
func twoLines(rpq, rvq, rmq float64) func() finder {
	kink := synth.Quantile(rmq)
	return curve(8000, func(p float64) float64 {
		s := synth.Quantile(p) - kink
		if s > 0 {
			return -rvq * s
		}
		return -rpq * s
	})
}

// given evaluates heights that a document gives, through the whole evaluation without a filter: about 0 as they stand, or their mean.
func given(form string, z ...float64) func() finder {
	off := roughness.Band{Off: true}
	return func() finder {
		return func(name string) (float64, string, error) {
			c, err := call(name)
			if err != nil {
				return 0, "", err
			}
			e, err := roughness.Evaluate(roughness.Profile{Z: z, Spacing: 1}, &roughness.Settings{
				Form: roughness.FormSpec{Kind: form}, Short: off, Long: off, Edition: c.Edition, Parameters: []string{c.Symbol}})
			if err != nil {
				return 0, "", err
			}
			v := e.Values[0]
			if v.Reason != "" {
				err = errors.New(v.Reason)
			}
			return v.Value, c.Parameter.Key, err
		}
	}
}

//go:embed third.json
var third []byte

// libraries is what general libraries made of profiles that stand in the file: testdata/params/third.py makes it.
func libraries() (g struct {
	Libraries string
	Motifs    []struct {
		X      []int     // corners of the profile, in points
		H      []float64 // and their heights
		Dx     float64
		Values map[string]float64
	}
	Older []struct {
		Seed, N int
		Dx      float64
		Values  map[string]float64 // by edition and name
	}
}) {
	if err := json.Unmarshal(third, &g); err != nil {
		panic("selfcheck: third.json: " + err.Error())
	}
	return g
}

// librarySets makes sets of the values of the libraries.
func librarySets() (list []set) {
	g := libraries()
	add := func(id, of string, values map[string]float64, prefix string, z []float64, dx float64, sections int) {
		var rows []string
		for name, v := range values {
			rows = append(rows, fmt.Sprintf("%s%s %v 1e-9\n", prefix, strings.Replace(name, " ", ":", 1), v))
		}
		slices.Sort(rows)
		list = append(list, set{id: id, of: of, source: "testdata/params/third.py with " + g.Libraries, basis: Library, reason: "rounding",
			find: on(z, dx, sections), rows: strings.Join(rows, "")})
	}
	for i, m := range g.Motifs {
		var z []float64
		for k := 1; k < len(m.X); k++ {
			for x := m.X[k-1]; x < m.X[k]; x++ {
				z = append(z, m.H[k-1]+(m.H[k]-m.H[k-1])*float64(x-m.X[k-1])/float64(m.X[k]-m.X[k-1]))
			}
		}
		add(fmt.Sprintf("motifs %d", i+1), "a line with corners at random places", m.Values, "iso-12085:", append(z, m.H[len(m.H)-1]), m.Dx, 1)
	}
	for i, o := range g.Older {
		add(fmt.Sprintf("older %d", i+1), "a random profile under a wave", o.Values, "", randomWave(o.Seed, o.N), o.Dx, 5)
	}
	return list
}

// randomWave is the profile that the scripts of testdata/params make.
func randomWave(seed, n int) []float64 {
	u := make([]float64, n+4)
	x := int64(seed)
	for i := range u {
		x = (1103515245*x + 12345) % (1 << 31)
		u[i] = float64(x) / (1 << 31)
	}
	z := make([]float64, n)
	for i := range z {
		sum := 0.0
		for _, v := range u[i : i+5] {
			sum += v
		}
		z[i] = sum/5 - 0.5 + 0.1*math.Sin(2*math.Pi*float64(i)/37)
	}
	return z
}

// The finders of filters. The name of a row is a place or a wavelength, in cut-offs where a filter has one.

// passes is the share of a sine that a filter leaves in the long waves, away from the ends, by the Fourier sum of whole waves, with m samples
// in a cut-off.
func passes(m float64, f filter.Filter, key string) func() finder {
	return waves(m, f, key, func(in, long complex128) float64 { return cmplx.Abs(long) / cmplx.Abs(in) })
}

// leaves is the share in the short waves.
func leaves(m float64, f filter.Filter, key string) func() finder {
	return waves(m, f, key, func(in, long complex128) float64 { return cmplx.Abs(in-long) / cmplx.Abs(in) })
}

func waves(m float64, f filter.Filter, key string, measure func(in, long complex128) float64) func() finder {
	return func() finder {
		return func(name string) (float64, string, error) {
			wavelength, err := strconv.ParseFloat(name, 64)
			if err != nil {
				return 0, "", err
			}
			wavelength = math.Round(wavelength*m*1e4) / 1e4
			whole := int(math.Round(math.Ceil(4*m/wavelength) * wavelength))
			run := int(8 * m)
			z := make([]float64, 2*run+whole)
			for i := range z {
				z[i] = math.Sin(2*math.Pi*float64(i)/wavelength + 0.3)
			}
			w, err := f.Apply(nil, z, 1)
			if err != nil {
				return 0, "", err
			}
			var in, long complex128
			for i := run; i < run+whole; i++ {
				e := cmplx.Exp(complex(0, -2*math.Pi*float64(i)/wavelength))
				in += complex(z[i], 0) * e
				long += complex(w[i], 0) * e
			}
			return measure(in, long), key, nil
		}
	}
}

// shows reads the long waves of a profile at the point first + name·unit; short reads what is left.
func shows(f filter.Filter, key string, z []float64, dx, first, unit float64, short bool) func() finder {
	return func() finder {
		w, fault := f.Apply(nil, z, dx)
		return func(name string) (float64, string, error) {
			at, err := strconv.ParseFloat(name, 64)
			if err != nil || fault != nil {
				return 0, key, errors.Join(err, fault)
			}
			i := int(math.Round(first + at*unit))
			if short {
				return z[i] - w[i], key, nil
			}
			return w[i], key, nil
		}
	}
}

// shape samples f at n points from first on, dx apart.
func shape(n int, first, dx float64, f func(x float64) float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = f(first + float64(i)*dx)
	}
	return z
}

// step is half a step where it stands, so that sums over points are those of the trapezium rule.
func step(x float64) float64 {
	switch {
	case x < -1e-9:
		return 0
	case x > 1e-9:
		return 1
	}
	return 0.5
}

// groove is a pit of the width w about 0, deep; a ridge is the same upside down.
func groove(w, deep float64) func(x float64) float64 {
	return func(x float64) float64 {
		if math.Abs(x) < w/2-1e-6 {
			return -deep
		}
		return 0
	}
}
