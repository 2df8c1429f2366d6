package params

// lazyWork is the part of the shared work that only the rarer families need: each field is filled by the method beside
// which it is used, once.
type lazyWork struct {
	spectrum        *Spectrum
	correlation     []float64
	haveCorrelation bool

	pruned     []Extreme
	havePruned bool

	probability       *Probability
	probabilityReason string

	motifs map[[2]float64]*Motifs // by the two limits

	parts []part // of the section looked at last

	dominance *Dominance
	wave      *work // on the profile of the dominating wave
}
