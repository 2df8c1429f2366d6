package tracefile

import (
	"bufio"
	"context"
	"io"
	"math"
)

// read takes one row or column of the matrix.
func (d *x3pDocument) read(ctx context.Context, c *container, hints *Hints) error {
	if d.sz > 1 {
		d.note("layers", "The file has %d layers; the first one was read.", d.sz)
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
		err = d.binary(ctx, c, link, pick, take)
	} else {
		err = d.inline(pick, take)
	}
	if err != nil {
		return err
	}
	return d.finish(z, pick, along, xs, hints)
}

// room bounds how many points the archive can hold at all, whatever is announced.
func (c *container) room(d *x3pDocument) int64 {
	const deflate = 1032 // the highest ratio of DEFLATE (J. Gailly and M. Adler, zlib technical details)
	return min(c.size*deflate, c.size*maxRatio+ratioFrom) / int64(storedSizes[d.z.kind])
}

// wanted reports whether a cell belongs to the profile.
func (p *picked) wanted(cell int64) bool {
	j := cell - int64(p.from)
	return j >= 0 && j%int64(p.step) == 0 && j/int64(p.step) < int64(p.n)
}

// binary streams the member with the points: only the profile is kept, and the checksum is made on the way.
func (d *x3pDocument) binary(ctx context.Context, c *container, link string, pick picked, take func(x, y, z float64)) error {
	valid, err := d.mask(c)
	if err != nil {
		return err
	}
	defer valid.close()
	var at [3]int // where the numbers of x, y and z stand in a cell, or -1
	size := 0
	axes := [3]*x3pAxis{&d.x, &d.y, &d.z}
	for i, a := range axes {
		if at[i] = -1; a.absolute {
			at[i] = size
			size += storedSizes[a.kind]
		}
	}
	cells := int64(d.sx) * int64(d.sy)
	total := cells * int64(d.sz)
	m, err := c.open(link, total*int64(size)+1<<20)
	if err != nil {
		return err
	}
	defer m.in.Close()
	in := bufio.NewReaderSize(m, 1<<16)
	cell := make([]byte, size)
	for i := range cells {
		if i%progressEvery == 0 {
			if err := ctx.Err(); err != nil {
				return err
			}
		}
		if _, err := io.ReadFull(in, cell); err != nil {
			return m.failed(err, "ends after %d of %d points: %v", i, cells, err)
		}
		isValid, err := valid.next()
		if err != nil {
			return err
		}
		if !pick.wanted(i) {
			continue
		}
		var v [3]float64
		for k, a := range axes {
			if at[k] >= 0 {
				v[k] = stored(cell[at[k]:], a.kind)
			}
		}
		v[2] = d.z.scale(v[2])
		if !isValid {
			v[2] = math.NaN()
		}
		take(v[0], v[1], v[2])
	}
	rest, err := io.Copy(io.Discard, in)
	if err != nil {
		return m.failed(err, "cannot be unpacked to its end: %v", err)
	}
	if want := (total - cells) * int64(size); rest != want {
		d.note("size", "%s has %d bytes more than its points need.", m.name, rest-want)
	}
	m.check(d.Trace, d.value["Record3/DataLink/MD5ChecksumPointData"])
	return valid.end(d.Trace, d.value["Record3/DataLink/MD5ChecksumValidPoints"])
}

// mask is valid.bin as it is read: one bit per cell, 1 is valid, the least significant bit first. Without one all cells are valid.
type mask struct {
	*member
	buffer *bufio.Reader
	need   int64 // bytes of the first layer
	cell   int64
	bits   byte
}

func (d *x3pDocument) mask(c *container) (*mask, error) {
	link := d.value["Record3/DataLink/ValidPointsLink"]
	if link == "" {
		return &mask{}, nil
	}
	cells := int64(d.sx) * int64(d.sy)
	m, err := c.open(link, (cells*int64(d.sz)+7)/8+1<<16)
	if err != nil {
		return nil, err
	}
	return &mask{member: m, buffer: bufio.NewReaderSize(m, 1<<12), need: (cells + 7) / 8}, nil
}

func (m *mask) next() (bool, error) {
	if m.member == nil {
		return true, nil
	}
	if m.cell%8 == 0 {
		var err error
		if m.bits, err = m.buffer.ReadByte(); err == io.EOF {
			return false, m.failed(err, "has %d bytes and %d are needed", (m.cell+7)/8, m.need)
		} else if err != nil {
			return false, m.failed(err, "cannot be unpacked: %v", err)
		}
	}
	valid := m.bits>>(m.cell%8)&1 == 1
	m.cell++
	return valid, nil
}

// end reads the rest and holds the whole against its checksum.
func (m *mask) end(t *Trace, want string) error {
	if m.member == nil {
		return nil
	}
	if _, err := io.Copy(io.Discard, m.buffer); err != nil {
		return m.failed(err, "cannot be unpacked: %v", err)
	}
	m.check(t, want)
	return nil
}

func (m *mask) close() {
	if m.member != nil {
		m.in.Close()
	}
}

// inline takes the numbers that stand in main.xml. The last one of a cell is the height.
func (d *x3pDocument) inline(pick picked, take func(x, y, z float64)) error {
	cells := int64(d.sx) * int64(d.sy)
	if d.datums < cells {
		return because(ErrTruncated, "%d points are announced and %d stand in main.xml", cells, d.datums)
	}
	if d.datums > cells*int64(d.sz) {
		d.note("count-differs", "%d points are announced and %d stand in main.xml.", cells, d.datums)
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
		n := len(v)
		x, y, z := math.NaN(), math.NaN(), math.NaN()
		if n > 0 {
			z = d.z.scale(v[n-1])
		}
		switch {
		case n == 0:
		case n != absolute && n != 3: // 3: all axes, whatever their type
			return because(ErrFormat, "point %d has %d numbers and %d axes are absolute", i+1, n, absolute)
		default:
			if d.x.absolute {
				x = v[0]
			}
			if d.y.absolute {
				y = v[n-2]
			}
		}
		take(x, y, z)
	}
	return nil
}
