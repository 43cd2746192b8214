package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/ui/text"
)

func TestCommandsAreFoundByWordsInAnyOrder(t *testing.T) {
	all := []text.Command{
		{Name: "Open…", In: "Plan", Keys: "Ctrl O"},
		{Name: "Print to PDF…", In: "Plan", Keys: "Ctrl P"},
		{Name: "Reprint", In: "Plan"},
		{Name: "Last print", In: "Plan"},
		{Name: text.Ticked + "feet", In: "View, Lengths"},
		{Name: "Six feet", In: "View"},
	}
	for typed, want := range map[string][]int{
		"":              {0, 1, 2, 3, 4, 5},
		"print":         {1, 3, 2},
		"pdf pri":       {1},
		"plan print":    {1, 2, 3},
		"ctrl p":        {0, 1},
		"LENGTHS feet":  {4},
		"nothing of it": nil,
		"  ":            {0, 1, 2, 3, 4, 5},
		"feet":          {4, 5},
	} {
		require.Equal(t, want, text.FindCommands(all, typed), typed)
	}
}
