package planfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// look refuses what is no plan file at all, or no whole one, before any row is read. It returns nil for data
// that is one JSON object in valid UTF-8 without duplicate names.
func look(data []byte) *Unreadable {
	begin := bytes.TrimLeft(data, " \t\r\n")
	switch {
	case len(data) > MaxBytes:
		return notPlan(fmt.Sprintf("it is larger than %d MiB, the most a plan may take", MaxBytes>>20), remedyOther)
	case len(data) == 0:
		return notPlan("the file is empty", remedyCopy)
	case len(begin) == 0:
		return notPlan("the file holds nothing but blanks", remedyCopy)
	case isUTF16(data):
		return notPlan("it is text in UTF-16, and a plan is UTF-8", "Open it in a text editor and save it as UTF-8 without a byte order mark")
	case bytes.IndexByte(data, 0) >= 0 || (begin[0] != '{' && !utf8.Valid(data)):
		return notPlan("it is not text but a binary file: a picture, an archive or a damaged copy", remedyOther)
	}
	if at, found := mergeMarker(data); found && (begin[0] == '{' || begin[0] == '<') {
		return &Unreadable{
			Faults: []Fault{{lineOf(data, at), "", "here stands a marker of git: two versions were merged and left for you to choose between"}},
			Remedy: remedyMerge,
		}
	}
	if bytes.HasPrefix(data, []byte("\xef\xbb\xbf")) {
		return notPlan("it begins with a byte order mark, which a text editor put there", "Save it as UTF-8 without that mark")
	}
	if begin[0] != '{' {
		return notPlan("it is text, but not a Stageloom plan, which begins with {", remedyOther)
	}
	return syntax(data)
}

// isUTF16 tells of text in UTF-16: by its mark, or by every second byte of its beginning being nought.
func isUTF16(data []byte) bool {
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return true
	}
	begin := data[:min(len(data)/2*2, 64)]
	noughts := [2]int{}
	for i, sign := range begin {
		if sign == 0 {
			noughts[i%2]++
		}
	}
	half := len(begin) / 2
	return half > 1 && (noughts[0] == half && noughts[1] == 0 || noughts[1] == half && noughts[0] == 0)
}

// deepest is how deep brackets may nest: a plan's own lie 8 deep, in a change that a revision holds.
const deepest = 32

// tooDeep finds where brackets nest deeper than that, before a decoder follows them.
func tooDeep(data []byte) (at int, deep bool) {
	depth, quoted := 0, false
	for at := 0; at < len(data); at++ {
		switch sign := data[at]; {
		case quoted && sign == '\\':
			at++
		case sign == '"':
			quoted = !quoted
		case quoted:
		case sign == '{' || sign == '[':
			if depth++; depth > deepest {
				return at, true
			}
		case sign == '}' || sign == ']':
			depth--
		}
	}
	return 0, false
}

func notPlan(reason, remedy string) *Unreadable {
	return &Unreadable{Faults: []Fault{{Reason: reason}}, Remedy: remedy}
}

// mergeMarker finds a line that begins as git marks a conflict. No line of a plan file can: a string holds no
// line break.
func mergeMarker(data []byte) (at int, found bool) {
	for _, marker := range []string{"<<<<<<<", "|||||||", "=======", ">>>>>>>"} {
		if bytes.HasPrefix(data, []byte(marker)) {
			return 0, true
		}
		if at := bytes.Index(data, []byte("\n"+marker)); at >= 0 {
			return at + 1, true
		}
	}
	return 0, false
}

// syntax holds the data to RFC 8259 and RFC 7493.
func syntax(data []byte) *Unreadable {
	if at, deep := tooDeep(data); deep {
		return &Unreadable{
			Faults: []Fault{{lineOf(data, at), "", fmt.Sprintf("here brackets nest more than %d deep, which no plan does", deepest)}}, Remedy: remedyOther,
		}
	}
	decoder := jsontext.NewDecoder(bytes.NewBuffer(data))
	if _, err := decoder.ReadValue(); err != nil {
		return notJSON(data, err)
	}
	at := int(decoder.InputOffset())
	if rest := bytes.TrimLeft(data[at:], " \t\r\n"); len(rest) > 0 {
		return &Unreadable{
			Faults: []Fault{{lineOf(data, len(data)-len(rest)), "", "text follows after the end of the plan"}}, Remedy: remedyEdit,
		}
	}
	return nil
}

func notJSON(data []byte, err error) *Unreadable {
	var syntactic *jsontext.SyntacticError
	if !errors.As(err, &syntactic) {
		return notPlan(err.Error(), remedyEdit)
	}
	at := int(syntactic.ByteOffset)
	fault := Fault{Line: lineOf(data, at), Place: string(syntactic.JSONPointer)}
	remedy := remedyEdit
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF):
		fault.Place, remedy = "", remedyCopy
		fault.Reason = "the file ends in the middle of the plan; it was cut short while it was copied or saved"
	case errors.Is(err, jsontext.ErrDuplicateName):
		fault.Reason = "stands there twice"
	case at < len(data) && !utf8.FullRune(data[at:]) || at < len(data) && invalidRune(data[at:]):
		fault.Reason = "is not valid UTF-8"
	default:
		fault.Reason = "is not JSON: " + syntactic.Err.Error()
	}
	if fault.Place == "" && remedy == remedyEdit {
		fault.Reason = "here it " + fault.Reason
	}
	return &Unreadable{Faults: []Fault{fault}, Remedy: remedy}
}

func invalidRune(data []byte) bool {
	sign, size := utf8.DecodeRune(data)
	return sign == utf8.RuneError && size == 1
}
