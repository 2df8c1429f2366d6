package tracefile

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"io"
	"math"
	"path"
	"slices"
	"strings"

	"example.com/furrow/roughness/internal/checksum"
)

// The container of ISO 25178-72 (X3P): a ZIP archive with main.xml, a checksum file and, beside it, binary heights.
// Limits of the reader; a container of a profile stays far below them.
const (
	maxMembers = 1000
	ratioFrom  = 16 << 20 // unpacked size from which the ratio of packing counts
	maxRatio   = 50       // real heights pack a few times; only a bomb packs more
	maxProfile = 1 << 24  // points of one profile
)

func readX3P(ctx context.Context, data []byte, hints *Hints) (*Trace, error) {
	t := &Trace{}
	err := t.readX3P(ctx, data, hints)
	if _, placed := errors.AsType[*Error](err); err != nil && !placed {
		err = &Error{Err: err}
	}
	if err != nil {
		return nil, err
	}
	return t, nil
}

func (t *Trace) readX3P(ctx context.Context, data []byte, hints *Hints) error {
	c, err := openContainer(data)
	if err != nil {
		return err
	}
	main, err := c.open("main.xml", maxXML)
	if err != nil {
		return err
	}
	defer main.in.Close()
	d, err := t.parseMain(main)
	if err != nil {
		return err
	}
	c.checksumOfMain(d, main)
	if err := d.read(ctx, c, hints); err != nil {
		return err
	}
	t.Report.Format = "X3P (ISO 25178-72)"
	return nil
}

// container is an opened archive.
type container struct {
	members map[string]*zip.File
	base    string // folder of main.xml
	size    int64  // bytes of the archive
}

func openContainer(data []byte) (*container, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, because(ErrTruncated, "the ZIP archive cannot be opened: %v", err)
	}
	if len(z.File) > maxMembers {
		return nil, because(ErrLimit, "the archive has %d members; the limit is %d", len(z.File), maxMembers)
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
			return nil, because(ErrFormat, "the archive holds %q twice", clip(name))
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

// find finds what a link in main.xml names. A link stays inside the container.
func (c *container) find(link string) (*zip.File, error) {
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

// member is a file of the archive as it is unpacked. It stops a bomb, and makes the checksum of what went through.
type member struct {
	name                string
	in                  io.ReadCloser
	sum                 checksum.Hash
	packed, done, limit int64
}

// open opens what a link names. What the archive says about its packed size is not believed beyond its own.
func (c *container) open(link string, limit int64) (*member, error) {
	f, err := c.find(link)
	if err != nil {
		return nil, err
	}
	name := shown(f.Name)
	in, err := f.Open()
	if err != nil {
		return nil, because(ErrFormat, "%s cannot be unpacked: %v", name, err)
	}
	return &member{name, in, checksum.MD5(), int64(min(f.CompressedSize64, uint64(c.size))), 0, limit}, nil
}

func (m *member) Read(p []byte) (int, error) {
	n, err := m.in.Read(p)
	m.done += int64(n)
	switch {
	case m.done > m.limit:
		return 0, because(ErrLimit, "%s unpacks to more than %d bytes", m.name, m.limit)
	case m.done > ratioFrom && m.done > maxRatio*m.packed:
		return 0, because(ErrLimit, "%s unpacks to more than %d times its size", m.name, maxRatio)
	}
	m.sum.Write(p[:n])
	return n, err
}

// failed says what is wrong with a member that cannot be read on.
func (m *member) failed(err error, format string, args ...any) error {
	if errors.Is(err, ErrLimit) {
		return err
	}
	return because(ErrTruncated, "%s "+format, append([]any{m.name}, args...)...)
}

// matches reports whether the checksum of all that was read is the one that is wanted.
func (m *member) matches(want string) bool {
	return strings.EqualFold(want, hex.EncodeToString(m.sum.Sum(nil)))
}

// check notes a checksum that is given and does not match.
func (m *member) check(t *Trace, want string) {
	if want != "" && !m.matches(want) {
		t.note("checksum", "%s does not match its checksum.", m.name)
	}
}

// checksumOfMain holds main.xml against the checksum file: a mismatch is a note, for people edit main.xml by hand.
func (c *container) checksumOfMain(d *x3pDocument, main *member) {
	name := d.value["Record4/ChecksumFile"]
	if name == "" {
		name = "md5checksum.hex"
	}
	var line []byte
	m, err := c.open(name, 4096)
	if err == nil {
		defer m.in.Close()
		if line, err = io.ReadAll(m); err != nil {
			err = m.failed(err, "cannot be unpacked: %v", err)
		}
	}
	want, _, _ := strings.Cut(strings.TrimSpace(string(line)), " ")
	switch {
	case err != nil:
		d.note("checksum", "The checksum of main.xml cannot be checked: %v.", err)
	case !main.matches(want):
		d.note("checksum", "main.xml does not match its checksum: it was changed afterwards.")
	}
}

// finish gives the heights their spacing, their unit and their place.
func (d *x3pDocument) finish(z []float64, pick picked, along *x3pAxis, xs []float64, hints *Hints) error {
	t := d.Trace
	t.Profile.Z = z
	if along.absolute {
		if len(xs) == 0 {
			return because(ErrFormat, "no points")
		}
		if _, err := place(t, xs, along.unit(), hints); err != nil {
			return err
		}
	} else {
		t.Origin = along.shift
		stepped(t, shift10(along.increment, 6), "increment")
		if !(t.Profile.Spacing > 0) || math.IsInf(t.Profile.Spacing, 0) {
			return because(ErrFormat, "the increment %g is no length", along.increment)
		}
	}
	if !t.Report.Turned && t.Report.SpacingBy != "resampled" && d.z.kind == 'D' && d.z.offset == 0 {
		t.stored = slices.Clone(z)
	}
	if err := t.finish(d.z.unit()); err != nil {
		return err
	}
	pick.note(t)
	if t.Profile.Spacing >= 1e5 {
		t.note("unit", "The points lie %s mm apart: the writer of the file may have counted in another unit than metres.", number(t.Profile.Spacing/1000))
	}
	return nil
}
