package params

// What the tests of motifs and of the dominant wave look at from outside.
type Motif = motif

var (
	Combine         = combine
	FindMotifs      = findMotifs
	DominantProfile = dominantProfile
)
