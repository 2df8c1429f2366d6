package tracefile

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// Floats reads heights as 8-byte little-endian numbers, for [example.com/furrow/roughness.LongProfile]. A number that is cut off at the end is
// [io.ErrUnexpectedEOF].
func Floats(r io.Reader) func(z []float64) (int, error) {
	var block []byte
	return func(z []float64) (int, error) {
		if len(block) < 8*len(z) {
			block = make([]byte, 8*len(z))
		}
		n, err := io.ReadFull(r, block[:8*len(z)])
		for i := range n / 8 {
			z[i] = math.Float64frombits(binary.LittleEndian.Uint64(block[8*i:]))
		}
		if err == io.ErrUnexpectedEOF && n%8 == 0 {
			err = io.EOF
		}
		return n / 8, err
	}
}

// A LineError says which line of a long text is no height.
type LineError struct {
	Line int // from 1
	Text string
}

// Error names the line and what stands there.
func (e *LineError) Error() string {
	return fmt.Sprintf("tracefile: line %d: %q is no number", e.Line, e.Text)
}

// Lines reads heights as text, one a line with a decimal point, for [example.com/furrow/roughness.LongProfile]. An empty line and NaN are a missing
// height; blanks around a number do not count. Anything else is a [LineError].
func Lines(r io.Reader) func(z []float64) (int, error) {
	lines, count := bufio.NewScanner(r), 0
	return func(z []float64) (int, error) {
		for i := range z {
			if !lines.Scan() {
				if err := lines.Err(); err != nil {
					return i, fmt.Errorf("tracefile: line %d: %w", count+1, err)
				}
				return i, io.EOF
			}
			count++
			text := strings.TrimSpace(lines.Text())
			v, err := strconv.ParseFloat(text, 64)
			if text == "" {
				v, err = math.NaN(), nil
			}
			if err != nil || math.IsInf(v, 0) || strings.ContainsAny(text, "_xXpP") {
				return i, &LineError{count, text}
			}
			z[i] = v
		}
		return len(z), nil
	}
}
