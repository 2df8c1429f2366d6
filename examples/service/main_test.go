package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
)

// file is the start of a demonstration trace with its heights times a factor, as text.
func file(t testing.TB, points int, factor float64) (string, roughness.Profile) {
	t.Helper()
	d := synth.Demos()[0]
	p := roughness.Profile{Z: d.Heights()[:points], Spacing: d.Spacing}
	for i := range p.Z {
		p.Z[i] *= factor
	}
	var b bytes.Buffer
	if err := tracefile.WriteText(&b, &tracefile.Trace{Profile: p}); err != nil {
		t.Fatal(err)
	}
	return b.String(), p
}

type said struct {
	Caution, Error string
	Questions      []struct{ Hint, Text string }
	Result         struct {
		Values []struct {
			Symbol string
			Value  *float64
		}
	}
}

func post(t testing.TB, address, body string) (int, said) {
	t.Helper()
	r, err := http.Post(address, "text/plain", strings.NewReader(body))
	if err != nil {
		t.Error(err)
		return 0, said{}
	}
	defer r.Body.Close()
	var s said
	if err := json.NewDecoder(r.Body).Decode(&s); err != nil {
		t.Errorf("%s: %v", address, err)
	}
	if s.Caution != standards.Caution {
		t.Errorf("caution %q", s.Caution)
	}
	return r.StatusCode, s
}

func serve(t testing.TB, settings *roughness.Settings, l limits) string {
	t.Helper()
	s, err := newService(settings, l)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(s)
	t.Cleanup(server.Close)
	return server.URL + "/evaluate"
}

// A thousand requests at one time, of twenty traces, each with the values of its own trace.
func TestThousandAtOnce(t *testing.T) {
	settings := &roughness.Settings{Parameters: []string{"Ra", "Rz", "Rsm"}, Long: roughness.Band{Spec: roughness.FilterSpec{Cutoff: 80}}}
	address := serve(t, settings, limits{1 << 20, time.Minute, 4})
	files := make([]string, 20)
	want := make([]*roughness.Evaluation, len(files))
	for i := range files {
		var p roughness.Profile
		var err error
		files[i], p = file(t, 1000, 1+float64(i)/10)
		if want[i], err = roughness.Evaluate(p, settings); err != nil {
			t.Fatal(err)
		}
	}
	client := &http.Client{Transport: &http.Transport{MaxConnsPerHost: 200}}
	var wait sync.WaitGroup
	for k := range 1000 {
		wait.Go(func() {
			i := k % len(files)
			r, err := client.Post(address, "text/plain", strings.NewReader(files[i]))
			if err != nil {
				t.Error(err)
				return
			}
			defer r.Body.Close()
			var s said
			if err := json.NewDecoder(r.Body).Decode(&s); err != nil || r.StatusCode != 200 || len(s.Result.Values) != 3 {
				t.Errorf("request %d: %d, %v, %+v", k, r.StatusCode, err, s)
				return
			}
			for j, v := range s.Result.Values {
				if w := want[i].Values[j]; v.Symbol != w.Symbol || v.Value == nil || *v.Value != w.Value {
					t.Errorf("request %d: %+v, not %+v", k, v, w)
				}
			}
		})
	}
	wait.Wait()
}

func TestFailures(t *testing.T) {
	text, _ := file(t, 9000, 1)
	address := serve(t, nil, limits{1 << 20, time.Minute, 1})
	asking := address + "?hints=" + url.QueryEscape(`{"z_unit":"µm","x_unit":"mm"}`)
	for _, tt := range []struct {
		address, body, text string
		status              int
	}{
		{address, text, "", 200},
		{address, "x,z\n0,1\n1,2\n", "", 422}, // questions
		{asking, "0 1\n0.001 2\n0.002 1\n", "too short", 422},
		{address + "?hints=7", text, "JSON object", 400},
		{address + "?hints=" + url.QueryEscape(`{"z":1}`), text, `"z" is not a hint`, 400},
		{address + `?hints={"z_unit":"nm","delimiter":";"}`, text, "%3B", 400},
		{address + "?hints=%zz", text, "%25", 400},
		{address + "?hint={}", text, "nothing else", 400},
		{address + "?hints={}&hints={}", text, "once", 400},
		{address, strings.Repeat("1\n", 1<<20), "too large", 413},
		{strings.TrimSuffix(address, "evaluate"), text, "/evaluate", 404},
	} {
		status, s := post(t, tt.address, tt.body)
		if status != tt.status || !strings.Contains(s.Error, tt.text) || (status == 200) != (len(s.Result.Values) > 50) {
			t.Errorf("%.60s: %d %q with %d values", tt.address, status, s.Error, len(s.Result.Values))
		}
		if tt.text == "" && status == 422 && len(s.Questions) == 0 {
			t.Errorf("no questions in %+v", s)
		}
	}
	r, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	r.Body.Close()
	if r.StatusCode != 405 || r.Header.Get("Allow") != "POST" {
		t.Errorf("GET: %d, %v", r.StatusCode, r.Header)
	}
}

