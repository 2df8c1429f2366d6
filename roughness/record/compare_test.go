package record_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// document checks a document against its schema, that it carries the caution, and that a key which the schema does not name is refused.
func document(t *testing.T, name, schema string, text []byte) map[string]any {
	t.Helper()
	var v map[string]any
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatalf("%s: %v\n%s", name, err, text)
	}
	if err := validate(schema, text); err != nil {
		t.Errorf("%s: %v\n%s", name, err, text)
	}
	if v["caution"] != standards.Caution {
		t.Errorf("%s: caution %v", name, v["caution"])
	}
	if more := []byte(`{"more": 1, ` + string(text[1:])); validate(schema, more) == nil {
		t.Errorf("%s: the schema takes any key", name)
	}
	return v
}

func TestSharesDocument(t *testing.T) {
	a, b := &roughness.Settings{Parameters: []string{"Rz"}}, &roughness.Settings{Sections: 3, Short: roughness.Band{Off: true}}
	l, err := compare.Explain(t.Context(), demo(), a, b, "Rz")
	v := document(t, "shares", record.SharesSchema, record.AppendShares(nil, "Rz", l, err))
	sum := 0.0
	for _, c := range v["changes"].([]any) {
		sum += c.(map[string]any)["share"].(float64)
	}
	if whole := v["b"].(float64) - v["a"].(float64); math.Abs(sum-whole) > 1e-9 || whole == 0 {
		t.Errorf("shares add up to %g, the difference is %g", sum, whole)
	}
	v = document(t, "no shares", record.SharesSchema, record.AppendShares(nil, "Rz", nil, errors.New("compare: too many")))
	if v["reason"] != "too many" || v["a"] != nil {
		t.Errorf("%v", v)
	}
}

