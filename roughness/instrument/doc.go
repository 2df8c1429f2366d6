// Package instrument answers whether an instrument may be believed today: traces of a specimen held against its certificate, noise and
// straightness on a flat, the depth of a groove, what the two say of the tip, and the uncertainty of a value on a trace.
//
// Nothing is corrected: a gain factor is proposed and never applied. Each result carries [standards.Caution]. All lengths and heights
// are micrometres. The functions keep nothing and may be called at the same time.
package instrument

import (
	"math"
)

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
