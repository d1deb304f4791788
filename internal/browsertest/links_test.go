package browsertest

import (
	"bytes"
	"net/url"
	"path"
	"slices"
	"strings"
	"testing"
)

// link is one address that a page names.
type link struct {
	Tag   string `json:"tag"`
	Attr  string `json:"attr"`
	Value string `json:"value"`
	Rel   string `json:"rel"`
	Prose bool   `json:"prose"` // stands in the main text
}

// outline is what the link tests need of a page as it was written, before any
// script has run.
type outline struct {
	Title string   `json:"title"`
	IDs   []string `json:"ids"`
	Links []link   `json:"links"`
}

const readOutline = `() => {
	const attrs = ['href', 'xlink:href', 'src', 'srcset', 'poster', 'data', 'action', 'formaction', 'cite']
	const links = []
	for (const e of document.querySelectorAll('*'))
		for (const attr of attrs)
			if (e.hasAttribute(attr))
				links.push({tag: e.localName, attr, value: e.getAttribute(attr), rel: e.getAttribute('rel') ?? '', prose: !!e.closest('main')})
	return {title: document.title, ids: [...document.querySelectorAll('[id]')].map(e => e.id), links}
}`

// outlines reads every page of the site.
func outlines(t *testing.T, s *site) map[string]outline {
	t.Helper()
	found := make(map[string]outline)
	names := s.pages()
	p := openPage(t, s, names[0], withoutScripts())
	for _, name := range names {
		p.goTo(name)
		found[name] = evalTo[outline](p, readOutline)
	}
	return found
}

func TestLinks(t *testing.T) {
	s := built(t)
	all := outlines(t, s)
	t.Run("lead to files", func(t *testing.T) { expectFiles(t, s, all) })
	t.Run("reach every page", func(t *testing.T) { expectReached(t, all) })
	t.Run("titles differ", func(t *testing.T) { expectTitles(t, all) })
}

// expectFiles follows every address of every page. All lead to a file of the
// site, so that nothing is lost when the folder is copied to a stick.
func expectFiles(t *testing.T, s *site, all map[string]outline) {
	t.Helper()
	for name, o := range all {
		if len(o.Links) == 0 {
			t.Errorf("%s: no link found", name)
		}
		for _, l := range o.Links {
			if problem := follow(s, all, name, l); problem != "" {
				t.Errorf("%s: <%s %s=%q>: %s", name, l.Tag, l.Attr, l.Value, problem)
			}
		}
	}
}

// follow says what is wrong with a link, or nothing.
func follow(s *site, all map[string]outline, from string, l link) string {
	if l.Attr == "srcset" {
		return "this test cannot read a set of pictures: teach it"
	}
	u, err := url.Parse(l.Value)
	if err != nil {
		return err.Error()
	}
	if u.Scheme != "" || u.Host != "" {
		return followOutside(u, l)
	}
	if strings.HasPrefix(u.Path, "/") {
		return "starts at the root of a server"
	}
	target := from
	if u.Path != "" {
		target = path.Join(path.Dir(from), u.Path)
	}
	if !s.has(target) {
		return "no such file"
	}
	return followFragment(all, target, u.Fragment, l)
}

// followOutside allows data inside the page, the page's own public address, and
// a secure link that a reader chooses to follow.
func followOutside(u *url.URL, l link) string {
	switch {
	case u.Scheme == "data" && l.Tag != "a":
		return ""
	case u.Scheme == "https" && l.Tag == "link" && l.Rel == "canonical":
		return ""
	case u.Scheme == "https" && l.Tag == "a" && l.Prose:
		return ""
	}
	return "leads out of the site"
}

// followFragment checks the place inside a page. In other files a fragment is a
// time span of the recording (W3C Media Fragments URI 1.0).
func followFragment(all map[string]outline, target, fragment string, l link) string {
	o, isPage := all[target]
	switch {
	case l.Value == "" || strings.HasSuffix(l.Value, "#"):
		return "leads nowhere"
	case fragment == "":
		return ""
	case !isPage && !strings.HasPrefix(fragment, "t="):
		return "a fragment of a file that is no page"
	case isPage && !slices.Contains(o.IDs, fragment):
		return "no such place in " + target
	}
	return ""
}

// expectReached finds pages that no way leads to from home. The page of lost
// addresses is shown by a server and needs none.
func expectReached(t *testing.T, all map[string]outline) {
	t.Helper()
	reached := map[string]bool{"index.html": true, "404.html": true}
	for queue := []string{"index.html"}; len(queue) > 0; queue = queue[1:] {
		for _, target := range neighbours(all, queue[0]) {
			if !reached[target] {
				reached[target] = true
				queue = append(queue, target)
			}
		}
	}
	for name := range all {
		if !reached[name] {
			t.Errorf("%s: no link leads here from index.html", name)
		}
	}
}

// neighbours lists the pages that a page links to.
func neighbours(all map[string]outline, from string) []string {
	var pages []string
	for _, l := range all[from].Links {
		u, err := url.Parse(l.Value)
		if err != nil || l.Tag != "a" || u.IsAbs() {
			continue
		}
		target := path.Join(path.Dir(from), u.Path)
		if _, ok := all[target]; ok {
			pages = append(pages, target)
		}
	}
	return pages
}

// expectTitles keeps tabs and bookmarks apart.
// Source: WCAG 2.2, success criterion 2.4.2 Page Titled.
func expectTitles(t *testing.T, all map[string]outline) {
	t.Helper()
	seen := make(map[string]string)
	for name, o := range all {
		if other, ok := seen[o.Title]; ok {
			t.Errorf("%s and %s are both titled %q", other, name, o.Title)
		}
		seen[o.Title] = name
	}
}

// TestNoLocalPath looks for traces of the machine that built the site.
func TestNoLocalPath(t *testing.T) {
	s := built(t)
	for _, name := range s.files {
		data := readFile(t, s, name)
		for _, dir := range []string{s.dir, repository()} {
			if bytes.Contains(data, []byte(dir)) {
				t.Errorf("%s holds the path %s", name, dir)
			}
		}
	}
}