// A client that goes away while a million points are evaluated is left alone at once: the request ends within 10 ms of its context.
func TestMillionPointsStop(t *testing.T) {
	z := make([]float64, 1_000_000)
	for i := range z {
		z[i] = float64(i%160)/80 + float64(i*7919%1009)/500
	}
	var file bytes.Buffer
	if err := tracefile.WriteSMD(&file, &tracefile.Trace{Profile: roughness.Profile{Z: z, Spacing: 0.5}}); err != nil {
		t.Fatal(err)
	}
	ends := make(chan time.Duration, 1) // how long after its context a request ended; below 0 where it was through before
	var stop atomic.Pointer[context.CancelFunc]
	var leaves atomic.Int64 // ns after the whole file is sent
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		// The client leaves when the file is sent and read, and the evaluation goes on.
		r.Body = &sent{r.Body, func() { time.AfterFunc(time.Duration(leaves.Load()), *stop.Load()) }}
		ended := make(chan time.Time, 1)
		s, err := newService(nil, limits{1 << 30, time.Minute, 1}) // a new one, which has no steps of this trace from before
		if err != nil {
			t.Error(err)
		}
		defer context.AfterFunc(r.Context(), func() { ended <- time.Now() })()
		s.ServeHTTP(w, r)
		returned := time.Now()
		select {
		case at := <-ended:
			ends <- returned.Sub(at)
		case <-time.After(time.Second):
			ends <- -1
		}
	}))
	defer server.Close()
	begin := time.Now()
	if _, err := tracefile.Read(file.Bytes(), nil); err != nil {
		t.Fatal(err)
	}
	leaves.Store(int64(time.Since(begin) * 3 / 2))
	best, stopped := time.Hour, 0 // of a few tries: other work of the machine is not what is measured
	for try := 0; try < 20 && best > longestStop; try++ {
		ctx, cancel := context.WithCancel(context.Background())
		stop.Store(&cancel)
		request, err := http.NewRequestWithContext(ctx, "POST", server.URL+"/evaluate", bytes.NewReader(file.Bytes()))
		if err != nil {
			t.Fatal(err)
		}
		r, err := http.DefaultClient.Do(request)
		if err == nil {
			io.Copy(io.Discard, r.Body)
			r.Body.Close()
		}
		cancel()
		if late := <-ends; late >= 0 {
			best, stopped = min(best, late), stopped+1
		} else {
			leaves.Store(leaves.Load() * 4 / 5) // through before: other work had slowed the first reading
		}
	}
	t.Logf("%d tries stopped, at best %v after the end of the context", stopped, best)
	if stopped == 0 || best > longestStop {
		t.Errorf("%d tries stopped, at best %v after the end of the context", stopped, best)
	}
}

// sent is a body that tells when all of it has been read.
type sent struct {
	io.ReadCloser
	then func()
}

func (s *sent) Read(b []byte) (int, error) {
	n, err := s.ReadCloser.Read(b)
	if err == io.EOF && s.then != nil {
		s.then()
		s.then = nil
	}
	return n, err
}

func TestRun(t *testing.T) {
	folder := t.TempDir()
	settings := filepath.Join(folder, "settings.json")
	if err := os.WriteFile(settings, []byte(`{"furrow_settings": 1, "parameters": ["Rz"]}`), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	text, _ := file(t, 9000, 1)
	err := run(ctx, []string{"-addr", "127.0.0.1:0", "-settings", settings}, func(at net.Addr) {
		go func() {
			defer stop()
			if status, s := post(t, fmt.Sprintf("http://%s/evaluate", at), text); status != 200 || len(s.Result.Values) != 1 {
				t.Errorf("%d, %+v", status, s)
			}
		}()
	})
	if err != nil {
		t.Error(err)
	}
	for _, args := range [][]string{{"-once", "0"}, {"more"}, {"-settings", "absent"}, {"-addr", "nowhere:x"}, {"-none"}} {
		if err := run(ctx, args, func(net.Addr) { t.Error(args) }); err == nil {
			t.Errorf("%q is no error", args)
		}
	}
}
