package standards

// A Grade is an old N grade: a label on a limit of Ra, and never a conversion to another parameter.
type Grade struct {
	Name       string
	Ra         float64 // upper limit, micrometres
	Microinch  float64 // the customary number beside it; a preferred number, not an exact conversion
	CompanionR [2]float64
}

// Grades returns N1 to N12 (source: ISO 1302:1992 and earlier, N grades; excerpt). CompanionR is the range of Rz that shop tables print beside the grade (source: cutting
// practice, not a standard; 0 where none is printed): for orientation only, since Rz/Ra depends on the surface.
func Grades() []Grade {
	return []Grade{
		{"N1", 0.025, 1, [2]float64{0.25, 0.25}},
		{"N2", 0.05, 2, [2]float64{0.63, 0.63}},
		{"N3", 0.1, 4, [2]float64{1, 1}},
		{"N4", 0.2, 8, [2]float64{1.6, 1.6}},
		{"N5", 0.4, 16, [2]float64{2.5, 2.5}},
		{"N6", 0.8, 32, [2]float64{4, 6.3}},
		{"N7", 1.6, 63, [2]float64{10, 10}},
		{"N8", 3.2, 125, [2]float64{16, 25}},
		{"N9", 6.3, 250, [2]float64{40, 40}},
		{"N10", 12.5, 500, [2]float64{63, 63}},
		{"N11", 25, 1000, [2]float64{100, 100}},
		{"N12", 50, 2000, [2]float64{160, 160}},
	}
}

// GradeLimit returns the upper limit of Ra of a grade, and 0 when there is no such grade.
func GradeLimit(name string) float64 {
	for _, g := range Grades() {
		if g.Name == name {
			return g.Ra
		}
	}
	return 0
}

// GradeOf returns the grade whose number a limit of Ra is, in micrometres or in the customary microinches beside them: 1.6 µm
// and 63 µin are both N7. It returns "" for any other limit.
func GradeOf(limit float64) string {
	for _, g := range Grades() {
		for _, v := range []float64{g.Ra, float64(g.Microinch * 0.0254)} {
			if Near(limit, v) {
				return g.Name
			}
		}
	}
	return ""
}

// GradeMet returns the finest grade whose upper limit a measured Ra keeps: 7.4 µm meets N10, not N9. It returns "" when
// Ra is above N12 or is no roughness.
func GradeMet(ra float64) string {
	for _, g := range Grades() {
		if ra >= 0 && ra <= g.Ra {
			return g.Name
		}
	}
	return ""
}

// A TriangleMark is a withdrawn mark of Japanese or German drawings. Even its sources call the numbers an orientation.
type TriangleMark struct {
	System string
	Symbol string  // what the number limits, in today's name
	Limit  float64 // micrometres; 0 where none was given
	Series string  // of DIN 3141
}

// TriangleMarks returns the readings of a mark of one to four triangles, or of the wave sign, which says that the
// surface is left as it is. All are remembered; the Japanese series of numbers was seen.
func TriangleMarks(mark string) []TriangleMark {
	jis := map[string]float64{"▽▽▽▽": 0.2, "▽▽▽": 1.6, "▽▽": 6.3, "▽": 25}
	din := map[string][4]float64{
		"▽": {160, 100, 63, 25}, "▽▽": {40, 25, 16, 10}, "▽▽▽": {16, 6.3, 4, 2.5}, "▽▽▽▽": {0, 1, 1, 0.4},
	}
	var all []TriangleMark
	if ra, ok := jis[mark]; ok {
		all = append(all, TriangleMark{"JIS", "Ra", ra, ""})
	}
	for i, rt := range din[mark] {
		if rt > 0 {
			all = append(all, TriangleMark{"DIN 3141", "Rt", rt, string(rune('1' + i))})
		}
	}
	return all
}
