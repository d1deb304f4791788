package browsertest

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// schemaScript holds a SARIF log against the published schema and prints what is wrong.
const schemaScript = `
const [schema, validator, draft] = process.argv.slice(1)
const Ajv = require(validator)
const ajv = new Ajv({allErrors: true, schemaId: 'auto'})
ajv.addMetaSchema(require(draft))
const valid = ajv.compile(require(schema))
const log = JSON.parse(require('fs').readFileSync(0, 'utf8'))
if (!valid(log)) for (const e of valid.errors) console.log(e.dataPath + ' ' + e.message)`

// schemaFaults lists what the published schema of SARIF 2.1.0 (OASIS) finds wrong with a
// log.
func schemaFaults(t *testing.T, log []byte) string {
	t.Helper()
	node := program(t, "install Node.js", "node")
	cmd := exec.Command(node, "-e", schemaScript,
		checker(t, "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json"),
		checker(t, "@microsoft/jest-sarif/node_modules/ajv/lib/ajv.js"),
		checker(t, "@microsoft/jest-sarif/node_modules/ajv/lib/refs/json-schema-draft-04.json"))
	cmd.Stdin = bytes.NewReader(log)
	cmd.Stderr = os.Stderr
	said, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(said))
}

// brokenLesson has an error with an edit and a note, a warning and a note of practice.
const brokenLesson = "---\ntitle: A gloss\nsummary: One bowl.\n---\n\n## Mix é\n\n" +
	"```formula gloss\nkind: demi\ncolour: 2 parts 8N (15 g) + 1 part 8V\ndeveloper: 6 vol\nratio: 1:2\namount: 30 g colour\n" +
	"hair: 9 lightened\ntarget: 5\n```\n"

func TestSARIFKeepsToItsSchema(t *testing.T) {
	dir := t.TempDir()
	run := func(args ...string) []byte {
		t.Helper()
		cmd := exec.Command("go", append([]string{"run", "plait/cmd/plait"}, args...)...)
		out, err := cmd.Output()
		var exit *exec.ExitError
		if err != nil && !errors.As(err, &exit) {
			t.Fatal(err)
		}
		return out
	}
	course := filepath.Join(dir, "course")
	run("start", course)
	if err := os.WriteFile(filepath.Join(course, "lessons", "01-first-bowl", "lesson.md"), []byte(brokenLesson), 0o600); err != nil {
		t.Fatal(err)
	}
	log := run("check", "--course", course, "--as", "sarif")
	for _, part := range []string{`"level": "error"`, `"level": "warning"`, `"fixes"`, `"relatedLocations"`} {
		if !bytes.Contains(log, []byte(part)) {
			t.Errorf("the log has no %s, so nothing is shown about it:\n%s", part, log)
		}
	}
	if faults := schemaFaults(t, log); faults != "" {
		t.Errorf("the schema finds\n%s", faults)
	}
	// The schema itself is not blind.
	if faults := schemaFaults(t, bytes.Replace(log, []byte(`"level": "error"`), []byte(`"level": "grave"`), 1)); faults == "" {
		t.Error("the schema accepts a level that there is not")
	}
}
