package params

import (
	"cmp"
	"slices"
	"strings"

	"example.com/furrow/standards"
)

// A Synonym is a name that no edition here spells so, or that means different things by edition: one entry of the one
// table of older and everyday names.
type Synonym struct {
	Name     string
	Question string    // what to ask when there is more than one reading
	Readings []Reading // what it may stand for; the first is what it mostly means today
}

// A Reading is one thing a name may stand for.
type Reading struct {
	Edition standards.EditionID // the edition in which Symbol is asked for
	Letter  byte
	Symbol  string
	Text    string // what it is, in words
}

// String returns the symbol with its edition and the words.
func (r Reading) String() string { return r.Symbol + " of " + string(r.Edition) + " (" + r.Text + ")" }

// Synonyms returns the table in the order of the names. Usage of the trade is its basis, and the editions themselves.
func Synonyms() []Synonym {
	var list []Synonym
	for name := range synonymTable {
		s, _ := synonym(name)
		list = append(list, s)
	}
	slices.SortFunc(list, func(a, b Synonym) int { return cmp.Compare(a.Name, b.Name) })
	return list
}

// synonym returns the entry of a name.
func synonym(name string) (Synonym, bool) {
	text, ok := synonymTable[name]
	if !ok {
		return Synonym{}, false
	}
	question, readings, _ := strings.Cut(text, "| ")
	s := Synonym{Name: name, Question: strings.TrimSpace(question)}
	for key := range strings.SplitSeq(readings, "; ") {
		edition, symbol, _ := strings.Cut(key, " ")
		s.Readings = append(s.Readings, Reading{standards.EditionID(edition), 'R', symbol, readingTexts[key]})
	}
	return s, true
}

// readTable reads lines of a name, a colon and a text.
func readTable(lines string) map[string]string {
	table := map[string]string{}
	for line := range strings.Lines(strings.TrimSpace(lines)) {
		name, text, _ := strings.Cut(strings.TrimSpace(line), ": ")
		table[name] = text
	}
	return table
}

// readingTexts say what a symbol of an edition is, where another name may stand for it.
var readingTexts = readTable(`
iso-21920 Ra: arithmetic mean height over the evaluation length
iso-4287 Ra: arithmetic mean deviation, mean of the sampling lengths
iso-21920 Rz: pit to peak of a section, mean of the sections
jis-b0601-1994 Ry: pit to peak of a reference length
jis-b0601-1994 Rz: five highest peaks and five deepest valleys of a reference length
jis-b0601-2013 RzJIS: five highest peaks and five deepest valleys, of the annex
jis-b0601-1982 Rz: five highest peaks and five deepest valleys of the profile without a cut-off
iso-21920 R10z: five highest peaks and five deepest pits left by pruning, over the evaluation length
iso-21920 Rzx: largest pit to peak of a section, wherever it stands
asme-b46.1 Rmax: largest pit to peak of the sampling lengths
jis-b0601-1982 Rmax: pit to peak of the profile without a cut-off
iso-21920 Rt: lowest pit to highest peak of the evaluation length
iso-21920 RPc(0.5,-0.5): excursions through a band, counted; the band must be stated
iso-21920 Rpc: 10 mm by the mean spacing of profile elements
iso-21920 Rq: root mean square height
iso-21920 Rvt: deepest pit below the reference line
iso-21920 Rp: highest point of a section, mean of the sections
iso-21920 Rmr(0): height from the reference line
iso-21920 Rmr(5;1): depth below the height with a ratio of 5 %
asme-b46.1 tp(1): depth below the highest peak
iso-21920 Rpkx: highest point above the core
iso-21920 Rvkx: lowest point below the core
iso-21920 Rdq: root mean square gradient
iso-21920 Rda: arithmetic mean of absolute gradient
`)

// synonymTable has the names with what to ask, if anything, and the readings, which are said by readingTexts.
var synonymTable = readTable(`
CLA: | iso-21920 Ra
AA: | iso-21920 Ra
RMS: is the root mean square meant, or the mean that old notes in µin write as RMS | iso-21920 Rq; iso-21920 Ra
Rmax: which height is meant | iso-21920 Rzx; asme-b46.1 Rmax; jis-b0601-1982 Rmax; iso-21920 Rt
Rz1max: | iso-21920 Rzx
Rz: is it the maximum height or the ten-point height | iso-21920 Rz; jis-b0601-1994 Rz; jis-b0601-1982 Rz
RzDIN: | iso-21920 Rz
RzISO: is it the maximum height of today or the ten-point height of before 1997 | iso-21920 Rz; iso-21920 R10z; jis-b0601-2013 RzJIS
RzJIS: which ten-point height is meant | jis-b0601-2013 RzJIS; jis-b0601-1994 Rz; jis-b0601-1982 Rz; iso-21920 R10z
Ry: by which edition | iso-21920 Rz; jis-b0601-1994 Ry
Rtm: | iso-21920 Rz
Rt: | iso-21920 Rt
Rm: is it the depth of the valley or the whole height | iso-21920 Rvt; iso-21920 Rt
Ra: is the mean over the evaluation length or per sampling length meant | iso-21920 Ra; iso-4287 Ra
Rpm: | iso-21920 Rp
Pc: are excursions counted, or is it 10 mm by the spacing | iso-21920 RPc(0.5,-0.5); iso-21920 Rpc
PPI: | iso-21920 RPc(0.5,-0.5)
tp: from which line does the depth count: the reference line, the highest peak, or the height of a small ratio | iso-21920 Rmr(0); iso-21920 Rmr(5;1); asme-b46.1 tp(1)
Mr: from which line does the height count: the reference line or the height of a small ratio | iso-21920 Rmr(0); iso-21920 Rmr(5;1)
Rpk*: | iso-21920 Rpkx
Rvk*: | iso-21920 Rvkx
Δq: | iso-21920 Rdq
Δa: | iso-21920 Rda
`)

// ask makes the error for a name of the table: what it stands for, or which reading is meant. The readings of the
// edition that was asked come first.
func (s Synonym) ask(edition standards.EditionID) *NameError {
	e := &NameError{Reason: "means different things", Question: s.Question, Readings: slices.Clone(s.Readings)}
	slices.SortStableFunc(e.Readings, func(a, b Reading) int {
		rank := func(r Reading) int {
			if r.Edition == edition {
				return 0
			}
			return 1
		}
		return rank(a) - rank(b)
	})
	if s.Question == "" {
		e.Reason, e.Question = "is another name", "it stands for"
	}
	return e
}
