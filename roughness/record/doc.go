// Package record writes an evaluation as a document, and reads what can be read back.
//
// Settings, result, plan, verdict and series are JSON. A record is the document to keep: a [Sheet] holds what was asked, traced and typed in,
// [Sheet.Record] adds values and verdict, [AppendRecord] and [AppendPage] write it as JSON and as a page that prints and carries the JSON,
// [Open] reads either again and refuses one that is cut short or was changed, and [Opened.Verify] says whether it comes out the same.
//
// All lengths and heights are micrometres. Numbers print as the shortest decimal that reads back as the same float64;
// an undefined value is null, with its reason beside it. Each JSON shape has a version number that only grows and a
// JSON Schema in this folder.
package record

import _ "embed"

// The JSON Schemas (draft 2020-12) of the documents.
var (
	//go:embed settings.schema.json
	SettingsSchema []byte
	//go:embed result.schema.json
	ResultSchema []byte
	//go:embed verdict.schema.json
	VerdictSchema []byte
	//go:embed plan.schema.json
	PlanSchema []byte
	//go:embed series.schema.json
	SeriesSchema []byte
	//go:embed record.schema.json
	RecordSchema []byte
	//go:embed verification.schema.json
	VerificationSchema []byte
	//go:embed shares.schema.json
	SharesSchema []byte
	//go:embed finding.schema.json
	FindingSchema []byte
	//go:embed editions.schema.json
	EditionsSchema []byte
	//go:embed steadiness.schema.json
	SteadinessSchema []byte
	//go:embed check.schema.json
	CheckSchema []byte
)

// The newest versions of the two shapes.
const (
	SettingsVersion = 1
	ResultVersion   = 2
)
