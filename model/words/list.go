package words

import (
	"fmt"
	"strings"
)

// MostListed is how many names a line lists before it counts the rest.
const MostListed = 8

// Listed joins names by commas: "L02, L05 and 3 more" past eight of them.
func Listed(names []string) string {
	if len(names) > MostListed {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:MostListed], ", "), len(names)-MostListed)
	}
	return strings.Join(names, ", ")
}

// And joins a few names as a sentence does: "L02", "L02 and L05", "L02, L05 and L07"; past most of them the rest is counted.
func And(names []string, most int) string {
	switch n := len(names); {
	case n == 0:
		return ""
	case n == 1:
		return names[0]
	case n > most:
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), n-most)
	default:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}

// Counted prints a number with the word that it counts: "1 link", "3 links", "0 links".
func Counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Plural is the word for a number of things, without the number: "cell" of 1, else "cells".
func Plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
