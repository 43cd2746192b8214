package text

import (
	"fmt"

	"stageloom/model/patch"
)

// ActLabel is what an act is called in a list: "House", "2 The Hay Bales".
func ActLabel(act *patch.Act) string {
	if act.House() {
		return "House"
	}
	return fmt.Sprintf("%d %s", act.Act.Order, act.Act.Name)
}
