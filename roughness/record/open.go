package record

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
	"example.com/furrow/standards/decide"
)

// The reasons why a record is refused. A *[DocumentError] with the place wraps them.
var (
	ErrNoRecord = errors.New("this is not a record of furrow")
	ErrCut      = errors.New("the record is cut short")
	ErrChanged  = errors.New("the record was changed after it was made")
	ErrVersion  = errors.New("this version of a record is not known here")
)

// An Opened record is one that was read from a file: what it was made of, and what it says.
type Opened struct {
	Sheet
	Made Stamp
	Word decide.Word // of its verdict; empty without one

	claims map[string]*node // the blocks that follow from the others, as they stand in it
	data   []byte           // the document
	page   []byte           // that carries it, up to it; nil without one
}

// Open reads a record, JSON or the page that carries it, from the bytes of a file. A record that is cut short or was changed in any
// place is refused, and the error says what differs. The error is a *[DocumentError] with the place; it wraps ErrNoRecord, ErrCut, ErrChanged,
// ErrVersion, or [tracefile.ErrSize] where the document is larger than a machine of this kind should take.
func Open(data []byte) (*Opened, error) {
	document, before, err := document(data)
	if err == nil {
		var o *Opened
		if o, err = openDocument(document); err == nil {
			if before > 0 {
				o.page = data[:bytes.Index(data, []byte(scriptOpen))]
			}
			return o, nil
		}
	}
	var e *DocumentError
	if errors.As(err, &e) && before > 0 { // the place in the page
		lines := bytes.Count(data[:before], []byte("\n"))
		e.Line += lines
	}
	return nil, err
}

// The element of a page that carries the record. Behind the first part stands the SHA-256 of the page without the record.
const (
	scriptOpen  = `<script type="application/json" id="furrow-record" data-page-sha256="`
	scriptTag   = "\">\n"
	scriptClose = "</script>\n</body>\n</html>\n"
)

// document takes the JSON from the bytes of a file, and returns where it begins.
func document(data []byte) ([]byte, int, error) {
	trimmed := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), " \t\r\n")
	if len(trimmed) == 0 {
		return nil, 0, place(data, 0, "", fmt.Errorf("%w: the file is empty", ErrNoRecord))
	}
	switch trimmed[0] {
	case '{':
		return data, 0, nil
	case '<':
	default:
		return nil, 0, place(data, len(data)-len(trimmed), "", fmt.Errorf("%w: it begins neither with { nor with <", ErrNoRecord))
	}
	at := bytes.Index(data, []byte(scriptOpen))
	from := at + len(scriptOpen) + 64 + len(scriptTag)
	switch {
	case at < 0 && bytes.Contains(data, []byte("</html>")):
		return nil, 0, place(data, 0, "", fmt.Errorf("%w: this page carries no record", ErrNoRecord))
	case at < 0 && bytes.Contains(data, []byte(pageMark)):
		return nil, 0, place(data, len(data), "", fmt.Errorf("%w: the page ends before the record in it", ErrCut))
	case at < 0:
		return nil, 0, place(data, 0, "", fmt.Errorf("%w: this page carries no record", ErrNoRecord))
	case !bytes.HasSuffix(data, []byte(scriptClose)) || from > len(data)-len(scriptClose):
		return nil, 0, place(data, len(data), "", fmt.Errorf("%w: the page does not end as a record does", ErrCut))
	}
	sum, text := data[at+len(scriptOpen):][:64], data[from:len(data)-len(scriptClose)]
	if got := pageDigest(data[:at]); got != string(sum) {
		return nil, 0, place(data, 0, "", fmt.Errorf("%w: the printed page differs from the one that was made; the record that it carries is untouched by that", ErrChanged))
	}
	return text, from, nil
}

// pageDigest is the SHA-256 of a page up to the element that carries the record.
func pageDigest(page []byte) string { return digest(page) }

func openDocument(data []byte) (*Opened, error) {
	if err := tracefile.CheckSize(int64(len(data))); err != nil {
		return nil, place(data, 0, "", err)
	}
	root, err := parseLarge(data)
	if err != nil {
		return nil, because(err, broken(data, err))
	}
	o, ok := root.value.(*object)
	if !ok || o.fields["furrow_record"] == nil {
		return nil, place(data, root.offset, "", fmt.Errorf("%w: it has no key furrow_record", ErrNoRecord))
	}
	version := 0
	f := &fields{data: data, obj: o, node: root}
	if f.integer("furrow_record", &version); f.err != nil {
		return nil, because(f.err, ErrNoRecord)
	}
	if version != RecordVersion {
		n := o.fields["furrow_record"]
		return nil, place(data, n.offset, n.key, fmt.Errorf("%w: it has version %d, and this furrow reads version %d", ErrVersion, version, RecordVersion))
	}
	r := &Opened{data: data, claims: map[string]*node{}}
	for _, name := range claimed {
		r.claims[name] = o.fields[name]
	}
	made, err := r.checkSums(root)
	if err != nil {
		return nil, err
	}
	r.Made = made
	if err := r.read(root); err != nil { // the checksums hold: it is as it was made
		reason := ErrVersion
		if _, wrong := errors.AsType[*heightsError](err); wrong {
			reason = ErrChanged
		}
		return nil, because(err, reason)
	}
	if v, ok := r.claims["verdict"].value.(*object); ok && v.fields["word"] != nil {
		word, _ := v.fields["word"].value.(string)
		r.Word = decide.Word(word)
	}
	return r, nil
}

