package plan

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"stageloom/model/geom"
)

const (
	longestName = 200
	longestNote = 4000
)

// field is what the tags of one row field say.
type field struct {
	index    int
	name     string
	optional bool
	metres   bool
	ref      string
	oneOf    []string
	slug     bool
	long     bool
	delta    bool
	ranged   bool
	low      float64
	high     float64
}

func fieldsOf(row reflect.Type) []field {
	var fields []field
	for i := range row.NumField() {
		tag := row.Field(i).Tag
		name, options, _ := strings.Cut(tag.Get("json"), ",")
		f := field{
			index: i, name: name, optional: options == "omitzero", metres: strings.HasSuffix(name, "_m"),
			ref: tag.Get("ref"), oneOf: words(tag.Get("oneof")), slug: tag.Get("slug") != "",
			long: tag.Get("long") != "", delta: tag.Get("delta") != "",
		}
		if bounds := words(tag.Get("range")); len(bounds) == 2 {
			f.ranged, f.low, f.high = true, bound(bounds[0]), bound(bounds[1])
		}
		fields = append(fields, f)
	}
	return fields
}

func bound(text string) float64 {
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("plan: bad range tag " + text)
	}
	return value
}

var settingsFields = fieldsOf(reflect.TypeFor[Settings]())

// normal returns the row as it is kept: metres rounded to 1 mm, no negative zero, no value in a blank figure, no sign in a
// text that is not seen and turns letters round.
func normal[R comparable](row R) R {
	v := reflect.ValueOf(&row).Elem()
	fields := settingsFields
	if table, found := tableOfType[v.Type()]; found {
		fields = table.fields
	}
	for _, f := range fields {
		switch at := v.Field(f.index); at.Kind() {
		case reflect.String:
			if text := at.String(); !f.delta && text != "" {
				at.SetString(Straight(text))
			}
		case reflect.Float64:
			at.SetFloat(tidy(at.Float(), f.metres))
		case reflect.Struct:
			figure := at.Addr().Interface().(*Optional)
			if !figure.Set {
				*figure = Optional{}
			}
			figure.Value = tidy(figure.Value, f.metres)
		}
	}
	return row
}

func tidy(value float64, metres bool) float64 {
	if metres {
		value = geom.RoundMM(value)
	}
	return value + 0 // −0 becomes 0
}

// check returns why the value of this field cannot stand, or "". Dangling references are checked by the caller.
func (f field) check(v reflect.Value) string {
	switch v.Kind() {
	case reflect.String:
		return f.checkText(v.String())
	case reflect.Float64:
		return f.checkFigure(v.Float())
	case reflect.Int:
		return f.checkFigure(float64(v.Int()))
	case reflect.Struct:
		if figure := v.Interface().(Optional); figure.Set {
			return f.checkFigure(figure.Value)
		}
	}
	return ""
}

func (f field) checkFigure(value float64) string {
	switch {
	case math.IsNaN(value) || math.IsInf(value, 0):
		return "is not a finite number"
	case f.ranged && (value < f.low || value > f.high):
		return fmt.Sprintf("is %v, but must lie between %v and %v", value, f.low, f.high)
	}
	return ""
}

func (f field) checkText(text string) string {
	switch {
	case text == "" && f.optional:
		return ""
	case f.delta:
		return ""
	case text == "":
		return "is blank, but is needed"
	case !utf8.ValidString(text):
		return "is not valid UTF-8"
	case len(f.oneOf) > 0:
		return checkOneOf(text, f.oneOf)
	case f.slug && !slugForm.MatchString(text):
		return fmt.Sprintf("is %q, but must be small letters, digits and single hyphens", Clipped(text))
	}
	return checkWords(text, f.long)
}

func checkOneOf(text string, list []string) string {
	for _, word := range list {
		if text == word {
			return ""
		}
	}
	return fmt.Sprintf("is %q, but must be one of %s", Clipped(text), strings.Join(list, ", "))
}

func checkWords(text string, long bool) string {
	longest := longestName
	if long {
		longest = longestNote
	}
	if n := utf8.RuneCountInString(text); n > longest {
		return fmt.Sprintf("has %d characters, but at most %d are kept", n, longest)
	}
	for _, sign := range text {
		if unicode.IsControl(sign) && !(long && sign == '\n') {
			return fmt.Sprintf("holds the control character %U", sign)
		}
		if Turns(sign) {
			return fmt.Sprintf("holds the sign %U, which is not seen and turns the letters behind it round: take it out", sign)
		}
	}
	return ""
}
