package plantest

import (
	"math"
	"reflect"
	"strconv"
	"strings"

	"pgregory.net/rapid"

	"stageloom/model/plan"
)

// column is what the tags of a row field say.
type column struct {
	index    int
	name     string
	optional bool
	ref      string
	oneOf    []string
	slug     bool
	long     bool
	delta    bool
	ranged   bool
	low      float64
	high     float64
	kind     reflect.Type
}

var columns = func() map[reflect.Type][]column {
	all := map[reflect.Type][]column{}
	for _, table := range plan.Tables() {
		all[table.RowType] = columnsOf(table.RowType)
	}
	all[reflect.TypeFor[plan.Settings]()] = columnsOf(reflect.TypeFor[plan.Settings]())
	return all
}()

func columnsOf(row reflect.Type) []column {
	var list []column
	for i := range row.NumField() {
		field := row.Field(i)
		name, options, _ := strings.Cut(field.Tag.Get("json"), ",")
		c := column{
			index: i, name: name, optional: options == "omitzero", ref: field.Tag.Get("ref"),
			oneOf: strings.Fields(field.Tag.Get("oneof")), slug: field.Tag.Get("slug") != "",
			long: field.Tag.Get("long") != "", delta: field.Tag.Get("delta") != "", kind: field.Type,
		}
		if bounds := strings.Fields(field.Tag.Get("range")); len(bounds) == 2 {
			c.ranged, c.low, c.high = true, parse(bounds[0]), parse(bounds[1])
		}
		list = append(list, c)
	}
	return list
}

func parse(bound string) float64 {
	value, err := strconv.ParseFloat(bound, 64)
	if err != nil {
		panic("plantest: " + err.Error())
	}
	return value
}

var (
	slugs = rapid.SampledFrom([]string{"aes50", "cat6a", "1000base-t", "fibre", "box-32-16", "x1"})
	names = rapid.SampledFrom([]string{
		"Stage left", "FOH", "L01", "Ünïcode – ½", "say \"no\" \\ /", "שלום", "📦 box", "a\u2028b", "<&>", " ", "100 %",
	})
	notes  = rapid.SampledFrom([]string{"two\nlines", "mind the gate", "ends in a backslash \\", strings.Repeat("long ", 100)})
	deltas = rapid.SampledFrom([]string{
		`{}`, `{"devices": {"drop": ["d-22222", "d-33333"]}}`, `{"levels": {"set": [{"id": "v-22222", "name": "Roof", "height_m": 12.5}]}}`,
	})
)

// draw sets a field to a random value that its tags allow; false when it must refer to a row and there is none.
func (c column) draw(t *rapid.T, p *plan.Plan, field reflect.Value) bool {
	if c.optional && rapid.Bool().Draw(t, "blank") {
		field.SetZero()
		return true
	}
	switch c.kind.Kind() {
	case reflect.String:
		return c.drawText(t, p, field)
	case reflect.Bool:
		field.SetBool(rapid.Bool().Draw(t, c.name))
	case reflect.Int:
		field.SetInt(int64(rapid.IntRange(int(c.low), int(c.high)).Draw(t, c.name)))
	case reflect.Float64:
		field.SetFloat(c.drawFigure(t))
	default:
		field.Set(reflect.ValueOf(plan.Some(c.drawFigure(t))))
	}
	return true
}

func (c column) drawText(t *rapid.T, p *plan.Plan, field reflect.Value) bool {
	switch {
	case c.ref != "":
		key, found := anyKey(t, p, c.ref)
		field.SetString(string(key))
		return found || c.optional
	case len(c.oneOf) > 0:
		field.SetString(rapid.SampledFrom(c.oneOf).Draw(t, c.name))
	case c.delta:
		field.SetString(deltas.Draw(t, c.name))
	case c.slug:
		field.SetString(slugs.Draw(t, c.name))
	case c.long:
		field.SetString(notes.Draw(t, c.name))
	default:
		field.SetString(names.Draw(t, c.name))
	}
	return true
}

// drawFigure favours the bounds and round values, but gives full 53-bit fractions too.
func (c column) drawFigure(t *rapid.T) float64 {
	switch rapid.IntRange(0, 5).Draw(t, "sort of figure") {
	case 0:
		return c.low
	case 1:
		return c.high
	case 2:
		return rapid.Float64Range(c.low, c.high).Draw(t, c.name)
	}
	return math.Round(rapid.Float64Range(c.low, c.high).Draw(t, c.name)*4) / 4
}

// anyKey draws the key of a row of the table with this name.
func anyKey(t *rapid.T, p *plan.Plan, table string) (plan.Key, bool) {
	info, found := plan.TableNamed(table)
	if !found {
		panic("plantest: no table " + table)
	}
	row, found := anyRow(t, p, info)
	if !found {
		return "", false
	}
	return info.KeyOf(row), true
}

func anyRow(t *rapid.T, p *plan.Plan, table *plan.TableInfo) (any, bool) {
	n := table.Len(p)
	if n == 0 {
		return nil, false
	}
	pick := rapid.IntRange(0, n-1).Draw(t, table.Name)
	for row := range table.Rows(p) {
		if pick == 0 {
			return row, true
		}
		pick--
	}
	panic("plantest: a table is shorter than it says")
}

// with returns a copy of a row with one field changed by set.
func with(row any, index int, set func(reflect.Value)) any {
	v := reflect.New(reflect.TypeOf(row)).Elem()
	v.Set(reflect.ValueOf(row))
	set(v.Field(index))
	return v.Interface()
}
