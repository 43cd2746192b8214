package planfile_test

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/planfile"
)

const (
	putRight = ". Put it right in a text editor, or go back to an older copy."
	goBack   = ". Go back to an older copy."
	choose   = ". Choose a file whose name ends in .stageloom."
	repair   = ". A repaired copy can be made that leaves out what cannot stand and lists it; or put it right in a text editor."
)

// refused reads a text that must be refused and returns the error.
func refused(t *testing.T, text string) *planfile.Unreadable {
	t.Helper()
	p, err := planfile.Read(strings.NewReader(text))
	require.Nil(t, p)
	var unreadable *planfile.Unreadable
	require.ErrorAs(t, err, &unreadable)
	require.NotEmpty(t, unreadable.Faults)
	return unreadable
}

func TestWhatIsNoPlanIsToldApart(t *testing.T) {
	whole := everyField(t)
	half := whole[:len(whole)/2]
	last := strings.Count(whole, "\n")
	for name, c := range map[string]struct{ text, message string }{
		"an empty file":               {"", "the file is empty" + goBack},
		"a file of blanks":            {" \n\t\n", "the file holds nothing but blanks" + goBack},
		"a picture":                   {"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "it is not text but a binary file: a picture, an archive or a damaged copy" + choose},
		"text in another encoding":    {"Plan f\xfcr Samstag", "it is not text but a binary file: a picture, an archive or a damaged copy" + choose},
		"a letter":                    {"Dear crew,\n=======\n", "it is text, but not a Stageloom plan, which begins with {" + choose},
		"a list":                      {"[1, 2]", "it is text, but not a Stageloom plan, which begins with {" + choose},
		"an empty object":             {"{}", "it is an empty object {}" + goBack},
		"JSON of something else":      {`{"name": "x"}`, `it does not begin with "stageloom" and a version number as a Stageloom plan does` + choose},
		"a byte order mark":           {"\xef\xbb\xbf" + whole, "it begins with a byte order mark, which a text editor put there. Save it as UTF-8 without that mark."},
		"a copy cut short":            {half, fmt.Sprintf("line %d: the file ends in the middle of the plan; it was cut short while it was copied or saved", 1+strings.Count(half, "\n")) + goBack},
		"a copy short of its end":     {strings.TrimSuffix(whole, "}\n"), fmt.Sprintf("line %d: the file ends in the middle of the plan; it was cut short while it was copied or saved", last) + goBack},
		"text after the end":          {whole + "\n\nand more", fmt.Sprintf("line %d: text follows after the end of the plan", last+3) + putRight},
		"two plans in one file":       {whole + whole, fmt.Sprintf("line %d: text follows after the end of the plan", last+1) + putRight},
		"a merge left half done":      {strings.Replace(whole, `"routes"`, "<<<<<<< HEAD\n\"routes\"", 1), "line 26: here stands a marker of git: two versions were merged and left for you to choose between. Choose one side for every marked part and delete the marker lines."},
		"a merge with one side gone":  {strings.Replace(whole, `"routes"`, "=======\n\"routes\"", 1), "line 26: here stands a marker of git: two versions were merged and left for you to choose between. Choose one side for every marked part and delete the marker lines."},
		"a merge from the first line": {"<<<<<<< ours\n" + whole, "line 1: here stands a marker of git: two versions were merged and left for you to choose between. Choose one side for every marked part and delete the marker lines."},
		"no settings":                 {"{\n\"stageloom\": 1\n}\n", "line 4, /plan is missing" + putRight},
		"a version that is no number": {`{"stageloom": "one"}`, `line 1, /stageloom is "one", but must be the version of the file, a whole number` + putRight},
		"version 0":                   {`{"stageloom": 0}`, "0 is no version of the file: they count from 1" + putRight},
	} {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, "the plan cannot be read: "+c.message, refused(t, c.text).Error())
		})
	}
}

