package planfile

import (
	"bytes"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"stageloom/model/plan"
)

// reader gathers the faults of one file or one Delta.
type reader struct {
	data   []byte
	steps  []step
	faults []Fault
	// turned are the texts that signs were taken out of.
	turned []Mend
}

func (r *reader) fault(at int, place, reason string) {
	if len(r.faults) < mostKept {
		r.faults = append(r.faults, Fault{lineOf(r.data, at), place, reason})
	}
}

// walk goes through JSON that look has found to be sound, so reading a token cannot fail.
type walk struct {
	*reader
	decoder *jsontext.Decoder
	text    jsontext.Value
	base    int
}

// walkThrough begins a walk through a value that stands at offset at of the data.
func (r *reader) walkThrough(value jsontext.Value, at int) *walk {
	decoder := jsontext.NewDecoder(bytes.NewBuffer(value),
		jsontext.AllowDuplicateNames(true), jsontext.AllowInvalidUTF8(true)) // look has checked both
	return &walk{r, decoder, value, at}
}

// here is the offset in the data just behind what was read last.
func (w *walk) here() int { return w.base + int(w.decoder.InputOffset()) }

// value reads any value and returns it with its offset in the data.
func (w *walk) value() (jsontext.Value, int) {
	value, err := w.decoder.ReadValue()
	sound(err)
	end := int(w.decoder.InputOffset())
	start := end - len(value)
	return w.text[start:end:end], w.base + start
}

// object visits the members of an object; visit must read the value of each.
func (w *walk) object(place string, visit func(name string)) bool {
	if w.decoder.PeekKind() != '{' {
		w.wrong(place, "an object in braces {}")
		return false
	}
	w.token()
	for w.decoder.PeekKind() != '}' {
		name, _ := w.value()
		visit(unquote(name))
	}
	w.token()
	return true
}

// array visits the elements of an array; visit must read each.
func (w *walk) array(place string, visit func(i int)) bool {
	if w.decoder.PeekKind() != '[' {
		w.wrong(place, "a list in brackets []")
		return false
	}
	w.token()
	for i := 0; w.decoder.PeekKind() != ']'; i++ {
		visit(i)
	}
	w.token()
	return true
}

func (w *walk) token() {
	_, err := w.decoder.ReadToken()
	sound(err)
}

func (w *walk) skip() { sound(w.decoder.SkipValue()) }

func (w *walk) wrong(place, want string) {
	value, at := w.value()
	w.fault(at, place, "is "+brief(value)+", but must be "+want)
}

func sound(err error) {
	if err != nil {
		panic("planfile: walked through unsound JSON: " + err.Error())
	}
}

func unquote(value jsontext.Value) string {
	if len(value) >= 2 && bytes.IndexByte(value, '\\') < 0 {
		return string(value[1 : len(value)-1])
	}
	plain, err := jsontext.AppendUnquote(nil, value)
	sound(err)
	return string(plain)
}

// brief shows a value in a message, cut where it is long.
func brief(value jsontext.Value) string {
	switch value.Kind() {
	case '{':
		return "an object"
	case '[':
		return "a list"
	}
	return plan.Clipped(string(value))
}

// pointerSigns are written differently within a name of a JSON Pointer.
var pointerSigns = strings.NewReplacer("~", "~0", "/", "~1")

// under joins a place and one more name of a JSON Pointer.
func under(place, name string) string { return place + "/" + pointerSigns.Replace(name) }

func nth(place string, i int) string { return place + "/" + strconv.Itoa(i) }