func TestFindingDocument(t *testing.T) {
	p := roughness.Profile{Z: demo().Z[:4200], Spacing: 0.5}
	for text, outcome := range map[string]string{"Ra 99.0": "none", "Ra 0.4": "many"} {
		printed, err := compare.ParsePrinted(text)
		if err != nil {
			t.Fatal(err)
		}
		f, err := compare.Find(t.Context(), p, printed, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		v := document(t, text, record.FindingSchema, record.AppendFinding(nil, f, 10))
		list := v["fits"].([]any)
		if outcome == "none" {
			list = v["nearest"].([]any)
		}
		if v["outcome"] != outcome && v["outcome"] != "same" || len(list) == 0 || len(list) > 10 {
			t.Errorf("%s: %v, %d fits", text, v["outcome"], len(list))
			continue
		}
		settings, err := json.Marshal(list[0].(map[string]any)["settings"])
		if err != nil {
			t.Fatal(err)
		}
		s, err := record.ParseSettings(settings)
		if err != nil {
			t.Fatal(err)
		}
		e, err := roughness.Evaluate(p, s)
		if err != nil || math.Abs(e.Values[0].Value-list[0].(map[string]any)["values"].([]any)[0].(map[string]any)["value"].(float64)) > 1e-12 {
			t.Errorf("%s: the settings give %v, %v", text, e.Values[0], err)
		}
	}
}

func TestEditionsDocument(t *testing.T) {
	for _, text := range []string{"Rz 3,2; Ra 0,8", "-0,8/Ra3 1,6", "Rk 1,5"} {
		e, err := compare.ByEdition(demo(), text, "iso-4287", "iso-21920", nil)
		if err != nil {
			t.Fatal(err)
		}
		v := document(t, text, record.EditionsSchema, record.AppendEditions(nil, e))
		for _, r := range v["readings"].([]any) {
			r := r.(map[string]any)
			plan, err := json.Marshal(r["plan"])
			if err == nil {
				err = validate(record.PlanSchema, plan)
			}
			if err != nil {
				t.Errorf("%s, %v: %v", text, r["edition"], err)
			}
			if r["verdict"] == nil {
				continue
			}
			verdict, err := json.Marshal(r["verdict"])
			if err == nil {
				err = validate(record.VerdictSchema, verdict)
			}
			if err != nil {
				t.Errorf("%s, %v: %v", text, r["edition"], err)
			}
		}
	}
}

func TestSteadinessDocument(t *testing.T) {
	list, err := compare.Steady(t.Context(), demo(), &roughness.Settings{Parameters: []string{"Ra", "Rz"}})
	if err != nil {
		t.Fatal(err)
	}
	v := document(t, "steadiness", record.SteadinessSchema, record.AppendSteadiness(nil, list, nil))
	if rz := v["values"].([]any)[1].(map[string]any); rz["digits"] != 2.0 || rz["most"] == nil || !strings.Contains(rz["sentence"].(string), "2 digits") {
		t.Errorf("%v", rz)
	}
}

func TestNoSteadinessDocument(t *testing.T) {
	_, err := compare.Steady(t.Context(), roughness.Profile{Z: make([]float64, 30), Spacing: 1}, nil)
	if v := document(t, "no steadiness", record.SteadinessSchema, record.AppendSteadiness(nil, nil, err)); err == nil || len(v["values"].([]any)) != 0 || v["reason"] == nil {
		t.Errorf("%v, %v", v, err)
	}
}

func TestCheckDocuments(t *testing.T) {
	p := demo()
	raised := func(by float64) roughness.Profile {
		other := demo()
		for i := range other.Z {
			other.Z[i] += by
		}
		return other
	}
	specimen, err := instrument.CheckSpecimen(t.Context(), []roughness.Profile{p, raised(0.125), raised(0.25)}, nil, instrument.Specimen{Symbol: "Ra", Value: 0.43, Expanded: 0.01},
		instrument.Allowance{Share: 0.01}, instrument.Session{Date: "2026-03-02", Operator: "M", Instrument: "S 1"})
	if err != nil {
		t.Fatal(err)
	}
	v := document(t, "specimen", record.CheckSchema, record.AppendCheck(nil, specimen.Check()))
	if v["word"] != "outside" || v["gain"] == nil || v["date"] != "2026-03-02" {
		t.Errorf("%v", v)
	}
	for _, c := range []*instrument.Check{specimen.Check(), {Kind: "budget", Values: []float64{}}} {
		text := record.AppendCheck(nil, c)
		back, err := record.ParseCheck(text)
		if err != nil || string(record.AppendCheck(nil, back)) != string(text) {
			t.Errorf("%v: read back as\n%s", err, record.AppendCheck(nil, back))
		}
	}
	for _, text := range []string{"", "{}", `{"furrow_check": 2, "kind": "flat"}`, `{"furrow_check": 1, "kind": "flat", "more": 1}`} {
		if _, err := record.ParseCheck([]byte(text)); err == nil {
			t.Errorf("%s is read as a check", text)
		}
	}
	flat, err := instrument.CheckNoise(t.Context(), []roughness.Profile{p}, nil, nil, instrument.Session{})
	if err != nil {
		t.Fatal(err)
	}
	if v := document(t, "flat", record.CheckSchema, record.AppendCheck(nil, flat.Check())); v["word"] != "open" || v["gain"] != nil {
		t.Errorf("%v", v)
	}
	budget, err := instrument.BudgetOn(t.Context(), p, nil, "Rz", instrument.BudgetInput{NoiseRq: 0.01, CutoffShare: 0.02})
	if err != nil {
		t.Fatal(err)
	}
	v = document(t, "budget", record.CheckSchema, record.AppendCheck(nil, budget.Check(instrument.Session{})))
	sum := 0.0
	for _, l := range v["lines"].([]any) {
		if share, ok := l.(map[string]any)["share"].(float64); ok {
			sum += share
		}
	}
	if v["word"] != nil || math.Abs(sum-1) > 1e-9 {
		t.Errorf("word %v, shares %g", v["word"], sum)
	}
	groove, err := instrument.CheckGroove(t.Context(), []roughness.Profile{p}, instrument.Specimen{}, instrument.Allowance{}, instrument.Session{})
	if err != nil {
		t.Fatal(err)
	}
	document(t, "groove", record.CheckSchema, record.AppendCheck(nil, groove))
}
