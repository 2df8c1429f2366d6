package params_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/furrow/params"
)

// randomProfile returns one of several kinds of profile: white noise, noise smoothed over a few points, a wave with
// noise, a random walk, a plateau with scratches, and steps of equal heights.
func randomProfile(rng *rand.Rand, n int) (z []float64, kind string) {
	z = make([]float64, n)
	for i := range z {
		z[i] = rng.NormFloat64()
	}
	kinds := []string{"white", "smooth", "wave", "walk", "plateau", "steps"}
	kind = kinds[rng.IntN(len(kinds))]
	switch kind {
	case "smooth":
		width := 1 + rng.IntN(8)
		for i := range z {
			sum := 0.0
			for j := i; j < min(n, i+width); j++ {
				sum += z[j]
			}
			z[i] = sum
		}
	case "wave":
		period := 5 + 50*rng.Float64()
		for i := range z {
			z[i] = math.Sin(2*math.Pi*float64(i)/period) + 0.2*z[i]
		}
	case "walk":
		for i := 1; i < n; i++ {
			z[i] += z[i-1]
		}
	case "plateau":
		for i := range z {
			z[i] = math.Min(0.1*z[i], 1+2*rng.NormFloat64())
		}
	case "steps":
		for i := range z {
			z[i] = math.Round(2 * z[i])
		}
	}
	m := average(z)
	for i := range z {
		z[i] -= m
	}
	return z, kind
}

// evaluateAll returns the default catalogue of ISO 21920 on the roughness profile by symbol.
func evaluateAll(in params.Input) map[string]float64 {
	v := map[string]float64{}
	for _, x := range params.Evaluate(&in, params.Defaults("iso-21920", 'R')...) {
		v[x.Symbol] = x.Value
	}
	return v
}

const profiles = 3000

// TestInvariants holds, on random profiles, what must be true of any profile.
func TestInvariants(t *testing.T) {
	for seed := range uint64(profiles) {
		rng := rand.New(rand.NewPCG(seed, 1))
		n := 5 * (1 + rng.IntN(60))
		z, kind := randomProfile(rng, n)
		in := params.Input{Z: z, Dx: 0.5, Section: n / 5}
		v := evaluateAll(in)
		name := fmt.Sprintf("seed %d, %s, %d points", seed, kind, n)
		scale := v["Rt"]
		equal := func(what string, a, b float64) {
			if math.Abs(a-b) > 1e-10*scale || math.IsNaN(a) != math.IsNaN(b) {
				t.Errorf("%s: %s: %v and %v", name, what, a, b)
			}
		}
		atMost := func(what string, a, b float64) {
			if a > b+1e-10*max(scale, math.Abs(b)) || math.IsNaN(a) || math.IsNaN(b) {
				t.Errorf("%s: %s: %v and %v", name, what, a, b)
			}
		}
		equal("Rz = Rp + Rv", v["Rz"], v["Rp"]+v["Rv"])
		equal("Rt = Rpt + Rvt", v["Rt"], v["Rpt"]+v["Rvt"])
		atMost("Rp ≤ Rpt", v["Rp"], v["Rpt"])
		atMost("Rz ≤ Rzx", v["Rz"], v["Rzx"])
		atMost("Rzx ≤ Rt", v["Rzx"], v["Rt"])
		atMost("Ra ≤ Rq", v["Ra"], v["Rq"])
		atMost("Rq ≤ max(Rpt, Rvt)", v["Rq"], max(v["Rpt"], v["Rvt"]))
		if scale > 0 {
			atMost("1 + Rsk² ≤ Rku", 1+v["Rsk"]*v["Rsk"], v["Rku"])
			atMost("Rmrk1 ≤ Rmrk2", v["Rmrk1"], v["Rmrk2"])
		}
		atMost("0 ≤ Rk", 0, v["Rk"])
		if v["Rpkx"] > 0 && v["Rvkx"] > 0 {
			equal("Rk + Rpkx + Rvkx = Rt", v["Rk"]+v["Rpkx"]+v["Rvkx"], v["Rt"])
		}
		if n >= 3 {
			atMost("Rda ≤ Rdq", v["Rda"], v["Rdq"])
			atMost("Rdq ≤ Rdt", v["Rdq"], v["Rdt"])
		}
		if !math.IsNaN(v["Rsm"]) {
			atMost("Rsm ≤ Rsmx", v["Rsm"], v["Rsmx"])
			atMost("Rc ≤ Rcx", v["Rc"], v["Rcx"])
			atMost("Rcx ≤ Rt", v["Rcx"], v["Rt"])
		}
		p, q := 100*rng.Float64(), 100*rng.Float64()
		if p > q {
			p, q = q, p
		}
		equal("Rvvc + Rvvv = Rvv", params.Rvvc(z, p, q)+params.Rvvv(z, q), params.Rvv(z, p))
		equal("Rvmp + Rvmc = Rvm", params.Rvmp(z, p)+params.Rvmc(z, p, q), params.Rvm(z, q))
		atMost("Rmc falls", params.Rmc(z, q), params.Rmc(z, p))
		c := params.Rmc(z, p)
		if ratio := params.Rmr(z, c); ratio < p-1e-7 {
			t.Errorf("%s: Rmr(Rmc(%v)) = %v", name, p, ratio)
		} else if kind != "steps" && kind != "plateau" && n > 1 && math.Abs(ratio-p) > 1e-7 {
			t.Errorf("%s: Rmr(Rmc(%v)) = %v", name, p, ratio)
		}
		equal("Rmc(0) = Rpt", params.Rmc(z, 0), v["Rpt"])
		equal("Rmc(100) = -Rvt", params.Rmc(z, 100), -v["Rvt"])
	}
}

