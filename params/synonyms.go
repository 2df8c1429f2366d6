package params

import (
	"cmp"
	"slices"

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
	return slices.SortedFunc(slices.Values(synonyms), func(a, b Synonym) int { return cmp.Compare(a.Name, b.Name) })
}

func synonym(symbol string) (Synonym, bool) {
	for _, s := range synonyms {
		if s.Name == symbol {
			return s, true
		}
	}
	return Synonym{}, false
}

func reads(edition standards.EditionID, symbol, text string) Reading {
	return Reading{Edition: edition, Letter: 'R', Symbol: symbol, Text: text}
}

// Readings that several names share.
var (
	meanToday    = reads(editionISO21920, "Ra", "arithmetic mean height over the evaluation length")
	meanOlder    = reads(editionISO4287, "Ra", "arithmetic mean deviation, mean of the sampling lengths")
	heightToday  = reads(editionISO21920, "Rz", "pit to peak of a section, mean of the sections")
	height1994   = reads(editionJIS1994, "Ry", "pit to peak of a reference length")
	ten1994      = reads(editionJIS1994, "Rz", "five highest peaks and five deepest valleys of a reference length")
	ten2013      = reads(editionJIS2013, "RzJIS", "five highest peaks and five deepest valleys, of the annex")
	ten1982      = reads(editionJIS1982, "Rz", "five highest peaks and five deepest valleys of the profile without a cut-off")
	tenToday     = reads(editionISO21920, "R10z", "five highest peaks and five deepest pits left by pruning, over the evaluation length")
	largestToday = reads(editionISO21920, "Rzx", "largest pit to peak of a section, wherever it stands")
	largestASME  = reads(editionASME, "Rmax", "largest pit to peak of the sampling lengths")
	maximum1982  = reads(editionJIS1982, "Rmax", "pit to peak of the profile without a cut-off")
	total        = reads(editionISO21920, "Rt", "lowest pit to highest peak of the evaluation length")
	countBand    = reads(editionISO21920, "RPc(0.5,-0.5)", "excursions through a band, counted; the band must be stated")
	countSpacing = reads(editionISO21920, "Rpc", "10 mm by the mean spacing of profile elements")
)

var synonyms = []Synonym{
	{"CLA", "", []Reading{meanToday}},
	{"AA", "", []Reading{meanToday}},
	{"RMS", "is the root mean square meant, or the mean that old notes in µin write as RMS", []Reading{
		reads(editionISO21920, "Rq", "root mean square height"), meanToday,
	}},
	{"Rmax", "which height is meant", []Reading{largestToday, largestASME, maximum1982, total}},
	{"Rz1max", "", []Reading{largestToday}},
	{"Rz", "is it the maximum height or the ten-point height", []Reading{heightToday, ten1994, ten1982}},
	{"RzDIN", "", []Reading{heightToday}},
	{"RzISO", "is it the maximum height of today or the ten-point height of before 1997", []Reading{heightToday, tenToday, ten2013}},
	{"RzJIS", "which ten-point height is meant", []Reading{ten2013, ten1994, ten1982, tenToday}},
	{"Ry", "by which edition", []Reading{heightToday, height1994}},
	{"Rtm", "", []Reading{heightToday}},
	{"Rt", "", []Reading{total}},
	{"Rm", "is it the depth of the valley or the whole height", []Reading{
		reads(editionISO21920, "Rvt", "deepest pit below the reference line"), total,
	}},
	{"Ra", "is the mean over the evaluation length or per sampling length meant", []Reading{meanToday, meanOlder}},
	{"Rpm", "", []Reading{reads(editionISO21920, "Rp", "highest point of a section, mean of the sections")}},
	{"Pc", "are excursions counted, or is it 10 mm by the spacing", []Reading{countBand, countSpacing}},
	{"PPI", "", []Reading{countBand}},
	{"tp", "from which line does the depth count: the reference line, the highest peak, or the height of a small ratio", []Reading{
		reads(editionISO21920, "Rmr(0)", "height from the reference line"),
		reads(editionISO21920, "Rmr(5;1)", "depth below the height with a ratio of 5 %"),
		reads(editionASME, "tp(1)", "depth below the highest peak"),
	}},
	{"Mr", "from which line does the height count: the reference line or the height of a small ratio", []Reading{
		reads(editionISO21920, "Rmr(0)", "height from the reference line"),
		reads(editionISO21920, "Rmr(5;1)", "depth below the height with a ratio of 5 %"),
	}},
	{"Rpk*", "", []Reading{reads(editionISO21920, "Rpkx", "highest point above the core")}},
	{"Rvk*", "", []Reading{reads(editionISO21920, "Rvkx", "lowest point below the core")}},
	{"Δq", "", []Reading{reads(editionISO21920, "Rdq", "root mean square gradient")}},
	{"Δa", "", []Reading{reads(editionISO21920, "Rda", "arithmetic mean of absolute gradient")}},
}

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
