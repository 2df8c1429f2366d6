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
		Meanings: []Meaning{
			{[]string{"R", "W"}, "the mean depth of the motifs", Ref{iso12085doc, "3", Excerpt}},
			{[]string{"AR", "AW"}, "the mean length of the motifs", Ref{iso12085doc, "3", Excerpt}},
			{[]string{"Rx", "Wx"}, "the depth of the deepest motif", Ref{iso12085doc, "3", Excerpt}},
			{[]string{"Wte"}, "the height of the upper envelope", Ref{iso12085doc, "3", Memory}},
		},
		Notes: []string{
			"There is no cut-off: the operators A and B limit the length of a roughness and of a waviness motif.",
			"R and AR need at least three motifs.",
		},
	}
}

// motifRows is the table of ISO 12085, 5.2. The spacing is that of ISO 3274 for the same S-filter.
func motifRows() []Row {
	return []Row{
		{Short: 2.5, Section: 640, Sections: 1, Evaluation: 640, MaxSpacing: 0.5, TipRadius: 2, A: 20, B: 100},
		{Short: 2.5, Section: 3200, Sections: 1, Evaluation: 3200, MaxSpacing: 0.5, TipRadius: 2, A: 100, B: 500},
		{Short: 8, Section: 16000, Sections: 1, Evaluation: 16000, MaxSpacing: 1.5, TipRadius: 5, A: 500, B: 2500},
		{Short: 25, Section: 80000, Sections: 1, Evaluation: 80000, MaxSpacing: 5, TipRadius: 10, A: 2500, B: 12500},
	}
}
