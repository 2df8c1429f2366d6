package standards

import (
	"errors"
	"fmt"
	"math"
)

// The numbers of ISO 21920-3:2021. No copy of the document was at hand: the contents list names the clauses; the Ra
// and Rz limits with Nic, lsc and le stand in an untitled public table in the symbols of the new standards; the S-filter
// column, spacing and tip are remembered and are the pairing of ISO 3274:1996, Table 1.

const iso21920part3 = "ISO 21920-3:2021"

func iso21920() Edition {
	rows := classRows()
	return Edition{
		ID:         ISO21920,
		Title:      "ISO 21920-1, -2, -3:2021",
		Documents:  []string{"ISO 21920-1:2021", "ISO 21920-2:2021", iso21920part3},
		Default:    rows[2],
		Rows:       rows,
		Columns:    columns(Ref{iso21920part3, "4.4", Excerpt}, Ref{iso21920part3, "4.4", Memory}),
		Steps:      classSteps(),
		FromLimit:  true,
		Short:      FilterKey{Name: "gaussian", Source: Ref{iso21920part3, "4.3", Memory}},
		Long:       FilterKey{Name: "gaussian", Source: Ref{iso21920part3, "4.3", Memory}},
		Stratified: FilterKey{Name: "robust-gaussian", Order: 2, Source: Ref{"ISO 21920-3:2021 with ISO 16610-31", "", Memory}},
		Rule:       Maximum,
		RuleSource: Ref{"ISO 21920-1:2021", "4.2", Excerpt},
		Notes: []string{
			"Settings follow from what the drawing says; they are the same for periodic and other profiles.",
			"The robust Gaussian filter of the Rk family is from memory; we have not seen the standard.",
		},
	}
}

// classRows are the setting classes Sc1 to Sc5. The names are remembered; that classes of this kind exist is seen.
func classRows() []TableRow {
	rows := cutoffRows()
	for i := range rows {
		rows[i].Name = fmt.Sprintf("Sc%d", i+1)
	}
	return rows
}

// cutoffRows is ISO 3274:1996, Table 1, with sections as long as the cut-off and five of them. The editions that share the rows each cite their
// own document: the public table has the cut-offs and lengths under the symbols of ISO 21920-3, and S-filter, spacing and tip are remembered
// to be the same there.
func cutoffRows() []TableRow {
	var rows []TableRow
	for _, r := range [][4]float64{ // long, short, largest spacing, largest tip
		{80, 2.5, 0.5, 2},
		{250, 2.5, 0.5, 2},
		{800, 2.5, 0.5, 2},
		{2500, 8, 1.5, 5},
		{8000, 25, 5, 10},
	} {
		rows = append(rows, TableRow{Long: r[0], Short: r[1], Section: r[0], Sections: 5, Evaluation: 5 * r[0], MaxSpacing: r[2], TipRadius: r[3]})
	}
	return rows
}

// classSteps are the limits of the seven parameters that choose a class. Ra and Rz stand in the public table; the
// others fit a constant factor to Ra and may be a reconstruction, so they carry the mark.
func classSteps() (list []Steps) {
	step := func(symbol string, unconfirmed bool, basis Basis, upTo ...float64) {
		list = append(list, Steps{By: symbol, For: []string{symbol}, Title: "setting class from the limit of " + symbol,
			UpTo: append(upTo, math.Inf(1)), Source: Ref{iso21920part3, "4.4.3", basis}, Unconfirmed: unconfirmed})
	}
	step("Ra", false, Excerpt, 0.02, 0.1, 2, 10)
	step("Rz", false, Excerpt, 0.16, 0.8, 16, 80)
	step("Rq", true, Memory, 0.025, 0.125, 2.5, 12.5)
	step("Rp", true, Memory, 0.06, 0.3, 6, 30)
	step("Rv", true, Memory, 0.1, 0.5, 10, 50)
	step("Rzx", true, Memory, 0.2, 1, 20, 100)
	step("Rt", true, Memory, 0.2, 1, 20, 100)
	return list
}

// ErrNeedClass says that the settings of a parameter do not follow from its limit.
var ErrNeedClass = errors.New("setting class or nesting index needed: no default follows from the limit")

// ClassChoice is a setting class together with the line of the table that chose it.
type ClassChoice struct {
	TableRow
	By          Steps // the table used
	Unconfirmed bool  // the table was remembered, not seen: the class must be shown with that mark
}

// Reason says in words why this class was chosen.
func (c ClassChoice) Reason(limit float64) string {
	text := fmt.Sprintf("%s, from the limit of %s", c.Name, c.By.By)
	i, _ := c.By.Row(limit)
	switch {
	case i == 0:
		text += fmt.Sprintf(" (at most %g µm)", c.By.UpTo[0])
	case math.IsInf(c.By.UpTo[i], 1):
		text += fmt.Sprintf(" (above %g µm)", c.By.UpTo[i-1])
	default:
		text += fmt.Sprintf(" (above %g µm, up to %g µm)", c.By.UpTo[i-1], c.By.UpTo[i])
	}
	if c.Unconfirmed {
		text += "; class from an unconfirmed table: state the class or the cut-off"
	}
	return text
}

// Class returns the setting class of ISO 21920-3 for an upper limit of symbol, in micrometres.
//
// Only Ra, Rq, Rz, Rp, Rv, Rzx and Rt have a class that follows from the limit; for Ra and Rz the table was seen, for
// the others the choice is marked unconfirmed. The error says what the drawing has to state otherwise.
func Class(symbol string, limit float64) (ClassChoice, error) {
	if !(limit > 0) || math.IsInf(limit, 0) {
		return ClassChoice{}, fmt.Errorf("standards: no setting class for a limit of %g", limit)
	}
	for _, s := range classSteps() {
		if s.By == symbol {
			i, _ := s.Row(limit)
			return ClassChoice{TableRow: classRows()[i], By: s, Unconfirmed: s.Unconfirmed}, nil
		}
	}
	return ClassChoice{}, fmt.Errorf("standards: %s: %w", symbol, ErrNeedClass)
}
