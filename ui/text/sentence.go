package text

import "stageloom/model/words"

// Sentence makes an error a sentence for the notice; see [words.Sentence].
func Sentence(err error) string { return words.Sentence(err) }
