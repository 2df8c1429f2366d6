package main

import "example.com/furrow/roughness/synth"

// makeRequest describes a surface made up to try things out; all lengths and heights are micrometres.
type makeRequest struct {
	Points  int     `json:"points"`
	Spacing float64 `json:"spacing"`
	Wave    float64 `json:"wave"`   // height from crest to trough
	Length  float64 `json:"length"` // of the wave
	Feed    float64 `json:"feed"`   // of turning
	Nose    float64 `json:"nose"`   // radius of the tool
	Noise   float64 `json:"noise"`  // its Rq
	Scratch float64 `json:"scratch"`
	Plateau float64 `json:"plateau"` // percent of the length that is worn level
}

type makeAnswer struct {
	Known []known `json:"known"`
}

// known is one parameter that is known before anything is evaluated.
type known struct {
	Symbol   string `json:"symbol"`
	Value    number `json:"value"`
	Unit     string `json:"unit"`
	Formula  string `json:"formula"`
	Expected bool   `json:"expected"` // the mean over endless random surfaces: one trace scatters around it
}

// most is the number of points that a made-up surface may have.
const most = 1_000_000

// make answers with the heights of a made-up surface and what is known of it beforehand.
func (m *module) make(req *makeRequest, _ []byte) (any, error) {
	if req.Points < 1 || req.Points > most || !(req.Spacing > 0) {
		return nil, requestf("a made-up surface has 1 to %d points at a spacing above 0", most)
	}
	s := synth.Made{Wave: req.Wave, Length: req.Length, Feed: req.Feed, Nose: req.Nose, Noise: req.Noise,
		Scratch: req.Scratch, Plateau: req.Plateau, Seed: 1}
	out := makeAnswer{Known: []known{}}
	for _, k := range s.Known() {
		unit := k.Unit
		if unit == "length" {
			unit = "µm"
		}
		out.Known = append(out.Known, known{k.Symbol, number(k.Value), unit, k.Formula, k.Expected})
	}
	return answer{of: out, arrays: []array{{"z", s.Heights(req.Points, req.Spacing)}}}, nil
}