func TestAFileOfANewerVersionIsRefusedKindly(t *testing.T) {
	unreadable := refused(t, "{\n\"stageloom\": 7,\n\"unheard\": [{\"of\": 1}]\n}\n")
	require.True(t, unreadable.Newer)
	require.Equal(t, "the plan cannot be read: it was made by a newer Stageloom (version 7 of the file; this one reads up to 1). "+
		"Update Stageloom to read it, or ask for a copy saved by your edition.", unreadable.Error())
}

func TestRowsThatCannotBeReadAreNamedByTheirPlace(t *testing.T) {
	for name, c := range map[string]struct{ old, new, message string }{
		"a comma too many":              {`"role": "site manager", `, `"role": "site manager",, `, `line {line}, /contacts/0 is not JSON: invalid character ',' at start of string (expecting '"')`},
		"a comma missing between rows":  {"\"Ground\"},\n", "\"Ground\"}\n", "line {line+1}, /levels is not JSON: invalid character '{' after array element (expecting ',' or ']')"},
		"single quotes":                 {`"stageloom"`, `'stageloom'`, `line {line}: here it is not JSON: invalid character '\'' at start of string (expecting '"')`},
		"a name twice":                  {`"tag": "R07"`, `"tag": "R07", "tag": "R07"`, "line {line}, /reels/0/tag stands there twice"},
		"a table twice":                 {`"levels": [`, `"levels": [], "levels": [`, "line {line}, /levels stands there twice"},
		"bad UTF-8":                     {`"tag": "R07"`, "\"tag\": \"R\xff7\"", "line {line}, /reels/0/tag is not valid UTF-8"},
		"half a surrogate pair":         {`"tag": "R07"`, `"tag": "R\ud8007"`, "line {line}, /reels/0/tag is not JSON: invalid surrogate pair \"\\\\ud8007\\\", \\\"k\" in string"},
		"an unknown name":               {`"tag": "R07"`, `"label": "R07"`, "line {line}, /reels/0/label is not a name that can stand here"},
		"a name in the wrong case":      {`"tag": "R07"`, `"Tag": "R07"`, `line {line}, /reels/0/Tag must be written "tag": capitals count`},
		"a name with signs of a place":  {`"tag": "R07"`, `"a/b~c": 1`, "line {line}, /reels/0/a~1b~0c is not a name that can stand here"},
		"an unknown table":              {`"looms": [`, `"snakes": [`, "line {line}, /snakes is not a name that can stand here"},
		"a table in the wrong case":     {`"looms": [`, `"Looms": [`, `line {line}, /Looms must be written "looms": capitals count`},
		"a text for a figure":           {`"x_m": 0.125`, `"x_m": "0.125"`, `line {line}, /positions/1/x_m is "0.125", but must be a number`},
		"a figure for a text":           {`"tag": "R07"`, `"tag": 7`, `line {line}, /reels/0/tag is 7, but must be a text in quotes ""`},
		"a figure for yes or no":        {`"solid": true`, `"solid": 1`, "line {line}, /cable_kinds/0/solid is 1, but must be true or false"},
		"null":                          {`"solid": true`, `"solid": null`, "line {line}, /cable_kinds/0/solid is null, but must be true or false"},
		"a blank figure as null":        {`"temperature_C": 35`, `"temperature_C": null`, "line {line}, /links/1/temperature_C is null, but must be a number, or left out"},
		"a fraction for a count":        {`"quantity": 1`, `"quantity": 1.5`, "line {line}, /reels/0/quantity is 1.5, but must be a whole number of sensible size"},
		"a count beyond all sense":      {`"quantity": 1`, `"quantity": 99999999999999999999`, "line {line}, /reels/0/quantity is 99999999999999999999, but must be a whole number of sensible size"},
		"a figure beyond all numbers":   {`"x_m": 0.125`, `"x_m": 1e999`, "line {line}, /positions/1/x_m is 1e999, which is too large a number"},
		"a list for a row":              {`{"id": "c-8bbbb", "name": "Case 1", "takes_pieces": 12, "takes_kg": 60, "empty_kg": 14.5, "note": "red lid"}`, `["c-8bbbb"]`, "line {line}, /cases/0 is a list, but must be an object in braces {}"},
		"a row for a table":             {"\"cases\": [\n{\"id\": \"c-8bbbb\", \"name\": \"Case 1\", \"takes_pieces\": 12, \"takes_kg\": 60, \"empty_kg\": 14.5, \"note\": \"red lid\"}\n]", `"cases": {}`, "line {line}, /cases is an object, but must be a list in brackets []"},
		"settings that are none":        {`"plan": {`, `"plan": 5, "plan2": {`, "line {line}, /plan is 5, but must be an object in braces {}; line {line}, /plan2 is not a name that can stand here"},
		"a name left out":               {`"lie": "ramp", `, ``, "line {line}, /routes/0/lie is missing"},
		"several faults at once":        {`"lie": "ramp", "note": "five-channel ramps"`, `"Lie": "ramp", "notes": 1`, `line {line}, /routes/0/Lie must be written "lie": capitals count; line {line}, /routes/0/notes is not a name that can stand here; line {line}, /routes/0/lie is missing`},
		"a long value is cut":           {`"solid": true`, `"solid": "` + strings.Repeat("long ", 30) + `"`, `line {line}, /cable_kinds/0/solid is "long long long long long long long long…, but must be true or false`},
		"a fault in a revision":         {`"drop": ["v-gnd22"]`, `"drop": [22]`, `line {line}, /revisions/1/changes/levels/drop/0 is 22, but must be a key in quotes ""`},
		"a figure in a revision":        {`"height_m": -3}`, `"height_m": -3000}`, "line {line}, /revisions/0/changes/levels/set/1/height_m is -3000, but must lie between -200 and 500"},
		"an unknown verb in a revision": {`"drop": ["v-gnd22"]`, `"Drop": ["v-gnd22"]`, `line {line}, /revisions/1/changes/levels/Drop must be written "drop": capitals count`},
		"a table of no plan, revised":   {`"changes": {"levels"`, `"changes": {"snakes": {}, "levels"`, "line {line}, /revisions/1/changes/snakes is not a name that can stand here"},
		"revisions in a revision":       {`"changes": {"levels"`, `"changes": {"revisions": {"drop": ["0001"]}, "levels"`, "line {line}, /revisions/1/changes holds revisions in turn, but must not"},
		"a row set and dropped at once": {`"drop": ["v-gnd22"]`, `"drop": ["v-rff22"]`, "line {line}, /revisions/1/changes/levels/drop/0 is about v-rff22, which stands there already"},
	} {
		t.Run(name, func(t *testing.T) {
			unreadable := refused(t, changed(t, c.old, c.new))
			require.Equal(t, "the plan cannot be read: "+placed(t, c.old, c.message)+putRight, unreadable.Error())
			require.False(t, unreadable.Repairable)
		})
	}
}

