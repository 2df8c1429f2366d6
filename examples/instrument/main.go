// Command instrument says whether an instrument may be believed today.
//
//	instrument [flags] FILE...
//
// The files are traces of a specimen, a flat, a groove, or of the surface that a value is wanted for. It prints a table, or with -json a
// document. Nothing is corrected: a gain factor is proposed and never applied. Exit status: 0 done; 1 read, but not possible (the document
// is printed with the reason); 2 bad usage or unreadable input, with one line on standard error.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/signal"
	"slices"
	"strings"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

const usage = `usage: instrument [flags] FILE...

Says whether an instrument may be believed today. FILE... are traces; - reads
one from standard input. One check at a time:

  -specimen TEXT  traces of a roughness specimen; TEXT is its certificate, such
                  as "Ra 2.97", with -u; three traces at least
  -flat           traces of an optical flat: noise and straightness; with
                  -limit what they mean for it; five traces
  -groove         traces of a wide groove: its depth; with -depth and -u, held
                  against the certificate
  -budget SYMBOL  traces of one surface: uncertainty budget of a value, from
                  what the flags below tell

specimen and groove:
  -u VALUE        expanded uncertainty of the certificate, µm
  -k VALUE        its coverage factor (default 2)
  -tolerance TEXT allowance beside U, such as "5 %" or "0.03 µm" (default: 1 %,
                  for a depth 0.01 µm)
  -type TYPE      A1, C1 to C4, D1 or D2 (default: not stated)
  -depth VALUE    certified depth of the groove, µm
  -width VALUE -centre VALUE
                  width and middle of the groove, µm (default: looked for)
  -gain VALUE     gain factor that the instrument works with now (default 1)
  -with FILE      document of a groove beside a specimen of the same day, or the
                  reverse: what the two say of the tip

flat:
  -limit TEXT     limits to judge, such as "Rz <= 3.2"

budget; a share may be written as "1 %":
  -certificate VALUE -certificate-u VALUE -certificate-k VALUE
                  specimen that the instrument was adjusted with
  -repeat S -repeats N
                  standard deviation of N traces on it
  -drift SHARE    half width of the change of gain since then
  -noise VALUE    Rq of the noise on a flat, µm
  -tip VALUE      half width of the radius of the tip, µm
  -spacing        whether every second point gives another value
  -cutoffs SHARE  half width of how the cut-offs are realised
  -travel SHARE   half width of the scale along the trace

all:
  -settings FILE  settings as JSON; every key is optional
  -date TEXT -operator TEXT -instrument TEXT
                  go into the document
  -text FILE      hints for delimited text, as JSON like {"z_unit": "µm"}
  -json           print JSON instead of a table
`

