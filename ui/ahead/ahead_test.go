package ahead_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/ui/ahead"
)

func TestLettersFindAnOption(t *testing.T) {
	options := []string{"say what it is…", "Cat 5e", "Cat 6", "Cat 6A", "Coax 75 ohm", "Fibre multimode", "Analogue multicore 24 ways"}
	for _, c := range []struct {
		sentence, typed, found string
	}{
		{"letters of the beginning", "cat 6", "Cat 6"},
		{"more of them", "Cat 6a", "Cat 6A"},
		{"a letter that only one has", "f", "Fibre multimode"},
		{"the same letter goes on", "ccc", "Cat 6A"},
		{"a word inside", "multi", "Fibre multimode"},
		{"none", "xyz", ""},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			now := time.Unix(0, 0)
			finder := ahead.Ahead{Now: func() time.Time { return now }}
			at := 0
			for _, letter := range c.typed {
				if found := finder.Type(letter, options, at); found >= 0 {
					at = found
				} else {
					at = 0
				}
			}
			if c.found == "" {
				require.Zero(t, at)
				return
			}
			require.Equal(t, c.found, options[at])
		})
	}
}

func TestAPauseBeginsAnew(t *testing.T) {
	now := time.Unix(0, 0)
	finder := ahead.Ahead{Now: func() time.Time { return now }}
	options := []string{"good", "faulty", "suspect"}
	require.Equal(t, 1, finder.Type('f', options, 0))
	now = now.Add(2 * time.Second)
	require.False(t, finder.Typing())
	require.Equal(t, 2, finder.Type('s', options, 1))
	require.Equal(t, -1, finder.Type('x', nil, 0))
}
