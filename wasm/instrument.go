package main

import (
	"context"
	"encoding/json"
	"errors"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

type instrumentRequest struct {
	Check    string             `json:"check"` // one of those of checks
	Traces   []tracePart        `json:"traces"`
	Settings json.RawMessage    `json:"settings"` // absent: the defaults
	Session  instrument.Session `json:"session"`

	Specimen  instrument.Specimen `json:"specimen"` // of specimen, and of groove where it has a certificate
	Tolerance *struct {
		Absolute float64 `json:"absolute"` // µm
		Share    float64 `json:"share"`
	} `json:"tolerance"` // absent: that for calibration

	Limits  string              `json:"limits"`  // of a flat: "Rz <= 3.2"
	Edition standards.EditionID `json:"edition"` // of the limits

	Symbol string      `json:"symbol"` // of a budget
	Budget budgetKnown `json:"budget"`

	Depth   json.RawMessage      `json:"depth"` // documents of the two checks that tell of the tip
	Fine    json.RawMessage      `json:"fine"`
	Earlier []instrument.Earlier `json:"earlier"`
}

// A tracePart is one of the traces whose heights come one behind the other in the array.
type tracePart struct {
	Points  int     `json:"points"`
	Spacing float64 `json:"spacing"`
	Name    string  `json:"name"`
}

// budgetKnown is what a person states for a budget; 0 is not stated.
type budgetKnown struct {
	Certificate  float64 `json:"certificate"`
	CertificateU float64 `json:"certificateU"`
	CertificateK float64 `json:"certificateK"`
	Repeat       float64 `json:"repeat"`
	Repeats      int     `json:"repeats"`
	Drift        float64 `json:"drift"`   // share
	Noise        float64 `json:"noise"`   // Rq, µm
	Tip          float64 `json:"tip"`     // µm
	Spacing      bool    `json:"spacing"` // whether it counts
	Cutoffs      float64 `json:"cutoffs"` // share
	Travel       float64 `json:"travel"`  // share
}

func (b budgetKnown) input() instrument.BudgetInput {
	return instrument.BudgetInput{
		TextureInput: decide.TextureInput{CertificateValue: b.Certificate, CertificateU: b.CertificateU, CertificateK: b.CertificateK,
			SpecimenS: b.Repeat, SpecimenN: b.Repeats, DriftShare: b.Drift},
		NoiseRq: b.Noise, TipTolerance: b.Tip, Spacing: b.Spacing, CutoffShare: b.Cutoffs, TravelShare: b.Travel,
	}
}

// checks make a check of the instrument on traces.
var checks = map[string]func(m *module, req *instrumentRequest, traces []roughness.Profile, set *roughness.Settings) (*instrument.Check, error){
	"specimen": checkSpecimen,
	"flat":     checkFlat,
	"groove":   checkGroove,
	"budget":   makeBudget,
}

// instrument answers whether an instrument may be believed today, with the document of the command; tip and course say what two checks tell of
// the tip, and what earlier ones show.
func (m *module) instrument(req *instrumentRequest, data []byte) (any, error) {
	switch req.Check {
	case "tip":
		return tipHints(req)
	case "course":
		return map[string]string{"sentence": instrument.Course(req.Earlier)}, nil
	}
	check, ok := checks[req.Check]
	if !ok {
		return nil, requestf("no check is called %q", req.Check)
	}
	z, err := heights(data)
	if err != nil {
		return nil, err
	}
	var traces []roughness.Profile
	for _, t := range req.Traces {
		if t.Points < 0 || t.Points > len(z) {
			return nil, requestf("the traces have more points than there are heights")
		}
		traces = append(traces, roughness.Profile{Z: z[:t.Points:t.Points], Spacing: t.Spacing, Name: t.Name})
		z = z[t.Points:]
	}
	if len(z) > 0 {
		return nil, requestf("there are %d more heights than points of the traces", len(z))
	}
	var set *roughness.Settings
	if len(req.Settings) > 0 && string(req.Settings) != "null" {
		if set, err = record.ParseSettings(req.Settings); err != nil {
			return nil, err
		}
	}
	c, err := check(m, req, traces, set)
	if err != nil {
		return nil, checkFault(err)
	}
	m.checked = c
	return record.AppendCheck(nil, c), nil
}

// checkFault tells what of the certificate, the budget or the limits cannot be used.
func checkFault(err error) error {
	for key, sentinel := range map[string]error{"specimen": instrument.ErrSpecimen, "budget": decide.ErrBudget} {
		if errors.Is(err, sentinel) {
			return &fault{Kind: kindSettings, Key: key, Message: err.Error()}
		}
	}
	return err
}

func (req *instrumentRequest) allowance() instrument.Allowance {
	if t := req.Tolerance; t != nil {
		a := instrument.AgreedAllowance(t.Share)
		a.Absolute = t.Absolute
		return a
	}
	return instrument.CalibrationAllowance(req.Specimen)
}

func checkSpecimen(_ *module, req *instrumentRequest, traces []roughness.Profile, set *roughness.Settings) (*instrument.Check, error) {
	c, err := instrument.CheckSpecimen(context.Background(), traces, set, req.Specimen, req.allowance(), req.Session)
	if err != nil {
		return nil, err
	}
	return c.Check(), nil
}

func checkFlat(_ *module, req *instrumentRequest, traces []roughness.Profile, set *roughness.Settings) (*instrument.Check, error) {
	var limits []standards.Bound
	if req.Limits != "" {
		var err error
		if limits, err = judge.ParseLimits(req.Limits, req.Edition); err != nil {
			return nil, &fault{Kind: kindSettings, Key: "limits", Message: err.Error()}
		}
	}
	n, err := instrument.CheckNoise(context.Background(), traces, set, limits, req.Session)
	if err != nil {
		return nil, err
	}
	return n.Check(), nil
}

func checkGroove(m *module, req *instrumentRequest, traces []roughness.Profile, _ *roughness.Settings) (*instrument.Check, error) {
	req.Specimen.Type = "A1"
	m.grooves, m.grooveOf = traces, req.Specimen
	return instrument.CheckGroove(context.Background(), traces, req.Specimen, req.allowance(), req.Session)
}

func makeBudget(m *module, req *instrumentRequest, traces []roughness.Profile, set *roughness.Settings) (*instrument.Check, error) {
	if len(traces) == 0 {
		return nil, requestf("a budget needs a trace")
	}
	in := req.Budget.input()
	in.Others = traces[1:]
	b, err := instrument.BudgetOn(context.Background(), traces[0], set, req.Symbol, in)
	if err != nil {
		return nil, err
	}
	m.budget = b
	return b.Check(req.Session), nil
}

func tipHints(req *instrumentRequest) (any, error) {
	var pair [2]*instrument.Check
	for i, text := range []json.RawMessage{req.Depth, req.Fine} {
		c, err := record.ParseCheck(text)
		if err != nil {
			return nil, requestf("%v", err)
		}
		pair[i] = c
	}
	hints := instrument.TipHints(pair[0], pair[1])
	if hints == nil {
		hints = []string{}
	}
	return map[string][]string{"hints": hints}, nil
}
