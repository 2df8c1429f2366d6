package roughness

import (
	"cmp"
	"context"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// Every field of the settings is one row of the table, but the origins, which are no setting.
func TestEveryFieldHasARow(t *testing.T) {
	s := &Settings{}
	rows := map[any]string{}
	for _, f := range fields {
		at := f.at(s)
		if _, ok := at.(choice); ok {
			at = &s.Choices
		}
		if before, twice := rows[at]; twice && at != any(&s.Choices) {
			t.Errorf("%s and %s are one field", before, f.Key)
		}
		rows[at] = f.Key
	}
	v := reflect.ValueOf(s).Elem()
	for i := range v.NumField() {
		if name := v.Type().Field(i).Name; rows[v.Field(i).Addr().Interface()] == "" && name != "From" {
			t.Errorf("Settings.%s has no row", name)
		}
	}
}

// state sets a setting to something else than its default.
func state(t *testing.T, f *Setting, s *Settings) {
	t.Helper()
	if f.Words != nil && !f.Free {
		stateWord(t, f, s)
		return
	}
	switch p := f.at(s).(type) {
	case *string:
		*p = "free"
	case *standards.EditionID:
		*p = standards.EditionID(f.Words[1])
	case *bool:
		*p = true
	case *int:
		*p = 3
	case *float64:
		*p = 4000
	case **float64:
		v := 12.5
		*p = &v
	case *[2]float64:
		*p = [2]float64{100, 50}
	case *[]Exclusion:
		*p = []Exclusion{{From: 10, To: 20, Reason: "pore"}}
	case *FormSpec:
		*p = FormSpec{Kind: "circle", Radius: 5000}
	case *Band:
		order := 2
		*p = Band{Spec: FilterSpec{Filter: "gaussian-regression", Cutoff: 250, Order: &order}}
	case *[]string:
		*p = []string{"Ra"}
	}
}

// stateWord sets a setting that is a word to another one.
func stateWord(t *testing.T, f *Setting, s *Settings) {
	word := f.Words[len(f.Words)-1]
	if f.Word(s) == word {
		word = f.Words[0]
	}
	if err := f.SetWord(s, word); err != nil {
		t.Fatal(err)
	}
	if f.Word(s) != word {
		t.Errorf("%s: the word is %q", f.Key, f.Word(s))
	}
}

// Each row states, copies, merges and compares its own setting and no other.
func TestRows(t *testing.T) {
	turns := map[int]string{}
	for i := range fields {
		f := &fields[i]
		s := &Settings{}
		if f.Stated(s) {
			t.Errorf("%s is stated by nothing", f.Key)
		}
		state(t, f, s)
		for k := range fields {
			if fields[k].Stated(s) != (k == i) {
				t.Errorf("%s: %s is stated: %v", f.Key, fields[k].Key, fields[k].Stated(s))
			}
		}
		for name, c := range map[string]*Settings{"clone": s.clone(), "merged over nothing": Merge(&Settings{}, s), "merged under nothing": Merge(s, &Settings{})} {
			if !reflect.DeepEqual(c, s) {
				t.Errorf("%s: %s: %+v, want %+v", f.Key, name, c, s)
			}
		}
		if f.turn == 0 {
			continue
		}
		if turns[f.turn] != "" {
			t.Errorf("%s and %s have one turn", turns[f.turn], f.Key)
		}
		turns[f.turn] = f.Key
		a, err := Complete(nil)
		if err != nil {
			t.Fatal(err)
		}
		b := a.clone()
		state(t, f, b)
		list := Changes(a, b)
		if len(list) != 1 || list[0].Key != f.Key {
			t.Errorf("%s: differences %+v", f.Key, list)
			continue
		}
		list[0].Make(a, b)
		if !reflect.DeepEqual(a, b) {
			t.Errorf("%s: not the same after the change is made", f.Key)
		}
	}
}

// An Evaluator keeps the steps that it has taken, and forgets them where a setting changes that they depend on: with each row stated, and
// not stated again, it gives what a new evaluation gives.
func TestEvaluatorForgets(t *testing.T) {
	d := synth.Demos()[0]
	p := Profile{Z: d.Heights(), Spacing: d.Spacing}
	for i := range 80 { // a gap that the default bridges, and the stated length does not
		p.Z[3000+i] = math.NaN()
	}
	ev, err := NewEvaluator(nil)
	if err != nil {
		t.Fatal(err)
	}
	for i := range fields {
		f := &fields[i]
		stated := &Settings{}
		state(t, f, stated)
		for _, s := range []*Settings{{}, stated, {}} {
			if len(s.Parameters) == 0 {
				s.Parameters = []string{cmp.Or(s.Profile, R).String() + "z"}
			}
			want, wantErr := Evaluate(p, s)
			with, err := ev.With(s)
			if err != nil {
				t.Fatalf("%s: %v", f.Key, err)
			}
			got, err := with.Evaluate(context.Background(), p)
			if !reflect.DeepEqual(err, wantErr) {
				t.Errorf("%s: error %v, want %v", f.Key, err, wantErr)
			}
			for k, z := range want.profiles() {
				if have := got.profiles(); k >= len(have) || !slices.Equal(*z, *have[k]) {
					t.Errorf("%s: profile %d differs", f.Key, k)
				}
			}
			if v, w := got.Values[0], want.Values[0]; v.Reason != w.Reason || v.Reason == "" && v.Value != w.Value {
				t.Errorf("%s: %v, want %v", f.Key, v, w)
			}
		}
	}
}

// A word that a setting does not have is refused with those that it has.
func TestSetWord(t *testing.T) {
	for i := range fields {
		f := &fields[i]
		if f.Words == nil || f.Free {
			continue
		}
		s := &Settings{}
		err := f.SetWord(s, "nonsense")
		if err == nil || !strings.Contains(err.Error(), `"`+f.Words[0]+`"`) || !reflect.DeepEqual(s, &Settings{}) {
			t.Errorf("%s: %v", f.Key, err)
		}
	}
	if keys := NameOf("long.cutoff") + NameOf("long.ends") + NameOf("rule"); keys != "L-filterends of the L-filterrule" {
		t.Error(keys)
	}
}

func origins(keys ...string) map[string]callout.Origin {
	from := map[string]callout.Origin{}
	for _, k := range keys {
		from[k] = callout.Origin{Text: k}
	}
	return from
}

// Origins of what is laid over go with it; those of the parts of a setting are its own.
func TestMergeOrigins(t *testing.T) {
	base := &Settings{From: origins("edition", "form.kind", "long.filter", "long.cutoff", "short.cutoff", "sections", "section", "evaluation")}
	over := &Settings{Long: Band{Spec: FilterSpec{Cutoff: 250}}, Form: FormSpec{Kind: "none"}, Sections: 3, From: origins("sections")}
	var left []string
	for key := range Merge(base, over).From {
		left = append(left, key)
	}
	slices.Sort(left)
	if want := []string{"edition", "evaluation", "section", "sections", "short.cutoff"}; !slices.Equal(left, want) {
		t.Errorf("origins of %v, want %v", left, want)
	}
	if Merge(&Settings{}, &Settings{Sections: 1}).From != nil {
		t.Error("origins where there are none")
	}
}
