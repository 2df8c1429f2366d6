package main

import (
	"fmt"
	"math"

	"example.com/furrow/roughness/study"
)

type studyStateRequest struct {
	State study.State `json:"state"`
}

type studyLinkAnswer struct {
	Text    string `json:"text"`
	Holds   string `json:"holds"`
	Problem string `json:"problem"`
}

// studyLink answers with the text of the link of an exercise, and what it holds; a link that cannot be has its problem in place of it.
var studyLink = studyOf(func(d *study.Desk, req *studyStateRequest) (studyLinkAnswer, error) {
	s := req.State.Complete()
	if s.Surface == study.Sheet && d.Trace != nil {
		file := study.Fingerprint(d.Trace.Z)
		s.File = &file
	}
	text, err := s.Link()
	if refused, ok := err.(*study.RefusedError); ok {
		return studyLinkAnswer{Problem: refused.Text}, nil
	}
	if err != nil {
		return studyLinkAnswer{}, err
	}
	holds := fmt.Sprintf("The link has %d signs. It holds symbol, surface, filter, sections, what moves and the questions, and nothing about you.", len(text)+1)
	if s.Surface == study.Sheet {
		holds += " This trace is not in the link. Give the file to the class; the link checks that it is the same one."
	}
	return studyLinkAnswer{Text: text, Holds: holds}, nil
})

type studyOpenAnswer struct {
	State   *study.State `json:"state"`
	Notes   []string     `json:"notes"`
	Problem string       `json:"problem"`
}

// studyOpen answers with the exercise of a link.
var studyOpen = studyOf(func(d *study.Desk, req *struct {
	Text string `json:"text"`
}) (studyOpenAnswer, error) {
	s, notes, err := study.OpenLink(req.Text)
	if refused, ok := err.(*study.LinkError); ok {
		return studyOpenAnswer{Notes: []string{}, Problem: refused.Text}, nil
	}
	if err != nil {
		return studyOpenAnswer{}, err
	}
	if s.Surface == study.Sheet {
		switch {
		case d.Trace == nil:
			notes = append(notes, "The exercise is about a trace that is not in the link. Open its file on the worksheet.")
		case s.File != nil && study.Fingerprint(d.Trace.Z) != *s.File:
			notes = append(notes, "The trace on the worksheet is not the one that the exercise is about.")
		}
	}
	return studyOpenAnswer{&s, append([]string{}, notes...), ""}, nil
})

type studyCodeRequest struct {
	State   study.State `json:"state"`
	Answers []int       `json:"answers"`
	Guess   *float64    `json:"guess"`
	Tag     int         `json:"tag"`
	Text    string      `json:"text"`
}

type studyCodeAnswer struct {
	Text string `json:"text"`
}

// studyCode answers with the code of first answers.
var studyCode = studyOf(func(_ *study.Desk, req *studyCodeRequest) (studyCodeAnswer, error) {
	guess := math.NaN()
	if req.Guess != nil {
		guess = *req.Guess
	}
	text, err := req.State.Code(study.Answers{Options: req.Answers, Guess: guess, Tag: req.Tag})
	return studyCodeAnswer{text}, err
})

type studyCodesAnswer struct {
	Read []studyAnswers `json:"read"`
	Said []string       `json:"said"`
}

type studyAnswers struct {
	Answers []int  `json:"answers"`
	Guess   number `json:"guess"`
	Tag     int    `json:"tag"`
}

// studyCodes answers with the codes of a class.
var studyCodes = studyOf(func(_ *study.Desk, req *studyCodeRequest) (studyCodesAnswer, error) {
	c, err := req.State.ReadCodes(req.Text)
	out := studyCodesAnswer{[]studyAnswers{}, c.Said}
	for _, a := range c.Read {
		out.Read = append(out.Read, studyAnswers{a.Options, number(a.Guess), a.Tag})
	}
	return out, err
})
