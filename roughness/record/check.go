package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"

	"example.com/furrow/roughness/instrument"
	"example.com/furrow/standards"
)

// AppendCheck appends the check of an instrument as a JSON document. See check.schema.json.
func AppendCheck(b []byte, c *instrument.Check) []byte {
	gain, proposal, held := any(nil), any(nil), any(nil)
	if g := c.Gain; g != nil {
		gain, proposal = g.Factor, line("before", g.Before, "factor", g.Factor, "low", g.Low, "high", g.High, "change", g.Change, "text", g.Text)
	}
	if h := c.Held; h != nil {
		held = line("certificate", h.Certificate, "deviation", h.Deviation, "allowed", h.Allowed)
	}
	s := &c.Session
	w := shape(b, "furrow_check")
	w.put("kind", c.Kind, "date", orNull(s.Date), "word", orNull(c.Word), "sentence", c.Sentence, "symbol", c.Symbol, "unit", c.Unit, "values", c.Values,
		"gain", gain, "proposal", proposal, "held", held, "lines", list(c.Lines, "", func(l instrument.CheckLine) any {
			return line("name", l.Name, "value", l.Value, "unit", l.Unit, "share", l.Share, "source", l.Source.String(), "basis", l.Source.Basis)
		}), "settings", c.Settings, "notes", c.Notes, "instrument", orNull(s.Instrument), "operator", orNull(s.Operator))
	return w.end()
}

// ParseCheck reads what AppendCheck wrote, strictly; what is calculated from it is taken as it stands.
func ParseCheck(text []byte) (*instrument.Check, error) {
	var d struct {
		Version int                  `json:"furrow_check"`
		Kind    string               `json:"kind"`
		Date    string               `json:"date"`
		Word    instrument.CheckWord `json:"word"`
		Symbol  string               `json:"symbol"`
		Unit    string               `json:"unit"`
		Text    string               `json:"sentence"`
		Values  []float64            `json:"values"`
		Gain    *float64             `json:"gain"`
		Held    *instrument.Held     `json:"held"`
		Lines   []struct {
			Name   string   `json:"name"`
			Value  *float64 `json:"value"`
			Unit   string   `json:"unit"`
			Share  *float64 `json:"share"`
			Source string   `json:"source"`
			Basis  string   `json:"basis"`
		} `json:"lines"`
		Proposal   *instrument.GainProposal `json:"proposal"`
		Settings   []string                 `json:"settings"`
		Notes      []string                 `json:"notes"`
		Instrument string                   `json:"instrument"`
		Operator   string                   `json:"operator"`
		Caution    string                   `json:"caution"`
	}
	in := json.NewDecoder(bytes.NewReader(text))
	in.DisallowUnknownFields()
	if err := in.Decode(&d); err != nil {
		return nil, fmt.Errorf("record: this is no check of an instrument: %w", err)
	}
	if d.Version != 1 || d.Kind == "" {
		return nil, fmt.Errorf("record: this is no check of an instrument of version 1")
	}
	c := &instrument.Check{Kind: d.Kind, Word: d.Word, Sentence: d.Text, Symbol: d.Symbol, Unit: d.Unit, Values: d.Values, Gain: d.Proposal, Held: d.Held,
		Settings: d.Settings, Notes: d.Notes, Session: instrument.Session{Date: d.Date, Operator: d.Operator, Instrument: d.Instrument}}
	number := func(v *float64) float64 {
		if v == nil {
			return math.NaN()
		}
		return *v
	}
	for _, l := range d.Lines {
		c.Lines = append(c.Lines, instrument.CheckLine{Name: l.Name, Value: number(l.Value), Unit: l.Unit, Share: number(l.Share),
			Source: standards.Ref{Doc: l.Source, Basis: standards.Basis(l.Basis)}})
	}
	return c, nil
}
