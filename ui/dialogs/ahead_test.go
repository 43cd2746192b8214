package dialogs_test

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
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
			ahead := dialogs.Ahead{Now: func() time.Time { return now }}
			at := 0
			for _, letter := range c.typed {
				if found := ahead.Type(letter, options, at); found >= 0 {
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
	ahead := dialogs.Ahead{Now: func() time.Time { return now }}
	options := []string{"good", "faulty", "suspect"}
	require.Equal(t, 1, ahead.Type('f', options, 0))
	now = now.Add(2 * time.Second)
	require.False(t, ahead.Typing())
	require.Equal(t, 2, ahead.Type('s', options, 1))
	require.Equal(t, -1, ahead.Type('x', nil, 0))
}

func TestAListIsChosenByLetters(t *testing.T) {
	h := hosttest.New(t, plan.New("Empty"))
	var told []string
	c := dialogs.NewChooser(h, []string{"say what it is…", "Cat 5e", "Cat 6", "Cat 6A"}, func(said string) { told = append(told, said) })
	c.SetSelectedIndex(0)
	for _, sign := range "cat 6a" {
		c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyName(strings.ToUpper(string(sign)))})
		if sign == ' ' {
			c.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
		}
		c.TypedRune(sign)
	}
	require.Equal(t, "Cat 6A", c.Selected)
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	c.TypedRune('c')
	require.Equal(t, "Cat 5e", c.Selected, "from the one that is selected on, what begins so")
	require.Equal(t, []string{"say what it is…", "Cat 5e", "Cat 6", "Cat 6A", "Cat 5e"}, told)
}
