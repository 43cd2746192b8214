package words_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/words"
)

func TestAnErrorIsASentence(t *testing.T) {
	for said, sentence := range map[string]string{
		"":                       "Something went wrong.",
		"no such device.":        "No such device.",
		"show.stageloom is gone": "show.stageloom is gone.",
	} {
		require.Equal(t, sentence, words.Sentence(errors.New(said)))
	}
}
