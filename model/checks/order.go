package checks

import "stageloom/model/words"

// Natural compares two names as a reader sorts them; see [words.Natural].
func Natural(a, b string) int { return words.Natural(a, b) }
