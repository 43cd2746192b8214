package planfile

import (
	"fmt"
	"io"
	"strconv"

	"stageloom/model/plan"
)

// Read reads a whole plan file. Signs in its texts that turn letters round are taken out. A file that is not one, or whose rows cannot stand together, is refused with
// *Unreadable, which names every place, and nothing is guessed.
func Read(r io.Reader) (*plan.Plan, error) {
	data, err := readAll(r)
	if err != nil {
		return nil, err
	}
	p, _, err := decode(data, current)
	return p, err
}

// readAll reads one byte more than a plan may have, so that look can tell that there is too much.
func readAll(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("read the plan: %w", err)
	}
	return data, nil
}

// decode also returns the version the file was written in.
func decode(data []byte, era era) (*plan.Plan, int, error) {
	p, version, _, err := decodeMended(data, era)
	return p, version, err
}

// decodeMended also tells which signs were taken out of texts.
func decodeMended(data []byte, era era) (*plan.Plan, int, []Mend, error) {
	file, r, refusal := parse(data, era)
	if refusal != nil {
		return nil, 0, nil, refusal
	}
	p, problems := file.plan()
	r.faults = append(r.faults, file.faults(r, problems)...)
	if len(r.faults) > 0 {
		return nil, 0, nil, &Unreadable{Faults: r.faults, Remedy: remedyRepair, Repairable: true}
	}
	return p, file.version, r.turned, nil
}

// parse reads the rows of a file and upgrades them to the era's version.
func parse(data []byte, era era) (*contents, *reader, *Unreadable) {
	if unreadable := look(data); unreadable != nil {
		return nil, nil, unreadable
	}
	r := &reader{data: data}
	file := &contents{tables: map[string][]placed{}}
	if refusal := r.header(file, era.version); refusal != nil {
		return nil, nil, refusal
	}
	r.steps = era.stepsFrom(file.version)
	w := r.walkThrough(data, 0)
	w.object("", func(name string) { w.part(name, file) })
	if file.settings.row == nil && len(r.faults) == 0 {
		r.fault(len(data), under("", settingsName), "is missing")
	}
	if len(r.faults) > 0 {
		return nil, nil, &Unreadable{Faults: r.faults, Remedy: remedyEdit}
	}
	return file, r, nil
}

// header reads the version, which must stand first: it decides how all else is read.
func (r *reader) header(file *contents, newest int) *Unreadable {
	w := r.walkThrough(r.data, 0)
	w.token()
	if w.decoder.PeekKind() == '}' {
		return notPlan("it is an empty object {}", remedyCopy)
	}
	if name, _ := w.value(); unquote(name) != header {
		return notPlan(fmt.Sprintf("it does not begin with %q and a version number as a Stageloom plan does", header), remedyOther)
	}
	value, at := w.value()
	version, err := strconv.Atoi(string(value))
	if err != nil {
		fault := Fault{lineOf(r.data, at), under("", header), "is " + brief(value) + ", but must be the version of the file, a whole number"}
		return &Unreadable{Faults: []Fault{fault}, Remedy: remedyEdit}
	}
	file.version = version
	return refuseVersion(version, newest)
}

func refuseVersion(version, newest int) *Unreadable {
	switch {
	case version < 1:
		return notPlan(fmt.Sprintf("%d is no version of the file: they count from 1", version), remedyEdit)
	case version > newest:
		refusal := notPlan(fmt.Sprintf("it was made by a newer Stageloom (version %d of the file; this one reads up to %d)", version, newest), remedyUpdate)
		refusal.Newer = true
		return refusal
	}
	return nil
}

// part reads one member of the file's object.
func (w *walk) part(name string, file *contents) {
	place := under("", name)
	table, found := plan.TableNamed(name)
	switch {
	case name == header:
		w.skip()
	case name == settingsName:
		raw, ok := w.readRow(place)
		if !ok {
			return
		}
		if row, ok := w.decode(settingsShape, raw, place); ok {
			file.settings = placed{row: row, at: raw.at, raw: raw}
		}
	case !found:
		w.fault(w.here(), place, unknown(name, tableNames()))
		w.skip()
	default:
		w.rows(place, table, func(row placed) { file.tables[name] = append(file.tables[name], row) })
	}
}
