// Package standards holds what open standards and the trade say about the cables, connections, limits and transports of a
// link, as data: every row carries its status and its source. It also reckons a chain of cables given as one line of
// text. A row is found by its slug, which never changes once landed.
package standards

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Status says how well a figure is founded.
type Status string

// The three statuses.
const (
	// Published: the named source says so.
	Published Status = "published"
	// Memory: from memory of the named standard; the source says what published values it reproduces.
	Memory Status = "memory"
	// CommonPractice: a fact of the trade, without a source.
	CommonPractice Status = "common practice"
)

// Provenance is where a row's figures come from.
type Provenance struct {
	Status Status
	Source string
}

// ErrUnknown says that no row bears a slug; the error returned wraps it with the slug and those that exist.
var ErrUnknown = errors.New("unknown")

// lookup finds the row whose slug is asked for, or says which slugs there are.
func lookup[R any, S ~string](rows []R, slugOf func(R) S, slug S, what string) (R, error) {
	for _, row := range rows {
		if slugOf(row) == slug {
			return row, nil
		}
	}
	known := make([]string, len(rows))
	for i, row := range rows {
		known[i] = string(slugOf(row))
	}
	slices.Sort(known)
	var none R
	return none, fmt.Errorf("%w %s %q; write one of %s", ErrUnknown, what, shorten(string(slug)), strings.Join(known, ", "))
}
