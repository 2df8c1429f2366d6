package roughness

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/standards/callout"
)

func stated(kind string, cutoff float64) Band {
	return Band{Spec: FilterSpec{Filter: kind, Cutoff: cutoff}}
}

// Each change in words, short and as a reader expects them: lengths with their unit, filters with their name.
func TestChangesInWords(t *testing.T) {
	start, with := 12.5, func(b Band, change func(*FilterSpec)) Band { change(&b.Spec); return b }
	discards := func(length float64) func(*FilterSpec) {
		return func(s *FilterSpec) { s.Ends, s.DiscardLength = "discard", length }
	}
	for _, c := range []struct {
		a, b             Settings
		key              string
		from, to         string
		plainFrom, plain string
	}{
		{Settings{Long: stated("gaussian", 800)}, Settings{Long: stated("gaussian", 2500)}, "long.cutoff", "800 µm", "2500 µm", "0.8 mm", "2.5 mm"},
		{Settings{Long: stated("gaussian", 800)}, Settings{Long: with(stated("gaussian", 800), discards(400))}, "long.ends", "its own", "discard 400 µm", "its own", "discard 400 µm"},
		{Settings{Long: with(stated("gaussian", 800), discards(0))}, Settings{Long: stated("gaussian", 800)}, "long.ends", "discard", "its own", "discard", "its own"},
		{Settings{Long: stated("gaussian", 800)}, Settings{Long: stated("valley-suppression", 800)}, "long", "gaussian", "valley-suppression", "gaussian", "valley-suppression"},
		{Settings{Long: stated("gaussian", 800)}, Settings{Long: stated("spline", 250)}, "long", "gaussian 800 µm", "spline 250 µm", "Gaussian 0.8 mm", "spline 0.25 mm"},
		{Settings{Long: stated("spline", 800)}, Settings{Long: with(stated("spline", 800), func(s *FilterSpec) { s.Tension = 0.5 })}, "long", "spline 800 µm", "spline 800 µm, tension 0.5", "spline 800 µm", "spline 800 µm, tension 0.5"},
		{Settings{Short: stated("gaussian", 2.5)}, Settings{Short: Band{Off: true}}, "short", "gaussian 2.5 µm", "none", "Gaussian 2.5 µm", "none"},
		{Settings{Short: stated("gaussian", 2.5)}, Settings{Short: with(stated("gaussian", 2.5), func(s *FilterSpec) { s.Support = 1.5 })}, "short", "gaussian 2.5 µm", "gaussian 2.5 µm", "gaussian 2.5 µm", "gaussian 2.5 µm, support 1.5"},
		{Settings{}, Settings{WavinessLimit: 8000}, "waviness_limit", "0 µm", "8000 µm", "none", "8 mm"},
		{Settings{Start: &start}, Settings{}, "start", "12.5 µm", "in the middle", "12.5 µm", "in the middle"},
		{Settings{Form: FormSpec{Kind: "polynomial", Degree: 3}}, Settings{Form: FormSpec{Kind: "circle", Radius: 5000}}, "form", "polynomial of degree 3", "circle of radius 5000 µm", "polynomial of degree 3", "circle of radius 5000 µm"},
		{Settings{Form: FormSpec{Kind: "circle"}}, Settings{Form: FormSpec{Kind: "line"}}, "form", "circle", "line", "circle", "line"},
	} {
		list := Changes(&c.a, &c.b)
		if len(list) != 1 {
			t.Errorf("%s: %d changes", c.key, len(list))
			continue
		}
		from, to := list[0].Plain()
		if got, want := []string{list[0].Key, list[0].From, list[0].To, from, to}, []string{c.key, c.from, c.to, c.plainFrom, c.plain}; !slices.Equal(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if list := Changes(&Settings{Long: stated("spline", 800)}, &Settings{Long: stated("spline", 800)}); list != nil {
		t.Errorf("two equal settings differ: %v", list)
	}
}

// A kind of filter that moves alone leaves cut-off and ends where they are, if both filters are told the same way; else all go with it.
func TestChangesOfTheKind(t *testing.T) {
	from := Settings{Long: stated("gaussian", 800)}
	from.Long.Spec.Ends, from.Long.Spec.Fit = "linear", 300
	to := Settings{Long: stated("valley-suppression", 2500)}
	list := Changes(&from, &to)
	if len(list) != 3 {
		t.Fatalf("%d changes", len(list))
	}
	s := from
	list[0].Make(&s, &to)
	want := from.Long
	want.Spec.Filter = "valley-suppression"
	if s.Long != want {
		t.Errorf("the kind alone: %+v, want %+v", s.Long, want)
	}
	for _, c := range list[1:] {
		c.Make(&s, &to)
	}
	if s.Long != to.Long {
		t.Errorf("all three: %+v, want %+v", s.Long, to.Long)
	}
	// What had no filter takes the whole one.
	s = Settings{Long: Band{Off: true}}
	if list := Changes(&s, &to); len(list) != 1 {
		t.Errorf("none to a filter: %v", list)
	} else if list[0].Make(&s, &to); s.Long != to.Long {
		t.Errorf("none to a filter: %+v", s.Long)
	}
}

func TestLinearOfBand(t *testing.T) {
	for _, c := range []struct {
		band Band
		want filter.Filter
		own  bool
	}{
		{Band{Off: true}, nil, true}, {Band{Off: true, Spec: FilterSpec{Filter: "gaussian", Cutoff: 800}}, nil, true},
		{stated("gaussian", 800), filter.Gaussian{Cutoff: 800}, true}, {stated("robust-spline", 250), filter.Spline{Cutoff: 250}, false},
		{Band{Spec: FilterSpec{Filter: "disk-closing", Radius: 500}}, nil, true},
	} {
		if f, own := c.band.Linear(); f != c.want || own != c.own {
			t.Errorf("%v: %#v, %v", c.band, f, own)
		}
	}
	if s := (Band{Spec: FilterSpec{Filter: "disk-closing", Radius: 500}}).Plain(); s != "closing by a disk 0.5 mm" {
		t.Error(s)
	}
	if s := (Band{Spec: FilterSpec{Filter: "gaussian"}}).Plain(); s != "gaussian" {
		t.Error(s)
	}
}

// Where settings are what a requirement asks for, they keep its origins; the kind and the cut-off of a filter each have their own.
func TestCredit(t *testing.T) {
	robust := stated("robust-gaussian", 800)
	for _, c := range []struct {
		key  string
		s    Settings
		want bool
	}{
		{"long.filter", Settings{Long: stated("gaussian", 250)}, true}, {"long.filter", Settings{Long: robust}, false},
		{"long.cutoff", Settings{Long: robust}, true}, {"long.cutoff", Settings{Long: stated("gaussian", 250)}, false},
		{"short", Settings{Short: Band{Off: true}}, true}, {"short", Settings{}, false}, {"long", Settings{Long: Band{Off: true}}, false},
		{"form.kind", Settings{Form: FormSpec{Kind: "circle", Radius: 5}}, true}, {"form.kind", Settings{Form: FormSpec{Kind: "line"}}, false},
		{"sections", Settings{Sections: 3}, true}, {"sections", Settings{Sections: 4}, false},
		{"edition", Settings{Edition: "iso-4287"}, true}, {"edition", Settings{}, false},
		{"parameters", Settings{Parameters: []string{"Rz"}}, false}, // who asks for more than a requirement asks by hand
		{"evaluation", Settings{}, false},                           // no setting
	} {
		asked := Settings{Edition: "iso-4287", Long: stated("gaussian", 800), Short: Band{Off: true}, Form: FormSpec{Kind: "circle"}, Sections: 3, Parameters: []string{"Rz"}, From: origins(c.key)}
		c.s.From = origins("crop")
		c.s.Credit(&asked)
		want := origins("crop")
		if c.want {
			want[c.key] = callout.Origin{Text: c.key}
		}
		if !reflect.DeepEqual(c.s.From, want) {
			t.Errorf("%s of %+v: %v", c.key, c.s, c.s.From)
		}
		c.s.From = nil
		if c.s.Credit(&asked); len(c.s.From) != len(want)-1 {
			t.Errorf("%s without origins: %v", c.key, c.s.From)
		}
	}
}

// What a settings file states against a requirement is said, value by value; what it leaves out is not.
func TestAgainstWordByWord(t *testing.T) {
	asked := Settings{Long: stated("gaussian", 800), Short: stated("gaussian", 2.5), Form: FormSpec{Kind: "line"}, SectionLength: 800, Sections: 5, Profile: R}
	asked.Long.Spec.Support = 1
	if notes := (&Settings{Long: stated("gaussian", 800), Sections: 5, Name: "other", Edition: "iso-4287"}).Against(&asked); notes != nil {
		t.Errorf("nothing departs: %v", notes)
	}
	over := Settings{Long: stated("gaussian", 2500), Short: Band{Off: true}, Form: FormSpec{Kind: "mean"}, SectionLength: 250, Sections: 3, Profile: P, Input: Levelled}
	want := []string{"the L-filter is gaussian 800 µm there and gaussian 2500 µm here", "the S-filter is gaussian 2.5 µm there and none here",
		"the form is line there and mean here", "the section length is 800 µm there and 250 µm here", "the number of sections is 5 there and 3 here",
		"the profile is R there and P here", "what the heights hold is raw there and levelled here"}
	notes := over.Against(&asked)
	if len(notes) != len(want) {
		t.Fatalf("%v", notes)
	}
	for i, n := range notes {
		if n.Code != "differs-from-requirement" || n.Text != "The settings file overrides the requirement: "+want[i]+"." {
			t.Errorf("%q, want %q", n.Text, want[i])
		}
	}
	for _, b := range []Band{stated("spline", 800), stated("gaussian", 801), {Off: true, Spec: asked.Long.Spec}} {
		if notes := (&Settings{Long: b}).Against(&asked); len(notes) != 1 {
			t.Errorf("%v against the requirement: %v", b, notes)
		}
	}
}

func TestWithParameters(t *testing.T) {
	own := Settings{Sections: 3, Parameters: []string{"Ra", "Rz"}}
	if s := own.Only("Rk"); s.Sections != 3 || !slices.Equal(s.Parameters, []string{"Rk"}) || len(own.Parameters) != 2 {
		t.Errorf("%+v", s)
	}
	if s := (*Settings)(nil).Only("Rk"); !reflect.DeepEqual(s, &Settings{Parameters: []string{"Rk"}}) {
		t.Errorf("%+v", s)
	}
	if s := WithParameters(&own, "Rz", "Rk", "Rk"); s.Sections != 3 || !slices.Equal(s.Parameters, []string{"Ra", "Rz", "Rk"}) || len(own.Parameters) != 2 {
		t.Errorf("%+v", s)
	}
	for _, c := range []struct {
		set *Settings
		all []params.Call
	}{
		{nil, params.Defaults("iso-21920", 'R')}, {&Settings{Edition: "iso-4287", Profile: W}, params.Defaults("iso-4287", 'W')}, {&Settings{Profile: P}, params.Defaults("iso-21920", 'P')},
	} {
		s := WithParameters(c.set, "Xyz")
		if len(c.all) == 0 || len(s.Parameters) != len(c.all)+1 || s.Parameters[len(c.all)] != "Xyz" {
			t.Errorf("%d parameters, want %d and one", len(s.Parameters), len(c.all))
			continue
		}
		for i, call := range c.all {
			if s.Parameters[i] != call.Symbol {
				t.Errorf("%s, want %s", s.Parameters[i], call.Symbol)
			}
		}
	}
}

// What is ignored, left out or asked for in vain is said.
func TestSaidWhereNotUsed(t *testing.T) {
	notes := func(s *Settings) string {
		p, err := resolve(s)
		if err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, n := range p.notes {
			all = append(all, n.Code+": "+n.Text)
		}
		return strings.Join(all, " ")
	}
	for _, c := range []struct {
		set  Settings
		want string
	}{
		{Settings{Input: Levelled, Form: FormSpec{Kind: "circle"}}, `ignored: The heights are levelled: the form "circle" is not removed.`},
		{Settings{Input: Levelled, Form: FormSpec{Kind: "none"}}, ""}, {Settings{Input: Levelled}, ""},
		{Settings{Input: Filtered, Short: stated("gaussian", 2.5), Long: Band{Off: true}}, "ignored: The heights are already filtered: the setting short is not used."},
		{Settings{Input: Filtered, Long: stated("gaussian", 800)}, "ignored: The heights are already filtered: the setting long is not used."},
		{Settings{Long: Band{Off: true}}, "no-long: No L-filter is used: the roughness profile is the primary profile."},
		{Settings{Long: Band{Off: true}, Profile: P}, ""}, {Settings{}, ""},
	} {
		if got := notes(&c.set); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	// What is measured on another profile comes with the symbols that there are, once.
	for name, want := range map[string]string{"Wa": "it is measured on profile W, and asked for profile R; iso-21920 has for profile R: Ra ", "nonsense": "unknown; iso-21920 has for profile R: Ra "} {
		_, err := Complete(&Settings{Parameters: []string{"Rz", name}})
		var e *SettingError
		if !errors.As(err, &e) || e.Key != "parameters[1]" || strings.Count(err.Error(), "has for profile") != 1 || !strings.Contains(err.Error(), want) {
			t.Errorf("%v", err)
		}
	}
}

// The names of an evaluation's parts and where they lie.
func TestPartsOfAnEvaluation(t *testing.T) {
	z := make([]float64, 1000)
	for i := range z {
		z[i] = math.Sin(float64(i))
	}
	long := stated("gaussian", 40)
	long.Spec.Ends, long.Spec.DiscardLength = "discard", 25
	set := &Settings{Crop: [2]float64{10, 0}, Short: Band{Off: true}, Form: FormSpec{Kind: "none"}, Long: long, Sections: 4, SectionLength: 50}
	p := Profile{Z: z, Spacing: 0.5}
	e, err := Evaluate(p, set)
	if err != nil {
		t.Fatal(err)
	}
	// 980 points are read, 50 are cut away at each end, and 4 sections of 100 lie in the middle of the 880.
	if from, to := e.Room(); from != 50 || to != 930 {
		t.Errorf("room from %d to %d", from, to)
	}
	if e.Start != 290 || e.End() != 690 || e.EvaluationLength() != 200 || e.StartLength() != 155 {
		t.Errorf("sections from %d to %d, %g µm long, from %g µm on", e.Start, e.End(), e.EvaluationLength(), e.StartLength())
	}
	if !slices.Equal(e.Evaluated(), e.Roughness[290:690]) {
		t.Error("not the roughness in the sections")
	}
	if v, ok := e.Value("Wa"); ok || v.Symbol != "" {
		t.Errorf("%+v", v)
	}
	e.strip()
	if e.Evaluated() != nil {
		t.Error("points of no profile")
	}
	ev, err := NewEvaluator(set)
	if err != nil {
		t.Fatal(err)
	}
	// At 3 µm the edition's S-filter would be left out; the settings for the spacing say so, those of the evaluator stay.
	if s := ev.SettingsAt(0.5); !s.Short.Off || s.Long.Spec.Cutoff != 40 {
		t.Errorf("%+v", s)
	}
	ev, err = NewEvaluator(nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		spacing float64
		off     bool
	}{{2.5 / 4, false}, {0.626, true}, {0.5, false}} {
		if s := ev.SettingsAt(c.spacing); s.Short.Off != c.off || s.Long.Spec.Cutoff != 800 {
			t.Errorf("at %g µm: %+v", c.spacing, s.Short)
		}
	}
}

// Each step of the evaluation says in its error what could not be done, and every value has that reason.
func TestStepsThatFail(t *testing.T) {
	zero := func(cutoff float64) Band {
		b := stated("gaussian", cutoff)
		b.Spec.Ends = "zero"
		return b
	}
	discard := stated("gaussian", 8)
	discard.Spec.Ends, discard.Spec.DiscardLength = "discard", 10
	none, off, start := FormSpec{Kind: "none"}, Band{Off: true}, 1e300
	for _, c := range []struct {
		set  Settings
		err  error
		text string
	}{
		{Settings{Short: zero(500), Form: none, Long: off}, ErrFilter, "the S-filter cannot be applied: kernel reaches over 8 times the profile"},
		{Settings{Short: off, Form: none, Long: zero(500)}, ErrFilter, "the L-filter cannot be applied: kernel reaches over 8 times the profile"},
		{Settings{Short: off, Form: none, Long: stated("gaussian", 8), WavinessLimit: 1e101}, ErrFilter, "the filter of the waviness limit cannot be applied: cut-off is not"},
		{Settings{Short: off, Form: FormSpec{Kind: "circle", Radius: 3}, Long: off}, ErrForm, "the form (circle of radius 3 µm) cannot be fitted: circle of radius 3"},
		{Settings{Short: off, Form: none, Long: discard}, ErrTooShort, "nothing remains of the trace of 20 µm after the ends of the filters are cut off"},
		{Settings{Short: off, Form: none, Long: off, SectionLength: 1e300}, ErrTooShort, "the trace is too short: 20 µm remain, and one section needs 1e+300 µm"},
		{Settings{Short: off, Form: none, Long: off, Start: &start}, ErrStart, "the sections cannot start at 1e+300 µm: the remaining trace reaches from 0 to 20 µm"},
		{Settings{Short: off, Form: none, Long: off, Crop: [2]float64{1e300, 2}}, ErrNoPoints, "no point is left: the trace has 20, and the crop takes 1e+300 µm and 2 µm"},
	} {
		p := Profile{Spacing: 1}
		for i := range 20 {
			p.Z = append(p.Z, math.Sin(float64(i)))
		}
		e, err := Evaluate(p, &c.set)
		var wrong *ProfileError
		if !errors.Is(err, c.err) || !errors.As(err, &wrong) || !strings.HasPrefix(wrong.Text, c.text) || wrong.Index != -1 {
			t.Errorf("%v, want %s", err, c.text)
			continue
		}
		for _, v := range e.Values {
			if !math.IsNaN(v.Value) || v.Reason != wrong.Text || v.Source.Doc == "" {
				t.Fatalf("%s: %+v", c.text, v)
			}
		}
		if n := e.Notes[len(e.Notes)-1]; len(e.Values) == 0 || n.Code != "not-evaluated" || n.Text != "Nothing could be evaluated: "+wrong.Text+"." {
			t.Errorf("%d values, note %v", len(e.Values), n)
		}
	}
	// An L-filter of which the kind is not said is a Gaussian where the edition has none.
	s, err := Complete(&Settings{Edition: "iso-12085", Long: Band{Spec: FilterSpec{Cutoff: 8000}}})
	if err != nil || s.Long.Spec.Filter != "gaussian" || s.Long.Spec.Cutoff != 8000 {
		t.Errorf("%+v, %v", s, err)
	}
	if _, err := RoomFor(Profile{Z: []float64{1, 2}, Spacing: 1}, &Settings{Profile: 'Q'}); err == nil {
		t.Error("room for settings that cannot be")
	}
	if _, err := Complete(&Settings{Sections: -1}); err == nil {
		t.Error("settings with -1 sections are complete")
	}
}
