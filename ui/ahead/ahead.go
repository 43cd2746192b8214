package ahead

import (
	"strings"
	"time"
)

// pause ends what is typed ahead in a list: what comes later begins anew.
const pause = 1500 * time.Millisecond

// Ahead finds an option of a list by the letters that are typed one after the other.
type Ahead struct {
	typed string
	last  time.Time
	// Now tells the time; nil is the clock's.
	Now func() time.Time
}

func (a *Ahead) now() time.Time {
	if a.Now != nil {
		return a.Now()
	}
	return time.Now()
}

// Typing reports whether letters were typed a moment ago, to which the next one belongs.
func (a *Ahead) Typing() bool { return a.typed != "" && a.now().Sub(a.last) < pause }

// End begins anew with the next letter.
func (a *Ahead) End() { a.typed = "" }

// Type adds a letter and returns the option that is meant: one that begins with what was typed, else one of which a word does.
// One letter again and again goes through those that begin with it, from the one that is selected; -1 is none.
func (a *Ahead) Type(letter rune, options []string, selected int) int {
	if !a.Typing() {
		a.typed = ""
	}
	a.last = a.now()
	a.typed += strings.ToLower(string(letter))
	first, begin := a.typed, max(0, selected)
	if rest := strings.TrimLeft(a.typed, string([]rune(a.typed)[:1])); rest == "" { // the same letter alone
		first, begin = string([]rune(a.typed)[:1]), selected+1
	}
	for _, fits := range []func(string) bool{
		func(option string) bool { return strings.HasPrefix(option, a.typed) },
		func(option string) bool { return strings.HasPrefix(option, first) },
		func(option string) bool { return strings.Contains(option, " "+a.typed) },
	} {
		for i := range options {
			if at := (begin + i) % len(options); fits(strings.ToLower(options[at])) {
				return at
			}
		}
	}
	return -1
}
