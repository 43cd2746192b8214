package dialogs_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
)

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
