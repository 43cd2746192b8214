package words

import "strings"

// Sentence makes an error a sentence: with a capital at its head, unless that is the name of a file, and a full stop at its end.
func Sentence(err error) string {
	said := strings.TrimRight(err.Error(), ".")
	if said == "" {
		return "Something went wrong."
	}
	if first, _, _ := strings.Cut(said, " "); strings.Contains(first, ".") {
		return said + "." // it begins with a file's name
	}
	first := []rune(said)
	return strings.ToUpper(string(first[0])) + string(first[1:]) + "."
}
