package planfile

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/go-json-experiment/json/jsontext"

	"stageloom/model/plan"
)

const (
	setName  = "set"
	dropName = "drop"
)

// EncodeDelta writes a Delta as one line of JSON without the line break:
//
//	{"plan": {…}, "devices": {"set": [{…}], "drop": ["d-7k2qm"]}}
//
// Tables are in file order, rows and dropped keys by key; equal Deltas are written equal. A Delta with two changes
// of one row, or with a figure that is not finite, is refused.
func EncodeDelta(d *plan.Delta) ([]byte, error) {
	b := []byte{'{'}
	var err error
	if d.Settings != nil {
		b = fmt.Appendf(b, "%q: ", settingsName)
		if b, err = appendRow(b, settingsShape, *d.Settings); err != nil {
			return nil, fmt.Errorf("%s: %w", settingsName, err)
		}
	}
	for _, table := range plan.Tables() {
		set, drop := table.Changed(d)
		if len(set)+len(drop) == 0 {
			continue
		}
		if len(b) > 1 {
			b = append(b, ", "...)
		}
		b = fmt.Appendf(b, "%q: ", table.Name)
		if b, err = appendTableChanges(b, table, set, drop); err != nil {
			return nil, fmt.Errorf("%s: %w", table.Name, err)
		}
	}
	return append(b, '}'), nil
}

func appendTableChanges(b []byte, table *plan.TableInfo, set []any, drop []plan.Key) ([]byte, error) {
	slices.SortFunc(set, func(a, b any) int { return cmp.Compare(table.KeyOf(a), table.KeyOf(b)) })
	slices.Sort(drop)
	if key, twice := repeated(table, set, drop); twice {
		return nil, fmt.Errorf("%s stands there twice", key)
	}
	var err error
	b = append(b, '{')
	for i, row := range set {
		b = append(b, between(i, `"set": [`)...)
		if b, err = appendRow(b, shapes[table.Name], row); err != nil {
			return nil, fmt.Errorf("%s: %w", table.KeyOf(row), err)
		}
	}
	if len(set) > 0 {
		b = append(b, ']')
	}
	if len(set) > 0 && len(drop) > 0 {
		b = append(b, ", "...)
	}
	for i, key := range drop {
		b = append(b, between(i, `"drop": [`)...)
		if b, err = jsontext.AppendQuote(b, string(key)); err != nil {
			return nil, fmt.Errorf("%q: %w", key, err)
		}
	}
	if len(drop) > 0 {
		b = append(b, ']')
	}
	return append(b, '}'), nil
}

// repeated finds a key that two changes are about.
func repeated(table *plan.TableInfo, set []any, drop []plan.Key) (plan.Key, bool) {
	keys := slices.Clone(drop)
	for _, row := range set {
		keys = append(keys, table.KeyOf(row))
	}
	slices.Sort(keys)
	for i := 1; i < len(keys); i++ {
		if keys[i] == keys[i-1] {
			return keys[i], true
		}
	}
	return "", false
}

func between(i int, begin string) string {
	if i == 0 {
		return begin
	}
	return ", "
}

// DecodeDelta reads what EncodeDelta wrote in a program whose file version was version, as strictly as a plan
// is read: *Unreadable names the place. Signs that turn letters round are taken out. Whether the Delta fits a plan is for plan.Apply to say.
func DecodeDelta(line []byte, version int) (*plan.Delta, error) {
	return decodeDelta(line, version, current)
}

func decodeDelta(line []byte, version int, era era) (*plan.Delta, error) {
	unreadable := refuseVersion(version, era.version)
	if unreadable == nil {
		unreadable = look(line)
	}
	if unreadable != nil {
		unreadable.Name = aChange
		return nil, unreadable
	}
	r := &reader{data: line, steps: era.stepsFrom(version)}
	d := r.walkThrough(line, 0).delta("")
	if len(r.faults) > 0 {
		return nil, &Unreadable{Name: aChange, Faults: r.faults, Remedy: remedyEdit}
	}
	return d, nil
}

// aChange stands for the name of a file in messages about a Delta.
const aChange = "a change"

// changes reads the Delta that a revision holds and returns it in this version's own text.
func (r *reader) changes(m member, place string) string {
	before := len(r.faults)
	d := r.walkThrough(m.value, m.at).delta(place)
	if set, drop := plan.Tables()[len(plan.Tables())-1].Changed(d); len(set)+len(drop) > 0 {
		r.fault(m.at, place, "holds revisions in turn, but must not")
	}
	if len(r.faults) > before {
		return ""
	}
	text, err := EncodeDelta(d)
	if err != nil {
		r.fault(m.at, place, err.Error())
	}
	return string(text)
}

// delta reads the object of a Delta.
func (w *walk) delta(place string) *plan.Delta {
	d := &plan.Delta{}
	w.object(place, func(name string) {
		at := under(place, name)
		if name == settingsName {
			d.Settings = w.settings(at)
			return
		}
		table, found := plan.TableNamed(name)
		if !found {
			w.fault(w.here(), at, unknown(name, tableNames()))
			w.skip()
			return
		}
		w.tableChanges(at, table, d)
	})
	return d
}

func (w *walk) tableChanges(place string, table *plan.TableInfo, d *plan.Delta) {
	seen := map[plan.Key]bool{}
	once := func(at int, place string, key plan.Key) {
		if seen[key] {
			w.fault(at, place, fmt.Sprintf("is about %s, which stands there already", plan.Clipped(string(key))))
		}
		seen[key] = true
	}
	w.object(place, func(name string) {
		at := under(place, name)
		switch name {
		case setName:
			w.rows(at, table, func(row placed) {
				once(row.at, nth(at, row.index), row.key)
				w.problems(row, at, table.CheckRow(row.row))
				table.AddSet(d, row.row)
			})
		case dropName:
			w.keys(at, func(offset int, place string, key plan.Key) {
				once(offset, place, key)
				table.AddDrop(d, key)
			})
		default:
			w.fault(w.here(), at, unknown(name, []string{setName, dropName}))
			w.skip()
		}
	})
}

func (w *walk) keys(place string, visit func(at int, place string, key plan.Key)) {
	w.array(place, func(i int) {
		if w.decoder.PeekKind() != '"' {
			w.wrong(nth(place, i), `a key in quotes ""`)
			return
		}
		key, at := w.value()
		visit(at, nth(place, i), plan.Key(w.straight(unquote(key), false, at, nth(place, i))))
	})
}

func tableNames() []string {
	names := []string{header, settingsName}
	for _, table := range plan.Tables() {
		names = append(names, table.Name)
	}
	return names
}
