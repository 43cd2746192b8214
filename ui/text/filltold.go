package text

import (
	"fmt"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// FillTold says what inputs that are plugged in order come to: the first and the last, each as a line to read aloud.
func FillTold(view *patch.View, act *patch.Act, inputs []plan.InputID) string {
	var said []string
	for i, id := range inputs {
		if line, found := act.Line(id); found && (i == 0 || i == len(inputs)-1) {
			said = append(said, view.Words(line))
		}
	}
	if len(inputs) > 2 {
		return strings.Join(said[:1], "") + fmt.Sprintf("\n… %d more …\n", len(inputs)-2) + strings.Join(said[1:], "")
	}
	return strings.Join(said, "\n")
}
