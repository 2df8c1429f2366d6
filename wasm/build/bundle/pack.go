package bundle

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// Packings returns the packed forms that lie beside each file, the best one first: what a browser calls them, and how their names end.
func Packings() []struct{ Coding, Suffix string } {
	return []struct{ Coding, Suffix string }{{"br", ".br"}, {"gzip", ".gz"}}
}

// Packed says whether a packed form belongs to its file: it is not older.
func Packed(file, packed fs.FileInfo) bool { return !packed.ModTime().Before(file.ModTime()) }

// Pack writes the packed forms of all files that a browser asks for: with gzip always, with brotli where node is installed, because the
// library of Go has no writer of it. A form that belongs to an older file does not stay. It takes half a minute after a change of the module.
func (p *Built) Pack() error {
	names, err := siteFiles(p.Dir)
	if err := errors.Join(err, pack(p.Dir, append(names, worker))); err != nil {
		return fmt.Errorf("bundle: %w", err)
	}
	return nil
}

func pack(dir string, names []string) error {
	var stale []string
	for _, name := range names {
		at := filepath.Join(dir, filepath.FromSlash(name))
		is, err := os.Stat(at)
		if err != nil {
			return err
		}
		for _, p := range Packings() {
			there, err := os.Stat(at + p.Suffix)
			switch {
			case err == nil && Packed(is, there):
			case p.Coding == "gzip":
				if err := zip(at, at+p.Suffix); err != nil {
					return err
				}
			default:
				if err := os.Remove(at + p.Suffix); err != nil && !errors.Is(err, fs.ErrNotExist) {
					return err
				}
				stale = append(stale, at)
			}
		}
	}
	node, err := exec.LookPath("node")
	if err != nil || len(stale) == 0 {
		return nil
	}
	cmd := exec.Command(node, "-e", brotli)
	cmd.Stdin = strings.NewReader(strings.Join(stale, "\n"))
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("packing with brotli: %w\n%s", err, out)
	}
	return nil
}

// brotli packs the files that it is told of.
const brotli = `const fs = require('node:fs'), zlib = require('node:zlib'), c = zlib.constants;
for (const at of fs.readFileSync(0, 'utf8').split('\n')) {
	const data = fs.readFileSync(at);
	fs.writeFileSync(at + '.br.tmp', zlib.brotliCompressSync(data, { params: { [c.BROTLI_PARAM_QUALITY]: 11, [c.BROTLI_PARAM_LGWIN]: 24, [c.BROTLI_PARAM_SIZE_HINT]: data.length } }));
	fs.renameSync(at + '.br.tmp', at + '.br');
}`

func zip(from, to string) error {
	data, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return err
	}
	_, err = io.Copy(z, bytes.NewReader(data))
	if err := errors.Join(err, z.Close()); err != nil {
		return err
	}
	if err := os.Remove(to); err != nil && !errors.Is(err, fs.ErrNotExist) { // it may be the same and older than its file
		return err
	}
	_, err = write(filepath.Dir(to), filepath.Base(to), b.Bytes())
	return err
}
