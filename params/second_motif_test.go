package params_test

import (
	"math"
	"slices"

	"example.com/furrow/params"
)

// A plainMotif is two peaks and the pit between them, as places and heights.
type plainMotif struct{ x1, z1, pit, x2, z2 float64 }

func (m plainMotif) depth() float64 { return min(m.z1, m.z2) - m.pit }

// joined are all motifs: peaks that rise 5 % of the mean height of windows of a/2 above their pits, joined up to the width a.
func (s plainly) joined(a float64) (list []plainMotif) {
	window := int(math.Round(min(a/2/s.dx, float64(len(s.z)))))
	sum, count := 0.0, 0.0
	for i := 0; i+window <= len(s.z); i += window {
		sum += total(plainly{z: s.z[i : i+window]})
		count++
	}
	var all []params.Extreme
	for i := 1; i+1 < len(s.z); i++ {
		if before, after := s.z[i]-s.z[i-1], s.z[i]-s.z[i+1]; before*after > 0 {
			all = append(all, params.Extreme{At: float64(i), Z: s.z[i], Peak: before > 0})
		}
	}
	all = pruneNaively(all, 0.05*sum/count)
	for i := 0; i+2 < len(all); i++ {
		if all[i].Peak {
			list = append(list, plainMotif{all[i].At * s.dx, all[i].Z, all[i+1].Z, all[i+2].At * s.dx, all[i+2].Z})
		}
	}
	return join(list, a)
}

// join joins motifs from left to right until nothing changes.
func join(list []plainMotif, a float64) []plainMotif {
	for changed := true; changed; {
		changed = false
		for i := 0; i+1 < len(list); {
			p, q := list[i], list[i+1]
			both := plainMotif{p.x1, p.z1, min(p.pit, q.pit), q.x2, q.z2}
			envelope := p.z2 <= p.z1 || p.z2 <= q.z2
			width := both.x2-both.x1 <= a*(1+1e-12)
			larger := both.depth() >= max(p.depth(), q.depth())*(1-1e-12)
			shallow := min(p.z2-p.pit, p.z2-q.pit) < 0.6*both.depth()
			if !(envelope && width && larger && shallow) {
				i++
				continue
			}
			list[i] = both
			list = slices.Delete(list, i+1, i+2)
			changed = true
		}
	}
	return list
}

// narrow are the motifs up to the width a.
func narrow(list []plainMotif, a float64) []plainMotif {
	return slices.DeleteFunc(list, func(m plainMotif) bool { return m.x2-m.x1 > a*(1+1e-12) })
}

func (s plainly) roughnessMotifs(a float64) []plainMotif { return narrow(s.joined(a), a) }

func (s plainly) motifDepths() (v []float64) {
	for _, m := range s.roughnessMotifs(s.args[0]) {
		v = append(v, m.z1-m.pit, m.z2-m.pit)
	}
	return v
}

func (s plainly) motifWidths() (v []float64) {
	for _, m := range s.roughnessMotifs(s.args[0]) {
		v = append(v, m.x2-m.x1)
	}
	return v
}

func init() {
	secondOf["R"] = func(s plainly, _ bool) float64 { return average(s.motifDepths()) }
	secondOf["AR"] = func(s plainly, _ bool) float64 { return average(s.motifWidths()) }
	secondOf["Rx"] = func(s plainly, _ bool) float64 { return slices.Max(s.motifDepths()) }
	secondOf["Nr"] = func(s plainly, _ bool) float64 { return float64(len(s.motifWidths())) }
	secondOf["SR"] = func(s plainly, _ bool) float64 { return deviation(s.motifDepths()) }
	secondOf["SAR"] = func(s plainly, _ bool) float64 { return deviation(s.motifWidths()) }
	// About the least-squares line of each section, found by the normal equations.
	secondOf["Rz1982"] = func(s plainly, _ bool) float64 {
		return s.by(func(s plainly) float64 {
			var sx, sz, sxx, sxz, m float64
			for i, v := range s.z {
				x := float64(i)
				sx, sz, sxx, sxz, m = sx+x, sz+v, sxx+x*x, sxz+x*v, m+1
			}
			slope := (m*sxz - sx*sz) / (m*sxx - sx*sx)
			flat := make([]float64, len(s.z))
			for i, v := range s.z {
				flat[i] = v - (sz-slope*sx)/m - slope*float64(i)
			}
			return plainly{z: flat}.tenPoint()
		})
	}
}
