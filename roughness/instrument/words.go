package instrument

import (
	"fmt"
)

// counted is a number with the word for one or for several.
func counted(n int, one, several string) string {
	if n == 1 {
		several = one
	}
	return fmt.Sprintf("%d %s", n, several)
}
