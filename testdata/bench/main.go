// Command bench times furrow for bench.py: it reads one request a line and answers with seconds.
//
//	gaussian CUTOFF FILE        the Gaussian filter; CUTOFF in points
//	spline CUTOFF FILE          the smoothing spline
//	robust CUTOFF FILE          the robust Gaussian regression of order 2
//	evaluate CUTOFF FILE        the whole catalogue for R at a spacing of 0.5 µm
//	text 0 FILE                 reading FILE, a table of text
//
// FILE of the others holds heights as 8-byte little-endian numbers. An answer is "SECONDS PASSES"; with a fourth word, the name of a file, the mean line, or
// a line of symbol and value for each value of the evaluation, is written there too.
package main

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"time"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

func main() {
	lines := bufio.NewScanner(os.Stdin)
	for lines.Scan() {
		if err := answer(strings.Fields(lines.Text())); err != nil {
			fmt.Fprintln(os.Stderr, "bench:", err)
			os.Exit(1)
		}
	}
}

var (
	name    string // of the file read last
	data    []byte
	heights []float64
	line    []float64
)

func answer(words []string) error {
	if len(words) < 3 {
		return fmt.Errorf("request %q", words)
	}
	cutoff, err := strconv.ParseFloat(words[1], 64)
	if err != nil {
		return err
	}
	if name != words[2] {
		if data, err = os.ReadFile(words[2]); err != nil {
			return err
		}
		heights = make([]float64, len(data)/8)
		for i := range heights {
			heights[i] = math.Float64frombits(binary.LittleEndian.Uint64(data[8*i:]))
		}
		name, line = words[2], make([]float64, len(heights))
	}
	passes := 1
	var e *roughness.Evaluation
	begin := time.Now()
	switch words[0] {
	case "gaussian":
		_, err = filter.Gaussian{Cutoff: cutoff}.Apply(line, heights, 1)
	case "spline":
		_, err = filter.Spline{Cutoff: cutoff}.Apply(line, heights, 1)
	case "robust":
		var r filter.RobustReport
		_, r, err = filter.RobustGaussian{Cutoff: cutoff}.ApplyReport(line, heights, 1)
		passes = r.Passes
	case "evaluate":
		e, err = roughness.Evaluate(roughness.Profile{Z: heights, Spacing: 0.5}, nil)
	case "text":
		_, err = tracefile.Read(data, nil)
	default:
		err = fmt.Errorf("request %q", words)
	}
	seconds := time.Since(begin).Seconds()
	if err != nil {
		return err
	}
	if len(words) > 3 {
		var result []byte
		if e != nil {
			for _, v := range e.Values {
				result = fmt.Appendln(result, v.Symbol, v.Value)
			}
		} else {
			for _, v := range line {
				result = binary.LittleEndian.AppendUint64(result, math.Float64bits(v))
			}
		}
		if err := os.WriteFile(words[3], result, 0o600); err != nil {
			return err
		}
	}
	fmt.Println(seconds, passes)
	return nil
}
