package outputs

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
	"example.com/furrow/standards/decide"
)

var amounts = []float64{0, 1e-9, 0.004, 0.005, 0.0125, 0.02, 0.025, 0.05, 0.0994, 0.0995, 0.1, 0.15, 0.1601, 0.2, 0.4, 0.5, 0.79999, 0.8, 0.801, 0.95, 0.9995, 0.99949, 1, 1.5, 1.6, 2, 2.01, 2.5, 3.15, 3.2, 4, 5, 6.3, 8,
	9.995, 10, 12.5, 15.99, 16, 16.01, 25, 40, 50, 80, 99.95, 100, 200, 400, 800, 1000, 1234.5, 8000, 99999.5, 1e6, 1e9, -0.5, -3.2, -12.5, math.Inf(1), math.NaN()}

func TestStandards(t *testing.T) {
	keep(t, "standards", func(p *page) {
		for _, e := range standards.Editions() {
			var class, symbol, rows digest
			for _, s := range standards.Symbols(e.ID) {
				symbol.put(s)
				for _, unit := range []string{"", "µm", "um", "nm", "mm", "µin", "in", "%", "1/mm", "1/cm", "/cm", "x"} {
					for _, number := range []string{"1", "0,8", "3.20", "1e3", "-2", "1.2.3", "", "0", "1,000.5", "12 000", "½"} {
						v, spelled, ok := standards.ReadNumber(e.ID, s.Name, number, unit)
						symbol.put(v)
						symbol.put(spelled)
						symbol.put(ok)
					}
					b := standards.Bound{Symbol: s.Name, Value: 3.2, Edition: e.ID}
					own, ok := b.ToOwnUnit(3.2, unit)
					symbol.put([]any{b, b.OwnUnit(unit), own, ok, decide.LimitWords(b, "3,2", unit), decide.Show(s.Name, 3.14159, unit, b)})
				}
				symbol.put(s.Is(s.Name))
				for _, step := range e.Steps {
					class.put(step.Serves(s.Name))
				}
			}
			for _, v := range amounts {
				row, ok := e.RowOfLong(v)
				rows.put([]any{row, ok})
				for _, step := range e.Steps {
					i, ok := step.Row(v)
					rows.put([]any{i, ok})
				}
			}
			p.sum("edition "+string(e.ID), e)
			p.digest("symbols "+string(e.ID), &symbol)
			p.digest("columns "+string(e.ID), &class)
			p.digest("rows "+string(e.ID), &rows)
		}
		for _, symbol := range []string{"Ra", "Rz", "Rq", "Rsm", "RSm", "Rk", "Wz", "Pt", "R", "Rsk", "x"} {
			var d digest
			for _, v := range amounts {
				c, err := standards.Class(symbol, v)
				d.put([]any{c, err})
				if err == nil {
					d.put(c.Reason(v))
				}
			}
			p.digest("class "+symbol, &d)
		}
		for i := range 25 {
			p.sum(fmt.Sprint("in words ", i-1), standards.InWords(i-1))
		}
		var d digest
		for _, v := range amounts {
			d.put([]any{standards.Digits(v), standards.Length(v), standards.GradeOf(v), standards.GradeMet(v), standards.RoundDigits(v, 1), standards.RoundDigits(v, 2), standards.RoundDigits(v, 3), standards.RoundDigits(v, 12),
				standards.RoundHalfUp(v, 0), standards.RoundHalfUp(v, 1), standards.RoundHalfUp(v, 2), standards.RoundHalfUp(v, 6), standards.Near(v, 0.8), standards.Near(v, v*(1+1e-9)), standards.Near(v, v*1.001)})
		}
		p.digest("numbers", &d)
		p.sum("grades", standards.Grades(), standards.GradeLimit("N7"), standards.GradeLimit("N13"), standards.EditionNames(standards.EditionIDs()), standards.EditionNames(standards.EditionIDs()[:2]), standards.EditionNames(nil))
		for _, mark := range []string{"▽", "▽▽", "▽▽▽", "▽▽▽▽", "~", "", "∇∇", "▽▽▽▽▽"} {
			p.sum("mark "+mark, standards.TriangleMarks(mark))
		}
		for u := range standards.Units() {
			p.sum("unit "+u.Name, u, slices.Collect(u.Spellings()), u.Own("2,5", standards.Height), u.Own("2.5", standards.Spacing), u.Has(standards.Height), u.Has(standards.Ratio), u.Has(standards.PerLength))
		}
	})
}

// texts are requirements of the trial set.
func texts(t testing.TB) (list []struct{ Text, Edition string }) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "callouts", "callouts.json"))
	if err == nil {
		err = json.Unmarshal(data, &list)
	}
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func (d *digest) requirement(text string, edition standards.EditionID, surfaces []callout.Surface) {
	rs, err := callout.ParseRequirement(text, edition)
	d.put(err)
	var place *callout.TextError
	if errors.As(err, &place) {
		d.text(place.Said())
	}
	if rs == nil {
		return
	}
	d.put(rs)
	for i := range rs.Items {
		item := &rs.Items[i]
		d.put(item.Open("class", "limit", "edition", "long", "short", "unit", "symbol", "profile", "number"))
		for _, s := range surfaces {
			plan, err := callout.Advise(item, s)
			d.put(plan)
			d.put(err)
		}
	}
	for _, q := range rs.Open() {
		for _, a := range q.Answers {
			again, err := callout.ParseRequirement(a.Then, edition)
			d.put(err)
			if again != nil {
				d.put(again.Items)
			}
		}
	}
}

func TestRequirements(t *testing.T) {
	keep(t, "requirements", func(p *page) {
		surfaces := []callout.Surface{{}, {Length: 5000, Spacing: 0.5, Ra: 0.4, Rz: 3}, {Length: 1200, Spacing: 2, Rz: 12, Soft: true, RunUp: 100}, {Length: 12.5e3, Ra: 8, RunUp: 400}}
		list := texts(t)
		for i, c := range list {
			var d, wrong digest
			d.requirement(c.Text, standards.EditionID(c.Edition), surfaces)
			d.put(record.AppendPlan(nil, c.Text, standards.EditionID(c.Edition)))
			p.digest(fmt.Sprint("text ", i+1), &d)
			for _, bad := range spoilt(c.Text, 8, source(i), "0;,./() RzaUL-x\n%µ=<") {
				wrong.requirement(bad, standards.EditionID(c.Edition), nil)
			}
			p.digest(fmt.Sprint("text spoilt ", i+1), &wrong)
		}
		for _, edition := range standards.EditionIDs() {
			var d digest
			for _, c := range list {
				rs, err := callout.ParseRequirement(c.Text, edition)
				d.put(err)
				if rs != nil {
					for i := range rs.Items {
						d.put([]any{rs.Items[i].Symbol, rs.Items[i].Reading(), rs.Items[i].Err(), rs.Items[i].Settings})
					}
				}
			}
			p.digest("all texts in "+string(edition), &d)
		}
	})
}
