package e2e

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// A sheet is the page in a tab of its own, with nothing remembered from before.
type sheet struct {
	t   *testing.T
	ctx context.Context

	mu         sync.Mutex
	complaints []string // errors in the console, exceptions, refusals of the policy
	fetched    []string // what the tab asked for, wherever
}

// open opens the page at a size and waits until the demonstration is worked.
// When the test ends, the console must be clean.
func open(t *testing.T, width, height int) *sheet {
	t.Helper()
	return openIn(t, usual, width, height)
}

func openIn(t *testing.T, launched func() (context.Context, error), width, height int) *sheet {
	t.Helper()
	s := blankTab(t, launched)
	s.load(width, height)
	return s
}

// blankTab opens a tab with nothing remembered from before.
func blankTab(t *testing.T, launched func() (context.Context, error)) *sheet {
	t.Helper()
	browser, err := launched()
	if errors.Is(err, errNoBrowser) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	s := &sheet{t: t}
	ctx, cancel := chromedp.NewContext(browser, chromedp.WithListener(s.hear))
	t.Cleanup(cancel)
	s.ctx = ctx
	// The first call opens the tab, and the tab lives as long as its context.
	if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, storage.ClearDataForOrigin, storage.ClearDataForOriginParams{Origin: site, StorageTypes: "cookies,indexeddb,local_storage"}); err != nil {
		t.Fatal(err)
	}
	return s
}

// before has a script run before those of the page.
func (s *sheet) before(script string) {
	s.t.Helper()
	if _, err := chromedp.Call(s.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script}); err != nil {
		s.t.Fatal(err)
	}
}

// load loads the page and waits until the demonstration is worked, and not only known from before.
func (s *sheet) load(width, height int) {
	s.t.Helper()
	s.do(chromedp.EmulateViewport(int64(width), int64(height)), chromedp.Navigate(site))
	s.t.Cleanup(func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		for _, c := range s.complaints {
			s.t.Errorf("the browser complains: %s", c)
		}
	})
	s.wait(`document.querySelectorAll('#values-table [data-value]').length > 0 && document.getElementById('answer').ariaBusy !== 'true'`, "the demonstration is worked")
	s.settle()
}

func (s *sheet) hear(event any) {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		said := e.ExceptionDetails.Text
		if e.ExceptionDetails.Exception != nil {
			said += " " + e.ExceptionDetails.Exception.Description
		}
		s.complaints = append(s.complaints, said)
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeError || e.Type == runtime.ConsoleAPICalledTypeWarning || e.Type == runtime.ConsoleAPICalledTypeAssert {
			var said []string
			for _, a := range e.Args {
				said = append(said, string(a.Value)+a.Description)
			}
			s.complaints = append(s.complaints, "console: "+strings.Join(said, " "))
		}
	case *cdplog.EventEntryAdded:
		if e.Entry.Level == cdplog.EntryLevelError || e.Entry.Level == cdplog.EntryLevelWarning {
			s.complaints = append(s.complaints, e.Entry.Text+" "+e.Entry.URL)
		}
	case *network.EventRequestWillBeSent:
		s.fetched = append(s.fetched, e.Request.URL)
	}
}

// do carries out actions; one that fails ends the test.
func (s *sheet) do(actions ...chromedp.Action[chromedp.Void]) {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, actions...); err != nil {
		s.t.Fatal(err)
	}
}

// get carries out an action and returns what it gives.
func get[T any](s *sheet, action chromedp.Action[T]) T {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	got, err := chromedp.Run(ctx, action)
	if err != nil {
		s.t.Fatal(err)
	}
	return got
}

// eval returns what an expression is on the page.
func eval[T any](s *sheet, expression string) T {
	s.t.Helper()
	return get(s, chromedp.Evaluate[T](expression))
}

