// Package compare answers why two values of one trace differ: which change of the settings makes how much of the difference, which
// settings give a printed value, what a requirement asks in two editions, and how many digits of a value are steady.
//
// Neither side of a comparison is wrong: the requirement decides which settings count. All lengths and heights are micrometres. The
// functions keep nothing and may be called at the same time.
package compare

import (
	"example.com/furrow/standards"
)

// rows are the standard cut-offs with what goes with each (ISO 21920-3:2021; ISO 3274:1996, Table 1), from the finest to the coarsest.
func rows() []standards.TableRow { return standards.Editions()[0].Rows }
