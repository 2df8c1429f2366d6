package standards_test

import (
	"errors"
	"testing"

	"example.com/furrow/standards"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

var seeds = []string{
	"Rz 3,2", "U Rz 5\nL Rz 1", "Ra 0,8 T16%", "RSm 0,2", "RSm 0,2 Sc3", "Rz 12 Sc4", "Rz 4 OR(1) OR(2)",
	"U Rz 3,2 Tmax G 2,5 RG 0,8 0,8 5 4 mechanical ⟂", `Rz 3.2 Nic=0,8 nsc=3 "turned" X`, "Rq 1,6", "L Rz 1", "Wz 5 Sc3",
	"Wz 5 Nis=0,8", "Pt 10", "Pt 10 Nis=8 le=20", "Rz 0,4", "Rzmax 0,2", "Ra 0,7; Rz1 3,3", "0,008-0,8/Ra 3,1", "-0,8/Ra3 1,6",
	"U Ramax 3,1 / L Ra 0,9", `U "2RC" 0,008-0,8 / Rz8max 3,3`, "0,8-25/Wz3 10", "0,008-/Ptmax 25", "0,0025-0,1//Rx 0,2",
	"/10/R 10", "W 1", "0,5-2,5//W 1", "-0,3/6/AR 0,09", "L Rmr(0,5) 60", "L Rmr(5;0,5) 60 Sc3", "Rmr(5,0.5) 60 Sc3", "L Rmr(-0,5) 60 Sc3", "RΔq 0,2", "tp(1) 60", "Rdc(10,90) 3", "Rdc(2,5;97,5) 3 Sc3", "Rk8 1,2", "MRR Ra 0,7; Rz1 3,3",
	"63", "125/63 µin", "63 RMS", "N7", "▽▽", "~", "3,2", "Rz1max 3,3", "Ra 16 µin cutoff=0.030 in", "Rsk -0,5 Sc3",
	"furrow edition=iso-4287 side=lower symbol=Ra limit=0.9µm long=800µm", `furrow symbol=Rz limit=3mm process="a b" direction="x;y"`,
	"Ra 1,6 le=8", "Rz 3 form=circle", "RPc 60 Sc4", "Rzx(0,8) 5 Sc3", "L Rz 1 Nic=1 Nis=3",
}

func editionIDs() []string {
	var ids []string
	for _, e := range standards.Editions() {
		ids = append(ids, e.ID)
	}
	return ids
}

// What furrow prints reads back to the same settings, questions and judgement; printed in full, to the same numbers.
func checkRoundTrip(t *testing.T, text, edition string) {
	t.Helper()
	rs, err := standards.ParseRequirement(text, edition)
	if err != nil {
		var e *standards.TextError
		if !errors.As(err, &e) || e.Line < 1 || e.Column < 1 || e.Reason == "" {
			t.Fatalf("%q (%s): a refusal without a place: %v", text, edition, err)
		}
		return
	}
	again, err := standards.ParseRequirement(rs.Keyed(), edition)
	if err != nil {
		t.Fatalf("%q (%s): printed\n%s\nwhich is refused: %v", text, edition, rs.Keyed(), err)
	}
	if len(again.Items) != len(rs.Items) {
		t.Fatalf("%q (%s): %d requirements, %d read back from\n%s", text, edition, len(rs.Items), len(again.Items), rs.Keyed())
	}
	if again.Keyed() != rs.Keyed() {
		t.Fatalf("%q (%s):\n%s\nprints again as\n%s", text, edition, rs.Keyed(), again.Keyed())
	}
	same := cmp.Options{
		cmpopts.IgnoreUnexported(standards.Requirement{}), cmpopts.EquateNaNs(), cmpopts.EquateEmpty(),
		cmpopts.IgnoreFields(standards.Requirement{}, "Line", "Column", "Notes"),
		cmpopts.IgnoreFields(standards.Question{}, "Line", "Column"),
	}
	for i := range rs.Items {
		a, b := &rs.Items[i], &again.Items[i]
		if d := cmp.Diff(a, b, same); d != "" {
			t.Fatalf("%q (%s) item %d (-read +read back from %s):\n%s", text, edition, i, a.Keyed(), d)
		}
		if a.Reading() != b.Reading() {
			t.Fatalf("%q (%s): reading changes", text, edition)
		}
		full, err := standards.ParseRequirement(a.Explicit(), edition)
		if err != nil {
			t.Fatalf("%q (%s): printed in full\n%s\nwhich is refused: %v", text, edition, a.Explicit(), err)
		}
		f := &full.Items[0]
		if d := cmp.Diff(a.Settings, f.Settings, same, cmpopts.IgnoreFields(standards.Settings{}, "Origins")); d != "" {
			t.Fatalf("%q (%s) in full %s:\n%s", text, edition, a.Explicit(), d)
		}
		if a.Rule != f.Rule || a.Side != f.Side {
			t.Fatalf("%q (%s) in full: rule or side change", text, edition)
		}
		for _, q := range a.Questions {
			if n := len(q.Answers); n == 0 || q.Answers[n-1].Key != standards.LeaveOpen {
				t.Fatalf("%q (%s): question %s cannot be left open", text, edition, q.Key)
			}
			for _, ans := range q.Answers {
				after, err := rs.Answer(i, q.Key, ans.Key)
				if refusal := (*standards.TextError)(nil); errors.As(err, &refusal) && (a.Evaluation > 0 || a.Short > 0 || a.WavinessLimit > 0) {
					continue // the lengths that are stated need not suit each answer
				}
				if err != nil {
					t.Fatalf("%q (%s): answer %s/%s: %v", text, edition, q.Key, ans.Key, err)
				}
				for _, left := range after.Items[i].Questions {
					if left.Key == q.Key && ans.Key != standards.LeaveOpen {
						t.Fatalf("%q (%s): answer %s leaves question %s open", text, edition, ans.Key, q.Key)
					}
				}
			}
		}
	}
}

func TestRoundTrip(t *testing.T) {
	read := 0
	for _, id := range editionIDs() {
		for _, text := range seeds {
			checkRoundTrip(t, text, id)
			if _, err := standards.ParseRequirement(text, id); err == nil {
				read++
			}
		}
	}
	if read < 2*len(seeds) {
		t.Errorf("only %d of the seeds are read by any edition", read)
	}
}

func FuzzParseRequirement(f *testing.F) {
	for i, text := range seeds {
		f.Add(text, uint8(i))
	}
	ids := editionIDs()
	f.Fuzz(func(t *testing.T, text string, edition uint8) {
		checkRoundTrip(t, text, ids[int(edition)%len(ids)])
	})
}
