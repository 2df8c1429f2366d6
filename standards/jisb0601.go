package standards

// JIS B 0601 in three states. 2013 is ISO 4287 with the ten-point height kept as RzJIS. In 1994 and 1982 Rz is the
// ten-point height itself, and no filter removes the short waves.

func jisB0601y2013() Edition {
	e := iso4287()
	e.ID = JIS2013
	e.Title = "JIS B 0601:2013 with JIS B 0633, B 0651, B 0671 and B 0031"
	e.Replaced = ""
	e.Documents = []string{"JIS B 0601:2013", "JIS B 0633", "JIS B 0651", "JIS B 0671", "JIS B 0031:2003"}
	lengths, instrument := Ref{"JIS B 0633", "", Memory}, Ref{"JIS B 0651", "", Memory}
	e.Columns = columns(lengths, instrument)
	for i := range e.Steps {
		e.Steps[i].Source = lengths
	}
	e.Steps = append(e.Steps, tenPointSteps("RzJIS", Ref{"JIS B 0601:2013", "Annex", Memory}))
	e.Short.Source, e.Long.Source = instrument, instrument
	e.Stratified.Source = Ref{"JIS B 0671", "", Memory}
	e.RuleSource = Ref{"JIS B 0031:2003", "", Excerpt}
	e.Notes = append(e.Notes, "Rz is the maximum height; the ten-point height of the older Japanese standards is RzJIS.")
	return e
}

func jisB0601y1994() Edition {
	return withoutShort(JIS1994, Ref{"JIS B 0601:1994", "", Excerpt}, "gaussian",
		"Rz is the ten-point height; the maximum height is Ry.",
		"No filter removes the short waves; only the tip does.",
		"The value of a surface is the mean over places taken at random.")
}

func jisB0601y1982() Edition {
	return withoutShort(JIS1982, Ref{"JIS B 0601:1982", "", Memory}, "two-rc",
		"Rz is the ten-point height; the maximum height is Rmax.",
		"Ra is the centre-line average behind a 2RC filter, 75 % at the cut-off; later texts call it Ra75.",
		"No filter removes the short waves; only the tip does.")
}

// withoutShort is what the editions of 1994 and 1982 have in common. They name no spacing and no tip for a cut-off;
// those of ISO 3274 stand in as a choice of ours.
func withoutShort(id EditionID, doc Ref, long string, notes ...string) Edition {
	rows := cutoffRows()
	for i := range rows {
		rows[i].Short = 0
	}
	own := Ref{"pairing of ISO 3274:1996", "Table 1", OwnChoice}
	memory := Ref{doc.Doc, "", Memory}
	cols := columns(doc, own)
	cols.Short = doc
	return Edition{
		ID:        id,
		Title:     doc.Doc,
		Documents: []string{doc.Doc},
		Replaced:  "JIS B 0601:2013",
		Default:   rows[2],
		Rows:      rows,
		Columns:   cols,
		Steps: []Steps{
			{By: "Ra", For: []string{"Ra", "Ra75"}, Title: "by Ra", Above: 0.006, UpTo: []float64{0.02, 0.1, 2, 10, 80},
				Source: memory},
			{By: "Ry", For: []string{"Ry", "Rmax"}, Title: "by the maximum height", UpTo: []float64{0.1, 0.5, 10, 50, 200},
				Source: memory},
			tenPointSteps("Rz", memory),
		},
		Long:       FilterKey{Name: long, Source: doc},
		Rule:       Maximum,
		RuleSource: Ref{doc.Doc, "", OwnChoice},
		Notes:      notes,
	}
}

// tenPointSteps are the rows by the ten-point height.
func tenPointSteps(symbol string, source Ref) Steps {
	return Steps{By: symbol, For: []string{symbol}, Title: "by the ten-point height",
		UpTo: []float64{0.1, 0.5, 10, 50, 200}, Source: source}
}
