package study

import (
	"cmp"
	"fmt"
	"hash/crc32"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/standards"
)

// signs is the alphabet of checks and codes: no I, L, O and U.
const signs = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// mostLink is the length of the longest link that is made.
const mostLink = 1500

const linkVersion = "s1"

// checksum is the lowest 20 bits of the CRC-32 of a text, which is what four signs hold.
func checksum(data []byte) uint32 { return crc32.ChecksumIEEE(data) & 0xfffff }

// written writes the lowest bits of v as signs, the highest first.
func written(v uint32, n int) string {
	b := make([]byte, n)
	for i := n - 1; i >= 0; i-- {
		b[i] = signs[v&31]
		v >>= 5
	}
	return string(b)
}

// decimal writes a number for a link: no exponent, at most six decimals.
func decimal(v float64) string {
	s := strconv.FormatFloat(v, 'f', 6, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func decimals(list ...float64) string {
	parts := make([]string, len(list))
	for i, v := range list {
		parts[i] = decimal(v)
	}
	return strings.Join(parts, "_")
}

var plainNumber = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)

// numbersOf reads a list of numbers; between least and most of them, 0 for any.
func numbersOf(text string, least, most int) ([]float64, error) {
	var list []float64
	for _, part := range strings.Split(text, "_") {
		v, err := strconv.ParseFloat(part, 64)
		if err != nil || !plainNumber.MatchString(part) {
			return nil, fmt.Errorf("%q is no number", part)
		}
		list = append(list, v)
	}
	if len(list) < least || most > 0 && len(list) > most {
		return nil, fmt.Errorf("%d numbers", len(list))
	}
	return list, nil
}

// wholes reads whole numbers.
func wholes(text string, least, most int) ([]int, error) {
	list, err := numbersOf(text, least, most)
	out := make([]int, len(list))
	for i, v := range list {
		if out[i] = int(v); math.Abs(v) > 1e9 || float64(out[i]) != v {
			return nil, fmt.Errorf("%g is no whole number", v)
		}
	}
	return out, err
}

// A linkField is one field of a link: how a complete state writes it, "" for its first value, and how it is read.
type linkField struct {
	key   string
	words string
	write func(s *State) string
	read  func(s *State, text string) error
}

// choice is a field of one of several words, each with its letter; the first word is the first value.
func choice(key, words string, at func(s *State) *string, letters string, values ...string) linkField {
	return linkField{key, words, func(s *State) string {
		if i := slices.Index(values, *at(s)); i > 0 {
			return letters[i : i+1]
		}
		return ""
	}, func(s *State, text string) error {
		i := strings.Index(letters, text)
		if len(text) != 1 || i < 0 {
			return fmt.Errorf("%q is none of %s", text, letters)
		}
		*at(s) = values[i]
		return nil
	}}
}

// wholeField is a field of a whole number with its first value and its range.
func wholeField(key, words string, at func(s *State) *int, first, least, most int) linkField {
	return linkField{key, words, func(s *State) string {
		if *at(s) == first {
			return ""
		}
		return strconv.Itoa(*at(s))
	}, func(s *State, text string) error {
		v, err := wholes(text, 1, 1)
		if err == nil && (v[0] < least || v[0] > most) {
			err = fmt.Errorf("%d is not from %d to %d", v[0], least, most)
		}
		if err == nil {
			*at(s) = v[0]
		}
		return err
	}}
}

// linkFields are the fields in the order in which a link has them.
var linkFields = slices.Concat([]linkField{
	{"sy", "symbol", writeSymbol, readSymbol},
	{"ed", "edition", func(s *State) string {
		return strings.TrimPrefix(string(s.Edition), roughness.DefaultEdition)
	}, func(s *State, text string) error {
		s.Edition = standards.EditionID(text)
		if _, ok := standards.EditionByID(s.Edition); !ok {
			s.Edition = ""
			return fmt.Errorf("no edition %q", text)
		}
		return nil
	}},
	{"pr", "profile", func(s *State) string { return strings.TrimPrefix(s.Letter, "R") }, func(s *State, text string) error {
		if text != "P" && text != "W" {
			return fmt.Errorf("no profile %q", text)
		}
		s.Letter = text
		return nil
	}},
	{"su", "surface", func(s *State) string {
		return map[string]string{Demo: "d" + s.Demo, Made: "m", Typed: "h", Sheet: "f"}[s.Surface]
	}, func(s *State, text string) error {
		key := map[string]string{"m": Made, "h": Typed, "f": Sheet}
		if demo, ok := strings.CutPrefix(text, "d"); ok {
			s.Surface, s.Demo = Demo, demo
		} else if s.Surface, ok = key[text]; !ok {
			return fmt.Errorf("no surface %q", text)
		}
		return nil
	}},
	{"ln", "length and spacing", func(s *State) string {
		if s.Surface != Made || s.Length == firstLength && s.Spacing == firstSpacing {
			return ""
		}
		return decimals(s.Length, s.Spacing)
	}, func(s *State, text string) error {
		v, err := numbersOf(text, 2, 2)
		if err == nil {
			s.Length, s.Spacing = v[0], v[1]
		}
		return err
	}},
}, partFields(), []linkField{
	{"or", "moved ordinates", func(s *State) string {
		var v []float64
		for _, m := range s.Moved {
			v = append(v, float64(m.Point), m.By, float64(m.Width))
		}
		return decimals(v...)
	}, func(s *State, text string) error {
		v, err := numbersOf(text, 3, 3*mostMoved)
		if err == nil && len(v)%3 != 0 {
			err = fmt.Errorf("%d numbers", len(v))
		}
		for i := 0; err == nil && i < len(v); i += 3 {
			s.Moved = append(s.Moved, MovedPoint{int(v[i]), v[i+1], int(v[i+2])})
		}
		return err
	}},
	wholeField("ev", "points kept", func(s *State) *int { return &s.Every }, 1, 1, 4),
	{"up", "upside down", func(s *State) string {
		if s.Turned {
			return "1"
		}
		return ""
	}, func(s *State, text string) error {
		s.Turned = text == "1"
		return nil
	}},
	{"hz", "typed heights", func(s *State) string {
		if s.Surface != Typed {
			return ""
		}
		return decimals(s.Heights...)
	}, func(s *State, text string) (err error) {
		s.Heights, err = numbersOf(text, leastTyped, mostTyped)
		return err
	}},
	{"hx", "spacing of typed heights", func(s *State) string {
		if s.Surface != Typed || s.Spacing == firstTypedSpacing {
			return ""
		}
		return decimal(s.Spacing)
	}, func(s *State, text string) error {
		v, err := numbersOf(text, 1, 1)
		if err == nil {
			s.Spacing = v[0]
		}
		return err
	}},
	choice("hl", "line of typed heights", func(s *State) *string { return &s.Line }, "0ms", "zero", "mean", "line"),
	{"fi", "filter", writeFilter, readFilter},
	{"se", "sections", func(s *State) string {
		v := []float64{float64(s.Sections.Number), s.Sections.Length}
		if s.Sections.Start != nil {
			v = append(v, *s.Sections.Start)
		} else if s.Sections == (Sections{}) {
			return ""
		}
		return decimals(v...)
	}, func(s *State, text string) error {
		v, err := numbersOf(text, 2, 3)
		if err == nil {
			s.Sections = Sections{Number: int(v[0]), Length: v[1]}
			if len(v) == 3 {
				s.Sections.Start = &v[2]
			}
		}
		return err
	}},
	{"mv", "what moves", func(s *State) string { return s.Move }, func(s *State, text string) error {
		s.Move = text
		return nil
	}},
	choice("wa", "way", func(s *State) *string { return &s.Way }, "lpw", "look", "predict", "work"),
	{"qu", "questions", func(s *State) string { return s.Questions }, func(s *State, text string) error {
		for i, r := range text {
			if r < 'a' || r > 'p' || strings.ContainsRune(text[:i], r) {
				return fmt.Errorf("no questions %q", text)
			}
		}
		s.Questions = text
		return nil
	}},
	wholeField("fa", "blanks", func(s *State) *int { return &s.Fade }, 0, 0, 4),
	wholeField("hi", "hidden values", func(s *State) *int { return &s.Hide }, 0, 0, 2),
	{"fc", "check of the file", func(s *State) string {
		if s.File == nil {
			return ""
		}
		return strconv.Itoa(s.File.Points) + "_" + s.File.CRC
	}, func(s *State, text string) error {
		points, crc, _ := strings.Cut(text, "_")
		n, err := strconv.Atoi(points)
		if _, wrong := strconv.ParseUint(crc, 16, 64); err != nil || wrong != nil || len(crc) != 8 {
			return fmt.Errorf("no check %q", text)
		}
		s.File = &SheetFile{n, crc}
		return nil
	}},
})

// partFields are those of the ingredients.
func partFields() []linkField {
	var list []linkField
	for i := range ingredients {
		in := &ingredients[i]
		list = append(list, linkField{in.key, strings.ToLower(in.Words), func(s *State) string {
			var v []float64
			for _, p := range s.Parts {
				if p.Kind == in.Kind && s.Surface == Made {
					v = append(v, p.Values...)
				}
			}
			return decimals(v...)
		}, func(s *State, text string) error {
			n := len(in.Fields)
			v, err := numbersOf(text, n, n*in.Most)
			if err == nil && len(v)%n != 0 {
				err = fmt.Errorf("%d numbers", len(v))
			}
			for i := 0; err == nil && i < len(v); i += n {
				s.Parts = append(s.Parts, Part{in.Kind, v[i : i+n]})
			}
			return err
		}})
	}
	return list
}

func writeSymbol(s *State) string {
	call, err := params.Lookup(s.Edition, s.Letter[0], s.Symbol)
	if err != nil {
		return ""
	}
	text := call.Parameter.Key
	n := len(call.Args)
	for n > 0 && math.IsNaN(call.Args[n-1]) {
		n--
	}
	if n > 0 {
		text += "_" + decimals(call.Args[:n]...)
	}
	return text
}

func readSymbol(s *State, text string) error {
	key, args, has := strings.Cut(text, "_")
	for _, call := range params.Defaults(cmp.Or(s.Edition, roughness.DefaultEdition), cmp.Or(s.Letter, "R")[0]) {
		if call.Parameter.Key != key {
			continue
		}
		if has {
			v, err := numbersOf(args, 1, len(call.Args))
			if err != nil {
				return err
			}
			copy(call.Args, v)
		}
		symbol := call.String()
		_, err := params.Lookup(call.Edition, call.Letter, symbol)
		if err == nil {
			s.Symbol = symbol
		}
		return err
	}
	return fmt.Errorf("no symbol %q in this edition", key)
}

func writeFilter(s *State) string {
	first := State{Surface: s.Surface}.Complete()
	switch f := s.Filter; {
	case f == first.Filter:
		return ""
	case f.Kind == "none":
		return "n"
	case f.Kind == "class":
		return cmp.Or(f.Class, "c")
	default:
		return "L" + decimal(f.Long) + "_S" + decimal(f.Short)
	}
}

func readFilter(s *State, text string) error {
	long, short, own := strings.Cut(strings.TrimPrefix(text, "L"), "_S")
	switch {
	case text == "n":
		s.Filter = Removal{Kind: "none"}
	case text == "c":
		s.Filter = Removal{Kind: "class"}
	case strings.HasPrefix(text, "L") && own:
		v, err := numbersOf(long+"_"+short, 2, 2)
		if err != nil {
			return err
		}
		s.Filter = Removal{Kind: "own", Long: v[0], Short: v[1]}
	default:
		if _, ok := classOf(cmp.Or(s.Edition, roughness.DefaultEdition), text); !ok {
			return fmt.Errorf("no class %q in this edition", text)
		}
		s.Filter = Removal{Kind: "class", Class: text}
	}
	return nil
}

// allowed are the signs that a link may hold.
var allowed = regexp.MustCompile(`^[-._~a-zA-Z0-9]*$`)

// Link returns the text that holds the exercise, without a leading #: one exercise has one text. A *RefusedError says what to take
// out where it would be too long.
func (s State) Link() (string, error) {
	s = s.Complete()
	if err := s.check(); err != nil {
		return "", err
	}
	text, longest, name := linkVersion, 0, ""
	for _, f := range linkFields {
		v := f.write(&s)
		if v == "" {
			continue
		}
		if !allowed.MatchString(v) || strings.Contains(v, "~") {
			return "", &RefusedError{"study-link", fmt.Sprintf("The %s cannot stand in a link.", f.words)}
		}
		if len(v) > longest {
			longest, name = len(v), f.words
		}
		text += "~" + f.key + v
	}
	text += "~zz" + written(checksum([]byte(text)), 4)
	if len(text) > mostLink {
		return "", &RefusedError{"study-link", fmt.Sprintf("The link would have %d signs; %d are the most. Take out some of the %s.", len(text), mostLink, name)}
	}
	return text, nil
}

// Check is the check of the exercise's link.
func (s State) Check() (string, error) {
	text, err := s.Link()
	if err != nil {
		return "", err
	}
	return text[len(text)-4:], nil
}

// A LinkError says why a link sets nothing.
type LinkError struct{ Text string }

// Error returns the sentence.
func (e *LinkError) Error() string { return "study: " + e.Text }

// OpenLink reads the text of a link, with or without a leading #. Notes say what was not understood. A *LinkError sets nothing.
func OpenLink(text string) (s State, notes []string, err error) {
	text = strings.TrimPrefix(strings.TrimSpace(text), "#")
	body, check, ok := strings.Cut(text, "~zz")
	if !ok || !allowed.MatchString(text) || strings.ToUpper(check) != written(checksum([]byte(body)), 4) {
		return State{}, nil, &LinkError{"This link was changed or cut on its way. Ask for it again."}
	}
	parts := strings.Split(body, "~")
	if parts[0] != linkVersion {
		notes = append(notes, fmt.Sprintf("The link has the version %q, and this sheet knows %q: what it understood is set.", parts[0], linkVersion))
	}
	given := map[string]string{}
	var unknown []string
	for _, p := range parts[1:] {
		if len(p) < 2 || !slices.ContainsFunc(linkFields, func(f linkField) bool { return f.key == p[:2] }) {
			unknown = append(unknown, strconv.Quote(p))
			continue
		}
		given[p[:2]] = p[2:]
	}
	for _, f := range append(linkFields[1:len(linkFields):len(linkFields)], linkFields[0]) { // the symbol last: edition and profile say what it is called
		v, ok := given[f.key]
		if !ok {
			continue
		}
		before := s
		if err := f.read(&s, v); err != nil {
			s = before
			unknown = append(unknown, fmt.Sprintf("the %s (%v)", f.words, err))
		}
	}
	if len(unknown) > 0 {
		notes = append(notes, "Of the link was not understood: "+strings.Join(unknown, ", ")+".")
	}
	complete := s.Complete()
	if err := complete.check(); err != nil {
		return State{}, nil, &LinkError{"The link holds what cannot be: " + err.Error()}
	}
	return complete, notes, nil
}

// Fingerprint is what a link holds of the trace of the worksheet: its points and the CRC-32 of its heights rounded to 0.001 µm.
func Fingerprint(z []float64) SheetFile {
	sum := crc32.NewIEEE()
	for _, v := range z {
		fmt.Fprintf(sum, "%.3f\n", v)
	}
	return SheetFile{len(z), fmt.Sprintf("%08x", sum.Sum32())}
}