// placed puts the line at which a text stands, and the lines around it, into a message.
func placed(t *testing.T, text, message string) string {
	t.Helper()
	before, _, found := strings.Cut(everyField(t), text)
	require.True(t, found)
	line := 1 + strings.Count(before, "\n")
	return strings.NewReplacer("{line}", fmt.Sprint(line), "{line-1}", fmt.Sprint(line-1), "{line+1}", fmt.Sprint(line+1),
		"{line+3}", fmt.Sprint(line+3), "{line+4}", fmt.Sprint(line+4)).Replace(message)
}

// changed is the file of every field with one change.
func changed(t testing.TB, old, new string) string {
	t.Helper()
	text := strings.Replace(everyField(t), old, new, 1)
	require.NotEqual(t, everyField(t), text, "nothing to change")
	return text
}

func TestRowsThatCannotStandAreNamedByTheirPlace(t *testing.T) {
	for name, c := range map[string]struct{ old, new, message string }{
		"a row that is not there":   {`"from_position": "p-3mtwr"`, `"from_position": "p-2zzzz"`, `line {line}, /house_lines/0/from_position names "p-2zzzz", but positions has no such row`},
		"a figure out of range":     {`"length_m": 61`, `"length_m": 61000`, "line {line}, /house_lines/0/length_m is 61000, but must lie between 0.1 and 10000"},
		"a word that is none":       {`"lie": "ramp"`, `"lie": "tunnel"`, `line {line}, /routes/0/lie is "tunnel", but must be one of ground, overhead, trench, ramp`},
		"an id of another table":    {`"id": "a-5wlkz"`, `"id": "b-5wlkz"`, `line {line}, /areas/0/id must be a- and five of the signs 23456789bcdfghjklmnpqrstvwxyz; line {line+3}, /area_points/0/area names "a-5wlkz", but areas has no such row; line {line+4}, /area_points/1/area names "a-5wlkz", but areas has no such row (and 1 more)`},
		"an id that stands twice":   {`"id": "v-rff22", "name": "Roof"`, `"id": "v-22ggg", "name": "Roof"`, "line {line}, /levels/1 is v-22ggg again, which line {line-1} holds already"},
		"a control sign":            {`"tag": "R07"`, `"tag": "R\u000707"`, "line {line}, /reels/0/tag holds the control character U+0007"},
		"a name beyond all length":  {`"tag": "R07"`, `"tag": "` + strings.Repeat("R", 201) + `"`, "line {line}, /reels/0/tag has 201 characters, but at most 200 are kept"},
		"a setting out of range":    {`"straight_way_factor": 1.2,`, `"straight_way_factor": 0.2,`, "line {line}, /plan/straight_way_factor is 0.2, but must lie between 1 and 3"},
		"a gap in the orders":       {`"order": 2, "kind": "cat6a-own"`, `"order": 3, "kind": "cat6a-own"`, "line {line}, /segments/2/order is 3, but 2 comes next"},
		"a field that is left out":  {`"kind": "cat6a-own", "length_m": 60`, `"kind": "cat6a-own"`, "line {line}, /segments/2/length_m must stand with kind, and with kind only"},
		"a port that two links use": {`"from_port": "B", "to"`, `"from_port": "A", "to"`, `line {line+1}, /links/1/from_port is "A" of Stage left box, which link L02 holds already`},
	} {
		t.Run(name, func(t *testing.T) {
			unreadable := refused(t, changed(t, c.old, c.new))
			require.Equal(t, "the plan cannot be read: "+placed(t, c.old, c.message)+repair, unreadable.Error())
			require.True(t, unreadable.Repairable)
		})
	}
}

