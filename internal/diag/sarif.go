package diag

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"net/url"
	"strings"

	"plait/internal/source"
)

// Tool says who made a report, for [WriteSARIF].
type Tool struct {
	Name    string
	Version string
	Rules   []ToolRule // in order of their ids
}

// ToolRule is what a report says of a rule.
type ToolRule struct {
	ID       string
	Title    string
	Why      string
	Severity Severity
}

// The SARIF form, as far as it is written (OASIS, Static Analysis Results
// Interchange Format 2.1.0).
type (
	sarifLog struct {
		Schema  string     `json:"$schema"`
		Version string     `json:"version"`
		Runs    []sarifRun `json:"runs"`
	}
	sarifRun struct {
		Tool       sarifTool                `json:"tool"`
		Bases      map[string]sarifLocation `json:"originalUriBaseIds"`
		ColumnKind string                   `json:"columnKind"`
		Results    []sarifResult            `json:"results"`
	}
	sarifTool struct {
		Driver sarifDriver `json:"driver"`
	}
	sarifDriver struct {
		Name    string      `json:"name"`
		Version string      `json:"version,omitempty"`
		Rules   []sarifRule `json:"rules"`
	}
	sarifRule struct {
		ID      string       `json:"id"`
		Short   sarifText    `json:"shortDescription"`
		Full    sarifText    `json:"fullDescription"`
		Default sarifDefault `json:"defaultConfiguration"`
	}
	sarifDefault struct {
		Level string `json:"level"`
	}
	sarifText struct {
		Text string `json:"text"`
	}
	sarifResult struct {
		RuleID       string            `json:"ruleId"`
		RuleIndex    *int              `json:"ruleIndex,omitempty"`
		Level        string            `json:"level"`
		Message      sarifText         `json:"message"`
		Locations    []sarifPlace      `json:"locations,omitempty"`
		Related      []sarifPlace      `json:"relatedLocations,omitempty"`
		Fingerprints map[string]string `json:"partialFingerprints"`
		Fixes        []sarifFix        `json:"fixes,omitempty"`
	}
	sarifPlace struct {
		Physical sarifPhysical `json:"physicalLocation"`
		Message  *sarifText    `json:"message,omitempty"`
	}
	sarifPhysical struct {
		Artifact sarifLocation `json:"artifactLocation"`
		Region   sarifRegion   `json:"region"`
	}
	sarifLocation struct {
		URI         string     `json:"uri,omitempty"`
		BaseID      string     `json:"uriBaseId,omitempty"`
		Description *sarifText `json:"description,omitempty"`
	}
	sarifRegion struct {
		StartLine   int `json:"startLine"`
		StartColumn int `json:"startColumn"`
		EndLine     int `json:"endLine"`
		EndColumn   int `json:"endColumn"`
	}
	sarifFix struct {
		Description *sarifText    `json:"description,omitempty"`
		Changes     []sarifChange `json:"artifactChanges"`
	}
	sarifChange struct {
		Artifact     sarifLocation      `json:"artifactLocation"`
		Replacements []sarifReplacement `json:"replacements"`
	}
	sarifReplacement struct {
		Deleted  sarifRegion `json:"deletedRegion"`
		Inserted sarifText   `json:"insertedContent"`
	}
)

// courseBase is the name under which a report speaks of the course's folder.
const courseBase = "COURSE"

// WriteSARIF prints the diagnostics as one SARIF 2.1.0 log. Columns count code
// points and the end of a region is the column behind it; addresses are relative to
// the course's folder.
func WriteSARIF(w io.Writer, list []Diagnostic, tool Tool) error {
	index := map[string]int{}
	run := sarifRun{
		ColumnKind: "unicodeCodePoints",
		Bases:      map[string]sarifLocation{courseBase: {Description: &sarifText{"the folder of the course"}}},
		Results:    []sarifResult{},
	}
	run.Tool.Driver = sarifDriver{Name: tool.Name, Version: tool.Version, Rules: []sarifRule{}}
	for i, r := range tool.Rules {
		index[r.ID] = i
		run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, sarifRule{
			ID: r.ID, Short: sarifText{r.Title}, Full: sarifText{r.Why}, Default: sarifDefault{r.Severity.String()},
		})
	}
	seen := map[string]int{}
	for _, d := range list {
		result := sarifResultOf(d, seen)
		if i, ok := index[d.Rule]; ok {
			result.RuleIndex = &i
		}
		run.Results = append(run.Results, result)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(sarifLog{
		Schema: "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json", Version: "2.1.0",
		Runs: []sarifRun{run},
	})
}

// sarifResultOf converts one diagnostic. Seen counts the fingerprints so far.
func sarifResultOf(d Diagnostic, seen map[string]int) sarifResult {
	text := d.Message
	if d.Help != "" {
		text += "\n" + d.Help
	}
	out := sarifResult{
		RuleID: d.Rule, Level: d.Severity.String(), Message: sarifText{text},
		Fingerprints: map[string]string{"lineText/v1": fingerprint(d, seen)},
	}
	if d.Span.Valid() {
		out.Locations = []sarifPlace{{Physical: sarifPhysicalOf(d.Span)}}
	}
	for _, n := range d.Notes {
		if n.Span.Valid() {
			out.Related = append(out.Related, sarifPlace{Physical: sarifPhysicalOf(n.Span), Message: &sarifText{n.Message}})
		}
	}
	if len(d.Edits) > 0 {
		out.Fixes = []sarifFix{sarifFixOf(d)}
	}
	return out
}

func sarifFixOf(d Diagnostic) sarifFix {
	var fix sarifFix
	if d.Help != "" {
		fix.Description = &sarifText{d.Help}
	}
	for _, e := range d.Edits {
		fix.Changes = append(fix.Changes, sarifChange{
			Artifact:     sarifLocationOf(e.Span),
			Replacements: []sarifReplacement{{Deleted: sarifRegionOf(e.Span), Inserted: sarifText{e.Text}}},
		})
	}
	return fix
}

func sarifPhysicalOf(s source.Span) sarifPhysical {
	return sarifPhysical{Artifact: sarifLocationOf(s), Region: sarifRegionOf(s)}
}

func sarifLocationOf(s source.Span) sarifLocation {
	return sarifLocation{URI: (&url.URL{Path: fileName(s)}).String(), BaseID: courseBase}
}

func sarifRegionOf(s source.Span) sarifRegion {
	start, end := s.Start(), s.End()
	return sarifRegion{StartLine: start.Line, StartColumn: start.Column, EndLine: end.Line, EndColumn: end.Column}
}

// fingerprint names a finding by its rule, its file and the text of its line, and by
// how many before it are the same: it stays when lines are put in above.
func fingerprint(d Diagnostic, seen map[string]int) string {
	line, _ := d.Span.Line()
	key := strings.Join([]string{d.Rule, fileName(d.Span), strings.TrimSpace(line)}, "\x00")
	seen[key]++
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\x00%d", key, seen[key]))
	return hex.EncodeToString(sum[:16])
}
