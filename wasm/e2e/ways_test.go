package e2e

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"example.com/furrow/roughness"
)

// places are files of traces of one surface.
func places(n int) []file {
	var list []file
	for i := range n {
		list = append(list, file{fmt.Sprintf("place-%d.csv", i+1), []byte(table("x [mm];z [µm]", ";", ".", surface(uint64(81+i), 9600, 0.5), 0.5))})
	}
	return list
}

// Traces that were made in different ways do not count together: each is said for itself, one that differs is named and not counted, and no
// verdict and no record mixes them.
func TestWays(t *testing.T) {
	s := blankTab(t, usual)
	s.before(catching)
	s.load(1280, 900)
	s.dropBytes(places(3))
	s.says("trace-reading", "3 files, 3 traces")
	s.write("requirement-text", "Rz 8")
	s.says("trace-stats", "Rz of 3 values")
	s.says("verdict-word", "Conforms")
	s.click("trace-show-2")
	s.says("trace-way-of", "trace 2, place-2.csv, alone")
	s.click("trace-holds-filtered")
	s.says("trace-list", "place-2.csv is not counted: it is already filtered; the others differ.")
	s.says("trace-stats", "Rz of 2 values")
	s.says("verdict-word", "Conforms")
	s.wait(`(rows => rows.includes('trace 1') && rows.includes('trace 3') && !rows.includes('trace 2'))([...document.querySelectorAll('#verdict-picture text')].map(t => t.textContent))`, "the decision is on traces 1 and 3")
	s.click("trace-show-3")
	s.click("trace-turn")
	s.says("trace-list", "place-3.csv is not counted: it is upside down; the others differ.")
	s.says("trace-stats", "One value")
	s.stores(`r.state.ways && Object.keys(r.state.ways).length === 2`)
	json := s.given("record-json", "Saved as JSON")
	if n := strings.Count(json, "the others differ"); n != 2 {
		t.Errorf("the record names %d traces that do not count", n)
	}
	s.reload()
	s.says("trace-list", "it is upside down")
	s.dropBytes([]file{{"mixed.json", []byte(json)}})
	s.says("record-differs", "Opened record: the same values.")
	s.click("trace-show-3")
	if !eval[bool](s, `document.getElementById('trace-turn').checked`) {
		t.Error("the record forgot that a trace is upside down")
	}
	s.click("undo")
	s.click("undo") // the record was opened
	s.says("trace-stats", "One value")
	s.click("trace-show-1")
	s.click("trace-same")
	s.says("trace-stats", "Rz of 3 values")
	s.click("trace-show-2")
	s.click("trace-skid-with")
	s.says("trace-list", "place-2.csv is not counted: it was traced with a skid; the others differ.")
}

// A trace that stops the calculation is tried again; the second time the sheet asks whether to leave it out, and the others are there.
func TestStoppedAgain(t *testing.T) {
	s := blankTab(t, usual)
	s.before(workers + `
		window.Worker.prototype.postMessage = function (data, ...rest) {
			if (data.name === 'hold' && data.args[0].profile?.name === window.poison) return setTimeout(() => window.kill(this));
			return Object.getPrototypeOf(window.Worker).prototype.postMessage.call(this, data, ...rest);
		};`)
	s.load(1280, 900)
	s.write("requirement-text", "Rz 8")
	eval[bool](s, `(window.poison = 'place-2.csv', true)`)
	s.dropBytes(places(2))
	s.says("trouble", "It stopped again with place-2.csv. Leave this file out?")
	s.click("stopped-leave")
	s.says("trace-reading", "place-1.csv")
	s.says("verdict-word", "Conforms")
	s.says("trace-stats", "One value")
}

// crash ends the tab as a crash does, and opens another window on what is kept.
func (s *sheet) crash() *sheet {
	s.t.Helper()
	next := blankTabKeeping(s.t)
	dying, cancel := context.WithTimeout(s.ctx, 2*time.Second)
	defer cancel()
	chromedp.Call(dying, page.Crash, cdp.Empty{}) // there is nobody left to answer
	next.load(1280, 900)
	return next
}

// A tab that is killed while it reads a file of 50 MB comes again as it was before the file.
func TestKilledWhileReading(t *testing.T) {
	s := open(t, 1280, 900)
	s.dropBytes(places(1))
	s.says("sheet-title", "place-1")
	s.write("requirement-text", "Rz 8")
	s.says("verdict-word", "Conforms")
	s.stores(`r.state.required?.text === 'Rz 8' && r.state.traces.length === 1`)
	eval[bool](s, `(() => {
		const row = new TextEncoder().encode('0.0005;1.2345\n'), bytes = new Uint8Array(50e6 - 50e6 % row.length);
		for (let i = 0; i < bytes.length; i += row.length) bytes.set(row, i);
		const carried = new DataTransfer();
		carried.items.add(new File(['x [mm];z [µm]\n', bytes], 'long.csv'));
		document.getElementById('main').dispatchEvent(new DragEvent('drop', { dataTransfer: carried, bubbles: true, cancelable: true }));
		return true;
	})()`)
	s.says("busy-text", "Reading long.csv, 50 MB")
	next := s.crash()
	next.says("sheet-title", "place-1")
	next.says("trace-reading", "place-1.csv")
	next.says("verdict-word", "Conforms")
	next.says("kept", "Kept on this device")
}

