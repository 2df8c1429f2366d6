package outputs

import (
	"fmt"
	"math"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
	"example.com/furrow/standards/decide"
)

// seldomTexts are requirements that are wrong, or said in a seldom way: each has its place and its reason, or its questions.
var seldomTexts = []string{
	"Rmr(0,5 s) 20 %", "Rmr(5 µm) 20 %", "Rmr(5;0,5;7) 20 %", "Rdc(20%;80 µm) 1", "Rmr(0,5 x", "Rsm(2) 0,1 mm", "0,008-2,5 / Pz 8", "-2,5 / Pt 8", "2,5-0,8 / Rz 3,2", "0,8-0,8 / Ra 1", "-0,8x6 / Rz 3,2", "0,0025-0,8/Rz 6,3", "0,8/Rz 6,3", "2,5-8 / Wz 4", "-8/Wt 4",
	"Rz max 0,2 0,8", "Rz 0,2 min 0,8 max", "Rz min 0,2 max 0,8", "max Rz 0,8 min 0,2", "U Rz 3,2 max", "L Rz 3,2 max", "Rz 0,2 ... 0,8 max", "Rz 0,2...0,8", "Rz 0,8-0,2", "Rz 0,2 max 0,8 max", "U Rz 1; L Rz 3", "U Rz 3; L Rz 1", "U Rz 3; U Rz 5", "Rz 3; Rz 5", "L Rz 3\nRz 1 max",
	"Ra 1.6 µm (63 µin)", "Ra 1.6 (63)", "Ra 1.6 µm (16 µin)", "Rmr(0,5) 20 % (30 %)", "Rpc 80 /cm (200 /in)", "Rsm 0.1 mm (4 mil)", "Ra 1,6 (0,8)", "Ra 63 (1.6)", "Rk 1 µm (2 mm)", "Rz 1 (2) (3)",
	"G 2,5 G 0,8 G 3 Rz 6,3", "Rz 6,3 G 2,5 G 0,8 x", "S 2,5 L 0,8 0,8 5 4 Rz 3", "Rz 3,2 S2,5 L0,8 0,8 5", "Rz 3,2 G2,5", "Rz 3,2 G0,8 mm", "Rz 3,2 G 2,5 µm G 0,8 mm 0,8 5 4", "Rz 3,2 Nic 0,8 mm Nis 2,5 µm lsc 0,8 nsc 5", "Rz 3,2 Nic 2,5 Nic 0,8", "Rz 3,2 nsc 5 nsc 3", "Rz 3,2 Sc3 Sc4", "Rz 3,2 Sc9",
	"Rz 0,1234567890123456789012345678901234567890", "Rz 1e400", "Rz", "3,2", "Rz -3", "Rz 0", "Rz 3,,2", "Rz 1.234,5", "Rz 1,234.5", "Rz 1 234,5", "Rz 3,2 µ", "Rz 3,2 km", "Ra 0,8 °", "N7", "N13", "N0", "▽▽", "▽▽▽▽▽",
	"0,5 - 0,25 / R 10", "0,25-0,5 / R 10", "0,5/16/ W 3", "A 2,5 B 0,5 R 10", "R 10 A 0,3", "0,3 // R 10", "R 10 A=0,5 mm B=2,5 mm", "R 10; AR 0,3", "2,5x16 / Wx 3", "-0,5 / AW 1", "R 10 λs 8", "λc 0,8 / Rz 3", "λc 0,33 / Rz 3", "Rz 3 λc 0,02 mm", "Rz 3 λc 0,8 mm λs 1 mm", "Wz 3 λc 0,8 λf 8", "Wz 3 Sc3", "Wz 3 Nis 2,5", "Wa 3 λf 0,1 λc 8",
	"Rz 3,2 16%", "Rz 3,2 T16 %", "Rz 3,2 Tmax", "Rzmax 3,2", "Rz max 3,2 max", "Rz3 6,3", "Rz 3 6,3", "Rz1max 0,8", "Rz 3,2 Tmed", "Rz 3,2 median", "Rz 3,2 max-rule", "Rz 3,2 or Ra 0,8", "Rz 3,2 / Ra 0,8", "Rz 3,2 (Ra 0,8)", "Rz 3,2 and Ra 0,8; U Rz 5", "Rz 3,2 or Rz 6,3 or Ra 1", "turned Rz 3,2", "Rz 3,2 ⟂", "Rz 3,2 M", "Rz 3,2 (turned)", "ground, Ra 0,4 =", "0,5 mm Rz 3,2", "Rz 3,2 x 5",
	"Rmr(0) 80 %", "Rmr 80 %", "Rmr 80", "Rmr(0,5) 80 % L", "Rmr(0,5) 120 %", "tp 40 %", "Rmr c0 5 c1 0,5 80 %", "Mr(2) 40", "Rdc(80;20) 1", "Rpk 0,3 Rk 1 Rvk 2", "Rk 1 0,8", "Rk 1 robust-gaussian", "Rpq 0,1", "Rku 3", "Rsk -0,5", "Rsk 0,5 max", "L Rsk -1,2", "Rdq 5 °", "Rda 10",
	"Rz = 3,2", "Rz <= 3,2", "Rz ≤ 3,2 µm", "Rz >= 1", "1 <= Rz <= 3,2", "3,2 >= Rz", "1 < Rz", "Rz ~ 3,2", "Rz 3,2 ± 0,5", "Rz 3,2 +0,5 -0,2", "Rz 3,2 +0,5/-0,2", "Rz 3,2 ± 10 %", "Rz 3,2 ± 5", "Rz (3,2)", "[Rz 3,2]", "“Rz 3,2”", "Rz 3,2;", ";Rz 3,2", "Rz\t3,2", "\n\nRz 3,2\n\n", "",
}