// because adds to an error with a place the reason why a record is refused.
func because(err, reason error) error {
	if e, ok := errors.AsType[*DocumentError](err); ok {
		e.Err = fmt.Errorf("%w: %w", reason, e.Err)
	}
	return err
}

// broken says why a document is no JSON.
func broken(data []byte, err error) error {
	end := bytes.TrimRight(data, " \t\r\n")
	e, ok := errors.AsType[*DocumentError](err)
	switch {
	case ok && e.Line >= 1+bytes.Count(end, []byte("\n")) && !bytes.HasSuffix(end, []byte("}")):
		return ErrCut
	case bytes.Contains(data, []byte(`"furrow_record"`)):
		return ErrChanged
	}
	return ErrNoRecord
}

// checkSums holds the record against its checksums.
func (r *Opened) checkSums(root *node) (m Stamp, err error) {
	data, o := r.data, root.value.(*object)
	f := &fields{data: data, obj: o, node: root}
	changed := func(n *node, format string, args ...any) (Stamp, error) {
		return m, place(data, n.offset, n.key, fmt.Errorf("%w: %w", ErrChanged, fmt.Errorf(format, args...)))
	}
	for _, name := range append(slices.Clone(claimed), "heights", "sha256", "made") {
		if o.fields[name] == nil {
			return changed(root, "the block %s is missing", name)
		}
	}
	var sum, number string
	parts := map[string]string{}
	s := open(data, o.fields["sha256"])
	s.text("record", &sum)
	if n := s.get("parts"); n != nil {
		p := open(data, n)
		for _, name := range p.obj.names {
			v := ""
			p.text(name, &v)
			parts[name] = v
		}
		s.join(p)
	}
	f.join(s)
	g := open(data, o.fields["made"])
	g.text("time", &m.Time)
	g.text("version", &m.Version)
	g.text("platform", &m.Platform)
	g.text("number", &number)
	f.join(g)
	if f.err != nil {
		return m, because(f.err, ErrChanged)
	}
	m.Number = number
	end := bytes.LastIndex(data[:o.fields["sha256"].offset], []byte("\n"))
	content := data[:max(0, end)]
	got := digest(content)
	if got == sum {
		if n := o.fields["sha256"]; string(data[n.offset:n.end]) != sums(content) {
			return changed(n, "a checksum does not belong to it")
		}
		if want := m.number(got); want != number {
			return changed(o.fields["made"], "time, version, platform or number of the record do not belong together")
		}
		return m, nil
	}
	for _, p := range split(content) {
		if parts[p.name] == p.digest {
			continue
		}
		n := o.fields[p.name]
		if n == nil {
			n = &node{offset: p.offset, key: p.name}
		}
		return changed(n, "%s", r.differs(p.name))
	}
	return changed(o.fields["sha256"], "its checksum does not belong to it")
}

// differs says what of a changed block differs, as far as the rest of the record tells.
func (r *Opened) differs(name string) string {
	copied := &Opened{data: r.data, claims: r.claims}
	root, err := parseLarge(r.data)
	if err == nil {
		err = copied.read(root)
	}
	switch {
	case name == "heights":
		var t *heightsError
		if errors.As(err, &t) {
			return t.Error()
		}
	case (name == "results" || name == "verdict") && err == nil:
		if v, err := copied.Verify(); err == nil && len(v.Differences) > 0 {
			return v.Differences[0].String()
		}
	}
	return "the block " + name + " is not the one that was made"
}

// A heightsError says which trace has other heights than the record says.
type heightsError struct {
	number int
	name   string
	format string
}

func (e *heightsError) Error() string { return fmt.Sprintf(e.format, e.number, e.name) }

// read takes the sheet from the document.
func (r *Opened) read(root *node) error {
	f := &fields{data: r.data, obj: root.value.(*object), node: root}
	s := readSheet(f)
	for _, name := range []string{"furrow_record", "results", "verdict", "cautions", "caution", "sha256", "made"} {
		f.get(name)
	}
	list := f.list("heights")
	if err := f.close(); err != nil {
		return err
	}
	if len(list) != len(s.Traces) {
		return place(r.data, f.obj.fields["heights"].offset, "heights", fmt.Errorf("there are heights of %d traces, and %d traces", len(list), len(s.Traces)))
	}
	for i, n := range list {
		z, ok := n.value.([]float64)
		if t := &s.Traces[i]; !ok || judge.HeightsSHA256(z) != t.heights {
			return place(r.data, n.offset, n.key, &heightsError{i + 1, t.Profile.Name, "the heights of trace %d, %s, are not those that it was made from"})
		} else if len(z) != t.points {
			return place(r.data, n.offset, n.key, &heightsError{i + 1, t.Profile.Name, fmt.Sprintf("there are %d heights of trace %%d, %%s, which has %d points", len(z), t.points)})
		} else {
			t.Profile.Z = z
		}
	}
	r.Sheet = *s
	return nil
}

