package params

// rowAlone evaluates one row of a group by itself: what the exported function of its key is.
func rowAlone(group []Parameter, key string, in Input, args ...float64) float64 {
	for i := range group {
		if p := &group[i]; p.Key == key {
			if p.eval == nil {
				return alone(in, p.Meanings[0].eval, args...)
			}
			return alone(in, p.eval, args...)
		}
	}
	panic("params: no row " + key)
}
