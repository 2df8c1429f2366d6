//go:build firefox

package e2e

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
)

// A fox is a Firefox without a window, driven over its remote protocol: messages on a TCP connection, each with its length before it.
type fox struct {
	t    *testing.T
	conn net.Conn
	in   *bufio.Reader
	id   int
}

// openFox starts Firefox with a profile of its own; without one the test fails.
func openFox(t *testing.T) *fox {
	t.Helper()
	path, err := exec.LookPath("firefox-esr")
	if err != nil {
		t.Fatal("no Firefox found: install firefox-esr")
	}
	if err := front(); err != nil {
		t.Fatal(err)
	}
	profile := t.TempDir()
	write(t, filepath.Join(profile, "user.js"), `user_pref("marionette.port", 0);`)
	cmd := exec.Command(path, "--headless", "--marionette", "--no-remote", "--profile", profile)
	cmd.Env = append(os.Environ(), "HOME="+profile)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		cmd.Process.Kill()
		cmd.Wait()
	})
	f := &fox{t: t}
	for end := time.Now().Add(patience); f.conn == nil; time.Sleep(100 * time.Millisecond) {
		if port, err := os.ReadFile(filepath.Join(profile, "MarionetteActivePort")); err == nil {
			f.conn, _ = net.Dial("tcp", "127.0.0.1:"+strings.TrimSpace(string(port)))
		}
		if f.conn == nil && time.Now().After(end) {
			t.Fatal("Firefox does not listen")
		}
	}
	t.Cleanup(func() { f.conn.Close() })
	f.in = bufio.NewReader(f.conn)
	f.message()
	f.call("WebDriver:NewSession", map[string]any{})
	f.call("WebDriver:SetWindowRect", map[string]any{"width": 1280, "height": 900})
	return f
}

// message reads one message.
func (f *fox) message() []byte {
	f.t.Helper()
	f.conn.SetReadDeadline(time.Now().Add(patience))
	head, err := f.in.ReadString(':')
	if err != nil {
		f.t.Fatal(err)
	}
	n, err := strconv.Atoi(strings.TrimSuffix(head, ":"))
	if err != nil {
		f.t.Fatal(err)
	}
	body := make([]byte, n)
	if _, err := io.ReadFull(f.in, body); err != nil {
		f.t.Fatal(err)
	}
	return body
}

// call carries out a command and returns its answer.
func (f *fox) call(name string, options map[string]any) json.RawMessage {
	f.t.Helper()
	f.id++
	text, err := json.Marshal([]any{0, f.id, name, options})
	if err != nil {
		f.t.Fatal(err)
	}
	fmt.Fprintf(f.conn, "%d:%s", len(text), text)
	var answer []json.RawMessage
	if err := json.Unmarshal(f.message(), &answer); err != nil || len(answer) != 4 {
		f.t.Fatalf("%s: %v", name, err)
	}
	if string(answer[2]) != "null" {
		f.t.Fatalf("%s: %s", name, answer[2])
	}
	return answer[3]
}

// is returns what an expression is on the page; a promise is waited for.
func is[T any](f *fox, expression string) (v T) {
	f.t.Helper()
	answer := f.call("WebDriver:ExecuteAsyncScript", map[string]any{"script": "const done = arguments[0]; Promise.resolve(" + expression + ").then(done)", "args": []any{}})
	if err := json.Unmarshal(answer, &struct{ Value *T }{&v}); err != nil {
		f.t.Fatalf("%s: %v", expression, err)
	}
	return v
}

func (f *fox) wait(expression, what string) {
	f.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if is[bool](f, expression) {
			return
		}
	}
	f.t.Fatalf("waited in vain: %s (%s)", what, expression)
}

// The main path in Firefox: open, requirement, file, verdict, record, reload. The values are the library's, and so is the record.
func TestFirefox(t *testing.T) {
	f := openFox(t)
	began := time.Now()
	f.call("WebDriver:Navigate", map[string]any{"url": site})
	f.wait(`document.querySelectorAll('#values-table [data-value]').length > 0`, "the demonstration is worked")
	t.Logf("values after %.1f s", time.Since(began).Seconds())
	is[bool](f, `(() => { const f = document.getElementById('requirement-text'); f.value = 'Rz 6'; f.dispatchEvent(new InputEvent('input', { bubbles: true })); return true; })()`)
	text := table("x [mm];z [µm]", ";", ".", surface(71, 9600, 0.5), 0.5)
	content, err := json.Marshal(text)
	if err != nil {
		t.Fatal(err)
	}
	is[bool](f, `(() => { const carried = new DataTransfer(); carried.items.add(new File([`+string(content)+`], 'rod.csv')); document.getElementById('main').dispatchEvent(new DragEvent('drop', { dataTransfer: carried, bubbles: true, cancelable: true })); return true; })()`)
	f.wait(`document.getElementById('sheet-title').textContent === 'rod' && document.querySelector('#verdict-word .word').textContent === 'Conforms'`, "the verdict on the file")
	e, err := roughness.Evaluate(readTrace(t, text), &roughness.Settings{Parameters: []string{"Rz"}})
	if err != nil {
		t.Fatal(err)
	}
	want := e.Values[0].Value
	if rz := is[float64](f, `+document.querySelector('#values-table tr[data-row=Rz] [data-value]').dataset.value`); math.Abs(rz-want) > 1e-12*want {
		t.Errorf("Rz is %v in Firefox, %v by the library", rz, want)
	}
	f.wait(`document.getElementById('record-page').textContent.includes('Conforms') && !document.getElementById('record-page').hasAttribute('data-old')`, "the record on the page")
	html := is[string](f, `new Promise((done) => {
		const make = URL.createObjectURL;
		URL.createObjectURL = (given) => (given.text().then(done), make.call(URL, given));
		document.getElementById('record-save').click();
	})`)
	o, err := record.Open([]byte(html))
	if err != nil {
		t.Fatal(err)
	}
	if v, err := o.Verify(); err != nil || !v.Same || o.Word != "Conforms" {
		t.Errorf("the record that Firefox made: %+v, %v", v, err)
	}
	f.wait(`document.getElementById('kept').textContent.startsWith('Kept on this device')`, "it is kept")
	f.call("WebDriver:Refresh", map[string]any{})
	f.wait(`document.getElementById('sheet-title').textContent === 'rod' && document.querySelector('#verdict-word .word')?.textContent === 'Conforms'`, "the sheet after a reload")
}
