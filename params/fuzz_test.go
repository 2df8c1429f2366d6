package params_test

import (
	"encoding/binary"
	"math"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// heightsOf reads up to 5000 finite heights from bytes: small whole numbers with many equal ones, or any floats.
func heightsOf(data []byte, floats bool) []float64 {
	var z []float64
	if !floats {
		for _, b := range data[:min(len(data), 5000)] {
			z = append(z, float64(int8(b)))
		}
		return z
	}
	for len(data) >= 8 && len(z) < 5000 {
		if v := math.Float64frombits(binary.LittleEndian.Uint64(data)); v-v == 0 {
			z = append(z, v)
		}
		data = data[8:]
	}
	return z
}

// FuzzEvaluate: no finite profile makes a panic or a NaN without a reason, in any edition, and the invariants that
// rounding cannot break hold.
func FuzzEvaluate(f *testing.F) {
	f.Add([]byte{}, uint16(0), false)
	f.Add([]byte{1}, uint16(1), false)
	f.Add([]byte{1, 255, 1, 255}, uint16(2), false)
	f.Add([]byte{0, 0, 0, 0, 0, 0, 0, 0, 9}, uint16(3), false)
	f.Add([]byte("a profile of bytes, some of which lie below the line \x80\xff\x00\x00\x00\x80\xff"), uint16(11), false)
	huge := binary.LittleEndian.AppendUint64(nil, math.Float64bits(math.MaxFloat64))
	huge = binary.LittleEndian.AppendUint64(huge, math.Float64bits(-math.MaxFloat64))
	huge = binary.LittleEndian.AppendUint64(huge, math.Float64bits(5e-324))
	f.Add(append(huge, huge...), uint16(2), true)
	f.Fuzz(func(t *testing.T, data []byte, section uint16, floats bool) {
		z := heightsOf(data, floats)
		in := params.Input{Z: z, Dx: 0.5, Section: int(section)}
		if floats && len(z) > 2 {
			in.Lead, in.Tail, in.Z = z[:1], z[len(z)-1:], z[1:len(z)-1]
		}
		for _, edition := range standards.EditionIDs() {
			for _, letter := range []byte("PRW") {
				calls := params.Defaults(edition, letter)
				values := map[string]float64{}
				for i, v := range params.Evaluate(&in, calls...) {
					if math.IsInf(v.Value, 0) || math.IsNaN(v.Value) && v.Reason == "" {
						t.Fatalf("%s: %s = %v, reason %q", edition, v.Symbol, v.Value, v.Reason)
					}
					values[v.Symbol] = v.Value
					if len(z) > 100 {
						continue // a construction does all its work anew
					}
					if _, err := params.Construct(&in, calls[i]); err != nil && !math.IsNaN(v.Value) && calls[i].Parameter.Unit != params.None {
						t.Fatalf("%s: %v", edition, err)
					}
				}
				if edition != "iso-21920" || letter != 'R' || floats {
					continue
				}
				tolerance := 1e-9 * (1 + values["Rt"])
				if values["Ra"] > values["Rq"]+tolerance || values["Rz"] > values["Rzx"]+tolerance || values["Rzx"] > values["Rt"]+tolerance ||
					values["Rk"] < 0 || values["Rmrk1"] > values["Rmrk2"] || values["Rsm"] > values["Rsmx"]+tolerance {
					t.Fatalf("values contradict each other: %v", values)
				}
			}
		}
	})
}
