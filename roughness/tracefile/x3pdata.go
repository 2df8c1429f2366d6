package tracefile

import (
	"bufio"
	"context"
	"crypto/md5"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"math"
	"strings"
)

// read takes one row or column of the matrix.
func (d *x3pDocument) read(ctx context.Context, t *Trace, c *container, hints *Hints) error {
	if d.sz > 1 {
		t.note("layers", fmt.Sprintf("The file has %d layers; the first one was read.", d.sz))
	}
	pick, err := pickProfile(d.sx, d.sy, hints)
	if err != nil {
		return err
	}
	along := &d.x
	if pick.column {
		along = &d.y
	}
	if pick.n > maxProfile {
		return because(ErrLimit, "a profile of %d points; the limit is %d", pick.n, maxProfile)
	}
	var xs []float64
	most := min(int64(pick.n), c.room(d))
	z := make([]float64, 0, most)
	if along.absolute {
		xs = make([]float64, 0, most)
	}
	take := func(x, y, v float64) {
		z = append(z, v)
		if along.absolute {
			if pick.column {
				x = y
			}
			xs = append(xs, along.scale(x))
		}
	}
	if link := d.value["Record3/DataLink/PointDataLink"]; link != "" {
		err = d.binary(ctx, t, c, link, pick, take)
	} else {
		err = d.inline(t, pick, take)
	}
	if err != nil {
		return err
	}
	if along.absolute && len(xs) == 0 {
		return because(ErrFormat, "no points")
	}
	return d.finish(t, z, pick, along, xs, hints)
}

// room bounds how many points the archive can hold at all, whatever is announced.
func (c *container) room(d *x3pDocument) int64 {
	const deflate = 1032 // the highest ratio of DEFLATE (J. Gailly and M. Adler, zlib technical details)
	return min(c.size*deflate, c.size*maxRatio+ratioFrom) / int64(d.z.size())
}

// wanted reports whether a cell belongs to the profile.
func (p *picked) wanted(cell int64) bool {
	j := cell - int64(p.from)
	return j >= 0 && j%int64(p.step) == 0 && j/int64(p.step) < int64(p.n)
}

// binary streams the member with the points: only the profile is kept, and the checksum is made on the way.
func (d *x3pDocument) binary(ctx context.Context, t *Trace, c *container, link string, pick picked, take func(x, y, z float64)) error {
	valid, err := d.mask(c)
	if err != nil {
		return err
	}
	defer valid.close()
	f, err := c.member(link)
	if err != nil {
		return err
	}
	var axes []*x3pAxis
	size := 0
	for _, a := range []*x3pAxis{&d.x, &d.y, &d.z} {
		if a.absolute {
			axes = append(axes, a)
			size += a.size()
		}
	}
	cells := int64(d.sx) * int64(d.sy)
	total := cells * int64(d.sz)
	member, g, err := c.openMember(f, total*int64(size)+1<<20)
	if err != nil {
		return err
	}
	defer member.Close()
	sum := md5.New()
	in := bufio.NewReaderSize(io.TeeReader(g, sum), 1<<16)
	name := shown(f.Name)
	cell := make([]byte, size)
	for i := int64(0); i < cells; i++ {
		if i%progressEvery == 0 {
			if err := ctx.Err(); err != nil {
				return err
			}
		}
		if _, err := io.ReadFull(in, cell); err != nil {
			if errors.Is(err, ErrLimit) {
				return err
			}
			return because(ErrTruncated, "%s ends after %d of %d points: %v", name, i, cells, err)
		}
		isValid, err := valid.next()
		if err != nil {
			return err
		}
		if !pick.wanted(i) {
			continue
		}
		var v [3]float64
		at := 0
		for _, a := range axes {
			n := a.size()
			switch a {
			case &d.x:
				v[0] = stored(cell[at:], a.kind)
			case &d.y:
				v[1] = stored(cell[at:], a.kind)
			default:
				v[2] = d.z.scale(stored(cell[at:], a.kind))
			}
			at += n
		}
		if !isValid {
			v[2] = math.NaN()
		}
		take(v[0], v[1], v[2])
	}
	rest, err := io.Copy(io.Discard, in)
	if err != nil {
		if errors.Is(err, ErrLimit) {
			return err
		}
		return because(ErrTruncated, "%s cannot be unpacked to its end: %v", name, err)
	}
	if want := (total - cells) * int64(size); rest != want {
		t.note("size", fmt.Sprintf("%s has %d bytes more than its points need.", name, rest-want))
	}
	if want := d.value["Record3/DataLink/MD5ChecksumPointData"]; want != "" && !strings.EqualFold(want, hex.EncodeToString(sum.Sum(nil))) {
		t.note("checksum", fmt.Sprintf("%s does not match its checksum.", name))
	}
	return valid.end(t, d.value["Record3/DataLink/MD5ChecksumValidPoints"])
}

