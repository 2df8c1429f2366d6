package callout_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/furrow/filter"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// unanswerable are texts with a question to which nobody but the designer knows an answer.
var unanswerable = map[string]string{"~": "the mark says that the surface is left as it is; no number goes with it"}

// order is that of the questions: an answer may open a later one and none before it.
var order = []string{"pair", "list", "mark", "grade", "rz1max", "number", "symbol", "edition", "unit", "rms", "class", "cutoff", "band", "short", "lengths", "reference", "side", "rule"}

// walk answers every question in every way, down to a text that is read.
func walk(t *testing.T, text string, edition standards.EditionID, depth int, seen map[string]bool) {
	t.Helper()
	if seen[string(edition)+text] {
		return
	}
	seen[string(edition)+text] = true
	rs, err := callout.ParseRequirement(text, edition)
	if err != nil {
		t.Errorf("%q (%s): an answer is refused: %v", text, edition, err)
		return
	}
	if depth == 0 {
		t.Errorf("%q (%s): never read", text, edition)
		return
	}
	asked := open(rs)
	for i := range rs.Items {
		for _, q := range rs.Items[i].Questions {
			if len(q.Answers) == 0 && unanswerable[text] == "" {
				t.Errorf("%q (%s): the question %s has no answer", text, edition, q.Key)
			}
			for n, a := range q.Answers {
				then, by := text, edition
				if a.Then != "" {
					then = a.Then
				}
				if a.Edition != "" {
					by = a.Edition
				}
				next, err := callout.ParseRequirement(then, by)
				if err != nil {
					t.Errorf("%q (%s): %s/%s leads to %q (%s), refused: %v", text, edition, q.Key, a.Key, then, by, err)
					continue
				}
				place := slices.Index(order, q.Key)
				if questions(next, q) >= questions(rs, q) {
					t.Errorf("%q (%s): %s/%s leads to %q (%s), where it is open still", text, edition, q.Key, a.Key, then, by)
				}
				for _, key := range open(next) {
					if !slices.Contains(asked, key) && slices.Index(order, key) < place {
						t.Errorf("%q (%s): %s/%s leads to %q (%s), which opens %s", text, edition, q.Key, a.Key, then, by, key)
					}
				}
				agrees(t, rs, next, q.Key, text+" -> "+then)
				// The other questions come later on the way; one class leads on like another.
				if q.Key == rs.Open()[0].Key && (n < 1 || !slices.Contains([]string{"class", "cutoff", "band"}, q.Key)) {
					walk(t, then, by, depth-1, seen)
				}
			}
		}
	}
}

// questions counts the places where a question is asked.
func questions(rs *callout.Requirements, asked callout.Question) (n int) {
	for _, q := range rs.Open() {
		if q.Key == asked.Key && q.Text == asked.Text {
			n++
		}
	}
	return n
}

// agrees holds what was certain before an answer against what is certain after it.
func agrees(t *testing.T, before, after *callout.Requirements, key, what string) {
	t.Helper()
	if key == "list" {
		return
	}
	for i := range before.Items {
		b := &before.Items[i]
		if !b.Certain() || b.Symbol == "" || math.IsNaN(b.Limit) || b.Open("edition") {
			continue
		}
		found := false
		for j := range after.Items {
			a := &after.Items[j]
			same := a.Symbol == b.Symbol || b.Open("reference") && strings.HasPrefix(a.Symbol, b.Symbol[:strings.Index(b.Symbol, "(")])
			if same && a.Limit == b.Limit && (a.Side == b.Side || b.Open("side")) && (a.Rule == b.Rule || b.Open("rule")) {
				found = true
			}
		}
		if !found {
			t.Errorf("%s: %s %g was certain and is not there after the answer", what, b.Symbol, b.Limit)
		}
	}
}

