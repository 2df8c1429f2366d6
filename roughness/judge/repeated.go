package judge

import (
	"encoding/binary"
	"encoding/hex"
	"math"

	"example.com/furrow/roughness/internal/checksum"
)

// HeightsSHA256 is the SHA-256 of heights, as little-endian float64, in hexadecimal. All points without a height are alike.
func HeightsSHA256(z []float64) string {
	h := checksum.SHA256()
	b := make([]byte, 0, 8*min(len(z), 1<<13))
	for i, v := range z {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			v = math.NaN()
		}
		if b = binary.LittleEndian.AppendUint64(b, math.Float64bits(v)); len(b) == cap(b) || i == len(z)-1 {
			h.Write(b)
			b = b[:0]
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}

// Given remembers the traces that were given, by the SHA-256 of their heights. The zero value is ready for use.
type Given map[string]string

// Again says that a trace has the heights of an earlier one, for the same trace twice is no second measurement; it is empty for the first one.
// counts is what follows for its values: "its values count".
func (g *Given) Again(sha256, name, counts string) string {
	first, again := (*g)[sha256]
	switch {
	case !again:
		if *g == nil {
			*g = Given{}
		}
		(*g)[sha256] = name
		return ""
	case first == name:
		return name + " is given twice, and " + counts + " twice."
	}
	return name + " has the same heights as " + first + ", and " + counts + " twice."
}

// SameHeights is the code of the note that says so.
const SameHeights = "same-heights"
