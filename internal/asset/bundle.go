// Package asset makes the files that pages call in: a script and a style sheet for
// each kind of page, and pictures, under names that change with their content.
package asset

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"github.com/evanw/esbuild/pkg/api"
)

// Bundle holds the icon of a site and the script and style sheet of each kind of
// page; the style sheets still lack their swatches.
type Bundle struct {
	Icon    File
	scripts map[string]File
	styles  map[string][]byte
}

// Script returns the script of a set.
func (b *Bundle) Script(set string) File { return b.scripts[set] }

// Style returns the style sheet of a set with the swatches of the ladder and of the
// given tints.
func (b *Bundle) Style(set string, tints []Tint) File {
	data := append(slices.Clip(b.styles[set]), swatches(tints)...)
	return File{Path: Name(set+".css", data), Data: data}
}

// File is a finished file with its path from the root of the site.
type File struct {
	Path string
	Data []byte
}

// iconFile lies within the layouts.
const iconFile = "styles/icon.svg"

// Build bundles the sets of layouts. A set is all that one kind of page calls in, so
// that no page carries what only others need: scripts/SET.js becomes one classic
// script, which also runs on pages opened from a folder, and styles/SET.css one style
// sheet, each with what it imports.
func Build(layouts fs.FS, kept *Bundles, sets ...string) (*Bundle, error) {
	icon, err := fs.ReadFile(layouts, iconFile)
	if err != nil {
		return nil, err
	}
	b := &Bundle{
		Icon:    File{Path: Name(iconFile, icon), Data: icon},
		scripts: map[string]File{},
		styles:  map[string][]byte{},
	}
	for _, set := range sets {
		script, err := kept.get(layouts, "scripts/"+set+".js", "")
		if err != nil {
			return nil, err
		}
		style, err := kept.get(layouts, "styles/"+set+".css", "")
		if err != nil {
			return nil, err
		}
		b.scripts[set] = File{Path: Name(set+".js", script), Data: script}
		b.styles[set] = style
	}
	return b, nil
}

// Script bundles one script module, or one style sheet, and what it imports. Where
// global is not empty the script assigns what the module exports to that name.
func Script(layouts fs.FS, kept *Bundles, entry, global string) ([]byte, error) {
	return kept.get(layouts, entry, global)
}

// Sheet bundles one style sheet and what it imports, for a page that holds its own.
func Sheet(layouts fs.FS, entry string) ([]byte, error) {
	data, _, err := bundle(layouts, entry, "")
	return data, err
}

// Folder is where all assets of a site are. What lies in it never changes under its name.
const Folder = "assets/"

// Name returns the path of an asset: a folder for all of them, the file's own
// name, and the first digits of a hash of its content. A changed file has a new
// name, so an old page never meets a new style sheet.
func Name(name string, data []byte) string { return fingerprint(name, sha256.Sum256(data)) }

// NameOf returns the path of an asset whose content is made of pieces that are known by their
// sums: what it is made of names it as well as its content does, and sums stay known while
// pieces do not change.
func NameOf(name string, sums ...[sha256.Size]byte) string {
	hash := sha256.New()
	for _, s := range sums {
		hash.Write(s[:])
	}
	return fingerprint(name, [sha256.Size]byte(hash.Sum(nil)))
}

func fingerprint(name string, sum [sha256.Size]byte) string {
	base := strings.ToLower(path.Base(name))
	ext := path.Ext(base)
	plain := strings.Map(plainRune, strings.TrimSuffix(base, ext))
	return Folder + plain + "-" + hex.EncodeToString(sum[:5]) + ext
}

// plainRune keeps names to what every disk, zip file and address can hold.
func plainRune(r rune) rune {
	if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
		return r
	}
	return '-'
}

// bundle runs esbuild on files of layouts alone: nothing is read from a disk. It returns
// what went in too.
func bundle(layouts fs.FS, entry, global string) ([]byte, []Source, error) {
	var from sources
	result := api.Build(api.BuildOptions{
		EntryPoints:       []string{entry},
		Bundle:            true,
		Write:             false,
		MinifyWhitespace:  true,
		MinifySyntax:      true,
		MinifyIdentifiers: true,
		Charset:           api.CharsetUTF8,
		LegalComments:     api.LegalCommentsNone,
		Format:            api.FormatIIFE,
		GlobalName:        global,
		Target:            api.ES2020, // the first with whole numbers of any size
		Outdir:            "/",
		AbsWorkingDir:     "/",
		Plugins:           []api.Plugin{fromFS(layouts, &from)},
	})
	if len(result.Errors) > 0 {
		return nil, nil, errors.New(describe(result.Errors[0]))
	}
	return result.OutputFiles[0].Contents, from.list, nil
}

// describe puts a message of esbuild into the form of ours.
func describe(m api.Message) string {
	if m.Location == nil {
		return m.Text
	}
	file := strings.TrimPrefix(m.Location.File, namespace+":")
	return fmt.Sprintf("%s:%d:%d: %s", file, m.Location.Line, m.Location.Column+1, m.Text)
}

// namespace keeps esbuild from looking for our modules on the disk.
const namespace = "layouts"

// sources notes what is loaded, several files at a time.
type sources struct {
	mu   sync.Mutex
	list []Source
}

func (s *sources) add(name string, data []byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.list = append(s.list, Source{name, sha256.Sum256(data)})
}

// fromFS resolves and loads modules from a file system, and notes them.
func fromFS(files fs.FS, from *sources) api.Plugin {
	return api.Plugin{Name: namespace, Setup: func(build api.PluginBuild) {
		build.OnResolve(api.OnResolveOptions{Filter: ".*"}, func(a api.OnResolveArgs) (api.OnResolveResult, error) {
			if strings.HasPrefix(a.Path, "data:") || strings.HasPrefix(a.Path, "#") {
				return api.OnResolveResult{Path: a.Path, External: true}, nil
			}
			if a.Kind == api.ResolveEntryPoint {
				return api.OnResolveResult{Path: a.Path, Namespace: namespace}, nil
			}
			return api.OnResolveResult{Path: path.Join(path.Dir(a.Importer), a.Path), Namespace: namespace}, nil
		})
		build.OnLoad(api.OnLoadOptions{Filter: ".*", Namespace: namespace}, func(a api.OnLoadArgs) (api.OnLoadResult, error) {
			text, err := fs.ReadFile(files, a.Path)
			if err != nil {
				return api.OnLoadResult{}, err
			}
			from.add(a.Path, text)
			contents := string(text)
			loader := api.LoaderJS
			if path.Ext(a.Path) == ".css" {
				loader = api.LoaderCSS
			}
			return api.OnLoadResult{Contents: &contents, Loader: loader}, nil
		})
	}}
}
