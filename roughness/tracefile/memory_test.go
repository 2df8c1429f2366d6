package tracefile_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// used is all that is ever allocated while a file is read, which no peak can exceed, and the file itself.
func used(data []byte, hints *tracefile.Hints) (int, error) {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	_, err := tracefile.Read(data, hints)
	runtime.ReadMemStats(&after)
	return int(after.TotalAlloc-before.TotalAlloc) + len(data), err
}

// Reading text takes at most six times the file, and 4 MB besides, also for the leanest way to write numbers, and for what is
// refused in the end. Ordinary files take twice their size.
func TestMemory(t *testing.T) {
	if testing.Short() {
		return // it takes long under the race detector, which allocates besides
	}
	rep := strings.Repeat
	um := tracefile.Hints{Spacing: 1, ZUnit: "um"}
	xz := tracefile.Hints{XUnit: "um", ZUnit: "um"}
	r := rand.New(rand.NewPCG(3, 5))
	var uneven, triples bytes.Buffer
	x := 0.0
	for i := range 200_000 {
		x += 1 + r.Float64()
		fmt.Fprintf(&uneven, "%.1f %d\n", x, i%9)
		fmt.Fprintf(&triples, "%d %d %d\n", i%400, i/400, i%7)
	}
	utf16 := make([]byte, 0, 4<<20)
	for range 1 << 19 {
		utf16 = append(utf16, '1', 0, '\n', 0)
	}
	for name, c := range map[string]struct {
		data  string
		hints tracefile.Hints
		want  error
	}{
		"one digit per line":                  {rep("1\n2\n", 500_000), um, nil},
		"one digit per line, Latin-1":         {"\xb5\n" + rep("1\n2\n", 500_000), um, nil},
		"one digit per line, Latin-1 and CR":  {"\xb5\r" + rep("1\r2\r", 500_000), um, nil},
		"one digit per line, UTF-16":          {string(utf16), um, nil},
		"UTF-16 beyond Latin":                 {"\xff\xfe" + rep("\x00\x4e", 1_000_000), um, tracefile.ErrNoData},
		"digits in one row":                   {rep("1 2 ", 500_000), tracefile.Hints{Spacing: 1, ZUnit: "um", Heights: "rows"}, nil},
		"digits in one row, a mark left open": {"1,234 " + rep("1 2 ", 500_000), tracefile.Hints{Spacing: 1, ZUnit: "um", Heights: "rows"}, tracefile.ErrOpen},
		"digits in one row, no hint":          {rep("1 2 ", 500_000), um, tracefile.ErrOpen},
		"digits in two columns":               {rep("1 2\n", 500_000), xz, tracefile.ErrRepeated},
		"x as heights, height missing":        {rep("1;\n", 700_000) + "2;1\n", xz, tracefile.ErrRepeated},
		"two columns":                         {string(table(200_000)), tracefile.Hints{}, nil},
		"two columns, Latin-1":                {"\xb5\n" + string(table(200_000)), tracefile.Hints{}, nil},
		"two columns, CR":                     {strings.ReplaceAll(string(table(200_000)), "\n", "\r"), tracefile.Hints{}, nil},
		"uneven x":                            {uneven.String(), xz, tracefile.ErrUneven},
		"uneven x, resampled":                 {uneven.String(), tracefile.Hints{XUnit: "um", ZUnit: "um", Resample: true}, nil},
		"uneven x, resampled without end":     {"0 1\n1 2\n3 4\n", tracefile.Hints{XUnit: "um", ZUnit: "um", Resample: true, Spacing: 1e-7}, tracefile.ErrLimit},
		"triples, a row":                      {triples.String(), tracefile.Hints{XUnit: "um", ZUnit: "um", Row: 2}, nil},
		"triples, a column":                   {triples.String(), tracefile.Hints{XUnit: "um", ZUnit: "um", Column: 2}, nil},
		"triples without a grid":              {strings.ReplaceAll(uneven.String(), "\n", " 1\n"), tracefile.Hints{XUnit: "um", ZUnit: "um", Column: 2}, tracefile.ErrLimit},
		"a column of a matrix":                {rep("1 2 3 4\n", 300_000), tracefile.Hints{Spacing: 1, ZUnit: "um", Column: 2}, nil},
		"many traces":                         {rep("x_um z_um\n0 1\n1 2\n2 3\n3 4\n", 8000), tracefile.Hints{}, tracefile.ErrOpen},
		"the last of many traces":             {rep("x_um z_um\n0 1\n1 2\n2 3\n", 2000), tracefile.Hints{Trace: 2000}, nil},
		"a mark that the rows leave open":     {rep("1,234\n5,678\n", 200_000), um, tracefile.ErrOpen},
		"blank lines":                         {"1\n" + rep("\n", 400_000) + "2\n", um, nil},
		"blank lines between rows, skipped":   {rep("1\n\n\n\n", 1_000_000), tracefile.Hints{Spacing: 1, ZUnit: "um", BlankLines: "skip"}, nil},
		"blank lines without end":             {"1\n" + rep("\n", 20_000_000) + "2\n", um, tracefile.ErrLimit},
		"commas":                              {"1\n" + rep(",", 1_000_000) + "2\n", um, tracefile.ErrCells},
		"a first line of commas":              {rep(",", 2_000_000) + "\n1\n2\n", um, nil},
		"a first line of 4 MB":                {rep("a", 4_000_000) + "\n1\n2\n", um, nil},
		"a statement of 4 MB":                 {"dx: " + rep("a b ", 1_000_000) + "\n1\n2\n", um, nil},
		"a name of 4 MB":                      {"z" + rep(" a", 2_000_000) + " [um]\n1\n2\n", um, nil},
		"many lines of text":                  {rep("some text\n", 400_000) + "1\n2\n", um, nil},
		"many statements":                     {rep("dx: 1 um\n", 400_000) + "1\n2\n", um, nil},
		"remarks":                             {rep("# remark\n", 400_000) + "1\n2\n", um, nil},
		"remarks between rows":                {"1\n" + rep("#\n", 2_000_000) + "2\n", um, nil},
		"a quote that is not closed":          {"\"" + rep("1\n", 1_000_000), um, tracefile.ErrQuote},
		"quoted cells":                        {rep("\"1\"\n", 500_000), um, nil},
		"grouped thousands":                   {"z_um\n" + rep("1\u202f000\n", 500_000), tracefile.Hints{Spacing: 1}, nil},
		"SMD, one digit per line":             {leanSMD("CX I %d um 1.0e0 D 1", "1\r\n", 500_000), tracefile.Hints{}, nil},
		"SMD, pairs":                          {leanSMD("CX A %d um 1.0e0 D", "1 2\r\n", 500_000), tracefile.Hints{}, tracefile.ErrRepeated},
		"SMD, lines of comments":              {strings.Replace(leanSMD("CX I %d um 1.0e0 D 1", "1\r\n", 3), "\x03\r\n", "\x03\r\n"+rep("a\r\n", 1_000_000), 1), tracefile.Hints{}, nil},
		"SDF text, one digit per line":        {leanSDF(500_000, ""), tracefile.Hints{}, nil},
		"SDF text, a trailer of blank lines":  {leanSDF(3, rep("\n", 2_000_000)), tracefile.Hints{}, nil},
		"SDF text, a trailer of little lines": {leanSDF(3, rep("a=b\n", 1_000_000)), tracefile.Hints{}, nil},
	} {
		n, err := used([]byte(c.data), &c.hints)
		if c.want == nil != (err == nil) || !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
		if err != nil && len(err.Error()) > 1000 {
			t.Errorf("%s: %d bytes of error", name, len(err.Error()))
		}
		// With the race detector, what is lent from trace to trace is thrown away at random.
		if n > 6*len(c.data)+4<<20 && !underRace {
			t.Errorf("%s: %.1f times the file (%v)", name, float64(n)/float64(len(c.data)), err)
		}
		t.Logf("%s (%d kB): at most %.1f times the file", name, len(c.data)>>10, float64(n)/float64(len(c.data)))
	}
}

