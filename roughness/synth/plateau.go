package synth

import "math"

// PlateauSet holds heights whose material ratio curve is two straight lines on the probability graph: slope Rpq up to
// the material ratio Rmq, slope Rvq beyond. The heights stand in random order and are measured from their mean.
type PlateauSet struct {
	Rpq, Rvq float64 // root mean square heights of the plateau and of the valleys
	Rmq      float64 // material ratio of the transition, in percent
	Seed     uint64  // of the order
}

// Heights returns the set of n heights.
func (s PlateauSet) Heights(n int, dx float64) []float64 {
	kink := Quantile(s.Rmq / 100)
	z := make([]float64, n)
	var mean float64
	for i := range z {
		u := Quantile((float64(i)+0.5)/float64(n)) - kink
		if u <= 0 {
			z[i] = -s.Rpq * u
		} else {
			z[i] = -s.Rvq * u
		}
		mean += z[i] / float64(n)
	}
	for i := range z {
		z[i] -= mean
	}
	NewRandom(s.Seed, 2).Shuffle(z)
	return z
}

// Known lists the construction's own values, and the values of the core where the straight line of Rk lies on the
// plateau alone, Rmq ≥ 70 %.
func (s PlateauSet) Known() []Known {
	l := &list{source: gaussian}
	share := s.Rmq / 100
	kink := Quantile(share)
	first := density(kink) - kink*(1-share)
	second := (1+kink*kink)*(1-share) - kink*density(kink)
	mean := s.Rpq*(kink+first) - s.Rvq*first
	l.length("Rq", math.Sqrt(s.Rpq*s.Rpq*(1+kink*kink-second)+s.Rvq*s.Rvq*second-mean*mean), "√(Rpq²(1+s²-M₂) + Rvq²M₂ - μ²), s = Φ⁻¹(Rmq)")
	l.length("Rpq", s.Rpq, "as built")
	l.length("Rvq", s.Rvq, "as built")
	l.share("Rmq", s.Rmq, "as built")
	if s.Rmq >= 70 {
		normal := &list{source: gaussian}
		normalCore(normal, s.Rpq)
		for _, k := range normal.known {
			if k.Symbol == "Rk" || k.Symbol == "Rpk" || k.Symbol == "Rmrk1" {
				l.known = append(l.known, k)
			}
		}
	}
	return l.known
}

// Honed is the result when a rough surface is honed: at each place the lower of two normal processes, a fine one (the
// plateau) and a coarse one that is Offset higher (its grooves remain).
type Honed struct {
	Plateau, Groove             float64 // standard deviations
	PlateauLength, GrooveLength float64 // lengths of their autocorrelation, as in Correlated
	Offset                      float64
	Seed                        uint64
}

// Heights draws the two processes.
func (s Honed) Heights(n int, dx float64) []float64 {
	z := Correlated{s.Plateau, s.PlateauLength, s.Seed}.Heights(n, dx)
	deep := Correlated{s.Groove, s.GrooveLength, s.Seed + 1<<32}.Heights(n, dx)
	mean, _ := s.moments()
	for i := range z {
		z[i] = math.Min(z[i], deep[i]+s.Offset) - mean
	}
	return z
}

// moments are the mean and the variance of the lower of two independent normal variables.
func (s Honed) moments() (mean, variance float64) {
	a := math.Sqrt(s.Plateau*s.Plateau + s.Groove*s.Groove)
	first, second := distribution(s.Offset/a), distribution(-s.Offset/a)
	both := a * density(s.Offset/a)
	mean = s.Offset*second - both
	square := s.Plateau*s.Plateau*first + (s.Groove*s.Groove+s.Offset*s.Offset)*second - s.Offset*both
	return mean, square - mean*mean
}

// Known gives the expected Rq; what the plateau methods make of the trace is for them to find.
func (s Honed) Known() []Known {
	_, variance := s.moments()
	l := &list{source: "C. E. Clark, The Greatest of a Finite Set of Random Variables, Operations Research 9 (1961) 145 (from memory)", expected: true}
	l.length("Rq", math.Sqrt(variance), "standard deviation of the lower of two independent normal variables")
	return l.known
}
