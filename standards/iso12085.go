package standards

// ISO 12085:1996, the motif method. The default evaluation length of 16 mm was seen; the table of operators is
// remembered and agrees with the defaults that ISO 1302 writes.

const iso12085doc = "ISO 12085:1996"

func iso12085() Edition {
	rows := motifRows()
	table := Ref{iso12085doc, "5.2", Memory}
	return Edition{
		ID:        ISO12085,
		Title:     "ISO 12085:1996 (motifs) with ISO 1302:2002",
		Documents: []string{iso12085doc, iso3274, iso1302},
		Default:   rows[2],
		Rows:      rows,
		Columns: Columns{Long: table, Short: table, Section: table, Sections: table,
			Evaluation: Ref{iso1302, "6.3.3", Excerpt}, MaxSpacing: Ref{iso3274, "Table 1", Excerpt}, TipRadius: table},
		Short:      FilterKey{Name: "gaussian", Source: Ref{iso3274, "", Excerpt}},
		Rule:       SixteenPercent,
		RuleSource: Ref{iso12085doc, "5.4", Excerpt},
		Notes: []string{
			"There is no cut-off: the operators A and B limit the length of a roughness and of a waviness motif.",
			"R and AR need at least three motifs.",
		},
	}
}

// motifRows is the table of ISO 12085, 5.2. The spacing is that of ISO 3274 for the same S-filter.
func motifRows() []TableRow {
	var rows []TableRow
	for _, r := range [][5]float64{ // A, evaluation length, short, largest spacing, largest tip
		{20, 640, 2.5, 0.5, 2},
		{100, 3200, 2.5, 0.5, 2},
		{500, 16000, 8, 1.5, 5},
		{2500, 80000, 25, 5, 10},
	} {
		rows = append(rows, TableRow{Short: r[2], Section: r[1], Sections: 1, Evaluation: r[1], MaxSpacing: r[3], TipRadius: r[4], A: r[0], B: 5 * r[0]})
	}
	return rows
}
