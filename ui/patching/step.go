package patching

import (
	"errors"
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// channelNumbers are the channels of a console that have the chosen inputs.
func (p *Dialogs) channelNumbers(c Chosen) (numbers []int) {
	act := p.actNow()
	for _, id := range c.Inputs {
		line, _ := act.Line(id)
		for _, channel := range line.Channels() {
			if channel.Console == c.Console && !slices.Contains(numbers, channel.Number) {
				numbers = append(numbers, channel.Number)
			}
		}
	}
	return numbers
}

// step makes a step on what is selected in a table of the patch, or says what to select.
func (p *Dialogs) step(name string, least int, edit func(e *plan.Edit, act plan.ActID, c Chosen) error) {
	c, patches := p.Chosen()
	if !patches || len(c.Inputs) < least {
		p.Say(map[int]string{
			1: "Select inputs in the table of the patch first: Ctrl 7.", 2: "Select two inputs in the table of the patch first: Ctrl 7.",
		}[least])
		return
	}
	if !p.Keep() {
		return
	}
	p.move(name+" "+p.inputsNamed(c.Inputs), func(e *plan.Edit) error { return edit(e, p.ActShown(), c) })
}

// inputsNamed are inputs in the name of a step: "Kick in", "16 inputs".
func (p *Dialogs) inputsNamed(ids []plan.InputID) string {
	if len(ids) == 1 {
		input, _ := p.Desk().Plan().Inputs.Get(plan.Key(ids[0]))
		return input.Name
	}
	return fmt.Sprintf("%d inputs", len(ids))
}

// Swap exchanges the two that are selected: their sockets, or in the column of a console their channels.
func (p *Dialogs) Swap() {
	p.step("Swap", 2, func(e *plan.Edit, act plan.ActID, c Chosen) error {
		if len(c.Inputs) != 2 {
			return fmt.Errorf("select two inputs to swap; %d are selected", len(c.Inputs))
		}
		if numbers := p.channelNumbers(c); c.Console != "" {
			if len(numbers) != 2 {
				return errors.New("one of the two has no channel there; type the number instead")
			}
			return patch.SwapChannels(e, act, c.Console, numbers[0], numbers[1])
		}
		return patch.Swap(e, act, c.Inputs[0], c.Inputs[1], p.ChannelsFollow())
	})
}

// Shift moves the selected inputs by sockets, or in the column of a console by channels.
func (p *Dialogs) Shift(by int) {
	p.step("Shift", 1, func(e *plan.Edit, act plan.ActID, c Chosen) error {
		if c.Console != "" {
			return patch.ShiftChannels(e, act, c.Console, p.channelNumbers(c), by)
		}
		return patch.Shift(e, act, c.Inputs, by, p.ChannelsFollow())
	})
}

// Sort plugs the selected inputs anew in the order of their numbers, into the sockets that they have.
func (p *Dialogs) Sort() {
	p.step("Sort", 2, func(e *plan.Edit, act plan.ActID, c Chosen) error {
		return patch.Sort(e, act, c.Inputs, p.ChannelsFollow())
	})
}

// Clear lets an act have the selected inputs as the house has them; in the house it unplugs them.
func (p *Dialogs) Clear() {
	p.step(p.ClearLabel(), 1, func(e *plan.Edit, act plan.ActID, c Chosen) error {
		if c.Console != "" {
			patch.ClearChannels(e, act, c.Console, p.channelNumbers(c)...)
			return nil
		}
		return patch.Clear(e, act, c.Inputs...)
	})
}

// ClearLabel is what Clear does in the act that is shown.
func (p *Dialogs) ClearLabel() string {
	if p.ActShown() == "" {
		return "Unplug"
	}
	return "As in the house"
}

// Strike takes the selected inputs, or their channels, out of an act that the house has.
func (p *Dialogs) Strike() {
	p.step("Do without", 1, func(e *plan.Edit, act plan.ActID, c Chosen) error {
		switch {
		case act == "":
			return errors.New("only an act does without what the house has; in the house it is unplugged")
		case c.Console != "":
			patch.StrikeChannels(e, act, c.Console, p.channelNumbers(c)...)
		default:
			return patch.Strike(e, act, c.Inputs...)
		}
		return nil
	})
}

// GiveOut assigns channels on the links to all that lack them, and says what had none left.
func (p *Dialogs) GiveOut() {
	given, refused := 0, []error(nil)
	p.Do("Assign channels on the links", func(e *plan.Edit) error {
		given, refused = patch.GiveOut(e)
		return nil
	})
	switch {
	case len(refused) > 0:
		p.Warn(fmt.Sprintf("%s assigned on the links. %s", words.Counted(given, "channel", "channels"), words.Sentence(refused[0])))
	case given == 0:
		p.Say("Every input and output has its channels on the links already.")
	default:
		p.Say(fmt.Sprintf("%s assigned on the links. Ctrl Z takes them back.", words.Counted(given, "channel", "channels")))
	}
}