func TestBlankSettingsAreCheckedToo(t *testing.T) {
	zero := `{"stageloom": 1, "plan": {"name": "", "exposure": "", "slack_percent": 0, "slack_end_m": 0, "straight_way_factor": 0, "coupler": "", "standards": 0, "print_paper": ""}}`
	require.Len(t, refused(t, zero).Faults, 6)
}

func TestSizesAreBounded(t *testing.T) {
	if testing.Short() {
		t.Skip("a reader alone shares nothing: for the run without -short")
	}
	t.Run("20,000 rows a table", func(t *testing.T) {
		rows := func(n int) string {
			var b strings.Builder
			for i := range n {
				fmt.Fprintf(&b, `,{"transport": "t%d", "limit_rule": "x"}`, i)
			}
			return strings.Replace(smallest(t), "}\n}", `}, "transport_rules": [`+strings.TrimPrefix(b.String(), ",")+"]}", 1)
		}
		require.Equal(t, 20000, read(t, rows(20000)).TransportRules.Len())
		require.Contains(t, refused(t, rows(20002)).Error(), "line 3, /transport_rules has more than 20000 rows")
	})
	t.Run("64 MiB a file", func(t *testing.T) {
		text := smallest(t) + strings.Repeat(" ", planfile.MaxBytes-len(smallest(t)))
		read(t, text)
		require.Contains(t, refused(t, text+" ").Error(), "it is larger than 64 MiB, the most a plan may take")
	})
	t.Run("a file of faults names three and gathers a hundred", func(t *testing.T) {
		rows := strings.TrimSuffix(strings.Repeat("5,\n", 5000), ",\n")
		unreadable := refused(t, strings.Replace(smallest(t), "}\n}", `}, "levels": [`+rows+"]}", 1))
		require.Len(t, unreadable.Faults, 100)
		require.Contains(t, unreadable.Error(), "/levels/2 is 5, but must be an object in braces {} (and 97 more)")
	})
}