// A tab that is killed in the middle of saving leaves a whole sheet, which has all but what was done in the last second.
func TestKilledWhileSaving(t *testing.T) {
	s := blankTab(t, usual)
	// Once it is told so, a save begins and never ends.
	s.before(`(() => {
		const put = IDBObjectStore.prototype.put;
		IDBObjectStore.prototype.put = function (...args) {
			const asked = put.apply(this, args);
			if (window.hanging && this.name === 'sheets') {
				window.hung = true;
				const again = () => { this.get('x').onsuccess = again; };
				again();
			}
			return asked;
		};
	})();`)
	s.load(1280, 900)
	s.dropBytes(places(2))
	s.says("trace-reading", "2 files, 2 traces")
	s.write("requirement-text", "Rz 8")
	s.says("verdict-word", "Conforms")
	s.fill("record-part", "Piston rod 7")
	s.stores(`r.state.blanks.part === 'Piston rod 7'`)
	eval[bool](s, `(window.hanging = true)`)
	s.dropBytes([]file{{"place-9.csv", places(3)[2].Bytes}})
	s.says("trace-reading", "3 files, 3 traces")
	s.wait(`window.hung === true`, "a save is going on")
	s.says("kept", "Keeping …")
	next := s.crash()
	next.says("trace-reading", "2 files, 2 traces")
	next.says("verdict-word", "Conforms")
	if part := eval[string](next, `document.getElementById('record-part').value`); part != "Piston rod 7" {
		t.Errorf("the part is %q", part)
	}
	next.agree(readTrace(t, string(places(1)[0].Bytes)), roughness.Settings{})
}

// The fields of a budget are filled from the check of the instrument that the record names; a field of a check that cannot be read is not taken
// as empty.
func TestBudgetFromCheck(t *testing.T) {
	s := checks(t, 1280, 900)
	s.fill("check-instrument", "bench 7")
	s.fill("specimen-number", "S 3")
	s.choose("specimen-symbol", "Rz")
	s.fill("specimen-value", "4.1")
	s.fill("specimen-u", "0.05")
	s.dropOn("specimen-file", places(3))
	s.wait(`!document.getElementById('specimen-outcome').hidden`, "the outcome")
	first := s.text("specimen-outcome")
	s.fill("specimen-tolerance", "one")
	s.says("specimen-outcome", "Nothing is checked until the field")
	if said := s.text("check-result"); !strings.Contains(said, "none yet") {
		t.Errorf("a refused allowance leaves the result %q", said)
	}
	s.fill("specimen-tolerance", "")
	s.wait(fmt.Sprintf(`document.getElementById('specimen-outcome').innerText === %q`, first), "the outcome again")
	s.dropOn("flat-file", []file{{"flat.csv", []byte(table("x [mm];z [µm]", ";", ".", surface(90, 9600, 0.5), 0.5))}})
	s.wait(`!document.getElementById('noise-outcome').hidden`, "the noise")
	spread := eval[string](s, `document.querySelector('#specimen-traces [data-of=s]').textContent`)
	s.click("check-keep")
	s.wait(`document.getElementById('kept').textContent.startsWith('Kept on this device')`, "the check is kept")
	s.turn("index.html", `document.querySelectorAll('#values-table [data-value]').length > 0`, "the worksheet")
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	s.fill("record-instrument", "bench 7")
	s.wait(`document.getElementById('record-check').placeholder.startsWith('S 3, ')`, "the check of bench 7")
	s.click("verdict-budget")
	s.says("budget-from", "Filled from the check of bench 7")
	s.wait(`document.getElementById('budget-certificate').value === '4.1' && document.getElementById('budget-certificate-u').value === '0.05' && document.getElementById('budget-noise').value !== ''`, "the fields are filled")
	if s0 := eval[string](s, `document.getElementById('budget-repeat').value`); !strings.HasPrefix(s0, spread) && !strings.HasPrefix(spread, s0[:min(3, len(s0))]) {
		t.Errorf("the repeats spread by %q, on the check by %q", s0, spread)
	}
	if n := eval[string](s, `document.getElementById('budget-repeats').textContent`); n != "3" {
		t.Errorf("s is of %s values", n)
	}
	s.click("budget-do")
	s.says("verdict-budget-table", "certificate of the specimen")
}

// A record that is pasted as text opens; one of two traces prints on one page; an exported picture says what it is, with its settings.
func TestPastedRecord(t *testing.T) {
	s := blankTab(t, usual)
	s.before(catching)
	s.load(1280, 900)
	s.dropBytes(places(2))
	s.says("trace-reading", "2 files, 2 traces")
	s.write("requirement-text", "Rz 8")
	s.says("verdict-word", "Conforms")
	s.wait(`document.querySelector('#record-page .decide') !== null && !document.getElementById('record-page').hasAttribute('data-old')`, "the record is made")
	s.onOnePage()
	svg := s.given("record-svg", "saved as SVG")
	for _, want := range []string{"place-1, place-1.csv: Rz", "L-filter 0.8\u00a0mm", "A calculation aid"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the exported picture has no %q", want)
		}
	}
	json := s.given("record-json", "Saved as JSON")
	s.clear()
	s.wait(`document.getElementById('trace-empty').checkVisibility()`, "nothing is left")
	s.paste(json)
	s.says("record-differs", "Opened record: the same values.")
	s.says("trace-reading", "2 traces")
	s.says("verdict-word", "Conforms")
}
