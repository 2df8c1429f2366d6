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
	SettingsSchema string
	//go:embed result.schema.json
	ResultSchema string
	//go:embed verdict.schema.json
	VerdictSchema string
	//go:embed plan.schema.json
	PlanSchema string
	//go:embed series.schema.json
	SeriesSchema string
	//go:embed record.schema.json
	RecordSchema string
	//go:embed verification.schema.json
	VerificationSchema string
	//go:embed shares.schema.json
	SharesSchema string
	//go:embed finding.schema.json
	FindingSchema string
	//go:embed editions.schema.json
	EditionsSchema string
	//go:embed steadiness.schema.json
	SteadinessSchema string
	//go:embed check.schema.json
	CheckSchema string
)

// The newest versions of the two shapes.
const (
	SettingsVersion = 1
	ResultVersion   = 2
)
