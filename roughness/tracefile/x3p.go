package tracefile

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"path"
	"strings"
)

// The container of ISO 25178-72 (X3P): a ZIP archive with main.xml, a checksum file and, beside it, binary heights.
// Limits of the reader; a container of a profile stays far below them.
const (
	maxMembers = 1000
	ratioFrom  = 16 << 20 // unpacked size from which the ratio of packing counts
	maxRatio   = 50       // real heights pack a few times; only a bomb packs more
	maxProfile = 1 << 24  // points of one profile
)

// container is an opened archive.
type container struct {
	members map[string]*zip.File
	base    string // folder of main.xml
	size    int64  // bytes of the archive
}

func openContainer(data []byte) (*container, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, &Error{Err: because(ErrTruncated, "the ZIP archive cannot be opened: %v", err)}
	}
	if len(z.File) > maxMembers {
		return nil, &Error{Err: because(ErrLimit, "the archive has %d members; the limit is %d", len(z.File), maxMembers)}
	}
	c := &container{members: map[string]*zip.File{}, size: int64(len(data))}
	found := ""
	var names []string
	for _, f := range z.File {
		name := strings.ReplaceAll(f.Name, `\`, "/")
		if strings.HasPrefix(name, "__MACOSX/") || strings.HasSuffix(name, ".DS_Store") || strings.HasSuffix(name, "/") {
			continue
		}
		if _, twice := c.members[name]; twice { // which one is meant is anybody's guess
			return nil, &Error{Err: because(ErrFormat, "the archive holds %q twice", clip(name))}
		}
		c.members[name] = f
		names = append(names, name)
		if path.Base(name) == "main.xml" && (found == "" || strings.Count(name, "/") < strings.Count(found, "/")) {
			found = name
		}
	}
	if found == "" {
		return nil, foreignArchive(names)
	}
	if c.base = path.Dir(found); c.base == "." {
		c.base = ""
	}
	return c, nil
}

// member finds what a link in main.xml names. A link stays inside the container.
func (c *container) member(link string) (*zip.File, error) {
	link = strings.TrimSpace(strings.ReplaceAll(link, `\`, "/"))
	clean := path.Join(c.base, link)
	if path.IsAbs(link) || clean == ".." || strings.HasPrefix(clean, "../") || strings.Contains(link, ":") ||
		c.base != "" && !strings.HasPrefix(clean, c.base+"/") {
		return nil, because(ErrFormat, "the link %q leads out of the container", clip(link))
	}
	if f, ok := c.members[clean]; ok {
		return f, nil
	}
	for name, f := range c.members {
		if strings.EqualFold(name, clean) {
			return f, nil
		}
	}
	return nil, because(ErrFormat, "the member %q that main.xml names is missing", clip(link))
}

// guarded reads a member and stops a bomb.
type guarded struct {
	r      io.Reader
	name   string
	packed int64
	done   int64
	limit  int64
}

func (g *guarded) Read(p []byte) (int, error) {
	n, err := g.r.Read(p)
	g.done += int64(n)
	switch {
	case g.done > g.limit:
		return 0, because(ErrLimit, "%s unpacks to more than %d bytes", g.name, g.limit)
	case g.done > ratioFrom && g.done > maxRatio*g.packed:
		return 0, because(ErrLimit, "%s unpacks to more than %d times its size", g.name, maxRatio)
	}
	return n, err
}

// openMember opens a member to be read as it comes. What the archive says about its packed size is not believed beyond its own.
func (c *container) openMember(f *zip.File, limit int64) (io.ReadCloser, *guarded, error) {
	r, err := f.Open()
	if err != nil {
		return nil, nil, because(ErrFormat, "%s cannot be unpacked: %v", shown(f.Name), err)
	}
	return r, &guarded{r: r, name: shown(f.Name), packed: c.packed(f), limit: limit}, nil
}

func (c *container) packed(f *zip.File) int64 {
	return int64(min(f.CompressedSize64, uint64(c.size)))
}

func (c *container) readMember(f *zip.File, limit int64) ([]byte, error) {
	r, g, err := c.openMember(f, limit)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	b, err := io.ReadAll(g)
	if err != nil && !errors.Is(err, ErrLimit) {
		err = because(ErrTruncated, "%s cannot be unpacked: %v", shown(f.Name), err)
	}
	return b, err
}

func readX3P(ctx context.Context, data []byte, hints *Hints) (*Trace, error) {
	c, err := openContainer(data)
	if err != nil {
		return nil, err
	}
	main, err := c.member("main.xml")
	if err != nil {
		return nil, &Error{Err: err}
	}
	d, err := c.readMain(main)
	if err != nil {
		return nil, err
	}
	t := &Trace{}
	for _, n := range d.notes {
		t.note(n.Code, n.Text)
	}
	c.checksumOfMain(t, d)
	if err := d.read(ctx, t, c, hints); err != nil {
		var e *Error
		if errors.As(err, &e) {
			return nil, e
		}
		return nil, &Error{Err: err}
	}
	t.Fields = append(t.Fields, d.fields...)
	t.Report.Format = "X3P (ISO 25178-72)"
	return t, nil
}

// checksumOfMain holds main.xml against the checksum file: a mismatch is a note, for people edit main.xml by hand.
func (c *container) checksumOfMain(t *Trace, d *x3pDocument) {
	name := d.value["Record4/ChecksumFile"]
	if name == "" {
		name = "md5checksum.hex"
	}
	f, err := c.member(name)
	if err != nil {
		t.note("checksum", fmt.Sprintf("The checksum of main.xml cannot be checked: %v.", err))
		return
	}
	line, err := c.readMember(f, 4096)
	if err != nil {
		t.note("checksum", fmt.Sprintf("The checksum of main.xml cannot be checked: %v.", err))
		return
	}
	if want, _, _ := strings.Cut(strings.TrimSpace(string(line)), " "); !strings.EqualFold(want, d.sum) {
		t.note("checksum", "main.xml does not match its checksum: it was changed afterwards.")
	}
}

// finish gives the heights their spacing, their unit and their place.
func (d *x3pDocument) finish(t *Trace, z []float64, pick picked, along *x3pAxis, xs []float64, hints *Hints) error {
	t.Profile.Z = z
	if xs == nil {
		t.Profile.Spacing = shift10(math.Abs(along.increment), 6)
		t.Origin = shift10(along.offset, 6)
		t.Report.SpacingBy = "increment"
		if along.increment < 0 {
			reverse(t)
		}
		if !(t.Profile.Spacing > 0) || math.IsInf(t.Profile.Spacing, 0) {
			return because(ErrFormat, "the increment %g is no length", along.increment)
		}
	} else if err := place(t, xs, along.unit(), hints); err != nil {
		err.Line, err.Column = 0, 0
		return err
	}
	if !t.Report.Turned && t.Report.SpacingBy != "resampled" && d.z.kind == 'D' && d.z.offset == 0 {
		t.stored = append([]float64(nil), z...)
	}
	if err := t.finish(d.z.unit()); err != nil {
		return err
	}
	if pick.text != "" {
		t.note("profile-of-area", pick.text)
	}
	if t.Profile.Spacing >= 1e5 {
		t.note("unit", fmt.Sprintf("The points lie %s mm apart: the writer of the file may have counted in another unit than metres.", number(t.Profile.Spacing/1000)))
	}
	return nil
}