func leanSMD(cx, row string, n int) string {
	return fmt.Sprintf("ISO 5436 - 2000 a\r\nPRF 1 ISO5436\r\n"+cx+"\r\nCZ A %d um 1.0e0 D\r\n\x03\r\n\x03\r\n", n, n) + strings.Repeat(row, n) + "\x03\r\n"
}

func leanSDF(n int, trailer string) string {
	return fmt.Sprintf("aISO-1.0\nNumPoints = %d\nNumProfiles = 1\nXscale = 1e-6\nZscale = 1e-6\nDataType = 7\n*\n", n) + strings.Repeat("1\n", n) + "*\n" + trailer + "*\n"
}

// A file that cannot fit is refused before it is read, and a stream as soon as it has given too much.
func TestMaxSize(t *testing.T) {
	if most := tracefile.MaxSize(); most < 512<<20 {
		t.Errorf("at most %d bytes", most)
	}
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(60 << 20))
	if most := tracefile.MaxSize(); most != 10<<20 {
		t.Errorf("with 60 MB of memory: at most %d bytes", most)
	}
	name := filepath.Join(t.TempDir(), "large.txt")
	f, err := os.Create(name)
	if err == nil {
		err = errors.Join(f.Truncate(1<<40), f.Close()) // 1 TB that takes no room
	}
	if err != nil {
		t.Skip(err)
	}
	for what, read := range map[string]func() error{
		"a file":   func() error { _, err := tracefile.ReadFile(name, nil); return err },
		"a stream": func() error { _, err := tracefile.Load(endless{}); return err },
		"bytes":    func() error { _, err := tracefile.Read(make([]byte, 11<<20), nil); return err },
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		err := read()
		runtime.ReadMemStats(&after)
		var e *tracefile.Error
		if !errors.Is(err, tracefile.ErrSize) || !errors.Is(err, tracefile.ErrLimit) || !errors.As(err, &e) || e.Line != 0 || !strings.Contains(err.Error(), "larger than the 10 MB") {
			t.Errorf("%s: %v", what, err)
		}
		// All that was ever allocated, freed or not, of a stream that has no end: the race detector counts more than a plain run.
		if n := after.TotalAlloc - before.TotalAlloc; n > 120<<20 {
			t.Errorf("%s: took %d MB", what, n>>20)
		}
	}
	if data, err := tracefile.Load(strings.NewReader("1\n2\n")); err != nil || string(data) != "1\n2\n" {
		t.Errorf("a small stream: %q, %v", data, err)
	}
}

// endless gives lines of numbers without an end.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = "1\n"[i%2]
	}
	return len(p), nil
}

var _ io.Reader = endless{}
