package main_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	loomsheet "stageloom/cmd/loomsheet"
	"stageloom/model/checks"
	"stageloom/model/goldentest"
	"stageloom/model/plan"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"loomsheet": loomsheet.Main, "strung": strung})
}

// Each script reads as a user's screen does: what was typed, and below it what came.
func TestScripts(t *testing.T) {
	here, err := os.Getwd()
	require.NoError(t, err)
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: goldentest.Accepting(),
		Setup: func(env *testscript.Env) error {
			env.Setenv("DEMOS", filepath.Join(here, "..", "..", "testdata"))
			env.Setenv("SCHEMAS", filepath.Join(here, "schema"))
			env.Setenv("COLUMNS", "80")
			return nil
		},
		Condition: condition,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"edits": edits, "exits": exits, "fits": fits, "says": says, "narrow": narrow,
		},
	})
}

// condition tells scripts whether they run as root, and whether poppler's tools are there, which cmd/test insists on.
func condition(name string) (bool, error) {
	switch name {
	case "root":
		return os.Getuid() == 0, nil
	case "paper-tools":
		_, err := exec.LookPath("pdftotext")
		if err != nil && os.Getenv("STAGELOOM_TOOLS") == "required" {
			return false, fmt.Errorf("STAGELOOM_TOOLS=required: %w", err)
		}
		return err == nil, nil
	}
	return false, fmt.Errorf("unknown condition %q", name)
}

// edits FILE ROW OLD NEW changes a text on the one line that holds the row's own words.
func edits(ts *testscript.TestScript, _ bool, args []string) {
	var after strings.Builder
	changed := 0
	for line := range strings.Lines(ts.ReadFile(args[0])) {
		if strings.Contains(line, args[1]) && strings.Contains(line, args[2]) {
			line = strings.Replace(line, args[2], args[3], 1)
			changed++
		}
		after.WriteString(line)
	}
	if changed != 1 {
		ts.Fatalf("%q with %q stands on %d lines, not on one", args[1], args[2], changed)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(after.String()), 0o600))
}

// exits CODE COMMAND… runs a command and holds it to its exit code.
func exits(ts *testscript.TestScript, _ bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	code := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		code = exit.ExitCode()
	}
	if code != want {
		ts.Fatalf("exited with %d, not %d", code, want)
	}
}

// fits SCHEMA FILE holds a file to one of the program's own schemas.
func fits(ts *testscript.TestScript, _ bool, args []string) {
	ts.Check(fit("schema/"+args[0]+".json", strings.NewReader(ts.ReadFile(args[1]))))
}

func fit(schema string, keys io.Reader) error {
	shape, err := jsonschema.NewCompiler().Compile(schema)
	if err != nil {
		return err
	}
	value, err := jsonschema.UnmarshalJSON(keys)
	if err != nil {
		return err
	}
	return shape.Validate(value)
}

// says WORDS… holds standard error to one line, and that to holding each of the words.
func says(ts *testscript.TestScript, _ bool, args []string) {
	text := ts.ReadFile("stderr")
	if strings.Count(text, "\n") != 1 || !strings.HasPrefix(text, "loomsheet: ") {
		ts.Fatalf("not one line of the program's own: %q", text)
	}
	for _, words := range args {
		if !strings.Contains(text, words) {
			ts.Fatalf("%q is not in %q", words, text)
		}
	}
}

var escape = regexp.MustCompile(`\x1b`)

// narrow FILE holds every line to 80 columns, and all of it to plain text: no colour codes, no blanks at the end.
func narrow(ts *testscript.TestScript, _ bool, args []string) {
	for line := range strings.Lines(ts.ReadFile(args[0])) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case utf8.RuneCountInString(line) > 80:
			ts.Fatalf("wider than 80 columns: %q", line)
		case escape.MatchString(line):
			ts.Fatalf("a code for terminals: %q", line)
		case strings.TrimRight(line, " ") != line:
			ts.Fatalf("blanks at the end: %q", line)
		}
	}
}

func TestVersionIsThatOfTheWindowProgram(t *testing.T) {
	details, err := os.ReadFile("../../FyneApp.toml")
	require.NoError(t, err)
	require.Contains(t, string(details), `Version = "`+loomsheet.Version+`"`)
}