// options are the flags as given.
type options struct {
	specimen, limit, budget, tolerance, kind, settings, hints, with string
	flat, groove, json                                              bool
	u, k, depth, width, centre, gain                                float64
	in                                                              instrument.BudgetInput
	session                                                         instrument.Session
	given                                                           map[string]bool
	files                                                           []string
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// run is main with its surroundings as arguments, so that tests can call it.
func run(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	return cli.Run("instrument", usage, out, errs, func() (int, []byte, error) {
		o, err := parse(args)
		if err != nil {
			return 0, nil, err
		}
		c, err := o.check(ctx, in)
		if err != nil {
			return 0, nil, err
		}
		code := 0
		if len(c.Values) == 0 {
			code = 1
		}
		if o.json {
			return code, record.AppendCheck(nil, c), nil
		}
		return code, table(c), nil
	})
}

// of says which check a flag belongs to; those that it lacks belong to all.
var of = map[string][]string{
	"u": {"specimen", "groove"}, "k": {"specimen", "groove"}, "tolerance": {"specimen", "groove"}, "gain": {"specimen", "groove"}, "with": {"specimen", "groove"},
	"type": {"specimen"}, "depth": {"groove"}, "width": {"groove"}, "centre": {"groove"}, "limit": {"flat"},
	"certificate": {"budget"}, "certificate-u": {"budget"}, "certificate-k": {"budget"}, "repeat": {"budget"}, "repeats": {"budget"}, "drift": {"budget"},
	"noise": {"budget"}, "tip": {"budget"}, "spacing": {"budget"}, "cutoffs": {"budget"}, "travel": {"budget"},
}

func parse(args []string) (*options, error) {
	o := &options{}
	f := cli.Flags(map[string]*string{"specimen": &o.specimen, "limit": &o.limit, "budget": &o.budget, "tolerance": &o.tolerance, "type": &o.kind,
		"with": &o.with, "settings": &o.settings, "text": &o.hints, "date": &o.session.Date, "operator": &o.session.Operator, "instrument": &o.session.Instrument},
		map[string]*bool{"flat": &o.flat, "groove": &o.groove, "spacing": &o.in.Spacing, "json": &o.json})
	for name, to := range map[string]*float64{"u": &o.u, "k": &o.k, "depth": &o.depth, "width": &o.width, "centre": &o.centre, "gain": &o.gain,
		"certificate": &o.in.CertificateValue, "certificate-u": &o.in.CertificateU, "certificate-k": &o.in.CertificateK, "repeat": &o.in.SpecimenS,
		"noise": &o.in.NoiseRq, "tip": &o.in.TipTolerance} {
		f.Func(name, "", func(text string) error { return positive(text, to) })
	}
	for name, to := range map[string]*float64{"drift": &o.in.DriftShare, "cutoffs": &o.in.CutoffShare, "travel": &o.in.TravelShare} {
		f.Func(name, "", func(text string) error { return share(text, to) })
	}
	f.IntVar(&o.in.SpecimenN, "repeats", 0, "")
	var err error
	if o.given, err = cli.Parse(f, args); err != nil {
		return nil, err
	}
	var asked []string
	for _, check := range []string{"specimen", "flat", "groove", "budget"} {
		if o.given[check] {
			asked = append(asked, check)
		}
	}
	if len(asked) != 1 {
		return nil, errors.New("one check at a time: -specimen, -flat, -groove or -budget; -h tells more")
	}
	for name := range o.given {
		if checks := of[name]; checks != nil && !slices.Contains(checks, asked[0]) {
			return nil, fmt.Errorf("-%s goes with -%s", name, strings.Join(checks, " or -"))
		}
	}
	o.files = f.Args()
	switch {
	case o.specimen != "" && !o.given["u"]:
		return nil, errors.New("-specimen needs the expanded uncertainty of its certificate: -u")
	case o.given["depth"] != o.given["u"] && o.groove:
		return nil, errors.New("-depth and -u go together")
	case o.given["k"] && !o.given["u"]:
		return nil, errors.New("-k goes with -u, and there is none")
	case o.given["tolerance"] && !o.given["u"]:
		return nil, errors.New("-tolerance goes with a certificate: give -depth and -u")
	case o.given["centre"] && !o.given["width"]:
		return nil, errors.New("-centre goes with -width")
	case len(o.files) == 0:
		return nil, errors.New("no FILE")
	}
	return o, cli.Files(o.files)
}

// check makes the check.
func (o *options) check(ctx context.Context, in io.Reader) (*instrument.Check, error) {
	all, err := cli.ReadTraces(o.files, o.hints, in)
	if err != nil {
		return nil, err
	}
	set, source, err := cli.ReadSettings(o.settings)
	if err != nil {
		return nil, err
	}
	traces := make([]roughness.Profile, len(all))
	for i, t := range all {
		traces[i] = t.Profile
	}
	o.session.Gain = o.gain
	c, err := o.checkOf(ctx, traces, set)
	if wrong, ok := errors.AsType[*roughness.SettingError](err); ok {
		if set != nil {
			if _, e := roughness.Complete(set); e != nil {
				return nil, cli.SettingError(o.settings, source, wrong)
			}
		}
		return nil, wrong.Err
	}
	if err != nil {
		return nil, errors.New(standards.Bare(err))
	}
	if o.with != "" {
		if err := o.tip(c); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// tip adds to a check what it and another one of the same day say of the tip.
func (o *options) tip(c *instrument.Check) error {
	data, err := os.ReadFile(o.with)
	if err != nil {
		return cli.FileError(err)
	}
	other, err := record.ParseCheck(data)
	if err != nil {
		return fmt.Errorf("%s: %s", o.with, standards.Bare(err))
	}
	depth, fine := c, other
	if c.Kind == "specimen" {
		depth, fine = other, c
	}
	if depth.Kind != "groove" || fine.Kind != "specimen" {
		return fmt.Errorf("-with: %s is a check of kind %s; a groove and a specimen tell of the tip", o.with, other.Kind)
	}
	c.Notes = append(instrument.TipHints(depth, fine), c.Notes...)
	return nil
}

func (o *options) checkOf(ctx context.Context, traces []roughness.Profile, set *roughness.Settings) (*instrument.Check, error) {
	sp := instrument.Specimen{Expanded: o.u, K: o.k, Type: o.kind, Groove: o.width, Centre: o.centre}
	switch {
	case o.flat:
		var edition = (&roughness.Settings{}).Edition
		if set != nil {
			edition = set.Edition
		}
		limits, err := judge.ParseLimits(o.limit, edition)
		if o.limit == "" {
			limits, err = nil, nil
		}
		if err != nil {
			return nil, fmt.Errorf("-limit: %s", standards.Bare(err))
		}
		n, err := instrument.CheckNoise(ctx, traces, set, limits, o.session)
		if err != nil {
			return nil, err
		}
		return n.Check(), nil
	case o.groove:
		sp.Type, sp.Symbol, sp.Value = "A1", "d", o.depth
		a, err := o.allowance(sp)
		if err != nil {
			return nil, err
		}
		return instrument.CheckGroove(ctx, traces, sp, a, o.session)
	case o.specimen != "":
		symbol, number, _ := strings.Cut(strings.TrimSpace(o.specimen), " ")
		if err := positive(strings.TrimSuffix(strings.TrimSpace(number), "µm"), &sp.Value); err != nil {
			return nil, fmt.Errorf("-specimen: %q is no certificate; write it as Ra 2.97", o.specimen)
		}
		if sp.Symbol = symbol; symbol == "d" && sp.Type == "" {
			sp.Type = "A1"
		}
		a, err := o.allowance(sp)
		if err != nil {
			return nil, err
		}
		c, err := instrument.CheckSpecimen(ctx, traces, set, sp, a, o.session)
		if err != nil {
			return nil, err
		}
		return c.Check(), nil
	}
	o.in.Others = traces[1:]
	b, err := instrument.BudgetOn(ctx, traces[0], set, o.budget, o.in)
	if wrong, ok := errors.AsType[*roughness.ProfileError](err); ok || errors.Is(err, instrument.ErrUndefined) {
		if wrong != nil {
			err = wrong
		}
		return &instrument.Check{Kind: "budget", Session: o.session, Symbol: o.budget, Sentence: "There is no budget: " + strings.TrimSuffix(standards.Bare(err), ".") + "."}, nil
	}
	if err != nil {
		return nil, err
	}
	return b.Check(o.session), nil
}

// allowance is what -tolerance says, or the one for calibration.
func (o *options) allowance(sp instrument.Specimen) (a instrument.Allowance, err error) {
	text := strings.TrimSpace(o.tolerance)
	if text == "" {
		return instrument.CalibrationAllowance(sp), nil
	}
	a = instrument.AgreedAllowance(0)
	if strings.HasSuffix(text, "%") {
		err = share(text, &a.Share)
	} else {
		err = positive(strings.TrimSuffix(text, "µm"), &a.Absolute)
	}
	if err != nil {
		return a, fmt.Errorf("-tolerance: %q is none; write it as 5 %% or 0.03 µm", o.tolerance)
	}
	return a, nil
}

// positive reads a number above 0, with a point or a comma.
func positive(text string, to *float64) error {
	v, err := cli.ParseNumber(text)
	if err != nil || !(v > 0) {
		return errors.New("it is a number above 0")
	}
	*to = v
	return nil
}

// share reads a share: 0.01, or 1 %.
func share(text string, to *float64) error {
	number, percent := strings.CutSuffix(strings.TrimSpace(text), "%")
	v, err := cli.ParseNumber(number)
	if percent {
		v /= 100
	}
	if err != nil || !(v > 0) || v > 0.5 || math.IsNaN(v) {
		return errors.New("it is a share up to 50 %, such as 1 % or 0.01")
	}
	*to = v
	return nil
}
