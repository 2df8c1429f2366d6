package decide

import (
	"errors"
	"fmt"
	"math"

	"example.com/furrow/standards"
)

// ErrNoise says that noise cannot be taken out of a value.
var ErrNoise = errors.New("decide: noise is taken out of Rq alone; in other parameters it does not add up in squares")

// WithoutNoise takes the noise of the instrument out of a root mean square height, in quadrature.
//
//	Rq = √(Rq,shown² − Rq0²)
//
// Rq0 is the same parameter on a flat under the same settings. For any other parameter, and for noise as large as the
// value, there is no correction.
func WithoutNoise(symbol string, value, noise float64) (float64, error) {
	if symbol != "Rq" && symbol != "Pq" && symbol != "Wq" {
		return 0, fmt.Errorf("%w: not out of %s", ErrNoise, symbol)
	}
	if !(value > 0) || !(noise >= 0) || !finite(value) {
		return 0, fmt.Errorf("decide: no correction of %g by a noise of %g", value, noise)
	}
	if noise >= value {
		return 0, fmt.Errorf("decide: the noise %g is not below the value %g, which therefore says nothing about the surface", noise, value)
	}
	return math.Sqrt((value - noise) * (value + noise)), nil
}

// NoiseWarning returns a sentence when the noise exceeds a tenth of the limit, and "" otherwise. The tenth is a rule of
// thumb (trade practice).
func NoiseWarning(symbol string, noise, limit float64) string {
	if !(noise > limit/10) {
		return ""
	}
	return fmt.Sprintf("The noise, %s0 %s µm on a flat, is more than a tenth of the limit %s µm: the value says little about the surface.",
		symbol, standards.Digits(standards.RoundDigits(noise, 3)), standards.Digits(limit))
}
