package decide

import "fmt"

// A Characteristic says how an acceptance plan treats a surface.
type Characteristic struct {
	Accept float64 // the chance that the surface is accepted
	Traces float64 // how many traces it takes on average
}

// SixteenCharacteristic returns the operating characteristic of the plan of 1, 3, 6 and 12 values, exactly, for
// values that do not depend on each other: above is the share of values above the limit, small the share of values of
// at most 70 % of it, which end the plan at the first value. small 0 is the plan without that step, as for a lower limit.
func SixteenCharacteristic(above, small float64) (Characteristic, error) {
	if !(above >= 0) || !(small >= 0) || !(above+small <= 1) {
		return Characteristic{}, fmt.Errorf("decide: shares of %g above the limit and %g below 70 %% of it are not possible", above, small)
	}
	most := plan[len(plan)-1].allowed
	c := Characteristic{Accept: small, Traces: small}
	at := make([]float64, most+1) // chance of going on with so many values above
	at[0], at[1] = 1-above-small, above
	for n := 2; n <= plan[len(plan)-1].values; n++ {
		next := make([]float64, most+1)
		for over, p := range at {
			next[over] += float64(p * (1 - above))
			if over < most {
				next[over+1] += float64(p * above)
			} else {
				c.Traces += float64(float64(n) * p * above) // a third value above ends it
			}
		}
		for _, step := range plan {
			if n != step.values {
				continue
			}
			for over := 0; over <= step.allowed; over++ {
				c.Accept += next[over]
				c.Traces += float64(float64(n) * next[over])
				next[over] = 0
			}
		}
		at = next
	}
	return c, nil
}
