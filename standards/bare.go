package standards

// bareElements gathers filters and lengths that stand without a key.
type bareElements struct {
	filters []bareFilter
	numbers []decimal
}

type bareFilter struct {
	name  string
	index decimal
	unit  string
	at    int
}

// useBare gives bare filters and lengths their meaning by their order, or refuses what could mean two things.
func (r *Requirement) useBare(bare bareElements) error {
	s := r.s
	switch len(bare.filters) {
	case 0:
		return nil
	case 1:
		return s.fail(bare.filters[0].at, ErrSyntax, "one filter could be the S-filter or the L-filter: write Nis= or Nic= instead")
	}
	r.Notes = append(r.Notes, "Filters and lengths were read by their order: S-filter index in µm, L-filter index and lengths in mm. How ISO 21920-1 spells them was not seen.")
	for i, f := range bare.filters {
		unit := f.unit
		if unit == "" {
			unit = [2]string{"µm", "mm"}[i]
		}
		v, ok := micrometres(f.index, unit)
		if !ok || !(v > 0) {
			return s.fail(f.index.at, ErrNumber, "not a nesting index")
		}
		set := func() { r.ShortFilter, r.Short = f.name, v }
		if i == 1 {
			set = func() { r.LongFilter, r.Long = f.name, v }
		}
		if err := r.set([2]string{"short", "long"}[i], f.at, set); err != nil {
			return err
		}
	}
	if len(bare.numbers) == 0 {
		return nil
	}
	if len(bare.numbers) != 3 {
		return s.fail(bare.numbers[0].at, ErrSyntax, "%d numbers after the filters: section length, number of sections and evaluation length are three; otherwise write lsc=, nsc= or le=", len(bare.numbers))
	}
	n := bare.numbers[1].times(0)
	if n != float64(int(n)) || n < 1 || n > 1000 {
		return s.fail(bare.numbers[1].at, ErrNumber, "%s is not a number of sections", bare.numbers[1].text)
	}
	for i, key := range []string{"section", "sections", "evaluation"} {
		v := bare.numbers[i].times(3)
		if i != 1 && !(v > 0) {
			return s.fail(bare.numbers[i].at, ErrNumber, "a length of 0")
		}
		set := []func(){func() { r.Section = v }, func() { r.Sections = int(n) }, func() { r.Evaluation = v }}[i]
		if err := r.set(key, bare.numbers[i].at, set); err != nil {
			return err
		}
	}
	return nil
}