func TestAReaderThatFailsIsNamed(t *testing.T) {
	_, err := planfile.Read(&failing{})
	require.ErrorIs(t, err, errCable)
	require.EqualError(t, err, "read the plan: the cable fell out")
}

var errCable = errors.New("the cable fell out")

type failing struct{ bytes.Buffer }

func (*failing) Read([]byte) (int, error) { return 0, errCable }

func TestAMessageIsShortWhateverItQuotes(t *testing.T) {
	long := strings.Repeat("x", 1<<20)
	for name, c := range map[string]struct{ text, says string }{
		"a field with an endless name":     {changed(t, `"tag": "R07"`, `"`+long+`": "R07"`), "is not a name that can stand here"},
		"an endless name twice":            {changed(t, `"tag": "R07"`, `"`+long+`": 1, "`+long+`": 1`), "stands there twice"},
		"a table with an endless name":     {changed(t, `"looms": [`, `"`+long+`": [`), "is not a name that can stand here"},
		"an endless key in a revision":     {changed(t, `"drop": ["v-gnd22"]`, `"drop": ["`+long+`", "`+long+`"]`), "stands there already"},
		"an endless row that is not there": {changed(t, `"from_position": "p-3mtwr"`, `"from_position": "`+long+`"`), "has no such row"},
		"an endless word":                  {changed(t, `"lie": "ramp"`, `"lie": "`+long+`"`), "must be one of"},
		"an endless port":                  {changed(t, `"from_port": "B"`, `"from_port": "`+long+`"`), "has"},
		"an endless number":                {changed(t, `"quantity": 1`, `"quantity": 1`+strings.Repeat("0", 1<<20)), "whole number of sensible size"},
		"an endless version":               {`{"stageloom": "` + long + `"}`, "must be the version"},
	} {
		t.Run(name, func(t *testing.T) {
			said := refused(t, c.text).Error()
			require.Contains(t, said, c.says)
			require.Less(t, len(said), 2000)
		})
	}
	t.Run("what a repair lists", func(t *testing.T) {
		_, mends, err := planfile.Repair(strings.NewReader(changed(t, `"lie": "ramp"`, `"lie": "`+long+`"`)))
		require.NoError(t, err)
		for _, mend := range mends {
			require.Less(t, len(mend.String()), 800)
		}
	})
	t.Run("a change", func(t *testing.T) {
		_, err := planfile.DecodeDelta([]byte(`{"levels": {"drop": ["`+long+`", "`+long+`"]}}`), planfile.Version)
		require.ErrorContains(t, err, "stands there already")
		require.Less(t, len(err.Error()), 800)
	})
}

func TestDeepNestingIsRefusedBeforeItIsFollowed(t *testing.T) {
	for name, open := range map[string]string{"lists": "[", "objects": `{"a": `} {
		t.Run(name, func(t *testing.T) {
			unreadable := refused(t, changed(t, `"tag": "R07"`, `"tag": `+strings.Repeat(open, 9000)))
			require.Contains(t, unreadable.Error(), "here brackets nest more than 32 deep, which no plan does")
			require.Less(t, len(unreadable.Error()), 300)
			require.NotZero(t, unreadable.Faults[0].Line)
		})
	}
	t.Run("brackets in a text nest nothing", func(t *testing.T) {
		require.Equal(t, 1, strings.Count(everyField(t), `"red lid"`))
		read(t, changed(t, `"red lid"`, `"`+strings.Repeat(`[{\"`, 500)+`"`))
	})
}

func TestTextInUTF16IsCalledByItsName(t *testing.T) {
	for name, mark := range map[string]string{"little end first": "\xff\xfe{\x00\n\x00", "big end first": "\xfe\xff\x00{\x00\n", "without a mark": "{\x00\n\x00\"\x00s\x00"} {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, "the plan cannot be read: it is text in UTF-16, and a plan is UTF-8. Open it in a text editor and save it as UTF-8 without a byte order mark.",
				refused(t, mark).Error())
		})
	}
}
