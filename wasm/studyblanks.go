package main

import "example.com/furrow/roughness/study"

type studyBlanksRequest struct {
	State   study.State `json:"state"`
	Level   int         `json:"level"`
	Entries []string    `json:"entries"`
	Blank   int         `json:"blank"`
	Show    bool        `json:"show"`
}

type studyBlanksAnswer struct {
	Symbol string       `json:"symbol"`
	Level  int          `json:"level"`
	Why    string       `json:"why"`
	Lines  [][]any      `json:"lines"` // text, or the index of a blank
	Blanks []studyBlank `json:"blanks"`
}

type studyBlank struct {
	ID       string `json:"id"`
	Name     string `json:"name"`
	Unit     string `json:"unit"`
	Decimals int    `json:"decimals"`
	Step     int    `json:"step"`
}

// blanksFor makes the blanks that a request is about.
func (req *studyBlanksRequest) blanksFor(d *study.Desk) (*study.BlankLines, error) {
	r, err := d.Evaluate(req.State)
	if err != nil {
		return nil, err
	}
	return r.Blanks(req.Level)
}

// studyBlanks answers with the worked lines of a level, without what stands in the blanks.
var studyBlanks = studyOf(func(d *study.Desk, req *studyBlanksRequest) (*studyBlanksAnswer, error) {
	b, err := req.blanksFor(d)
	if err != nil {
		return nil, err
	}
	out := &studyBlanksAnswer{b.Symbol, b.Level, b.Why, [][]any{}, []studyBlank{}}
	for _, line := range b.Lines {
		pieces := []any{}
		for _, p := range line {
			if p.Blank < 0 {
				pieces = append(pieces, p.Text)
			} else {
				pieces = append(pieces, p.Blank)
			}
		}
		out.Lines = append(out.Lines, pieces)
	}
	for _, k := range b.Blanks {
		out.Blanks = append(out.Blanks, studyBlank{k.ID, k.Name, k.Unit, k.Decimals, k.Step})
	}
	return out, nil
})

type studyCheckAnswer struct {
	Goes  bool   `json:"goes"`
	Reply string `json:"reply"`
	Value string `json:"value"`
}

// studyCheck answers what was typed into a blank.
var studyCheck = studyOf(func(d *study.Desk, req *studyBlanksRequest) (studyCheckAnswer, error) {
	b, err := req.blanksFor(d)
	if err != nil {
		return studyCheckAnswer{}, err
	}
	v, err := b.Check(req.Entries, req.Blank, req.Show)
	if err != nil {
		return studyCheckAnswer{}, err
	}
	return studyCheckAnswer(*v), nil
})
