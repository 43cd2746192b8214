package checks

import "stageloom/model/words"

// Natural compares two names as a reader sorts them; see [words.Natural].
func Natural(a, b string) int { return words.Natural(a, b) }

// SortNatural sorts rows by a name of each in natural order; see [words.SortNatural].
func SortNatural[T any](rows []T, name func(*T) string, then func(a, b *T) int) {
	words.SortNatural(rows, name, then)
}
