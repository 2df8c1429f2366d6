package main

import (
	"math"

	"example.com/furrow/roughness/study"
)

type studyKnownAnswer struct {
	Rows   []studyKnownRow `json:"rows"`
	Reason string          `json:"reason"`
}

type studyKnownRow struct {
	Symbol        string `json:"symbol"`
	Formula       string `json:"formula"`
	Known         number `json:"known"`
	Shown         string `json:"shown"`
	Unit          string `json:"unit"`
	Plain         number `json:"plain"`
	Difference    number `json:"difference"` // %
	Why           string `json:"why"`
	KnownFiltered number `json:"knownFiltered"`
	Filtered      number `json:"filtered"`
	Source        string `json:"source"`
	Expected      bool   `json:"expected"`
}

// studyKnown answers with what a made surface has by formulas, beside what the calculation gives.
var studyKnown = studyOf(func(d *study.Desk, req *studyStateRequest) (studyKnownAnswer, error) {
	list, reason, err := d.Known(req.State)
	out := studyKnownAnswer{[]studyKnownRow{}, reason}
	for _, k := range list {
		difference := math.NaN()
		if k.Known != 0 {
			difference = 100 * (k.Plain/k.Known - 1)
		}
		out.Rows = append(out.Rows, studyKnownRow{k.Symbol, k.Formula, number(k.Known), study.Printed(k.Known), k.Unit, number(k.Plain), number(difference),
			k.Why, number(k.KnownFiltered), number(k.Filtered), k.Source, k.Expected})
	}
	return out, err
})
