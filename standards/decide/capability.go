package decide

import (
	"fmt"
	"math"

	"example.com/furrow/standards"
)

// A Capability is a one-sided index of what a process makes against a limit.
type Capability struct {
	N     int
	Mean  float64
	S     float64
	Index float64 // (U − mean)/(3 s), or (mean − L)/(3 s)
	// IndexLog is the same on the logarithms, for values that are skewed as roughness is; NaN unless all are above 0.
	IndexLog  float64
	LowerEnd  float64 // of the one-sided 95 % confidence interval of Index (approximation by Bissell, 1990; memory)
	Skewness  float64 // of the values
	PreferLog bool    // the logarithms are the less skewed
	Note      string
}

// CapabilityOf returns the one-sided capability index of values against a limit. Roughness is bounded at 0 and skewed,
// so a two-sided index means nothing, and the note says how far the distribution can be trusted.
//
// Source: common practice of process control.
func CapabilityOf(values []float64, b standards.Bound) (Capability, error) {
	c := Capability{N: len(values), IndexLog: math.NaN()}
	for i, v := range values {
		if !finite(v) {
			return c, &ValueError{i, v}
		}
	}
	if c.N < 3 {
		return c, fmt.Errorf("decide: %d values give no capability index: three at least", c.N)
	}
	index := func(values []float64, limit float64) (mean, s, index float64) {
		mean, s = meanOf(values), sampleDeviation(values)
		d := limit - mean
		if b.Side == standards.Lower {
			d = -d
		}
		return mean, s, d / (3 * s)
	}
	c.Mean, c.S, c.Index = index(values, b.Value)
	if !(c.S > 0) {
		return c, fmt.Errorf("decide: %d equal values give no capability index", c.N)
	}
	n := float64(c.N)
	c.LowerEnd = c.Index - float64(normalQuantile(0.95)*math.Sqrt(1/(9*n)+c.Index*c.Index/(2*(n-1))))
	c.Skewness = skewness(values)
	logs := make([]float64, c.N)
	for i, v := range values {
		logs[i] = math.Log(v)
	}
	if _, s, i := index(logs, math.Log(b.Value)); s > 0 && finite(i) {
		c.IndexLog = i
		c.PreferLog = math.Abs(skewness(logs)) < math.Abs(c.Skewness)
	}
	c.Note = "One-sided: roughness is bounded at 0 and usually skewed."
	if c.N < 25 {
		c.Note += fmt.Sprintf(" %d values cannot show a distribution; 25 to 50 are usual.", c.N)
	}
	if limit := 2 * math.Sqrt(6/n); math.Abs(c.Skewness) > limit {
		c.Note += " These values are skewed more than normal ones would be by chance."
		if c.PreferLog {
			c.Note += " Use the index on the logarithms."
		}
	}
	return c, nil
}

// skewness is the third moment over the cube of the standard deviation, both with divisor n.
func skewness(values []float64) float64 {
	m := meanOf(values)
	var two, three float64
	for _, v := range values {
		d := v - m
		two += float64(d * d)
		three += float64(d * d * d)
	}
	n := float64(len(values))
	return three / n / math.Pow(two/n, 1.5)
}

// A GageStudy splits the spread of a crossed study: each operator measures each part as often. All but NDC are standard
// deviations, in the unit of the values.
type GageStudy struct {
	Repeatability   float64 // same operator, same part
	Reproducibility float64 // between operators
	Interaction     float64 // operator and part together; 0 when pooled
	Gage            float64 // the three together
	Parts           float64 // between parts
	Total           float64
	GageShare       float64 // Gage over Total
	NDC             float64 // number of distinct categories: √2 Parts/Gage
	Pooled          bool    // the interaction was not significant (5 %) and was added to the repeatability
	Note            string
}

// StudyGage works out a crossed study, values[part][operator][repeat], by two-way analysis of variance. At least two
// parts, two operators and two repeats are needed, as many repeats everywhere.
//
// A surface cannot be traced twice along the very same line, so part of what is called repeatability is the surface.
//
// Source: common practice of measurement systems analysis.
func StudyGage(values [][][]float64) (GageStudy, error) {
	parts := len(values)
	if parts < 2 || len(values[0]) < 2 || len(values[0][0]) < 2 {
		return GageStudy{}, fmt.Errorf("decide: a gage study needs two parts, two operators and two repeats at least")
	}
	ops, reps := len(values[0]), len(values[0][0])
	grand := 0.0
	partMean, opMean := make([]float64, parts), make([]float64, ops)
	cell := make([][]float64, parts)
	for i := range values {
		if len(values[i]) != ops {
			return GageStudy{}, fmt.Errorf("decide: part %d has %d operators, not %d", i+1, len(values[i]), ops)
		}
		cell[i] = make([]float64, ops)
		for j := range values[i] {
			if len(values[i][j]) != reps {
				return GageStudy{}, fmt.Errorf("decide: part %d, operator %d has %d repeats, not %d", i+1, j+1, len(values[i][j]), reps)
			}
			for k, v := range values[i][j] {
				if !finite(v) {
					return GageStudy{}, &ValueError{(i*ops+j)*reps + k, v}
				}
			}
			m := meanOf(values[i][j])
			cell[i][j] = m
			partMean[i] += m / float64(ops)
			opMean[j] += m / float64(parts)
			grand += m / float64(ops*parts)
		}
	}
	var ssPart, ssOp, ssCell, ssError float64
	square := func(sum *float64, d float64) { *sum += float64(d * d) }
	for i := range values {
		square(&ssPart, partMean[i]-grand)
		for j := range values[i] {
			square(&ssCell, cell[i][j]-partMean[i]-opMean[j]+grand)
			for _, v := range values[i][j] {
				square(&ssError, v-cell[i][j])
			}
		}
	}
	for j := range opMean {
		square(&ssOp, opMean[j]-grand)
	}
	p, o, r := float64(parts), float64(ops), float64(reps)
	ssPart, ssOp, ssCell = ssPart*o*r, ssOp*p*r, float64(ssCell*r)
	dfCell, dfError := float64((p-1)*(o-1)), float64(p*o*(r-1))
	msPart, msOp, msCell, msError := ssPart/(p-1), ssOp/(o-1), ssCell/dfCell, ssError/dfError
	var g GageStudy
	root := func(v float64) float64 { return math.Sqrt(max(v, 0)) }
	if msError > 0 && fTail(msCell/msError, dfCell, dfError) < 0.05 {
		g.Repeatability = root(msError)
		g.Interaction = root((msCell - msError) / r)
		g.Reproducibility = root((msOp - msCell) / (p * r))
		g.Parts = root((msPart - msCell) / (o * r))
	} else {
		g.Pooled = true
		pooled := (ssCell + ssError) / (dfCell + dfError)
		g.Repeatability = root(pooled)
		g.Reproducibility = root((msOp - pooled) / (p * r))
		g.Parts = root((msPart - pooled) / (o * r))
	}
	g.Gage = math.Sqrt(float64(g.Repeatability*g.Repeatability) + float64(g.Reproducibility*g.Reproducibility) + float64(g.Interaction*g.Interaction))
	g.Total = math.Sqrt(float64(g.Gage*g.Gage) + float64(g.Parts*g.Parts))
	g.GageShare, g.NDC = g.Gage/g.Total, math.Sqrt2*g.Parts/g.Gage
	g.Note = "A surface cannot be traced twice along the very same line: part of the repeatability is the surface."
	return g, nil
}

// fTail is the chance that an F distributed number exceeds f.
func fTail(f, d1, d2 float64) float64 { return incompleteBeta(d2/2, d1/2, d2/(d2+float64(d1*f))) }