// Every question of every vector can be answered to the end, and an answer closes its question and opens none before it.
func TestAnswers(t *testing.T) {
	walked := 0
	for _, v := range vectors(t) {
		if v.Expect == "ask" {
			walk(t, v.Text, v.Edition, 12, map[string]bool{})
			walked++
		}
	}
	for _, text := range more {
		for _, e := range standards.Editions()[:3] {
			if _, err := callout.ParseRequirement(text, e.ID); err == nil {
				walk(t, text, e.ID, 12, map[string]bool{})
			}
		}
	}
	t.Logf("%d vectors walked", walked)
}

// more are texts besides the vectors.
var more = []string{
	"G 0.0025", "Rz 3,2 G 0.0025 G 0.8", "Rz 3,2 G 0,8", "U Rz 3,2 Tmax G 2,5 RG 0,8 0,8 5 4 mechanical ⟂", "U Rz 5 / L Rz 1 Sc3", "Ra 3,2/0,8 Sc3", "Ra 1,6, Rz 6,3 Sc3",
	"L Rmr(5;1) 70", "Rmr(5,1) 60 Sc3", "Wmax 5", "R max 5", "R 8", "W 1", "Rz1max 6,3", "Rz1 max 6,3", "25Z", "Ra75", "Ra75 1,6", "1,6/63", "Ra 1,6/63", "63 rms", "125/63 rms",
	"Rk 1,2; Rpk 0,4", "0,8-2,5/Wz 3 / Ra 3", "Rzx(0,8) 5 Sc3", "rmax 3", "Rpd 30 Sc3", "Rak1 0,03 Sc3", "Pc(1,5) 30 cutoff=0.8", "Ra 1,6 Sc3 or Rz 6,3 Tmed",
	"Rz 6,3 Tmax Sc3", "Rz6,3 T16%", "Tmax Rz 6,3", "Sc3 Rz 6,3", "Rz3 6,3 Tmax", "-0,8/Rz 6,3 Tmed", "0,0025-0,8/Ra3 1,6", "0,8-8/Wz 5", "0,008-/Pz 20", "U \"2RC\" -0,8/Ra 3",
	"Ra max 0,8 min 0,2", "Ra 0,2 min 0,8 max", "1,000", "1,250 µin", "Ra 0,8 mm; Rz 0,003 mm", "N7", "N8/N6", "N7 (Rz 3)", "▽", "▽▽▽▽", "Sm 0,1", "Mr1 10", "A1 0,03", "Rtm 5",
	"Ra 1,6\nRa 0,8\nRa 0,4", "U Ra 1,6; Ra 0,8", "Rmr(0,5) 60\nRmr(1) 80", "0,8/Wz 5", "0,8/Pz 5", "λa 90", "tp(1) 50", "HSC(0,5) 40", "S 0,05", "D 20", "lr 1,02", "Ry 6,3", "Rz 25 (Rz 6,3) X",
	"Rz 25 (Rk 3)", "Pt 10 or Wz 3", "RzJIS 6,3 Tmax", "32 AA", "CLA 32", "RMS 63 µin", "Ra 63 (1.6 µm)", "Ra 1,6 max 16%", "max Ra 1,6", "L Ramax 0,2", "Rx 5 max", "Rc 4 Sc3 λs 2,5",
}

// texts are the vectors and more, with the editions they are read under.
func texts(t testing.TB) (list []struct {
	text    string
	edition standards.EditionID
}) {
	for _, v := range vectors(t) {
		list = append(list, struct {
			text    string
			edition standards.EditionID
		}{v.Text, v.Edition})
	}
	for i, m := range more {
		list = append(list, struct {
			text    string
			edition standards.EditionID
		}{m, standards.Editions()[i%7].ID})
	}
	return list
}

