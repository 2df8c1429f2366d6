// Package synth makes profiles whose parameters are known beforehand: waves with closed forms, turned cusps, sets of
// heights with an exact distribution, random processes with a known spectrum, and the invented demonstration traces.
//
// A shape is a small struct. Heights samples it, Known says what a correct evaluation has to find:
//
//	s := synth.Sine{Amplitude: 1, Wavelength: 100}
//	z := s.Heights(8000, 0.5)           // 40 whole periods
//	ra, _ := synth.Value(s, "Ra")       // 2/π
//
// All lengths share one unit, along and across; the demonstration traces are in micrometres. The package imports
// nothing of the other packages, so that their tests can use it.
package synth

// A Shape is a profile that can be sampled and whose parameters are known.
type Shape interface {
	// Heights returns n heights at the places 0, dx, 2dx, ...
	Heights(n int, dx float64) []float64
	// Known lists the parameters of the shape, measured from its mean.
	Known() []Known
}

// Known is one parameter of a shape.
//
// For a wave it is the value of the continuous shape over whole periods; samples meet it as their spacing goes to
// zero. For a set of heights it is the value of the distribution that the set stands for.
type Known struct {
	Symbol  string  // of the roughness profile: "Ra", "Rdc(10,80)"
	Value   float64 // exact to the precision of float64, unless the formula says otherwise
	Unit    string  // "length", "%" or "" for a pure number
	Formula string
	Source  string
	// Expected marks the mean over endless realisations of a random process: one finite trace scatters around it.
	Expected bool
}

// Value returns the value that the shape knows for the symbol.
func Value(s Shape, symbol string) (float64, bool) {
	for _, k := range s.Known() {
		if k.Symbol == symbol {
			return k.Value, true
		}
	}
	return 0, false
}

// Where the formulas come from. The values of the elementary waves are textbook values; each was derived again by
// integration over one period.
const (
	textbook = "textbook value of the elementary waves (from memory), derived by integration over a period"
	derived  = "derived by integration over a period"
	gaussian = "derived from the normal distribution"
)

// list builds the entries of one shape.
type list struct {
	known    []Known
	source   string
	expected bool
}

func (l *list) add(symbol string, value float64, unit, formula string) {
	l.known = append(l.known, Known{symbol, value, unit, formula, l.source, l.expected})
}

func (l *list) length(symbol string, value float64, formula string) {
	l.add(symbol, value, "length", formula)
}
func (l *list) ratio(symbol string, value float64, formula string) { l.add(symbol, value, "", formula) }
func (l *list) share(symbol string, percent float64, formula string) {
	l.add(symbol, percent, "%", formula)
}
