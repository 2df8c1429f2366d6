package standards

// ISO 4287:1997 and its companions: ISO 4288:1996 (which cut-off), ISO 3274:1996 (what goes with it), ISO 13565-1:1996
// (the Rk family) and ISO 1302:2002 (the text on the drawing). The three tables of ISO 4288 are remembered and their
// steps agree with neutral copies of the ASME B46.1 tables and a textbook's; the table of ISO 3274 was seen in copies.

const (
	iso4288  = "ISO 4288:1996"
	iso3274  = "ISO 3274:1996"
	iso13565 = "ISO 13565-1:1996"
	iso1302  = "ISO 1302:2002"
)

func iso4287() Edition {
	rows := cutoffRows()
	return Edition{
		ID:         ISO4287,
		Title:      "ISO 4287:1997 with ISO 4288, ISO 3274, ISO 13565 and ISO 1302:2002",
		Replaced:   "ISO 21920-1, -2, -3:2021",
		Documents:  []string{"ISO 4287:1997", iso4288, iso3274, iso13565, "ISO 13565-2:1996", "ISO 13565-3:1998", iso1302},
		Default:    rows[2],
		Rows:       rows,
		Columns:    columns(Ref{iso4288, "7", Excerpt}, Ref{iso3274, "Table 1", Excerpt}),
		Steps:      iso4288Steps(),
		Short:      FilterKey{Name: "gaussian", Source: Ref{iso3274, "Table 1", Excerpt}},
		Long:       FilterKey{Name: "gaussian", Source: Ref{iso3274, "", Excerpt}},
		Stratified: FilterKey{Name: "valley-suppression", Source: Ref{iso13565, "", Memory}},
		Rule:       SixteenPercent,
		RuleSource: Ref{iso1302, "6.4", Excerpt},
		Notes: []string{
			"The measured value chooses the cut-off; a limit is no more than a first estimate of it.",
			"Rk, Rpk, Rvk, Mr1 and Mr2 take the filter of ISO 13565-1, with 0.8 mm unless 2.5 mm is stated.",
		},
	}
}

// iso4288Steps are Tables 1, 2 and 3 of ISO 4288:1996, in this order.
func iso4288Steps() []Steps {
	return []Steps{
		{By: "Ra", For: []string{"Ra", "Rq", "Rsk", "Rku", "RΔq"}, Title: "Table 1, non-periodic profiles, by Ra",
			Above: 0.006, UpTo: []float64{0.02, 0.1, 2, 10, 80}, Source: Ref{iso4288, "7, Table 1", Excerpt}},
		{By: "Rz", For: []string{"Rz", "Rv", "Rp", "Rc", "Rt", "Rz1max"}, Title: "Table 2, non-periodic profiles, by Rz",
			Above: 0.025, UpTo: []float64{0.1, 0.5, 10, 50, 200}, Source: Ref{iso4288, "7, Table 2", Excerpt}},
		{By: "RSm", For: []string{"RSm"}, Title: "Table 3, periodic profiles, and RSm on any profile, by RSm",
			Above: 13, UpTo: []float64{40, 130, 400, 1300, 4000}, Source: Ref{iso4288, "7, Table 3", Excerpt}},
	}
}
