package filter

import "fmt"

// A Skid shows what an instrument with a skid would have shown of a profile: the height of the stylus above that of a skid
// that rides on the surface itself. It is a teaching aid, not a filter to evaluate with: it explains why old and simple
// instruments print other values.
//
//	shown(x) = z(x) - s(x + Lead),  s = path of the lowest point of a disk of the skid's radius on the profile
//
// Of a sine of amplitude A that the skid follows, it shows the amplitude 2·A·|sin(π·Lead/λ)|: nothing at all where the lead is a
// whole number of waves, the double at half a wave.
//
// Source: common practice; the amplitude is derived.
type Skid struct {
	Radius float64
	Lead   float64 // how far ahead of the stylus the skid rides; negative for a skid behind
}

// Shown returns what is shown where both skid and stylus are on the profile; from is the index of its first point. Between two
// samples the path of the skid is interpolated.
func (s Skid) Shown(z []float64, dx float64) (shown []float64, from int, err error) {
	path, err := shaped(nil, z, dx, s.Radius, disk, func(b element, dst []float64) { b.over(dst, z) })
	if err != nil {
		return nil, 0, err
	}
	if !(s.Lead >= -huge && s.Lead <= huge) {
		return nil, 0, fmt.Errorf("filter: lead %v of the skid: %w", s.Lead, ErrOption)
	}
	lead := max(-1<<30, min(s.Lead/dx, 1<<30))
	whole := int(lead)
	if float64(whole) > lead {
		whole--
	}
	part := lead - float64(whole)
	between := part > 1e-9
	from = max(0, -whole)
	to := len(z) - whole
	if between { // which takes two points of the path
		to--
	}
	to = min(to, len(z))
	if from >= to {
		return nil, 0, fmt.Errorf("filter: skid leads by %v on a profile of %d points: %w", s.Lead, len(z), ErrTooShort)
	}
	shown = make([]float64, to-from)
	for i := range shown {
		j := from + i + whole
		p := path[j]
		if between {
			p += float64(part * (path[j+1] - path[j]))
		}
		shown[i] = z[from+i] - p
	}
	return shown, from, nil
}
