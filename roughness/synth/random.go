package synth

import (
	"math"
	"math/bits"
)

// Random is a generator of numbers that are the same on every platform and in every version: PCG32 (XSH-RR, 64 bits
// of state), after M. E. O'Neill, PCG: A Family of Simple Fast Space-Efficient Statistically Good Algorithms for
// Random Number Generation, Harvey Mudd College HMC-CS-2014-0905 (2014).
type Random struct {
	state, increment uint64
}

// NewRandom returns the generator of a seed; stream chooses one of the independent sequences.
func NewRandom(seed, stream uint64) *Random {
	r := &Random{increment: stream<<1 | 1}
	r.Uint32()
	r.state += seed
	r.Uint32()
	return r
}

// Uint32 returns the next 32 bits.
func (r *Random) Uint32() uint32 {
	old := r.state
	r.state = old*6364136223846793005 + r.increment
	shifted := uint32((old>>18 ^ old) >> 27)
	return bits.RotateLeft32(shifted, -int(old>>59))
}

// Uniform returns a number strictly between 0 and 1.
func (r *Random) Uniform() float64 {
	high := uint64(r.Uint32())
	low := uint64(r.Uint32())
	return (float64((high<<32|low)>>12) + 0.5) / (1 << 52)
}

// Normal returns a number of the standard normal distribution, as the quantile of a uniform one.
func (r *Random) Normal() float64 { return Quantile(r.Uniform()) }

// Shuffle puts z in random order.
func (r *Random) Shuffle(z []float64) {
	for i := len(z) - 1; i > 0; i-- {
		j := int(uint64(r.Uint32()) * uint64(i+1) >> 32)
		z[i], z[j] = z[j], z[i]
	}
}

// Quantile is the inverse Φ⁻¹ of the standard normal distribution function, with a relative error below 1e-11 for
// 1e-5 < p < 1-1e-5.
func Quantile(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }

// density is the standard normal density φ.
func density(u float64) float64 { return math.Exp(-u*u/2) / math.Sqrt(2*math.Pi) }

// distribution is the standard normal distribution function Φ.
func distribution(u float64) float64 { return math.Erfc(-u/math.Sqrt2) / 2 }
