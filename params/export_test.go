package params

// What the tests of motifs and of the dominant wave look at from outside.
type Motif = motif

var (
	Combine         = combine
	FindMotifs      = findMotifs
	DominantProfile = dominantProfile
)

// Autocorrelation returns the autocorrelation function of z.
func Autocorrelation(z []float64) []float64 { return newWork(&Input{Z: z}).correlation() }
