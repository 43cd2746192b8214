package text

import "strings"

// Sentence makes an error a sentence for the notice.
func Sentence(err error) string {
	words := strings.TrimRight(err.Error(), ".")
	if words == "" {
		return "Something went wrong."
	}
	if first, _, _ := strings.Cut(words, " "); strings.Contains(first, ".") {
		return words + "." // it begins with a file's name
	}
	first := []rune(words)
	return strings.ToUpper(string(first[0])) + string(first[1:]) + "."
}
