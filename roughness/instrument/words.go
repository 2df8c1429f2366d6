package instrument

import (
	"fmt"
	"strings"
)

// counted is a number with the word for one or for several.
func counted(n int, one, several string) string {
	if n == 1 {
		several = one
	}
	return fmt.Sprintf("%d %s", n, several)
}

// bare is the text of an error without the name of this package or of the one that it comes from.
func bare(err error) string {
	text := strings.TrimPrefix(err.Error(), "instrument: ")
	return strings.TrimPrefix(text, "roughness: ")
}
