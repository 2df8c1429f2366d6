package main

import "example.com/furrow/roughness/study"

type studyHandAnswer struct {
	Echo    string    `json:"echo"`
	Problem string    `json:"problem"`
	Heights []float64 `json:"heights"`
}

type studyHandRequest struct {
	Text  string `json:"text"`
	Count int    `json:"count"`
	Size  int    `json:"size"`
	Seed  uint64 `json:"seed"`
}

func studyHeights(z []float64, err error) (studyHandAnswer, error) {
	if refused, ok := err.(*study.RefusedError); ok {
		return studyHandAnswer{Problem: refused.Text, Heights: []float64{}}, nil
	}
	return studyHandAnswer{Echo: study.Echo(z), Heights: z}, err
}

// studyHand answers with the heights of a typed text, or where it cannot be read.
var studyHand = studyOf(func(_ *study.Desk, req *studyHandRequest) (studyHandAnswer, error) {
	return studyHeights(study.ReadHeights(req.Text))
})

// studyOther answers with other heights to work with.
var studyOther = studyOf(func(_ *study.Desk, req *studyHandRequest) (studyHandAnswer, error) {
	return studyHeights(study.OtherHeights(req.Count, req.Size, req.Seed))
})

type studyTableRequest struct {
	State study.State `json:"state"`
	Slope string      `json:"slope"`
}

type studyTableAnswer struct {
	Columns []studyColumn `json:"columns"`
	Rows    [][]string    `json:"rows"`
	Sums    []string      `json:"sums"`
	Means   []string      `json:"means"`
	Notes   []string      `json:"notes"`
}

type studyColumn struct {
	ID   string `json:"id"`
	Head string `json:"head"`
	Used bool   `json:"used"`
}

// studyTable answers with the table of the ordinates.
var studyTable = studyOf(func(d *study.Desk, req *studyTableRequest) (*studyTableAnswer, error) {
	r, err := d.Evaluate(req.State)
	if err != nil {
		return nil, err
	}
	t, err := r.Table(req.Slope == "neighbours")
	if err != nil {
		return nil, err
	}
	out := &studyTableAnswer{[]studyColumn{}, t.Rows, t.Sums, t.Means, t.Notes}
	for _, c := range t.Columns {
		out.Columns = append(out.Columns, studyColumn(c))
	}
	return out, nil
})
