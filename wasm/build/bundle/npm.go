package bundle

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
)

// Package is the folder that [Built.Package] writes, seen from the program: the npm package, ready for `npm pack`.
const Package = "npm/package"

// glue are the files of the page that the package holds as they are.
var glue = []string{"furrow.js", "furrow.d.ts", module, loader}

var stated = regexp.MustCompile(`(?m)^const version = '([^']+)';$`)

// Package puts the npm package together from its own files in the folder npm and from those that it shares with the page, and returns
// its folder. Its version is that of the script, which is that of the library.
func (p *Built) Package() (string, error) {
	program := filepath.Dir(p.Dir)
	own, to := filepath.Join(program, "npm"), filepath.Join(program, filepath.FromSlash(Package))
	names, err := filepath.Glob(filepath.Join(own, "*.*"))
	if err != nil || len(names) == 0 {
		return "", errors.Join(fmt.Errorf("bundle: no files in %s", own), err)
	}
	for _, name := range glue {
		names = append(names, filepath.Join(p.Dir, name))
	}
	names = append(names, filepath.Join(program, "..", "LICENSE"))
	if err := os.RemoveAll(to); err != nil { // nothing of an earlier version stays
		return "", fmt.Errorf("bundle: %w", err)
	}
	if err := os.MkdirAll(to, 0o755); err != nil {
		return "", fmt.Errorf("bundle: %w", err)
	}
	script, err := os.ReadFile(filepath.Join(p.Dir, glue[0]))
	if err != nil {
		return "", fmt.Errorf("bundle: %w", err)
	}
	version := stated.FindSubmatch(script)
	if version == nil {
		return "", fmt.Errorf("bundle: %s states no version", glue[0])
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return "", fmt.Errorf("bundle: %w", err)
		}
		if filepath.Base(name) == "package.json" {
			data = bytes.Replace(data, []byte(`"version": ""`), fmt.Appendf(nil, `"version": "%s"`, version[1]), 1)
		}
		if err := os.WriteFile(filepath.Join(to, filepath.Base(name)), data, 0o644); err != nil {
			return "", fmt.Errorf("bundle: %w", err)
		}
	}
	if _, err := note(to, "The module"); err != nil {
		return "", fmt.Errorf("bundle: %w", err)
	}
	return to, nil
}