// wait waits until an expression is true on the page.
func (s *sheet) wait(expression, what string) {
	s.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if eval[bool](s, expression) {
			return
		}
	}
	s.picture("waiting")
	s.t.Fatalf("waited in vain: %s (%s)", what, expression)
}

// settle waits until the page has nothing left to calculate or to draw, and
// nothing has moved for three frames.
func (s *sheet) settle() {
	s.t.Helper()
	get(s, chromedp.Evaluate[bool](`new Promise(done => {
		let still = 0, last = '';
		const look = () => {
			const now = [scrollX, scrollY, document.documentElement.scrollHeight].join();
			still = document.querySelector('main').ariaBusy === 'true' || now !== last ? 0 : still + 1;
			last = now;
			still < 3 ? requestAnimationFrame(look) : done(true);
		};
		look();
	})`, chromedp.EvalAwaitPromise))
}

// press sends keys to whatever has the focus.
func (s *sheet) press(keys ...string) {
	s.t.Helper()
	for _, k := range keys {
		s.do(chromedp.KeyEvent(k))
	}
}

// reveal shows the hidden parts that a control is in.
func (s *sheet) reveal(id string) {
	s.t.Helper()
	eval[bool](s, fmt.Sprintf(`((e) => { for (let d = e?.tagName === 'SUMMARY' ? e.parentElement.parentElement?.closest('details') : e?.closest('details'); d; d = d.parentElement.closest('details')) d.open = true; return true; })(document.getElementById(%q))`, id))
}

// fill replaces the text of a field by typing, and leaves it by Tab.
func (s *sheet) fill(id, text string) {
	s.t.Helper()
	s.reveal(id)
	s.do(chromedp.Focus(chromedp.ID(id)))
	eval[bool](s, fmt.Sprintf("(document.getElementById(%q).select(), true)", id))
	s.press(kb.Backspace, text, kb.Tab)
}

// click clicks in the middle of the control with an id, which must lie there for
// a pointer to hit.
func (s *sheet) click(id string) {
	s.t.Helper()
	s.reveal(id)
	s.wait(fmt.Sprintf(`document.getElementById(%q)?.checkVisibility()`, id), id+" is to be seen")
	s.settle()
	eval[bool](s, fmt.Sprintf(`(document.getElementById(%q).scrollIntoView({ block: 'center', inline: 'nearest' }), true)`, id))
	s.settle()
	at := eval[[]float64](s, fmt.Sprintf(`(e => {
		const r = e.getClientRects()[0], x = (r.left + r.right) / 2, y = (r.top + r.bottom) / 2;
		return e.contains(document.elementFromPoint(x, y)) ? [x, y] : [];
	})(document.getElementById(%q))`, id))
	if len(at) == 0 {
		s.picture("covered")
		s.t.Fatalf("a pointer does not reach %s", id)
	}
	s.do(chromedp.MouseClickXY(at[0], at[1]))
}

// clear clears the sheet by the menu.
func (s *sheet) clear() {
	s.t.Helper()
	s.menu()
	s.click("clear-all")
	s.click("clear-yes")
	s.click("sheet-file")
}

// menu opens what is behind "Open, save, settings", and waits for the list in it, which moves what stands below.
func (s *sheet) menu() {
	s.t.Helper()
	s.click("sheet-file")
	s.wait(`document.getElementById('sheet-menu').contains(document.activeElement)`, "the menu with its list")
}

// text returns what a person reads in the element with an id.
func (s *sheet) text(id string) string {
	s.t.Helper()
	return eval[string](s, fmt.Sprintf("(e => e?.checkVisibility() ? e.innerText : '')(document.getElementById(%q))", id))
}

// picture leaves a picture of the whole page, where one is asked for.
func (s *sheet) picture(name string) {
	s.t.Helper()
	dir := os.Getenv("FURROW_PICTURES")
	if dir == "" {
		return
	}
	png := get(s, chromedp.FullScreenshot(100))
	if err := os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644); err != nil {
		s.t.Fatal(err)
	}
}