// Seldom inputs: requirements that cannot be, profiles too short to be measured, gauge studies that are not even, files cut in their middle.
func TestSeldom(t *testing.T) {
	keep(t, "seldom", func(p *page) {
		surfaces := []callout.Surface{{}, {Length: 4000.5, Spacing: 0.5, Ra: 0.4, Rz: 3}, {Length: 5600, RunUp: 0.25}}
		for _, edition := range standards.EditionIDs() {
			for i := 0; i < len(seldomTexts); i += 4 {
				var d digest
				for _, text := range seldomTexts[i:min(i+4, len(seldomTexts))] {
					d.requirement(text, edition, surfaces)
				}
				p.digest(fmt.Sprint("texts ", edition, " ", i+1), &d)
			}
		}
		for i, v := range [][][][]float64{
			{{{1, 2}, {1, 3}}, {{1, 2}}}, {{{1, 2}, {1, 3}}, {{1, 2}, {2}}}, {{{1, 2}, {1, 3}}, {{1, 2}, {2, math.NaN()}}}, {{{1, 2}, {1, math.Inf(1)}}, {{1, 2}, {2, 3}}},
			{{{1, 2}, {1, 3}}, {{1, 2}, {2, 3}}}, {{{1, 2}}, {{1, 2}}}, {{{1}, {2}}, {{1}, {2}}},
		} {
			g, err := decide.StudyGage(v)
			p.sum(fmt.Sprint("gauge ", i+1), g, err)
		}
		for _, g := range []decide.Guard{{Rule: decide.Probability, Standard: 0.1, Chance: 0.5}, {Rule: decide.Probability, Standard: 0.1, Chance: 1}, {Rule: decide.Probability, Standard: 0.1, Chance: 0.999}, {Rule: decide.Probability, Proof: decide.Maker, Standard: 0.1, Chance: 0.501}} {
			var list []any
			for _, tolerance := range []float64{0, 0.2, 1} {
				accept, reject, err := g.Bands(tolerance)
				list = append(list, accept, reject, err)
			}
			p.sum(fmt.Sprint("chance ", g.Chance), list...)
		}
		for i, in := range append([]*params.Input{{Z: []float64{1}, Dx: 1}, {Z: nil, Dx: 1}, {Z: []float64{1, 2}, Dx: 1}, {Z: make([]float64, 50), Dx: 0.5, Section: 10}, {Z: []float64{1, -1, 1, -1, 1, -1, 1, -1}, Dx: 0.5, Section: 3}, {Z: []float64{5, 0, 0, 0, 0, 0, 0, 0, -5}, Dx: 2}}, coarse(2)...) {
			for _, edition := range standards.EditionIDs() {
				var d digest
				for _, letter := range "RPW" {
					for _, c := range params.Defaults(edition, byte(letter)) {
						d.put(params.Evaluate(in, c))
					}
				}
				p.digest(fmt.Sprint("input ", i+1, " ", edition), &d)
			}
		}
		names, files := traceFiles(t)
		for i, name := range names {
			if data := files[name]; len(data) < 40000 {
				var d digest
				for k := 1; k < 6; k++ {
					d.read(data[:len(data)*k/6], nil, 0)
					d.read(data+data[:len(data)*k/6], nil, 0)
				}
				if i%4 == 0 {
					for _, text := range []string{`{"x_column":1,"y_column":1,"z_column":2}`, `{"z_column":1,"x_column":3}`, `{"first":"spacing","spacing":2}`, `{"x_unit":null}`, `{"spacing":0}`, `{"resample":true,"spacing":0.7}`, `{"row":1}`, `{"heights":"matrix","row":99}`} {
						h, err := tracefile.ParseHints([]byte(text))
						if d.put(err); err == nil {
							d.read(data, h, 0)
						}
					}
				}
				p.digest("cut "+name, &d)
			}
		}
	})
}
