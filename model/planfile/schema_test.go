package planfile_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/plan/plantest"
	"stageloom/model/planfile"
)

const schemaPath = "../../assets/stageloom.schema.json"

func schema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	text, err := os.ReadFile(schemaPath)
	require.NoError(t, err)
	document, err := jsonschema.UnmarshalJSON(strings.NewReader(string(text)))
	require.NoError(t, err)
	compiler := jsonschema.NewCompiler()
	require.NoError(t, compiler.AddResource("stageloom.schema.json", document))
	compiled, err := compiler.Compile("stageloom.schema.json")
	require.NoError(t, err)
	return compiled
}

func holdTo(t require.TestingT, schema *jsonschema.Schema, text string) error {
	document, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	require.NoError(t, err)
	return schema.Validate(document)
}

func TestTheSchemaAllowsWhatIsWritten(t *testing.T) {
	schema := schema(t)
	for name, text := range plansOfVersion1(t) {
		require.NoError(t, holdTo(t, schema, text), name)
	}
	demos, err := filepath.Glob("../../testdata/*.stageloom")
	require.NoError(t, err)
	for _, path := range demos {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		require.NoError(t, holdTo(t, schema, string(text)), path)
	}
	rapid.Check(t, func(t *rapid.T) {
		require.NoError(t, holdTo(t, schema, string(written(t, plantest.Plan(t, 100)))))
	})
}

func TestTheSchemaRefusesWhatTheReaderRefuses(t *testing.T) {
	schema := schema(t)
	for name, change := range map[string][2]string{
		"another version":             {`"stageloom": 1`, `"stageloom": 2`},
		"an unknown table":            {`"looms": [`, `"loom": [`},
		"an unknown name":             {`"stock_loom"`, `"stock"`},
		"a missing name":              {`"way": "straight", `, ``},
		"a number for a text":         {`"tag": "R07"`, `"tag": 7`},
		"a text for a number":         {`"number": 1, "name": "Kick"`, `"number": "1", "name": "Kick"`},
		"null":                        {`"kept": true`, `"kept": null`},
		"a fraction for a count":      {`"quantity": 1`, `"quantity": 1.5`},
		"a figure out of range":       {`"length_m": 61`, `"length_m": 10001`},
		"a word that is none of them": {`"lie": "ramp"`, `"lie": "tunnel"`},
		"a slug with capitals":        {`"coupler": "cat6a", "standards"`, `"coupler": "Cat6a", "standards"`},
		"an id of another table":      {`"id": "c-8bbbb"`, `"id": "d-8bbbb"`},
		"a control sign":              {`"tag": "R07"`, `"tag": "R\u000707"`},
		"a line break in a name":      {`"tag": "R07"`, `"tag": "R\n07"`},
		"revisions in a revision":     {`"changes": {"levels"`, `"changes": {"revisions": {"drop": ["0001"]}, "levels"`},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.Replace(everyField(t), change[0], change[1], 1)
			require.NotEqual(t, everyField(t), text)
			require.Error(t, holdTo(t, schema, text))
			_, err := planfile.Read(strings.NewReader(text))
			require.Error(t, err)
		})
	}
}

func TestTheSchemaNamesTheFieldsOfEveryTable(t *testing.T) {
	text, err := os.ReadFile(schemaPath)
	require.NoError(t, err)
	var document struct {
		Defs map[string]struct {
			Required   []string
			Properties map[string]struct {
				Minimum, Maximum *float64
				Enum             []string
			}
		} `json:"$defs"`
	}
	require.NoError(t, json.Unmarshal(text, &document))
	for _, row := range rowTypes() {
		def, found := document.Defs[row.table]
		require.True(t, found, row.table)
		require.Len(t, def.Properties, row.shape.NumField(), row.table)
		var required []string
		for i := range row.shape.NumField() {
			tag := row.shape.Field(i).Tag
			name, options, _ := strings.Cut(tag.Get("json"), ",")
			where := row.table + " " + name
			property, found := def.Properties[name]
			require.True(t, found, where)
			if options == "" {
				required = append(required, name)
			}
			if bounds := strings.Fields(tag.Get("range")); len(bounds) == 2 {
				require.Equal(t, bounds, []string{number(*property.Minimum), number(*property.Maximum)}, where)
			}
			words := slices.DeleteFunc(property.Enum, func(word string) bool { return word == "" })
			require.Equal(t, strings.Fields(tag.Get("oneof")), append([]string{}, words...), where)
		}
		require.ElementsMatch(t, required, def.Required, row.table)
	}
}

func number(value float64) string {
	text, err := json.Marshal(value)
	if err != nil {
		return err.Error()
	}
	return string(text)
}
