package main

import (
	"encoding/json"

	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/selfcheck"
)

type selfcheckRequest struct {
	Made string `json:"made"` // when, as the sheet says it
}

// selfcheck runs the check register: its document, and the validation sheet as an element of a page and as a page.
func (m *module) selfcheck(req *selfcheckRequest, _ []byte) (any, error) {
	list := selfcheck.Run()
	return map[string]any{
		"document": json.RawMessage(record.AppendSelfcheck(nil, list)),
		"article":  string(record.AppendValidationArticle(nil, list, req.Made)),
		"page":     string(record.AppendValidation(nil, list, req.Made)),
	}, nil
}
