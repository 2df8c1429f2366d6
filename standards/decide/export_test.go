package decide

// The quantiles are held against another library in the external tests.
var (
	NormalCDF, NormalQuantile   = normalCDF, normalQuantile
	StudentCDF, StudentQuantile = studentCDF, studentQuantile
	FTail, GrubbsCritical       = fTail, grubbs
	Besides                     = besides
)