// checkText holds what must be true of every text: a refusal has its place in the text and gives nothing, a question its place and its key, and
// what needs an answer gives no settings.
func checkText(t testing.TB, text string, edition standards.EditionID) *callout.Requirements {
	t.Helper()
	rs, err := callout.ParseRequirement(text, edition)
	lines := strings.Split(strings.NewReplacer("\u2028", "\n", "\u2029", "\n", "\v", "\n", "\f", "\n").Replace(text), "\n")
	inside := func(line, column int) bool {
		return line >= 1 && line <= len(lines) && column >= 1 && column <= utf8.RuneCountInString(lines[line-1])+1
	}
	if err != nil {
		var e *callout.TextError
		if rs != nil || !errors.As(err, &e) || e.Reason == "" || e.Err == nil || !inside(e.Line, e.Column) {
			t.Fatalf("%q (%s): a refusal without its place, or with a result: %v, %v", text, edition, rs, err)
		}
		if e.Try != "" {
			if _, err := callout.ParseRequirement(e.Try, edition); err != nil {
				t.Fatalf("%q (%s): the correction %q is refused: %v", text, edition, e.Try, err)
			}
		}
		return nil
	}
	if len(rs.Items) == 0 {
		t.Fatalf("%q (%s): read, and no requirement", text, edition)
	}
	for i := range rs.Items {
		r := &rs.Items[i]
		if r.Reading() == "" || !inside(r.Line, r.Column) {
			t.Fatalf("%q (%s): no reading or no place", text, edition)
		}
		if len(r.Questions) == 0 && (r.Symbol == "" || math.IsNaN(r.Limit) || math.IsInf(r.Limit, 0) || !r.Complete || r.Rule == "") {
			t.Fatalf("%q (%s): read, and not complete: %+v", text, edition, r)
		}
		for _, q := range r.Questions {
			if !inside(q.Line, q.Column) || !slices.Contains(order, q.Key) || q.Text == "" || !slices.Contains([]string{"settings", "limit", "verdict"}, q.Blocks) {
				t.Fatalf("%q (%s): question %+v", text, edition, q)
			}
			if s := r.Settings; r.Complete && (q.Blocks == "settings" || s["sections"].Number < 1 || s["short.cutoff"].Number+s["long.cutoff"].Number+s["section"].Number == 0) || !r.Complete && r.Err() == nil {
				t.Fatalf("%q (%s): complete settings with the question %s", text, edition, q.Key)
			}
			for _, a := range q.Answers {
				if a.Key == "" || a.Text == "" || a.Then == "" && a.Edition == "" {
					t.Fatalf("%q (%s): answer %+v to %s", text, edition, a, q.Key)
				}
			}
		}
	}
	return rs
}

// Prefixes and single edits of all texts: no panic, a refused text gives nothing, and a text that is understood in part never turns round what
// the whole text says of the same parameter without a number in it having changed.
func TestEdits(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	letters := []rune(" .,;/-0123456789RazWUL()µm%±≤\"\n")
	for _, v := range texts(t) {
		runes := []rune(v.text)
		whole, _ := callout.ParseRequirement(v.text, v.edition)
		for n := range runes {
			part := checkText(t, string(runes[:n]), v.edition)
			if part == nil || whole == nil || n == 0 || n < len(runes) && numberGoesOn(runes, n) {
				continue
			}
			prefixAgrees(t, part, whole, string(runes[:n]), v.text, v.edition)
		}
		for range 12 {
			if len(runes) == 0 {
				break
			}
			at := rnd.IntN(len(runes))
			c := letters[rnd.IntN(len(letters))]
			edited := slices.Clone(runes)
			switch rnd.IntN(3) {
			case 0:
				edited[at] = c
			case 1:
				edited = slices.Delete(edited, at, at+1)
			default:
				edited = slices.Insert(edited, at, c)
			}
			checkText(t, string(edited), v.edition)
		}
	}
}

// numberGoesOn tells whether the text was cut inside a number or a word, or before a unit.
func numberGoesOn(text []rune, n int) bool {
	return !slices.Contains([]rune{' ', '\n', ';'}, text[n])
}

