package main

import (
	"encoding/json"
	"errors"
	"time"

	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// recordRequest asks for a record. The heights of all traces come one behind the other in the array.
type recordRequest struct {
	Sheet  json.RawMessage `json:"sheet"`  // see record.ParseSheet
	Points []int           `json:"points"` // of each trace
	Want   []string        `json:"want"`   // of the forms, by name
	Comma  bool            `json:"comma"`  // decimal comma
	Inch   bool            `json:"inch"`   // µin and in for people
}

type recordAnswer struct {
	Forms    map[string]string `json:"forms"`
	Points   []string          `json:"points,omitempty"` // of each trace, where they are wanted
	Name     string            `json:"name"`
	Made     made              `json:"made"`
	Verdict  json.RawMessage   `json:"verdict"` // null without a requirement
	Cautions []string          `json:"cautions"`
	Settings []record.Row      `json:"settings"`
}

// made is the block of a record that says where and when it was made.
type made struct {
	Time     string `json:"time"`
	Version  string `json:"version"`
	Platform string `json:"platform"`
	Number   string `json:"number"`
}

// forms are what a record can be written as.
var forms = map[string]func(b []byte, r *record.Record, d record.Display) []byte{
	"json":    func(b []byte, r *record.Record, _ record.Display) []byte { return record.AppendRecord(b, r) },
	"html":    record.AppendPage,
	"article": record.AppendArticle,
	"tsv":     record.AppendTSV,
	"csv":     record.AppendCSV,
	"table":   record.AppendTable,
}

// record evaluates and judges a sheet and answers with its record in the forms that are wanted.
func (m *module) record(req *recordRequest, data []byte) (any, error) {
	s, err := record.ParseSheet(req.Sheet)
	if err != nil {
		return nil, err
	}
	z, err := heights(data)
	if err != nil {
		return nil, err
	}
	if len(req.Points) != len(s.Traces) {
		return nil, requestf("%d numbers of points for %d traces", len(req.Points), len(s.Traces))
	}
	for i, n := range req.Points {
		if n < 0 || n > len(z) {
			return nil, requestf("trace %d has %d points, and %d heights are left", i+1, n, len(z))
		}
		s.Traces[i].Profile.Z, z = z[:n:n], z[n:]
	}
	if len(z) > 0 {
		return nil, requestf("%d heights belong to no trace", len(z))
	}
	r, err := s.Record(time.Now())
	if err != nil {
		return nil, sheetFault(err)
	}
	out := recordAnswer{Forms: map[string]string{}, Name: r.Name, Made: made(r.Made), Verdict: json.RawMessage("null"), Cautions: r.Cautions}
	d := record.Display{Comma: req.Comma, Inch: req.Inch}
	out.Settings = r.Rows(d)
	if r.Verdict != nil {
		out.Verdict = record.AppendVerdict(nil, r.Verdict, "")
	}
	for _, name := range req.Want {
		if name == "points" {
			for i := range r.Traces {
				out.Points = append(out.Points, string(record.AppendPoints(nil, r, i)))
			}
			continue
		}
		write, ok := forms[name]
		if !ok {
			return nil, requestf("a record has no form %q", name)
		}
		out.Forms[name] = string(write(nil, r, d))
	}
	return out, nil
}

// sheetFault says which field of a sheet cannot be used.
func sheetFault(err error) error {
	if f, ok := errors.AsType[*record.FieldError](err); ok {
		return &fault{Kind: kindSettings, Key: f.Key, Message: standards.Bare(f.Err), Column: f.Column}
	}
	return err
}

type openAnswer struct {
	Sheet  json.RawMessage `json:"sheet"`
	Points []int           `json:"points"`
	Made   made            `json:"made"`
	Word   string          `json:"word"` // of its verdict, as it stands there; empty without one
}

// reopen answers with what a record holds, from the bytes of its file: the sheet, and the heights of all traces one behind the other.
func (m *module) reopen(_ *none, data []byte) (any, error) {
	o, err := record.Open(data)
	if err != nil {
		return nil, recordFault(err)
	}
	out := openAnswer{Sheet: record.AppendSheet(nil, &o.Sheet), Points: []int{}, Made: made(o.Made), Word: string(o.Word)}
	var z []float64
	for _, t := range o.Traces {
		out.Points = append(out.Points, len(t.Profile.Z))
		z = append(z, t.Profile.Z...)
	}
	return answer{of: out, arrays: []array{{"z", z}}}, nil
}

type verifyAnswer struct {
	Same        bool         `json:"same"`
	Differences []difference `json:"differences"`
	Made        made         `json:"made"`
	Word        string       `json:"word"` // of the verdict as it comes out now
}

type difference struct {
	What string `json:"what"`
	Then string `json:"then"`
	Now  string `json:"now"`
	Text string `json:"text"`
}

// verify evaluates the traces of a record again and answers whether every value and the verdict come out the same.
func (m *module) verify(_ *none, data []byte) (any, error) {
	o, err := record.Open(data)
	if err != nil {
		return nil, recordFault(err)
	}
	v, err := o.Verify()
	if err != nil {
		return nil, sheetFault(err)
	}
	out := verifyAnswer{Same: v.Same, Differences: []difference{}, Made: made(o.Made)}
	for _, d := range v.Differences {
		out.Differences = append(out.Differences, difference{d.What, d.Then, d.Now, d.String()})
	}
	if v.Again.Verdict != nil {
		out.Word = string(v.Again.Verdict.Word)
	}
	return out, nil
}

// recordFault says why a record is refused, and where.
func recordFault(err error) error {
	f := faultOf(err)
	f.Kind = kindRecord
	return f
}

// digest answers with what a record keeps of the bytes of a file: their number and their SHA-256.
func (m *module) digest(_ *none, data []byte) (any, error) {
	f := record.NewFile("", data)
	return struct {
		Size   int64  `json:"size"`
		SHA256 string `json:"sha256"`
	}{f.Size, f.SHA256}, nil
}
