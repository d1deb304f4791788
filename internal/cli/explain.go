package cli

import (
	"fmt"
	"strings"

	"plait/internal/check"
	"plait/internal/diag"
)

type explainCommand struct {
	Rule string `arg:"" optional:"" help:"The rule, as it stands in brackets behind a message: formula/pair. All rules are listed if left out."`
}

// Run prints one rule, or the list of all.
func (cmd explainCommand) Run(c console) error {
	if cmd.Rule == "" {
		for _, r := range check.Rules() {
			fmt.Fprintf(c.out, "%-26s %s\n", r.ID, r.Title)
		}
		return nil
	}
	r, ok := check.Find(strings.Trim(cmd.Rule, "[]"))
	if !ok {
		return useError{unknownRule(cmd.Rule)}
	}
	_, err := fmt.Fprint(c.out, explanation(r))
	return err
}

func unknownRule(name string) error {
	var ids []string
	for _, r := range check.Rules() {
		ids = append(ids, r.ID)
	}
	if near := diag.DidYouMean(name, ids); near != "" {
		return fmt.Errorf("there is no rule %q; did you mean %s?", name, near)
	}
	return fmt.Errorf("there is no rule %q; `plait explain` lists them", name)
}

// explanation is a rule in words, as wide as a page.
func explanation(r check.Rule) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s (%s)\n\n%s\n", r.ID, r.Title, r.Severity, wrap(r.Why, 80, ""))
	if r.Source != "" {
		fmt.Fprintf(&b, "\nSource: %s.\n", strings.TrimPrefix(wrap(r.Source, 80, "        "), "        "))
	}
	fmt.Fprintf(&b, "\nBreaks it:\n\n%s\n\nKeeps it:\n\n%s\n", indent(r.Before), indent(r.After))
	return b.String()
}

func indent(s string) string { return "  " + strings.ReplaceAll(s, "\n", "\n  ") }

// wrap breaks a text into lines of at most the given width, each behind a prefix.
func wrap(s string, width int, prefix string) string {
	var lines []string
	line := prefix
	for _, word := range strings.Fields(s) {
		if len(line) > len(prefix) && len([]rune(line))+1+len([]rune(word)) > width {
			lines = append(lines, line)
			line = prefix
		}
		if len(line) > len(prefix) {
			line += " "
		}
		line += word
	}
	return strings.Join(append(lines, line), "\n")
}
