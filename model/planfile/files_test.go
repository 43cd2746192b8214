package planfile_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

const filesFolder = "../../testdata/files"

// plansOfVersion1 returns the name and content of every shape of version 1 that ever landed.
func plansOfVersion1(t testing.TB) map[string]string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(filesFolder, "v1", "*.stageloom"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	files := map[string]string{}
	for _, path := range paths {
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		files[filepath.Base(path)] = string(data)
	}
	return files
}

// everyField holds every table and every field once.
func everyField(t testing.TB) string {
	t.Helper()
	return plansOfVersion1(t)["every-field.stageloom"]
}

func read(t testing.TB, text string) *plan.Plan {
	t.Helper()
	p, err := planfile.Read(strings.NewReader(text))
	require.NoError(t, err)
	return p
}

func TestFilesOfThisVersionAreWrittenBackByteForByte(t *testing.T) {
	for name, text := range plansOfVersion1(t) {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, text, string(written(t, read(t, text))))
		})
	}
}

func TestTheFilesHoldEveryFieldOfEveryTable(t *testing.T) {
	set := map[string]bool{}
	note := func(table string, row any) {
		v := reflect.ValueOf(row)
		for i := range v.NumField() {
			if !v.Field(i).IsZero() {
				set[table+" "+v.Type().Field(i).Name] = true
			}
		}
	}
	for _, text := range plansOfVersion1(t) {
		p := read(t, text)
		note("plan", p.Settings)
		for _, table := range plan.Tables() {
			for row := range table.Rows(p) {
				note(table.Name, row)
			}
		}
	}
	for _, row := range rowTypes() {
		for i := range row.shape.NumField() {
			field := row.table + " " + row.shape.Field(i).Name
			require.True(t, set[field], "%s is in no file of testdata/files: add one that has it, and leave the old ones as they are", field)
		}
	}
}

type rowType struct {
	table string
	shape reflect.Type
}

func rowTypes() []rowType {
	types := []rowType{{"plan", reflect.TypeFor[plan.Settings]()}}
	for _, table := range plan.Tables() {
		types = append(types, rowType{table.Name, table.RowType})
	}
	return types
}

func TestTheOrderOfRowsAndTheLayoutDoNotMatter(t *testing.T) {
	text := everyField(t)
	want := read(t, text)

	t.Run("rows in reverse", func(t *testing.T) {
		backwards := reversedRows(text)
		require.NotEqual(t, text, backwards)
		require.True(t, plan.Equal(want, read(t, backwards)))
	})
	t.Run("one value a line, with Windows line ends", func(t *testing.T) {
		var spread bytes.Buffer
		require.NoError(t, json.Indent(&spread, []byte(text), "", "\t"))
		require.True(t, plan.Equal(want, read(t, strings.ReplaceAll(spread.String(), "\n", "\r\n"))))
	})
	t.Run("all on one line", func(t *testing.T) {
		var dense bytes.Buffer
		require.NoError(t, json.Compact(&dense, []byte(text)))
		require.True(t, plan.Equal(want, read(t, dense.String())))
	})
	t.Run("an empty table, and fields written out at their zero", func(t *testing.T) {
		loose := strings.Replace(smallest(t), `"print_paper": "A4"}`, `"print_paper": "A4", "site": "", "north_degrees": -0, "print_grey": false}, "looms": []`, 1)
		require.Equal(t, smallest(t), string(written(t, read(t, loose))))
	})
	t.Run("escaped signs are the signs they stand for", func(t *testing.T) {
		escaped := strings.Replace(text, `"name": "FOH tower"`, `"na\u006de": "FOH\u0020tower"`, 1)
		require.NotEqual(t, text, escaped)
		require.True(t, plan.Equal(want, read(t, escaped)))
	})
}

func smallest(t testing.TB) string {
	t.Helper()
	return plansOfVersion1(t)["smallest.stageloom"]
}

// reversedRows turns the rows of every table round.
func reversedRows(text string) string {
	var out, rows []string
	for _, line := range strings.Split(text, "\n") {
		switch {
		case strings.HasPrefix(line, "{") && len(line) > 1:
			rows = append(rows, strings.TrimSuffix(line, ","))
			continue
		case len(rows) > 0:
			slices.Reverse(rows)
			out = append(out, strings.Join(rows, ",\n"))
			rows = nil
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

func TestFiguresComeBackExactly(t *testing.T) {
	for _, latency := range []float64{0.1, 1.0 / 3, 1e-7, 2.2250738585072014e-308, 999.9999999999999} {
		p, err := plan.Do(read(t, everyField(t)), nil, func(e *plan.Edit) error {
			return plan.Update(e, "console", func(k *plan.Kind) { k.LatencyMS = latency })
		})
		require.NoError(t, err)
		kind, _ := read(t, string(written(t, p))).Kinds.Get("console")
		require.Equal(t, latency, kind.LatencyMS)
	}
}

func TestAPlanThatCouldNotBeReadBackIsNotWritten(t *testing.T) {
	t.Run("with no name", func(t *testing.T) {
		require.ErrorContains(t, planfile.Write(&bytes.Buffer{}, plan.New("")), "name is blank, but is needed")
	})
	t.Run("with changes that are no Delta", func(t *testing.T) {
		for _, changes := range []string{"x", "[]", "{} ", `{"devices":{"drop":["d-22222"]}}`, `{"devices": {}}`} {
			p, err := plan.Do(plan.New("Trial"), nil, func(e *plan.Edit) error {
				plan.Put(e, plan.Revision{Number: 1, Letter: "A", Changes: changes})
				return nil
			})
			require.NoError(t, err)
			require.ErrorContains(t, planfile.Write(&bytes.Buffer{}, p), "revisions 0001: changes: ", changes)
		}
	})
}
