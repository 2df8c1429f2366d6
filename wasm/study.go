package main

import (
	"encoding/json"
	"errors"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/study"
	"example.com/furrow/standards"
)

// studies are the calls of the Study sheet, by what they do.
var studies = map[string]func(d *study.Desk, text string) (any, error){
	"tables":  studyTables,
	"move":    studyMove,
	"steady":  studySteady,
	"known":   studyKnown,
	"ask":     studyAsk,
	"answer":  studyReply,
	"hand":    studyHand,
	"heights": studyOther,
	"table":   studyTable,
	"blanks":  studyBlanks,
	"check":   studyCheck,
	"equal":   studyEqual,
	"surface": studySurface,
	"link":    studyLink,
	"open":    studyOpen,
	"code":    studyCode,
	"codes":   studyCodes,
}

type studyRequest struct {
	Do    string `json:"do"`
	Sheet *struct {
		Spacing float64 `json:"spacing"`
		Name    string  `json:"name"`
	} `json:"sheet"`
	Settings json.RawMessage `json:"settings"` // of the worksheet, beside its trace
}

// study answers a call of the Study sheet. The trace of the worksheet stays when it came once.
func (m *module) study(text string, data []byte) (answer, error) {
	var req studyRequest
	if err := decode(text, &req); err != nil {
		return answer{}, err
	}
	if m.desk == nil {
		m.desk = &study.Desk{}
	}
	if req.Sheet != nil {
		z, err := heights(data)
		if err != nil {
			return answer{}, err
		}
		m.desk = &study.Desk{Trace: &roughness.Profile{Z: z, Spacing: req.Sheet.Spacing, Name: req.Sheet.Name}}
		if len(req.Settings) > 0 {
			if m.desk.Settings, err = record.ParseSettings(req.Settings); err != nil {
				return answer{}, err
			}
		}
	}
	call, ok := studies[req.Do]
	if !ok {
		return answer{}, requestf("the Study sheet has no call %q", req.Do)
	}
	out, err := call(m.desk, text)
	if field, ok := errors.AsType[*study.RefusedError](err); ok {
		return answer{}, &fault{Kind: kindRequest, Key: field.ID, Message: field.Text}
	}
	if err != nil {
		return answer{}, err
	}
	return answer{text: jsonText(out)}, nil
}

// studyOf makes a call of a function of a request and a desk.
func studyOf[Q, A any](call func(d *study.Desk, req *Q) (A, error)) func(d *study.Desk, text string) (any, error) {
	return func(d *study.Desk, text string) (any, error) {
		req := new(Q)
		if err := json.Unmarshal([]byte(text), req); err != nil {
			return nil, requestf("the request cannot be read: %v", err)
		}
		return call(d, req)
	}
}

type studyField struct {
	ID    string `json:"id"`
	Words string `json:"words"`
	Unit  string `json:"unit"`
	Low   number `json:"low"`
	High  number `json:"high"`
	Least number `json:"least"`
	Most  number `json:"most"`
	First number `json:"first"`
	Log   bool   `json:"log"`
	Whole bool   `json:"whole"`
}

func studyFieldOf(f study.Movable) studyField {
	return studyField{f.ID, f.Words, f.Unit, number(f.Low), number(f.High), number(f.Least), number(f.Most), number(f.First), f.Log, f.Whole}
}

type studyIngredient struct {
	Kind    string       `json:"kind"`
	Words   string       `json:"words"`
	Most    int          `json:"most"`
	Formula string       `json:"formula"`
	Fields  []studyField `json:"fields"`
}

type studyQuestionName struct {
	Letter string `json:"letter"`
	ID     string `json:"id"`
}

// studyTables answers with what the sheet needs once.
func studyTables(*study.Desk, string) (any, error) {
	out := struct {
		Ingredients []studyIngredient                `json:"ingredients"`
		Order       string                           `json:"order"`
		Questions   []studyQuestionName              `json:"questions"`
		Classes     map[standards.EditionID][]string `json:"classes"`
	}{Order: study.Order, Questions: []studyQuestionName{}, Classes: map[standards.EditionID][]string{}}
	for _, in := range study.Ingredients() {
		i := studyIngredient{in.Kind, in.Words, in.Most, in.Formula, nil}
		for _, f := range in.Fields {
			i.Fields = append(i.Fields, studyFieldOf(f))
		}
		out.Ingredients = append(out.Ingredients, i)
	}
	for _, q := range study.Questions() {
		out.Questions = append(out.Questions, studyQuestionName{q.Letter, q.ID})
	}
	for _, ed := range standards.Editions() {
		out.Classes[ed.ID] = study.Classes(ed)
	}
	return out, nil
}
