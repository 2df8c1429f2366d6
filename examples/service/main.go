// Command service evaluates traces that are posted to it: a small HTTP service around one Evaluator.
//
//	go run ./examples/service -settings settings.json
//	curl --data-binary @trace.csv 'http://127.0.0.1:7421/evaluate?hints={"z_unit":"nm"}' -g
//
// POST /evaluate takes a trace file of any format that furrow reads, and in the query what the file leaves open. The answer is JSON: the caution
// and the result, or an error with the questions that the file leaves open. There is no password and no encryption: put it behind something
// that has both.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"log"
	"net"
	"net/http"
	"net/url"
	"os"
	"os/signal"
	"runtime"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, os.Args[1:], func(at net.Addr) { fmt.Printf("http://%s/evaluate takes traces; Control+C ends it.\n", at) }); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run serves until the context ends, and says where when it can be reached.
func run(ctx context.Context, args []string, reached func(net.Addr)) error {
	flags := flag.NewFlagSet("service", flag.ContinueOnError)
	addr := flags.String("addr", "127.0.0.1:7421", "address to listen at")
	file := flags.String("settings", "", "settings file; without one the defaults hold")
	limits := limits{}
	flags.Int64Var(&limits.bytes, "bytes", 64<<20, "most bytes of a posted file")
	flags.DurationVar(&limits.time, "time", 20*time.Second, "longest time for one request, waiting included")
	flags.IntVar(&limits.once, "once", runtime.GOMAXPROCS(0), "traces that are evaluated at one time; the others wait")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if flags.NArg() > 0 || limits.bytes < 1 || limits.time <= 0 || limits.once < 1 {
		return errors.New("service: limits are numbers above 0, and there are no arguments but flags")
	}
	var settings *roughness.Settings
	if *file != "" {
		data, err := os.ReadFile(*file)
		if err != nil {
			return err
		}
		if settings, err = record.ParseSettings(data); err != nil {
			return err
		}
	}
	s, err := newService(settings, limits)
	if err != nil {
		return err
	}
	l, err := net.Listen("tcp", *addr)
	if err != nil {
		return err
	}
	reached(l.Addr())
	server := &http.Server{Handler: s, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: limits.time, WriteTimeout: limits.time + 5*time.Second, MaxHeaderBytes: 1 << 14}
	ended := make(chan error, 1)
	go func() {
		<-ctx.Done()
		last, cancel := context.WithTimeout(context.Background(), limits.time)
		defer cancel()
		ended <- server.Shutdown(last)
	}()
	if err := server.Serve(l); err != http.ErrServerClosed {
		return err
	}
	return <-ended
}

// limits bound what a request may take.
type limits struct {
	bytes int64
	time  time.Duration
	once  int
}

// A service answers requests. One Evaluator does for all: it keeps work spaces for as many traces as come at one time.
type service struct {
	evaluator *roughness.Evaluator
	limits    limits
	places    chan struct{}
}

func newService(settings *roughness.Settings, l limits) (*service, error) {
	evaluator, err := roughness.NewEvaluator(settings)
	if err != nil {
		return nil, err
	}
	return &service{evaluator, l, make(chan struct{}, l.once)}, nil
}

// A failure is an error with the status that goes with it.
type failure struct {
	status int
	err    error
}

func (s *service) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	ctx, cancel := context.WithTimeout(r.Context(), s.limits.time)
	defer cancel()
	result, failed := s.answer(ctx, w, r)
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("X-Content-Type-Options", "nosniff")
	if failed == nil {
		reply(w, struct {
			Caution string          `json:"caution"`
			Result  json.RawMessage `json:"result"`
		}{standards.Caution, result})
		return
	}
	w.WriteHeader(failed.status)
	said := struct {
		Caution   string              `json:"caution"`
		Error     string              `json:"error"`
		Questions tracefile.Questions `json:"questions,omitempty"`
	}{standards.Caution, failed.err.Error(), tracefile.IsQuestion(failed.err)}
	reply(w, said)
}

func reply(w http.ResponseWriter, v any) {
	if err := json.NewEncoder(w).Encode(v); err != nil {
		log.Print("service: ", err) // who asked has gone
	}
}

// answer reads the trace and evaluates it, when there is a place.
func (s *service) answer(ctx context.Context, w http.ResponseWriter, r *http.Request) ([]byte, *failure) {
	if r.URL.Path != "/evaluate" {
		return nil, &failure{http.StatusNotFound, errors.New("there is only /evaluate")}
	}
	if r.Method != http.MethodPost {
		w.Header().Set("Allow", http.MethodPost)
		return nil, &failure{http.StatusMethodNotAllowed, errors.New("post a trace")}
	}
	hints, err := hintsIn(r.URL.RawQuery)
	if err != nil {
		return nil, &failure{http.StatusBadRequest, err}
	}
	// A file that comes slowly takes no place.
	data, err := tracefile.Load(http.MaxBytesReader(w, r.Body, s.limits.bytes))
	if err != nil {
		return nil, stopped(err)
	}
	select {
	case s.places <- struct{}{}:
		defer func() { <-s.places }()
	case <-ctx.Done():
		return nil, stopped(ctx.Err())
	}
	trace, err := tracefile.Decode(ctx, bytes.NewReader(data), hints, nil)
	if err != nil {
		return nil, stopped(err)
	}
	e, err := s.evaluator.Measure(ctx, trace.Profile)
	if err != nil {
		return nil, stopped(err)
	}
	e.Notes = append(e.Notes, trace.Notes...)
	return record.AppendResult(nil, e, nil), nil
}

// hintsIn reads the hints of a query. What it does not know it refuses: a hint that is lost may be another unit.
func hintsIn(query string) (*tracefile.Hints, error) {
	values, err := url.ParseQuery(query)
	if err != nil {
		return nil, fmt.Errorf("service: the query cannot be read; write ; as %%3B and %% as %%25: %w", err)
	}
	text := "{}"
	for name, given := range values {
		if name != "hints" || len(given) != 1 {
			return nil, errors.New("service: the query takes hints, once, and nothing else")
		}
		text = given[0]
	}
	return tracefile.ParseHints([]byte(text))
}

// stopped finds the status of an error: the request was too large or took too long, or the trace is at fault.
func stopped(err error) *failure {
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return &failure{http.StatusRequestEntityTooLarge, err}
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		return &failure{http.StatusServiceUnavailable, fmt.Errorf("no evaluation in the time there was: %w", err)}
	}
	return &failure{http.StatusUnprocessableEntity, err}
}
