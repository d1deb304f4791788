// Package asset makes the files that pages call in: one script, one style sheet,
// and pictures under names that change with their content.
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

	"github.com/evanw/esbuild/pkg/api"
)

// Bundle holds the script, the icon and the style sheet of a site; the style sheet
// still lacks its swatches.
type Bundle struct {
	Script, Icon File
	style        []byte
}

// Style returns the style sheet with the swatches of the ladder and of the given
// tints.
func (b *Bundle) Style(tints []Tint) File {
	data := append(slices.Clip(b.style), swatches(tints)...)
	return File{Path: Name("plait.css", data), Data: data}
}

// File is a finished file with its path from the root of the site.
type File struct {
	Path string
	Data []byte
}

// Entry points within the layouts.
const (
	scriptEntry = "scripts/plait.js"
	styleEntry  = "styles/plait.css"
	iconFile    = "styles/icon.svg"
)

// Build bundles the scripts of layouts into one classic script, which also runs
// on pages opened from a folder, and its style sheets into one.
func Build(layouts fs.FS) (*Bundle, error) {
	script, err := bundle(layouts, scriptEntry, "")
	if err != nil {
		return nil, err
	}
	style, err := bundle(layouts, styleEntry, "")
	if err != nil {
		return nil, err
	}
	icon, err := fs.ReadFile(layouts, iconFile)
	if err != nil {
		return nil, err
	}
	return &Bundle{
		Script: File{Path: Name("plait.js", script), Data: script},
		Icon:   File{Path: Name(iconFile, icon), Data: icon},
		style:  style,
	}, nil
}

// Script bundles one script module and what it imports. Where global is not empty
// the script assigns what the module exports to that name.
func Script(layouts fs.FS, entry, global string) ([]byte, error) {
	return bundle(layouts, entry, global)
}

// Name returns the path of an asset: a folder for all of them, the file's own
// name, and the first digits of a hash of its content. A changed file has a new
// name, so an old page never meets a new style sheet.
func Name(name string, data []byte) string { return fingerprint(name, sha256.Sum256(data)) }

func fingerprint(name string, sum [sha256.Size]byte) string {
	base := strings.ToLower(path.Base(name))
	ext := path.Ext(base)
	plain := strings.Map(plainRune, strings.TrimSuffix(base, ext))
	return "assets/" + plain + "-" + hex.EncodeToString(sum[:5]) + ext
}

// plainRune keeps names to what every disk, zip file and address can hold.
func plainRune(r rune) rune {
	if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
		return r
	}
	return '-'
}

// bundle runs esbuild on files of layouts alone: nothing is read from a disk.
func bundle(layouts fs.FS, entry, global string) ([]byte, error) {
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
		Plugins:           []api.Plugin{fromFS(layouts)},
	})
	if len(result.Errors) > 0 {
		return nil, errors.New(describe(result.Errors[0]))
	}
	return result.OutputFiles[0].Contents, nil
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

// fromFS resolves and loads modules from a file system.
func fromFS(files fs.FS) api.Plugin {
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
			contents := string(text)
			loader := api.LoaderJS
			if path.Ext(a.Path) == ".css" {
				loader = api.LoaderCSS
			}
			return api.OnLoadResult{Contents: &contents, Loader: loader}, nil
		})
	}}
}
