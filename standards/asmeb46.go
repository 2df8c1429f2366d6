package standards

import "math"

// ASME B46.1. The two tables of cut-offs were seen in neutral copies; S-filter, tip and spacing are remembered as the
// pairs of ISO 3274.

const asmeB46doc = "ASME B46.1"

func asmeB46() Edition {
	rows := cutoffRows()
	lengths := Ref{asmeB46doc, "", Excerpt}
	pairs := Ref{asmeB46doc, "", Memory}
	return Edition{
		ID:        ASMEB46,
		Title:     "ASME B46.1 with ASME Y14.36",
		Documents: []string{asmeB46doc, "ASME Y14.36"},
		Default:   rows[2],
		Rows:      rows,
		Columns:   columns(lengths, pairs),
		Steps: []Steps{
			{By: "Ra", For: []string{"Ra", "Rq", "Rz", "Rp", "Rv", "Rt", "Rmax", "Rsk", "Rku", "RΔq"},
				Title: "non-periodic profiles, by Ra", UpTo: []float64{0.02, 0.1, 2, 10, math.Inf(1)}, Source: lengths},
			{By: "RSm", For: []string{"RSm"}, Title: "periodic profiles, by mean spacing",
				Above: 13, UpTo: []float64{40, 130, 400, 1300, 4000}, Source: lengths},
		},
		Short:      FilterKey{Name: "gaussian", Source: Ref{asmeB46doc, "", Memory}},
		Long:       FilterKey{Name: "gaussian", Source: Ref{"ASME B46.1-2009", "1-1", Excerpt}},
		Stratified: FilterKey{Name: "valley-suppression", Source: Ref{asmeB46doc, "", Memory}},
		Rule:       Maximum,
		RuleSource: Ref{asmeB46doc, "", Memory},
		Notes: []string{
			"A bare number is Ra, read as a maximum; inch drawings give microinches, metric ones micrometres.",
			"Older drawings and instruments may mean the 2RC filter (75 % at the cut-off, with a phase shift).",
		},
	}
}
