package planfile

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"reflect"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"

	"stageloom/model/plan"
)

// Version is the form of file this program writes; it reads all forms from 1 up to it.
const Version = 1

// MaxBytes is the largest file that is read or written.
const MaxBytes = 64 << 20

const header = "stageloom"

// Write writes the plan in the file's form. It refuses a plan that Read would not take back.
func Write(w io.Writer, p *plan.Plan) error {
	data, err := encode(p)
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return err
}

func encode(p *plan.Plan) ([]byte, error) {
	if problems := plan.Check(p); len(problems) > 0 {
		return nil, fmt.Errorf("the plan could not be read back, since %v", problems[0])
	}
	data, err := appendPlan(nil, p)
	if err != nil {
		return nil, err
	}
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("the plan takes %d MiB, but a plan file holds at most %d MiB: shorten the notes", len(data)>>20, MaxBytes>>20)
	}
	return data, nil
}

func appendPlan(b []byte, p *plan.Plan) ([]byte, error) {
	b = fmt.Appendf(b, "{\n%q: %d,\n%q: ", header, Version, settingsName)
	b, err := appendRow(b, settingsShape, p.Settings)
	if err != nil {
		return nil, err
	}
	for _, table := range plan.Tables() {
		if table.Len(p) == 0 {
			continue
		}
		b = fmt.Appendf(b, ",\n%q: [\n", table.Name)
		first := true
		for row := range table.Rows(p) {
			if !first {
				b = append(b, ",\n"...)
			}
			first = false
			if b, err = appendRow(b, shapes[table.Name], row); err != nil {
				return nil, fmt.Errorf("%s %s: %w", table.Name, table.KeyOf(row), err)
			}
		}
		b = append(b, "\n]"...)
	}
	return append(b, "\n}\n"...), nil
}

// appendRow appends a row as an object on one line. Fields marked omitzero are left out at zero.
func appendRow(b []byte, s *shape, row any) ([]byte, error) {
	v := reflect.ValueOf(row)
	b = append(b, '{')
	first := true
	for _, c := range s.columns {
		value := v.Field(c.index)
		if c.optional && value.IsZero() {
			continue
		}
		if !first {
			b = append(b, ", "...)
		}
		first = false
		b = append(b, '"')
		b = append(b, c.name...)
		b = append(b, `": `...)
		var err error
		if b, err = appendValue(b, c.form, value); err != nil {
			return nil, fmt.Errorf("%s: %w", c.name, err)
		}
	}
	return append(b, '}'), nil
}

func appendValue(b []byte, form form, v reflect.Value) ([]byte, error) {
	switch form {
	case text:
		return jsontext.AppendQuote(b, v.String())
	case flag:
		return strconv.AppendBool(b, v.Bool()), nil
	case whole:
		return strconv.AppendInt(b, v.Int(), 10), nil
	case figure:
		return appendFigure(b, v.Float())
	case blank:
		return appendFigure(b, v.Interface().(plan.Optional).Value)
	default:
		return appendChanges(b, v.String())
	}
}

// appendFigure writes the shortest number that reads back as the same, as RFC 8785 asks.
func appendFigure(b []byte, value float64) ([]byte, error) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return nil, fmt.Errorf("%v is not a finite number", value)
	}
	return jsontext.AppendFloat(b, value, 64), nil
}

// appendChanges embeds the text of a Delta. A text that is not exactly what EncodeDelta writes would not come
// back as it was, so it is refused.
func appendChanges(b []byte, changes string) ([]byte, error) {
	d, err := DecodeDelta([]byte(changes), Version)
	if err != nil {
		return nil, err
	}
	canonical, err := EncodeDelta(d)
	if err != nil {
		return nil, err
	}
	if !bytes.Equal(canonical, []byte(changes)) {
		return nil, fmt.Errorf("the changes are not written as EncodeDelta writes them")
	}
	return append(b, changes...), nil
}
