package filter_test

import (
	"testing"

	"example.com/furrow/filter"
)

// The words of the settings go there and back.
func TestEndsWords(t *testing.T) {
	for e, word := range []string{"retain", "retain-0", "retain-2", "zero", "linear", "line-symmetric", "point-symmetric", "discard"} {
		if got := filter.Ends(e).String(); got != word {
			t.Errorf("%d is %q, want %q", e, got, word)
		}
		if got, err := filter.ParseEnds(word); err != nil || got != filter.Ends(e) {
			t.Errorf("%q is %v, %v", word, got, err)
		}
	}
	if e, err := filter.ParseEnds("mirror"); err == nil {
		t.Errorf("mirror is %v", e)
	}
	if got := filter.Ends(42).String(); got != "Ends(42)" {
		t.Errorf("42 is %q", got)
	}
}

func TestStopWords(t *testing.T) {
	for s, word := range []string{"settled", "limit of passes reached", "residuals vanish", "Stop(3)"} {
		if got := filter.Stop(s).String(); got != word {
			t.Errorf("%d is %q, want %q", s, got, word)
		}
	}
}
