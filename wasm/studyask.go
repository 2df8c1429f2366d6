package main

import "example.com/furrow/roughness/study"

type studyAskAnswer struct {
	Offered  []studyPrediction `json:"offered"`
	Withheld []studyWithheld   `json:"withheld"`
}

// A studyPrediction is a question without its answer.
type studyPrediction struct {
	Letter       string   `json:"letter"`
	ID           string   `json:"id"`
	Words        string   `json:"words"`
	Options      []string `json:"options"`
	Hides        []string `json:"hides"`
	Distribution bool     `json:"distribution"`
	Tells        bool     `json:"tells"` // the value that the exercise hides
}

type studyWithheld struct {
	Letter string `json:"letter"`
	ID     string `json:"id"`
	Why    string `json:"why"`
}

// studyAsk answers with the questions that fit the trace in use, and why the others do not.
var studyAsk = studyOf(func(d *study.Desk, req *studyStateRequest) (studyAskAnswer, error) {
	offered, withheld, err := d.Ask(req.State)
	out := studyAskAnswer{[]studyPrediction{}, []studyWithheld{}}
	for _, p := range offered {
		out.Offered = append(out.Offered, studyPrediction{p.Letter, p.ID, p.Words, p.Options, append([]string{}, p.Hides...), p.Distribution, p.Tells})
	}
	for _, w := range withheld {
		out.Withheld = append(out.Withheld, studyWithheld(w))
	}
	return out, err
})

type studyReplyRequest struct {
	State  study.State `json:"state"`
	Letter string      `json:"letter"`
	Option int         `json:"option"`
}

type studyReplyAnswer struct {
	Answer   int          `json:"answer"`
	Reason   string       `json:"reason"`
	Compared string       `json:"compared"`
	Try      studyTry     `json:"try"`
	State    *study.State `json:"state"`
	Before   *study.State `json:"before"`
}

type studyTry struct {
	Words string `json:"words"`
	Move  string `json:"move"`
}

// studyReply answers an option that was chosen.
var studyReply = studyOf(func(d *study.Desk, req *studyReplyRequest) (*studyReplyAnswer, error) {
	r, err := d.Reply(req.State, req.Letter, req.Option)
	if err != nil {
		return nil, err
	}
	return &studyReplyAnswer{r.Answer, r.Reason, r.Compared, studyTry{r.Try, r.Move}, r.State, r.Before}, nil
})