// ParseSheet reads the JSON of a sheet, as [AppendSheet] writes it; every key is optional, and an unknown one is refused by name. The traces
// have no heights yet. The error is a *[DocumentError].
func ParseSheet(data []byte) (*Sheet, error) {
	root, err := parseLarge(data)
	if err != nil {
		return nil, err
	}
	f := open(data, root)
	s := readSheet(f)
	return s, f.close()
}

func readSheet(f *fields) *Sheet {
	s := &Sheet{}
	f.text("name", &s.Name)
	f.boolean("invented", &s.Invented)
	f.member("asked", func(g *fields) { g.take(s.Asked.members()) })
	f.each("typed", func(g *fields) {
		var t TypedValue
		g.take(t.members())
		s.Typed = append(s.Typed, t)
	})
	s.FileOpen = f.texts("file_open")
	f.settings("settings", &s.Settings)
	f.member("origins", func(g *fields) {
		s.Origins = map[string]callout.Origin{}
		for _, key := range g.obj.names {
			g.member(key, func(h *fields) { s.Origins[key] = readOrigin(h) })
		}
	})
	f.each("traces", func(g *fields) { s.Traces = append(s.Traces, readTrace(g)) })
	f.member("check", func(g *fields) {
		s.Check = &LatestCheck{}
		g.take(s.Check.members())
	})
	f.member("budget", func(g *fields) { s.Budget = readBudget(g) })
	f.member("blanks", func(g *fields) {
		for _, b := range s.Blanks.each() {
			g.text(b.key, b.value)
		}
	})
	s.Notes = f.notes("notes")
	return s
}

func readTrace(g *fields) SheetTrace {
	var t SheetTrace
	p := &t.Profile
	g.text("name", &p.Name)
	g.member("file", func(h *fields) {
		t.File = &File{}
		h.take(t.File.members())
	})
	if n := g.get("hints"); n != nil && n.value != nil {
		t.Hints = bytes.Clone(g.data[n.offset:n.end])
		if _, err := tracefile.ParseHints(t.Hints); err != nil {
			g.fail(n, "%w", err)
		}
	}
	g.text("reading", &t.Reading)
	g.text("left_out", &t.LeftOut)
	g.settings("settings", &t.Settings)
	g.member("traced", func(h *fields) {
		skid := ""
		h.take(tracedMembers(&p.Traced, &skid))
		switch skid {
		case "":
		case "with":
			p.Traced.Skid = roughness.WithSkid
		case "without":
			p.Traced.Skid = roughness.WithoutSkid
		default:
			h.fail(h.node, `skid must be "with" or "without"`)
		}
	})
	t.Notes = g.notes("notes")
	g.number("spacing", &p.Spacing)
	g.integer("points", &t.points)
	g.text("heights_sha256", &t.heights)
	return t
}

func readOrigin(h *fields) callout.Origin {
	var o callout.Origin
	var basis string
	h.text("text", &o.Text)
	h.text("source", &o.Ref.Doc)
	h.text("basis", &basis)
	h.text("from", &o.From)
	h.boolean("unconfirmed", &o.Unconfirmed)
	o.Ref.Basis = standards.Basis(basis)
	return o
}

func readBudget(g *fields) *BudgetUsed {
	b := &BudgetUsed{}
	g.take([]member{{"symbol", &b.Symbol}, {"unit", &b.Unit}, {"value", &b.Value}, {"u", &b.U}, {"k", &b.K}})
	g.each("lines", func(h *fields) {
		var l InfluenceUsed
		h.take(l.members())
		b.Lines = append(b.Lines, l)
	})
	g.take([]member{{"left", &b.Left}, {"sentence", &b.Sentence}})
	return b
}

// member reads a member object, unless it is absent or null.
func (f *fields) member(name string, read func(g *fields)) {
	f.nullable(name, func() {
		g := open(f.data, f.obj.fields[name])
		read(g)
		f.join(g)
	})
}

// each reads the objects of a list.
func (f *fields) each(name string, read func(g *fields)) {
	for _, n := range f.list(name) {
		g := open(f.data, n)
		read(g)
		f.join(g)
	}
}

func (f *fields) texts(name string) []string {
	var all []string
	for _, n := range f.list(name) {
		s, ok := n.value.(string)
		if !ok {
			f.fail(n, "must be text in quotes")
		}
		all = append(all, s)
	}
	return all
}

func (f *fields) notes(name string) []roughness.Note {
	var all []roughness.Note
	f.each(name, func(g *fields) {
		var n roughness.Note
		g.text("code", &n.Code)
		g.text("text", &n.Text)
		all = append(all, n)
	})
	return all
}

func (f *fields) settings(name string, to **roughness.Settings) {
	f.nullable(name, func() {
		s, err := settingsOf(f.data, f.obj.fields[name])
		if err != nil && f.err == nil {
			f.err = err
		}
		*to = s
	})
}
