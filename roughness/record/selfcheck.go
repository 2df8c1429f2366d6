package record

import (
	"fmt"
	"math"
	"runtime"

	"example.com/furrow/roughness/figure"
	"example.com/furrow/roughness/selfcheck"
	"example.com/furrow/standards"
)

func platform() string { return runtime.GOOS + "/" + runtime.GOARCH }

// AppendSelfcheck appends the checks of the register, as they came out on this machine, as a JSON document. See selfcheck.schema.json.
func AppendSelfcheck(b []byte, checks []selfcheck.Comparison) []byte {
	w := shape(b, "furrow_selfcheck")
	failed := selfcheck.Failed(checks)
	w.put("version", Version, "platform", platform(), "checks", list(checks, "", func(c selfcheck.Comparison) any {
		return line("id", c.ID, "what", c.What, "area", c.Area, "subject", c.Subject, "source", c.Source, "basis", string(c.Basis), "expected", c.Expected, "found", c.Found,
			"tolerance", c.Tolerance, "reason", c.Reason, "word", c.Word, "fault", orNull(c.Fault))
	}), "passed", len(checks)-failed, "failed", failed)
	return w.end()
}

// AppendValidation appends the checks as a page that prints: the validation sheet of this machine, made at a time that is a text.
func AppendValidation(b []byte, checks []selfcheck.Comparison, made string) []byte {
	p := &page{}
	p.head("furrow, validation sheet")
	p.html("<style>.validation table { table-layout: fixed; break-inside: auto; } .validation caption, .validation thead, .validation tr:has(.from) { break-after: avoid; } " +
		".validation tr { break-inside: avoid; } .validation thead th:first-child { width: 34%; } .validation thead th:last-child { width: 14%; } .validation .from { padding-top: .3rem; }</style>\n")
	p.validation(checks, made)
	p.html("</main>\n</body>\n</html>\n")
	return append(b, p.b.String()...)
}

// AppendValidationArticle appends what the validation sheet shows, an article element without a style sheet.
func AppendValidationArticle(b []byte, checks []selfcheck.Comparison, made string) []byte {
	p := &page{}
	p.validation(checks, made)
	return append(b, p.b.String()...)
}

func (p *page) validation(checks []selfcheck.Comparison, made string) {
	failed := selfcheck.Failed(checks)
	p.html("<article class=\"validation\">\n<header><h1>Validation sheet</h1><p>%s</p></header>\n", fmt.Sprintf("furrow %s on %s, %s", Version, platform(), made))
	p.html("<p><b>%s</b> %s</p>\n", fmt.Sprintf("%d of %d checks agree.", len(checks)-failed, len(checks)), selfcheck.Totals(checks))
	set := ""
	for i, c := range checks {
		if c.Set != set {
			if set = c.Set; i > 0 {
				p.html("</tbody></table>\n")
			}
			p.html("<table><caption>%s</caption><thead><tr><th>Check</th><th class=\"num\">Expected</th><th class=\"num\">Found</th><th class=\"num\">Tolerance</th><th>Outcome</th></tr></thead><tbody>\n", c.Set)
			p.html("<tr><td colspan=\"5\" class=\"from\">%s</td></tr>\n", fmt.Sprintf("Source: %s (%s). Tolerance: %s.", c.Group, c.Basis, c.Reason))
		}
		found := "none"
		if !math.IsNaN(c.Found) {
			found = fmt.Sprintf("%.9g", c.Found)
		}
		p.html("<tr><th>%s</th><td class=\"num\">%s</td><td class=\"num\">%s</td><td class=\"num\">%s</td><td>%s</td></tr>\n", c.Name,
			fmt.Sprintf("%.9g", c.Expected), found, fmt.Sprintf("%.1g", c.Tolerance), joined(": ", c.Word, c.Fault))
	}
	p.html("</tbody></table>\n<dl class=\"blank\"><div><dt>Date</dt><dd></dd></div><div><dt>Name</dt><dd></dd></div><div><dt>Signature</dt><dd></dd></div></dl>\n")
	p.html("<p class=\"fine\"><b>Caution.</b> %s</p>\n</article>\n", standards.Caution)
}

// head writes a page up to its main part.
func (p *page) head(title string) {
	p.html("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"+pageMark+"\n"+
		"<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"+
		"<title>%s</title>\n<style>\n", title)
	p.b.WriteString(pageStyle + figure.StyleSheet() + "</style>\n</head>\n<body>\n<main>\n")
}
