package callout_test

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// A vector is a text with its right reading; ../testdata/SOURCES.md says where they come from. A key that is not there is not tested.
type vector struct {
	ID, Text     string
	Edition      standards.EditionID
	Expect       string
	Limits       []map[string]any
	Questions    []string
	Line, Column int
	Try, Why     string
}

// doubted are vectors that are held to be wrong, with the reason. They are left out of the count of those that agree.
var doubted = map[string]string{}

func vectors(t testing.TB) []vector {
	t.Helper()
	data, err := os.ReadFile("../../testdata/callouts/callouts.json")
	if err != nil {
		t.Fatal(err)
	}
	var list []vector
	if err := json.Unmarshal(data, &list); err != nil {
		t.Fatal(err)
	}
	if len(list) < 295 {
		t.Fatalf("only %d vectors", len(list))
	}
	return list
}

// reading is a limit as the vectors write it. What is open is not there.
func reading(r *callout.Item) map[string]any {
	m := map[string]any{"profile": r.Settings["profile"].Word}
	put := func(key string, v any, known bool) {
		if known {
			m[key] = v
		}
	}
	s := r.Settings
	put("symbol", r.Symbol, r.Symbol != "")
	put("side", r.Side.String(), !r.Open("side"))
	put("limit", r.Limit, !math.IsNaN(r.Limit))
	put("rule", string(r.Rule), !r.Open("rule", "edition"))
	for _, key := range []string{"long", "short", "waviness_limit", "a", "b", "section", "sections", "evaluation"} {
		entry := key
		if key == "long" || key == "short" {
			entry += ".cutoff"
		}
		put(key, s[entry].Number, r.Complete)
	}
	put("long_filter", s["long.filter"].Word, true)
	for key, v := range map[string]string{"reference": r.Reference, "removal": r.Removal, "process": r.Process, "lay": r.Lay} {
		put(key, v, true)
	}
	put("other", 0., len(r.Others) == 0)
	for _, n := range r.Others {
		put("other", float64(n), true)
	}
	return m
}

// holds tells whether a limit agrees with what a vector asks of it.
func holds(got, want map[string]any) bool {
	for key, w := range want {
		g, ok := got[key]
		if !ok {
			return false
		}
		a, number := g.(float64)
		b, _ := w.(float64)
		if number && math.Abs(a-b) > 1e-9*math.Abs(b) || !number && g != w {
			return false
		}
	}
	return true
}

func open(rs *callout.Requirements) (keys []string) {
	for i := range rs.Items {
		for _, q := range rs.Items[i].Questions {
			if !slices.Contains(keys, q.Key) {
				keys = append(keys, q.Key)
			}
		}
	}
	slices.Sort(keys)
	return keys
}

// TestCallouts holds every vector against the reader, key by key.
func TestCallouts(t *testing.T) {
	agreed := 0
	for _, v := range vectors(t) {
		problem := disagreement(v)
		if why, ok := doubted[v.ID]; ok {
			if problem == "" {
				t.Errorf("%s agrees now and is doubted still: %s", v.ID, why)
			}
			t.Logf("%s %q (%s) is doubted: %s", v.ID, v.Text, v.Edition, why)
			continue
		}
		if problem != "" {
			t.Errorf("%s %q (%s): %s\n\t%s", v.ID, v.Text, v.Edition, problem, v.Why)
			continue
		}
		agreed++
	}
	t.Logf("%d vectors agree", agreed)
}

func disagreement(v vector) string {
	rs, err := callout.ParseRequirement(v.Text, v.Edition)
	if v.Expect == "refuse" {
		var e *callout.TextError
		switch {
		case err == nil:
			return "is not refused"
		case !errors.As(err, &e):
			return "is refused without a place"
		case v.Column > 0 && (e.Column != v.Column || e.Line != max(v.Line, 1)):
			return "is refused at another place: " + err.Error()
		case v.Try != "" && e.Try != v.Try:
			return "is refused with another correction: " + e.Try
		case rs != nil:
			return "is refused and gives limits"
		}
		return ""
	}
	if err != nil {
		return "is refused: " + err.Error()
	}
	keys := open(rs)
	want := slices.Clone(v.Questions)
	slices.Sort(want)
	switch {
	case (v.Expect == "ask") != (len(keys) > 0):
		return "leaves open: " + strings.Join(keys, ", ")
	case v.Questions != nil && !slices.Equal(keys, want):
		return "leaves open: " + strings.Join(keys, ", ") + "; want " + strings.Join(want, ", ")
	case v.Limits == nil:
		return ""
	}
	var got []map[string]any
	for i := range rs.Items {
		if rs.Items[i].Certain() {
			got = append(got, reading(&rs.Items[i]))
		}
	}
	if len(got) != len(v.Limits) {
		return "has another number of limits"
	}
	for _, w := range v.Limits {
		i := slices.IndexFunc(got, func(g map[string]any) bool { return holds(g, w) })
		if i < 0 {
			text, _ := json.Marshal(got)
			asked, _ := json.Marshal(w)
			return "reads " + string(text) + ", wanted " + string(asked)
		}
		got = slices.Delete(got, i, i+1)
	}
	return ""
}
