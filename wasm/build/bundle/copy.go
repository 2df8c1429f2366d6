package bundle

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// later is the place of a file in the order in which files name each other: what is named comes before what names it.
func later(name string) int {
	switch {
	case path.Ext(name) == ".html":
		return 4
	case name == common:
		return 2
	case path.Base(name) == joined+".js":
		return 3
	case path.Ext(name) == ".js":
		return 1
	}
	return 0
}

// fixed says whether a file keeps its name in a copy: it is a page, it is small, or other programs name it.
func fixed(name string) bool {
	return name != module && name != known && !strings.HasPrefix(path.Base(name), joined+".")
}

var (
	linked  = regexp.MustCompile(`<(?:link|script) [^>]*(?:href|src)="([^"]+)"`)
	checked = []byte("const sums = {};") // in shared/begin.js
)

// A copier copies the page. What is large has a part of its checksum in its name, so a server may let browsers keep it for ever, and what
// names it states its checksum (Subresource Integrity), so a browser refuses a file that was changed.
type copier struct {
	from, to string
	names    []string          // old and new by turns
	sums     map[string]string // of the copies
	done     []string
}

func (c *copier) copy(name string) error {
	data, err := os.ReadFile(filepath.Join(c.from, filepath.FromSlash(name)))
	if err != nil {
		return err
	}
	own := data
	if later(name) > 0 {
		data = []byte(strings.NewReplacer(c.names...).Replace(string(data)))
	}
	if name == common {
		list, err := json.Marshal(c.sums)
		if err != nil || !bytes.Contains(data, checked) {
			return errors.Join(fmt.Errorf("%s does not hold %q", name, checked), err)
		}
		data = bytes.Replace(data, checked, fmt.Appendf(nil, "const sums = %s;", list), 1)
	}
	if path.Ext(name) == ".html" {
		data = linked.ReplaceAllFunc(data, func(tag []byte) []byte {
			at := string(linked.FindSubmatch(tag)[1])
			if !slices.Contains(c.names, at) || bytes.Contains(tag, []byte(`as="fetch"`)) { // its fetch states it
				return tag
			}
			return fmt.Appendf(nil, `%s integrity="%s"`, tag, c.sums[at])
		})
	}
	sum := sha256.Sum256(data)
	as := name
	if !fixed(name) {
		ext := path.Ext(name)
		as = fmt.Sprintf("%s-%x%s", strings.TrimSuffix(name, ext), sum[:4], ext)
		c.names = append(c.names, name, as)
	}
	c.sums[as] = "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
	c.done = append(c.done, as)
	at := filepath.Join(c.to, filepath.FromSlash(as))
	if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
		return err
	}
	if _, err := write(filepath.Dir(at), filepath.Base(at), data); err != nil || !bytes.Equal(own, data) {
		return err
	}
	for _, p := range Packings() { // that of the module takes half a minute
		packed, err := os.ReadFile(filepath.Join(c.from, filepath.FromSlash(name)) + p.Suffix)
		if err == nil {
			_, err = write(filepath.Dir(at), filepath.Base(at)+p.Suffix, packed)
		}
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// Copy puts the files that a browser asks for into a folder, each with its packed forms after it, which any static server can then serve. The
// folder is made where it is missing; what else is in it stays. Files with eight digits of their checksum at the end of their name, as
// furrow-3fa9c1d2.wasm, never change.
func (p *Built) Copy(to string) error {
	names, err := siteFiles(p.Dir)
	slices.SortStableFunc(names, func(a, b string) int { return cmp.Compare(later(a), later(b)) })
	c := copier{from: p.Dir, to: to, sums: map[string]string{}}
	for _, name := range names {
		err = errors.Join(err, c.copy(name))
	}
	script, e := os.ReadFile(filepath.Join(p.Dir, keeper))
	if err := errors.Join(err, e); err != nil {
		return fmt.Errorf("bundle: %w", err)
	}
	err = keepFiles(to, c.done, script) // last: it stands for a whole version
	if err := errors.Join(err, pack(to, append(c.done, worker))); err != nil {
		return fmt.Errorf("bundle: %w", err)
	}
	return nil
}