// prefixAgrees holds a beginning of a text that needs an answer against the whole: of a limit that is certain in both, value and side agree
// where nothing that follows can be its unit, its rule or a second limit.
func prefixAgrees(t *testing.T, part, whole *callout.Requirements, text, full string, edition standards.EditionID) {
	t.Helper()
	for i := range part.Items {
		p := &part.Items[i]
		if len(p.Questions) == 0 || p.Symbol == "" || math.IsNaN(p.Limit) || p.Open("side", "edition", "list") {
			continue
		}
		for j := range whole.Items {
			w := &whole.Items[j]
			if w.Line == p.Line && w.Column == p.Column && w.Symbol == p.Symbol && len(whole.Items) == len(part.Items) && !math.IsNaN(w.Limit) && (w.Limit != p.Limit || w.Side != p.Side && !w.Open("side")) &&
				w.Unit == p.Unit {
				t.Errorf("%q (%s) says %s %g and asks; the whole %q says %g", text, edition, p.Symbol, p.Limit, full, w.Limit)
			}
		}
	}
}

// Each symbol of each edition can be written in a requirement of that edition, and is read as that symbol.
func TestEverySymbol(t *testing.T) {
	read := 0
	for _, e := range standards.Editions() {
		for _, y := range standards.Symbols(e.ID) {
			for n := y.Min; n <= y.Max; n++ {
				name := y.Name
				if n > 0 {
					name += []string{"(60)", "(60;80)"}[n-1]
				}
				limit := map[standards.Quantity]string{standards.Height: "3 µm", standards.Spacing: "0,3 mm", standards.Ratio: "60 %", standards.Number: "3",
					standards.PeakCount: "60/cm", standards.PerLength: "30/mm", standards.Area: "0,03 µm"}[y.Quantity]
				text := "L " + name + " " + limit
				switch {
				case e.ID == "iso-12085" && y.Key != "RPcBand":
				case y.Letter == 'P':
					text += " λs 2,5 µm"
				case y.Letter == 'W' && e.ID != "iso-21920":
					text += " λc 0,8 mm λf 8 mm"
				case e.ID == "iso-21920":
					text += " Sc3"
				default:
					text += " λc 0,8 mm"
				}
				if y.Key == "Rmr" {
					text += " (from the mean line)"
				}
				rs, err := callout.ParseRequirement(text, e.ID)
				if err != nil {
					t.Errorf("%q (%s): %v", text, e.ID, err)
					continue
				}
				r := &rs.Items[0]
				got, _, _ := strings.Cut(r.Symbol, "(")
				if len(rs.Items) != 1 || len(r.Questions) > 0 || got != y.Name || r.Settings["profile"].Word != string(rune(y.Letter)) || r.Side != standards.Lower || !r.Complete {
					t.Errorf("%q (%s) is read as %s on %s, open: %v", text, e.ID, r.Symbol, r.Settings["profile"].Word, open(rs))
				}
				read++
			}
		}
	}
	t.Logf("%d pairs of edition and symbol", read)
}

func FuzzRequirement(f *testing.F) {
	for i, v := range texts(f) {
		f.Add(v.text, uint8(i))
	}
	f.Fuzz(func(t *testing.T, text string, edition uint8) {
		if !utf8.ValidString(text) {
			return
		}
		checkText(t, text, standards.Editions()[int(edition)%7].ID)
	})
}

// Each filter that the list of filters gives letters or a word for a drawing can be written on one, and is read as that filter.
func TestEveryFilter(t *testing.T) {
	for _, f := range filter.All() {
		for text, edition := range map[string]standards.EditionID{
			"Rz 3,2 G 2,5 " + f.Letters + " 0,8":           standards.ISO21920,
			strconv.Quote(f.Word) + " 0,0025-0,8 / Rz 3,2": standards.ISO4287,
		} {
			if edition == standards.ISO21920 && f.Letters == "" || edition == standards.ISO4287 && f.Word == "" {
				continue
			}
			rs, err := callout.ParseRequirement(text, edition)
			if err != nil {
				t.Errorf("%q: %v", text, err)
			} else if got := rs.Items[0].LongFilter; got != f.Key {
				t.Errorf("%q: the L-filter is %q, want %q", text, got, f.Key)
			}
		}
	}
	_, err := callout.ParseRequirement(`"Fauss" 0,0025-0,8 / Rz 3,2`, standards.ISO4287)
	if err == nil || !strings.Contains(err.Error(), `knows "Gauss" and "2RC"`) {
		t.Errorf("another word: %v", err)
	}
}
