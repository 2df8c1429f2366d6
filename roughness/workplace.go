package roughness

import (
	"math"
	"slices"

	"example.com/furrow/filter"
)

// A workplace holds the buffers of one evaluation at a time and the steps that were taken in them.
type workplace struct {
	raw  []float64 // the trace as given; heights only
	news int       // counts what was made, so that everything made has a number of its own

	whole   int // number of raw
	reading reading
	mended  *prepared
	spare   *prepared // buffers of the reading before
	readErr error
	read    layer

	trace   Profile // of the evaluation in hand
	primary layer

	short, form, long, limit, stratified, twoRC stage

	ends struct {
		plan          *plan
		n, head, tail int
		dx            float64
	}
}

// A layer is a profile with the number of its making.
type layer struct {
	z    []float64
	made int
}

// A stage is one filter or form with what it made of a profile.
type stage struct {
	by  any // what it was taken with: a filter or a form, which compare by their fields
	of  int // number of the profile it was taken on
	err error
	out layer // the mean line or the form
	off layer // the profile less that
}

// reading is all of the settings that the first step depends on.
type reading struct {
	whole                     int
	spacing, bridge, excluded float64
	crop                      [2]float64
	invert                    bool
}

// receive copies the heights of a trace, unless they are those of the trace before.
func (b *workplace) receive(p Profile) {
	if b.whole > 0 && sameBits(b.raw, p.Z) {
		return
	}
	b.raw = append(b.raw[:0], p.Z...)
	b.news++
	b.whole = b.news
}

func sameBits(a, b []float64) bool {
	if len(a) != len(b) {
		return false
	}
	for i, v := range a {
		if math.Float64bits(v) != math.Float64bits(b[i]) {
			return false
		}
	}
	return true
}

// prepare is the function prepare, unless the same trace was read in the same way before. What reads as the same heights is the same
// layer, whatever the settings.
func (b *workplace) prepare(p Profile, s *Settings) error {
	key := reading{b.whole, p.Spacing, *s.Bridge, 0, s.Crop, s.Invert}
	if s.Long.Spec.Cutoff > 0 {
		key.excluded = s.Long.Spec.Cutoff / 2
	}
	if b.mended != nil && key == b.reading && slices.Equal(b.mended.exclude, s.Exclude) {
		return b.readErr
	}
	next := b.spare
	if next == nil {
		next = &prepared{}
	}
	err := next.prepare(p, s)
	if old := b.mended; old == nil || b.reading.spacing != p.Spacing || !sameBits(next.z, old.z) || !slices.Equal(next.use, old.use) {
		b.news++
		b.read.made = b.news
	}
	b.reading, b.mended, b.spare, b.readErr = key, next, b.mended, err
	b.read.z = next.z
	return err
}

// take goes through a stage with a profile unless it did so before.
func (b *workplace) take(s *stage, in layer, by any, apply func(dst []float64) ([]float64, error)) error {
	if s.of == in.made && s.by == by {
		return s.err
	}
	s.by, s.of = by, in.made
	if s.out.z, s.err = apply(sized(s.out.z, len(in.z))); s.err != nil {
		return s.err
	}
	if s != &b.short { // nothing looks at the short waves that it takes away
		s.off.z = sized(s.off.z, len(in.z))
		for i, v := range in.z {
			s.off.z[i] = v - s.out.z[i]
		}
	}
	b.news += 2
	s.out.made, s.off.made = b.news-1, b.news
	return nil
}

// filter is take with a filter.
func (b *workplace) filter(s *stage, in layer, f filter.Filter, dx float64) error {
	return b.take(s, in, f, func(dst []float64) ([]float64, error) { return f.Apply(dst, in.z, dx) })
}

// cut is that of the plan, which is worked out once for traces of one length.
func (b *workplace) cut(p *plan, n int, dx float64) (head, tail int) {
	if b.ends.plan != p || b.ends.n != n || b.ends.dx != dx {
		b.ends.plan, b.ends.n, b.ends.dx = p, n, dx
		b.ends.head, b.ends.tail = p.cut(n, dx)
	}
	return b.ends.head, b.ends.tail
}

// sized is the buffer at the length n, or a new one where it is too short.
func sized(z []float64, n int) []float64 {
	if cap(z) < n {
		return make([]float64, n)
	}
	return z[:n]
}