// A schema that lets everything pass would test nothing.
func TestSchemasRefuse(t *testing.T) {
	var keys bytes.Buffer
	require.Error(t, fit("schema/reckon.json", strings.NewReader(`{}`)))
	require.Error(t, fit("schema/check.json", strings.NewReader(`{"loomsheet": 1, "plans": [{"file": "a.stageloom"}]}`)))
	require.Error(t, fit("schema/check.json", strings.NewReader(`{"loomsheet": 1, "plans": [], "more": 1}`)))
	keys.WriteString(`{"loomsheet": 1, "plans": []}`)
	require.NoError(t, fit("schema/check.json", &keys))
}

func TestEveryCommandAndFlagStandsInAScript(t *testing.T) {
	scripts, err := filepath.Glob("testdata/script/*.txtar")
	require.NoError(t, err)
	var typed strings.Builder
	for _, script := range scripts {
		text, err := os.ReadFile(script)
		require.NoError(t, err)
		for line := range strings.Lines(string(text)) {
			if strings.HasPrefix(line, "-- ") {
				break
			}
			typed.WriteString(line)
		}
	}
	for _, words := range slices.Concat(
		[]string{"loomsheet reckon ", "loomsheet check ", "loomsheet pick ", "loomsheet mend ", "loomsheet print ", "loomsheet house ", "loomsheet schema ", "--version", "--help"},
		[]string{"--transport", "--temp", "--coupler", "--wanted", "--rule", "--reach", "--sources", "--json", "--links", "-o ", "--paper", "--grey", "--no-grey", "--date", "--chapters", "--on-the-day", "--suspect", "--wanted", "--barred", "--own-kind", "--max-joins", "--different-kinds", "--hold-back", "--apply", "--day", "--pdf", "--label-sheet", "--used"},
	) {
		require.True(t, strings.Contains(typed.String(), words), "no script types %q", words)
	}
}

func TestAFigureInJSON(t *testing.T) {
	for _, c := range []struct {
		name  string
		value float64
		want  string
	}{
		{"is rounded to a millionth", 1.0000004999, "1"},
		{"has a point and no exponent", 1234567.25, "1234567.25"},
		{"has no negative zero", -1e-9, "0"},
		{"keeps its sign", -0.5, "-0.5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text, err := json.Marshal(loomsheet.Number(c.value))
			require.NoError(t, err)
			require.Equal(t, c.want, string(text))
		})
	}
	for _, none := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := json.Marshal(loomsheet.Number(none))
		require.ErrorContains(t, err, "has no place in JSON")
	}
}

func TestPlacesAreNamedAsAReaderKnowsThem(t *testing.T) {
	p := plan.New("Trial")
	p, err := plan.Do(p, plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		plan.Put(e, plan.Case{ID: "c-22222", Name: "Trunk"})
		plan.Put(e, plan.CableKind{ID: "cat5e", Name: "Cat 5e", Media: "balanced-pair"})
		plan.Put(e, plan.Reel{ID: "r-22222", Tag: "R07", Kind: "cat5e", Length: 50})
		plan.Put(e, plan.Reel{ID: "r-33333", Kind: "cat5e", Length: 50})
		plan.Put(e, plan.TransportRule{Transport: "aes50", Rule: "ieee-link-segment"})
		return nil
	})
	require.NoError(t, err)
	for _, c := range []struct {
		name  string
		place checks.Place
		want  string
	}{
		{"a row with its name", checks.Place{Table: "cases", Key: "c-22222"}, "case Trunk (c-22222)"},
		{"a reel with its tag", checks.Place{Table: "reels", Key: "r-22222"}, "reel R07 (r-22222)"},
		{"a reel without a tag", checks.Place{Table: "reels", Key: "r-33333"}, "reel (r-33333)"},
		{"a row that has no name", checks.Place{Table: "transport_rules", Key: "aes50"}, "transport rule (aes50)"},
		{"a row that is gone", checks.Place{Table: "house_lines", Key: "h-22222"}, "house line (h-22222)"},
		{"a row of a patch", checks.Place{Table: "stage_patches", Key: "/i-22222"}, "stage patch (/i-22222)"},
		{"the settings", checks.Place{Table: "plan"}, "plan"},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, loomsheet.Describe(p, c.place)) })
	}
}

func TestAPrintThatIsStoppedSaysSo(t *testing.T) {
	stopped := fmt.Errorf("print: %w", context.Canceled)
	require.EqualError(t, loomsheet.NotPrinted(stopped, "a.pdf"), "stopped; a.pdf is as it was before")
	full := errors.New("disk full")
	require.Equal(t, full, loomsheet.NotPrinted(full, "a.pdf"))
}