func stored(b []byte, kind byte) float64 {
	switch kind {
	case 'I':
		return float64(int16(binary.LittleEndian.Uint16(b)))
	case 'L':
		return float64(int32(binary.LittleEndian.Uint32(b)))
	case 'F':
		return float64(math.Float32frombits(binary.LittleEndian.Uint32(b)))
	}
	return math.Float64frombits(binary.LittleEndian.Uint64(b))
}

// mask is valid.bin as it is read: one bit per cell, 1 is valid, the least significant bit first. Without one all cells are valid.
type mask struct {
	name   string
	member io.Closer
	in     *bufio.Reader
	sum    hash.Hash
	need   int64 // bytes of the first layer
	cell   int64
	bits   byte
}

func (d *x3pDocument) mask(c *container) (*mask, error) {
	link := d.value["Record3/DataLink/ValidPointsLink"]
	if link == "" {
		return &mask{}, nil
	}
	f, err := c.member(link)
	if err != nil {
		return nil, err
	}
	cells := int64(d.sx) * int64(d.sy)
	member, g, err := c.openMember(f, (cells*int64(d.sz)+7)/8+1<<16)
	if err != nil {
		return nil, err
	}
	m := &mask{name: shown(f.Name), member: member, sum: md5.New(), need: (cells + 7) / 8}
	m.in = bufio.NewReaderSize(io.TeeReader(g, m.sum), 1<<12)
	return m, nil
}

func (m *mask) next() (bool, error) {
	if m.in == nil {
		return true, nil
	}
	if m.cell%8 == 0 {
		var err error
		if m.bits, err = m.in.ReadByte(); err != nil {
			return false, m.failed(err)
		}
	}
	valid := m.bits>>(m.cell%8)&1 == 1
	m.cell++
	return valid, nil
}

func (m *mask) failed(err error) error {
	switch {
	case errors.Is(err, ErrLimit):
		return err
	case err == io.EOF:
		return because(ErrTruncated, "%s has %d bytes and %d are needed", m.name, (m.cell+7)/8, m.need)
	}
	return because(ErrTruncated, "%s cannot be unpacked: %v", m.name, err)
}

// end reads the rest and holds the whole against its checksum.
func (m *mask) end(t *Trace, want string) error {
	if m.in == nil {
		return nil
	}
	if _, err := io.Copy(io.Discard, m.in); err != nil {
		return m.failed(err)
	}
	if want != "" && !strings.EqualFold(want, hex.EncodeToString(m.sum.Sum(nil))) {
		t.note("checksum", fmt.Sprintf("%s does not match its checksum.", m.name))
	}
	return nil
}

func (m *mask) close() {
	if m.member != nil {
		m.member.Close()
	}
}

// inline takes the numbers that stand in main.xml. The last one of a cell is the height.
func (d *x3pDocument) inline(t *Trace, pick picked, take func(x, y, z float64)) error {
	cells := int64(d.sx) * int64(d.sy)
	if d.datums < cells {
		return because(ErrTruncated, "%d points are announced and %d stand in main.xml", cells, d.datums)
	}
	if d.datums > cells*int64(d.sz) {
		t.note("count-differs", fmt.Sprintf("%d points are announced and %d stand in main.xml.", cells, d.datums))
	}
	absolute := 1
	for _, a := range []*x3pAxis{&d.x, &d.y} {
		if a.absolute {
			absolute++
		}
	}
	for i := range cells {
		if !pick.wanted(i) {
			continue
		}
		from, to := d.datumStart[i], int32(len(d.datum))
		if i+1 < int64(len(d.datumStart)) {
			to = d.datumStart[i+1]
		}
		v := d.datum[from:to]
		x, y, z := math.NaN(), math.NaN(), math.NaN()
		if len(v) > 0 {
			z = d.z.scale(v[len(v)-1])
		}
		switch {
		case len(v) == 3: // all axes, whatever their type
			x, y = v[0], v[1]
		case len(v) == 0 || len(v) == absolute:
			if d.x.absolute && len(v) > 0 {
				x = v[0]
			}
			if d.y.absolute && len(v) > 1 {
				y = v[len(v)-2]
			}
		default:
			return because(ErrFormat, "point %d has %d numbers and %d axes are absolute", i+1, len(v), absolute)
		}
		take(x, y, z)
	}
	return nil
}
