package course

import (
	"errors"
	"io/fs"

	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// ReadWords reads the word list. A course without one has no words.
func ReadWords(fsys fs.FS) ([]Word, []diag.Diagnostic) {
	if _, err := fs.Stat(fsys, WordsFile); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	file, fault := lesson.ReadText(fsys, WordsFile)
	if fault != nil {
		return nil, []diag.Diagnostic{*fault}
	}
	node, faults := yamlpos.Parse(file.Fragment())
	r := yamlpos.NewReader(faults...)
	var words []Word
	for _, n := range r.Nodes(node, "the word list") {
		f := r.Fields(n, "a word", "term", "meaning", "see")
		var w Word
		var named, explained bool
		w.Term, named = f.Need("term")
		w.Meaning, explained = f.Need("meaning")
		if f.Has("see") {
			w.See = f.Texts("see")
		}
		if named && explained {
			words = append(words, w)
		}
	}
	r.Report(checkWords(words)...)
	return words, r.Diagnostics()
}

func checkWords(words []Word) []diag.Diagnostic {
	var found []diag.Diagnostic
	first := map[string]source.Span{}
	var terms []string
	for _, w := range words {
		if at, twice := first[w.Term.Value]; twice {
			found = append(found, diag.Errorf("words/twice", w.Term.Span, "%q is in the word list twice", w.Term.Value).
				WithNote(at, "the first is here").WithHelp("keep one of the two"))
			continue
		}
		first[w.Term.Value] = w.Term.Span
		terms = append(terms, w.Term.Value)
	}
	for _, w := range words {
		for _, see := range w.See {
			if _, ok := first[see.Value]; ok {
				continue
			}
			d := diag.Errorf("words/see", see.Span, "the word list has no %q", see.Value)
			if near := diag.DidYouMean(see.Value, terms); near != "" {
				d = d.WithHelp("did you mean %q?", near)
			} else {
				d = d.WithHelp("add the word, or take the reference away")
			}
			found = append(found, d)
		}
	}
	return found
}