// TestVolumeIdentity: Rvv(p) - Rvm(p) is the height of the curve at p less the mean, and the mean is that of the points.
func TestVolumeIdentity(t *testing.T) {
	for seed := range uint64(300) {
		rng := rand.New(rand.NewPCG(seed, 2))
		z, _ := randomProfile(rng, 2+rng.IntN(100))
		offset := rng.NormFloat64()
		for i := range z {
			z[i] += offset
		}
		for _, at := range params.MaterialRatioCurve(z, 0) {
			got := params.Rvv(z, at.X) - params.Rvm(z, at.X)
			if want := at.Y - average(z); math.Abs(got-want) > 1e-10*(1+math.Abs(offset)+params.Rt(z)) {
				t.Fatalf("seed %d: Rvv - Rvm at %v %% = %v, want %v", seed, at.X, got, want)
			}
		}
	}
}

// How a parameter answers to a change of the profile; what is not named is not held against it.
var (
	heightLike = []string{"Ra", "Rq", "Rp", "Rv", "Rz", "Rzx", "Rt", "Rpt", "Rvt", "Rc", "Rcx", "Rcq", "Rk", "Rpk", "Rvk", "Rpkx", "Rvkx", "Rak1", "Rak2",
		"Rvm(10)", "Rvv(10)", "Rvmp", "Rvmc", "Rvvc", "Rvvv", "Rmc(50)", "Rdc(10,80)", "Rdq", "Rda", "Rdt", "Rmpc", "Rmvc", "R5p", "R5v", "R10z"}
	lengthLike = []string{"Rsm", "Rsmx", "Rsmq", "Ral", "Rsw", "Rdl"}
	inLength   = []string{"Rpc", "Rdq", "Rda", "Rdt", "Rpd", "Rvd"}
	shapeLike  = []string{"Rsk", "Rku", "Rsm", "Rsmx", "Rsmq", "Rpc", "Rmrk1", "Rmrk2", "Rmr(0)", "Ral", "Rsw", "Rpd", "Rvd"}
	sortedOnly = []string{"Ra", "Rq", "Rsk", "Rku", "Rt", "Rpt", "Rvt", "Rk", "Rpk", "Rvk", "Rpkx", "Rvkx", "Rmrk1", "Rmrk2", "Rak1", "Rak2",
		"Rvm(10)", "Rvv(10)", "Rvmp", "Rvmc", "Rvvc", "Rvvv"}
	// bySide changes places when the profile is turned over.
	bySide = map[string]string{"Rp": "Rv", "Rv": "Rp", "Rpt": "Rvt", "Rvt": "Rpt", "R5p": "R5v", "R5v": "R5p", "Rpd": "Rvd", "Rvd": "Rpd", "Rmpc": "Rmvc", "Rmvc": "Rmpc"}
)

