package params

// rows is the catalogue, in its order of print: one group of rows per file, each a line here.
var rows = concat(
	heightRows,
	extremeRows,
	spacingRows,
	slopeRows,
	ratioRows,
	coreRows,
	probabilityRows,
	volumeRows,
	spatialRows,
	dominantRows,
	featureRows,
	motifRows,
	envelopeRows,
	tenPointRows,
	olderHeightRows,
	olderSpacingRows,
	bearingRows,
	countRows,
)

// Catalogue returns all parameters, group by group. The slice is the caller's; the rows are shared and must not be changed.
func Catalogue() []Parameter {
	return append([]Parameter(nil), rows...)
}

func concat(groups ...[]Parameter) []Parameter {
	var all []Parameter
	for _, g := range groups {
		all = append(all, g...)
	}
	for i := range all {
		if all[i].Key == "" {
			all[i].Key = all[i].Symbol
		}
	}
	return all
}
