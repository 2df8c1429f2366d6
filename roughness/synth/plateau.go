package synth

import "math"

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
