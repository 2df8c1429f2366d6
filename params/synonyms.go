package params

// A Synonym is a name that is no edition's own spelling, or that means different things: one entry of the one table of
// older and everyday names.
type Synonym struct {
	Name     string
	Question string    // what to ask when there is more than one reading
	Readings []Reading // what it may stand for
}

// A Reading is one thing a name may stand for.
type Reading struct {
	Edition string // the edition in which Symbol is asked for
	Letter  byte
	Symbol  string
	Text    string // how it differs, in words
}

// String returns the symbol with its edition and the words.
func (r Reading) String() string { return r.Symbol + " in " + r.Edition + " (" + r.Text + ")" }

// Synonyms returns the table by name.
func Synonyms() map[string]Synonym { return synonyms }

var synonyms = map[string]Synonym{}

func (s Synonym) ask(edition string, letter byte, symbol string) *NameError {
	e := &NameError{Question: s.Question, Readings: s.Readings}
	if len(s.Readings) == 1 {
		e.Reason = "an older or everyday name"
		e.Question = "it stands for"
		return e
	}
	e.Reason = "means different things"
	return e
}
