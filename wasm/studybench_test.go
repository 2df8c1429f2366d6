package main

import (
	"fmt"
	"testing"
)

// BenchmarkStudyMove is one step of a scratch in a surface of 8 000 points: heights, value, construction and both pictures with the state before.
func BenchmarkStudyMove(b *testing.B) {
	for _, symbol := range []string{"Ra", "Rz", "Rsm", "Rk"} {
		for _, filter := range []string{"none", "class"} {
			b.Run(symbol+"/"+filter, func(b *testing.B) {
				m := &module{}
				state := `{"surface": "made", "symbol": "` + symbol + `", "length": 4, "filter": {"kind": "` + filter + `"}, "parts": [{"kind": "noise", "values": [0.3, 10, 1]}]}`
				i := 0
				for b.Loop() {
					i++
					text := fmt.Sprintf(`{"do": "move", "state": %s, "before": %[1]s, "set": [{"id": "scratch-1-depth", "value": %d.%03d}], %s}`, state, 1+i/1000%9, i%1000, studySizes)
					if _, err := m.study(text, nil); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