// TestTransformations: scaling, stretching, turning over, walking backwards and shuffling change each parameter as its
// definition says.
func TestTransformations(t *testing.T) {
	for seed := range uint64(profiles / 3) {
		rng := rand.New(rand.NewPCG(seed, 3))
		n := 5 * (4 + rng.IntN(60))
		z, kind := randomProfile(rng, n)
		base := params.Input{Z: z, Dx: 0.5, Section: n / 5}
		v := evaluateAll(base)
		same := func(what, symbol string, got, want float64) {
			t.Helper()
			tolerance := 1e-9 * (math.Abs(want) + 1e-3)
			if math.IsNaN(got) != math.IsNaN(want) || math.Abs(got-want) > tolerance {
				t.Errorf("seed %d, %s, %d points, %s: %s = %v, want %v", seed, kind, n, what, symbol, got, want)
			}
		}
		with := func(change func(z []float64), dx float64) map[string]float64 {
			c := slices.Clone(z)
			change(c)
			return evaluateAll(params.Input{Z: c, Dx: dx, Section: base.Section})
		}
		// A power of two scales without rounding.
		scaled := with(func(z []float64) {
			for i := range z {
				z[i] *= 8
			}
		}, base.Dx)
		for _, s := range heightLike {
			same("heights times 8", s, scaled[s], 8*v[s])
		}
		for _, s := range shapeLike {
			same("heights times 8", s, scaled[s], v[s])
		}
		stretched := with(func([]float64) {}, 4*base.Dx)
		for _, s := range lengthLike {
			if s != "Rdl" {
				same("lengths times 4", s, stretched[s], 4*v[s])
			}
		}
		for _, s := range inLength {
			same("lengths times 4", s, stretched[s], v[s]/4)
		}
		backwards := with(func(z []float64) { slices.Reverse(z) }, base.Dx)
		for s := range v {
			if kind == "steps" && slices.Contains([]string{"Rsm", "Rsmx", "Rsmq", "Rc", "Rcx", "Rcq", "Rpc", "R5p", "R5v", "R10z", "Rpd", "Rvd", "Rmpc", "Rmvc"}, s) {
				continue // which of several equal parts goes first does depend on the direction
			}
			if s == "RPc(0.5,-0.5)" {
				// A peak is counted where it falls below the band; one may stand open at either end.
				if one := 1e4 / (float64(n) * base.Dx); math.Abs(backwards[s]-v[s]) > 1.5*one {
					t.Errorf("seed %d, backwards: %s = %v, want %v within one", seed, s, backwards[s], v[s])
				}
				continue
			}
			same("backwards", s, backwards[s], v[s])
		}
		over := with(func(z []float64) {
			for i := range z {
				z[i] = -z[i]
			}
		}, base.Dx)
		for s, other := range bySide {
			same("turned over", other, over[other], v[s])
		}
		same("turned over", "Rsk", over["Rsk"], -v["Rsk"])
		for _, s := range []string{"Ra", "Rq", "Rku", "Rz", "Rzx", "Rt", "Rsm", "Rc", "Rdq", "Ral"} {
			if kind == "steps" && (s == "Rsm" || s == "Rc") {
				continue
			}
			same("turned over", s, over[s], v[s])
		}
		if kind != "steps" && kind != "plateau" && kind != "wave" {
			same("turned over", "Rvmp", params.Rvv(negated(z), 90), v["Rvmp"])
		}
		shuffled := with(func(z []float64) { rng.Shuffle(n, func(i, j int) { z[i], z[j] = z[j], z[i] }) }, base.Dx)
		for _, s := range sortedOnly {
			same("shuffled", s, shuffled[s], v[s])
		}
	}
}

func negated(z []float64) []float64 {
	out := make([]float64, len(z))
	for i, v := range z {
		out[i] = -v
	}
	return out
}
