package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
)

// Where Enter puts what is chosen in the equipment list.
const (
	OnThePlan = "Enter: on the plan"
	InTheList = "Enter: in the list only"
)

// InListFirst reports whether a new device goes into the list alone while nobody says otherwise: in a plan whose devices all
// lack a place.
func InListFirst(p *plan.Plan) bool { return p.Unplaced() }

// whereChooser is the choice between the two. It follows the plan until the user chooses.
type whereChooser struct {
	widget.Select
	owner   *Equipment
	chosen  bool
	filling bool
}

func newWhereChooser(e *Equipment) *whereChooser {
	c := &whereChooser{owner: e}
	c.Options = []string{OnThePlan, InTheList}
	c.OnChanged = func(string) { c.chosen = c.chosen || !c.filling }
	c.ExtendBaseWidget(c)
	c.follow(e.plan)
	return c
}

// follow chooses as the plan has it, unless the user chose.
func (c *whereChooser) follow(p *plan.Plan) {
	if c.chosen {
		return
	}
	c.filling = true
	c.SetSelected(map[bool]string{false: OnThePlan, true: InTheList}[InListFirst(p)])
	c.filling = false
}

// TypedKey implements fyne.Focusable.
func (c *whereChooser) TypedKey(event *fyne.KeyEvent) {
	switch {
	case event.Name == fyne.KeyEscape && c.owner.Leave != nil:
		c.owner.Leave()
		return
	case functionKeys[event.Name] && c.owner.Key != nil:
		c.owner.Key(event.Name)
		return
	}
	c.Select.TypedKey(event)
}

// InList reports whether Enter puts a device into the list alone. What is dragged onto the plan always has its place there.
func (e *Equipment) InList() bool { return e.where.Selected == InTheList }

// Ask forgets what the user chose, for another plan.
func (e *Equipment) Ask() { e.where.chosen = false }
