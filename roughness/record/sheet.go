package record

import (
	"cmp"
	"errors"
	"path"
	"slices"
	"strings"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// A Sheet is all that a record is made of: what was asked, what was traced and typed in, and what people wrote beside it.
// Lengths and heights are micrometres.
type Sheet struct {
	Name     string // of the part or the work; empty: that of the first trace
	Invented bool   // demonstration data, and no measurement
	Asked    Asked
	Typed    []TypedValue
	FileOpen []string // what files leave open: "rod-place-7.txt, unit of the heights"

	Settings *roughness.Settings       // what the traces are evaluated with; nil: what the requirement asks for, or the defaults
	Origins  map[string]callout.Origin // where each setting comes from; nil: as the evaluation says
	Traces   []SheetTrace

	Check  *LatestCheck // latest check of the instrument; nil: none was kept
	Budget *BudgetUsed
	Blanks Blanks
	Notes  []roughness.Note // about the work as a whole
}

// Asked is what a surface is judged by, each text as a person typed it.
type Asked struct {
	Text    string              // requirement of the drawing: "Rz 3,2"
	Edition standards.EditionID // to read it by; empty: ISO 21920
	Limit   string              // limits in its place: "Rz <= 3.2"
	Rule    string              // acceptance rule in place of the one asked for: max, 16% or median
	U       string              // expanded uncertainty: "0.12", or "Rz 0.12; Ra 0.02"; empty: none
	K       float64             // its coverage factor; 0: 2
	Prove   string              // maker, buyer or none
	Guard   string              // 2017 or 1998
	Agreed  string              // who agreed that settings or rule deviate
}

// A TypedValue is a value without a trace that counts with those of the traces: "Rz 2.95".
type TypedValue struct {
	Text string
	From string // where it comes from, in words
}

// A SheetTrace is one trace of a sheet.
type SheetTrace struct {
	Profile roughness.Profile
	File    *File  // nil where the trace comes from no file
	Hints   []byte // JSON; what the file left open and a person answered
	Reading string // how the file was read
	LeftOut string // why its values do not count; empty: they do

	Settings *roughness.Settings   // where those of the sheet do not hold: the parts that are left out differ
	Done     *roughness.Evaluation // with its settings, where it is there already
	Notes    []roughness.Note      // of the reading; those of the evaluation are added

	heights string // SHA-256
	points  int    // that a record says
}

// A File is what a trace was read from.
type File struct {
	Name   string
	Size   int64
	SHA256 string // hexadecimal
}

// NewFile describes the bytes of a file.
func NewFile(name string, data []byte) *File { return &File{name, int64(len(data)), digest(data)} }

// A LatestCheck is the latest check of the instrument on a specimen.
type LatestCheck struct {
	Name string // of the specimen: "S 14"
	Date string // ISO 8601
	Word string // within, outside or open
}

// Blanks are what people write on a record. An empty one prints as a ruled line; the signature always does.
type Blanks struct {
	Part, Place, Direction, Instrument, Tip, Check, Operator, Date, Remarks string
}

// A BudgetUsed is an uncertainty budget as it was used, with what each influence brings.
type BudgetUsed struct {
	Symbol, Unit string
	Value, U, K  float64
	Lines        []InfluenceUsed
	Left         []string // influences that could not be worked out, with the reason
	Sentence     string
}

// An InfluenceUsed is one influence: its effect is the standard uncertainty that it brings, its share that of the variance.
type InfluenceUsed struct {
	Name          string
	Effect, Share float64
	Source        string
}

// A Record is a sheet with its values and its verdict.
type Record struct {
	Sheet
	Evaluations []*roughness.Evaluation // one for each trace
	Series      *judge.Series           // of those that count, and the values typed in
	Verdict     *judge.Verdict          // nil without a requirement
	Cautions    []string                // what the reader must keep in mind
	Made        Stamp

	body []byte // the document up to its checksums, once it is written
}

// A FieldError says which text of a sheet cannot be used.
type FieldError struct {
	Key    string // "limit", "typed", "u", "prove" or "rule"
	Column int    // in that text, from 1; 0 where there is none
	Err    error
}

func (e *FieldError) Error() string { return "record: " + e.Key + ": " + e.Err.Error() }

// Unwrap returns what is wrong.
func (e *FieldError) Unwrap() error { return e.Err }

func fieldError(key string, err error) error {
	f := &FieldError{Key: key, Err: err}
	if t, ok := errors.AsType[*judge.TypedError](err); ok {
		f.Key, f.Column, f.Err = cmp.Or(t.Key, key), t.Column, errors.New(t.Reason)
	}
	return f
}

// Judging makes a judgement by what is asked, with the symbols of an edition; the requirement that was read, or why it is refused, comes
// beside it, and what is judged is added by the caller. The error is a *FieldError.
func (a *Asked) Judging(req *judge.Requirement, refused error, edition standards.EditionID) (*judge.Judging, error) {
	rule, err := judge.ParseRule(a.Rule)
	if err != nil {
		return nil, fieldError("rule", err)
	}
	j := &judge.Judging{Requirement: req, Refused: refused, Rule: rule, Agreed: a.Agreed}
	if a.U != "" {
		if j.U, err = judge.ParseUncertainty(a.U, edition); err != nil {
			return nil, fieldError("u", err)
		}
	}
	if j.Guard, err = judge.GuardFor(a.Guard, a.Prove, a.K, a.U != ""); err != nil {
		return nil, fieldError("prove", err)
	}
	return j, nil
}

// Judge makes the verdict of a judgement; a value or an uncertainty that does not go with the limits is a *FieldError.
func Judge(j *judge.Judging) (*judge.Verdict, error) {
	v, err := j.Judge()
	if _, ok := errors.AsType[*judge.TypedError](err); ok {
		err = fieldError("typed", err)
	}
	return v, err
}

// Record evaluates the traces of the sheet, each with the same settings, and judges their values. Traces that are evaluated already are
// not evaluated again. A requirement that is refused or open is no error: the verdict says so. The error is a *FieldError, a
// *roughness.SettingError, or one that wraps judge.ErrMixed. The sheet keeps what it was given.
//
// The record states the time made, and its number follows from that and from all that it holds. Who changes a record calls [Record.At] before
// writing it; otherwise the document has what the record held before.
func (s *Sheet) Record(made time.Time) (*Record, error) {
	r := &Record{Sheet: *s}
	r.Traces = slices.Clone(s.Traces)
	req, refused, err := s.Asked.requirement(s.Settings)
	if err != nil {
		return nil, err
	}
	if r.Settings == nil && req != nil && refused == nil && req.Settings != nil {
		if r.Settings, err = req.On(r.profiles(), 0, nil); err != nil {
			return nil, err
		}
	}
	if r.Settings != nil && r.Settings.From == nil && r.Origins == nil && req != nil && r.Asked.Limit == "" {
		own := *r.Settings
		req.Credit(&own)
		r.Settings = &own
	}
	if err := r.evaluate(); err != nil {
		return nil, err
	}
	if err := r.judge(req, refused); err != nil {
		return nil, err
	}
	if r.Name == "" && len(r.Traces) > 0 {
		base := path.Base(strings.ReplaceAll(r.Traces[0].Profile.Name, `\`, "/"))
		r.Name = strings.TrimSuffix(base, path.Ext(base))
	}
	r.fill()
	r.Cautions = r.cautions()
	r.At(made)
	return r, nil
}

// requirement reads what is asked; nil without it. refused says why its text cannot be read.
func (a *Asked) requirement(set *roughness.Settings) (req *judge.Requirement, refused, err error) {
	if strings.TrimSpace(a.Text) != "" {
		if req, refused = judge.ReadRequirement(a.Text, a.Edition); refused != nil {
			req = nil
		}
	}
	if a.Limit == "" || refused != nil {
		return req, refused, nil
	}
	edition := a.Edition
	if set != nil {
		edition = set.Edition
	}
	rule := standards.Rule(a.Rule)
	if req != nil {
		rule = cmp.Or(rule, req.Rule)
	}
	limits, err := judge.Limits(a.Limit, edition, rule)
	if err != nil {
		return nil, nil, fieldError("limit", err)
	}
	if req != nil {
		limits.Under(req)
	}
	return limits, nil, nil
}

func (r *Record) profiles() []roughness.Profile {
	var all []roughness.Profile
	for _, t := range r.Traces {
		all = append(all, t.Profile)
	}
	return all
}

// evaluate makes the evaluations that are missing. The settings become complete, so that they give the same values again.
func (r *Record) evaluate() error {
	r.Settings = r.withOrigins(r.Settings)
	for i := range r.Traces {
		t := &r.Traces[i]
		t.heights = judge.HeightsSHA256(t.Profile.Z)
		e := t.Done
		if e == nil {
			set := r.Settings
			if t.Settings != nil {
				set = r.withOrigins(t.Settings)
			}
			var err error
			if e, err = roughness.Evaluate(t.Profile, set); e == nil {
				return err
			}
		}
		t.Done = nil
		t.Notes = slices.Clone(t.Notes)
		for _, n := range e.Notes {
			t.note(n)
		}
		for _, f := range inspect.Look(t.Profile, inspect.Under(e)) {
			t.note(f.Note())
		}
		r.Evaluations = append(r.Evaluations, e)
	}
	if len(r.Evaluations) == 0 {
		if r.Settings == nil {
			return nil
		}
		complete, err := roughness.Complete(r.Settings)
		r.Settings = complete
		return err
	}
	first := r.Evaluations[0]
	set := first.Settings
	set.From = nil
	r.Settings = &set
	if r.Origins == nil {
		r.Origins = first.Origins
	}
	for i, e := range r.Evaluations {
		r.Traces[i].Settings = nil
		if i > 0 && string(AppendSettings(nil, &e.Settings, "")) != string(AppendSettings(nil, &set, "")) {
			own := e.Settings
			own.From = nil
			r.Traces[i].Settings = &own
		}
	}
	return nil
}

// withOrigins gives settings that were kept in a record the origins that were kept beside them.
func (r *Record) withOrigins(s *roughness.Settings) *roughness.Settings {
	if s == nil || s.From != nil || r.Origins == nil {
		return s
	}
	from := *s
	from.From = r.Origins
	return &from
}

// note adds a note that is not there yet.
func (t *SheetTrace) note(n roughness.Note) {
	n.Text = tidy(n.Text)
	if !slices.Contains(t.Notes, n) {
		t.Notes = append(t.Notes, n)
	}
}

// counted are the traces whose values count, with their evaluations.
func (r *Record) counted() (traces []roughness.Profile, done []*roughness.Evaluation) {
	for i, t := range r.Traces {
		if t.LeftOut == "" {
			traces, done = append(traces, t.Profile), append(done, r.Evaluations[i])
		}
	}
	return traces, done
}

func (r *Record) judge(req *judge.Requirement, refused error) error {
	traces, done := r.counted()
	names := make([]string, len(traces))
	for i, t := range traces {
		names[i] = t.Name
	}
	var err error
	if r.Series, err = judge.Collect(names, done...); err != nil {
		return err
	}
	edition := r.Asked.Edition
	if r.Settings != nil {
		edition = r.Settings.Edition
		r.Series.Settings = *r.Settings
	}
	var typed []judge.Typed
	for _, v := range r.Typed {
		list, err := judge.ParseTyped(v.Text, edition)
		if err != nil {
			return fieldError("typed", err)
		}
		typed = append(typed, list...)
	}
	r.Series.Type(typed...)
	if req == nil && refused == nil {
		return nil
	}
	j, err := r.Asked.Judging(req, refused, edition)
	if err != nil {
		return err
	}
	j.Traces, j.Settings, j.Done, j.Typed, j.FileOpen = traces, r.Settings, done, typed, r.FileOpen
	r.Verdict, err = Judge(j)
	return err
}

// fill takes from the files what a blank was left empty for.
func (r *Record) fill() {
	b := &r.Blanks
	for _, t := range r.Traces {
		if t.LeftOut != "" {
			continue
		}
		f := t.Profile.Traced
		skid := map[roughness.SkidUse]string{roughness.WithSkid: "with a skid", roughness.WithoutSkid: "without a skid"}[f.Skid]
		tip := ""
		if f.TipRadius > 0 {
			tip = number(f.TipRadius) + " µm"
		}
		if f.ConeAngle > 0 {
			tip = joined(", ", tip, number(f.ConeAngle)+"°")
		}
		b.Place, b.Direction, b.Date = cmp.Or(b.Place, f.Place), cmp.Or(b.Direction, f.Direction), cmp.Or(b.Date, f.Date)
		b.Instrument, b.Tip = cmp.Or(b.Instrument, joined(", ", f.Instrument, skid)), cmp.Or(b.Tip, tip)
		break
	}
	if c := r.Check; c != nil && b.Check == "" {
		b.Check = joined(": ", joined(", ", c.Name, c.Date), c.Word)
	}
}

// joined puts a separator between the texts that are not empty.
func joined(between string, texts ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(texts), func(s string) bool { return s == "" }), between)
}
