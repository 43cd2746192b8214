package main

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/words"
)

// patchCommand prints the patch of a plan.
type patchCommand struct {
	Plan filled `arg:"" help:"The plan file whose patch is meant."`

	Act filled `placeholder:"NAME" help:"The act, by its name; House is what all acts begin with. Without it the house is printed, and of each act what is different from it."`
	By  string `default:"input" enum:"input,box,console" help:"In which order: input, box or console."`
}

// Help follows the flags in --help.
func (patchCommand) Help() string {
	return "By input, each line reads as a crew says it aloud: input, box socket, channels. By box, each socket with what is on it; by console, each channel " +
		"with its socket and the channels on the links. Exits with 0, or with 2 when the file cannot be used or has no such act."
}

// Run prints one act in full, or the house and what the acts have otherwise.
func (c *patchCommand) Run(a *answer) error {
	p, err := openPlan(a, string(c.Plan))
	if err != nil {
		return err
	}
	view := patch.Of(p)
	sheet := patchSheet{page: &a.page, view: view, whole: true}
	sheet.line("%s", printable(titleOf(p)))
	if c.Act != "" {
		act, err := actNamed(view, string(c.Act))
		if err != nil {
			return err
		}
		sheet.act(act, c.By)
		return nil
	}
	for i, act := range view.Shown() {
		sheet.whole = i == 0
		sheet.act(act, c.By)
	}
	return nil
}

// actNamed finds an act by the name that a reader knows it by.
func actNamed(view *patch.View, name string) (*patch.Act, error) {
	var known []string
	for _, act := range view.Acts {
		called := act.Act.Name
		if act.House() {
			called = "House"
		}
		if strings.EqualFold(called, name) {
			return act, nil
		}
		known = append(known, called)
	}
	return nil, fmt.Errorf("there is no act %q in this plan; it has %s", name, strings.Join(known, ", "))
}

// patchSheet lays a patch out.
type patchSheet struct {
	*page
	view *patch.View
	// whole tells that all of an act is printed, not only what it has otherwise than the house.
	whole bool
	// phantoms is what the act at hand says of 48 V.
	phantoms *patch.PhantomSheet
}

func (s *patchSheet) act(act *patch.Act, by string) {
	s.phantoms = s.view.PhantomSheet(act)
	s.blank()
	if name := s.view.ActName(act.Act.ID); name != "" {
		s.hang("", heading(act, name, s.whole))
	}
	before := s.b.Len()
	switch by {
	case "box":
		s.byBox(act)
	case "console":
		s.byConsole(act)
	default:
		s.byInput(act)
	}
	if s.b.Len() == before {
		s.line("  Nothing.")
	}
}

// heading names an act with its times, and says when only its differences follow.
func heading(act *patch.Act, name string, whole bool) string {
	said := printable(name)
	if act.Act.Start != "" {
		said += ", " + printable(act.Act.Start)
		if act.Act.End != "" {
			said += " to " + printable(act.Act.End)
		}
	}
	if !whole {
		said += ": different from the house"
	}
	return said
}

// own reports whether a line is to be printed.
func (s *patchSheet) own(act *patch.Act, line *patch.Line) bool {
	return s.whole || s.view.Differs(act, line)
}

func (s *patchSheet) byInput(act *patch.Act) {
	for _, line := range act.Lines {
		if s.own(act, line) {
			s.hang(right(fmt.Sprint(line.Input.Number), 4)+"  ", printable(s.view.Words(line)+s.remarks(act, line, s.phantoms.Beside(line))))
		}
	}
	if !s.whole || len(act.Outputs) == 0 {
		return
	}
	s.blank()
	for _, line := range act.Outputs {
		s.hang(right(fmt.Sprint(line.Output.Number), 4)+"  ", printable(s.view.OutputWords(line)+inBrackets(act.OutputRemarks(line))))
	}
}

// remarks are what a person at the stage has to know beside the way, in brackets: of 48 V, its side of a pair, its radio way.
func (s *patchSheet) remarks(act *patch.Act, line *patch.Line, phantom string) string {
	return inBrackets(words.Listed(slices.DeleteFunc([]string{phantom, act.Remarks(line)}, func(said string) bool { return said == "" })))
}

func inBrackets(said string) string {
	if said == "" {
		return ""
	}
	return " (" + said + ")"
}

func (s *patchSheet) byBox(act *patch.Act) {
	for device := range s.view.ByName() {
		rows := s.view.Box(act, device)
		var said []func()
		free := 0
		for _, row := range rows {
			number := right(fmt.Sprint(row.Socket.Number), 4) + "  "
			direction := "in"
			if row.Socket.Output {
				direction = "out"
			}
			lead := "  " + left(direction, 4) + number
			for _, line := range row.Lines {
				if s.own(act, line) {
					said = append(said, func() {
						s.hang(lead, printable(line.Input.Name+s.remarks(act, line, s.phantoms.At(line, row.Socket))+s.theirs(row.Socket)+s.onward(line, row.Socket)))
					})
				}
			}
			for _, line := range row.Outputs {
				if s.whole {
					said = append(said, func() {
						s.hang(lead, printable(line.Output.Name+inBrackets(act.OutputRemarks(line))+s.theirs(row.Socket)+" from "+s.view.Name(line.Console)))
					})
				}
			}
			if len(row.Lines)+len(row.Outputs) == 0 {
				free++
			}
		}
		if len(said) == 0 {
			continue
		}
		s.hang("", fmt.Sprintf("%s (%d of %d sockets free)", printable(s.view.Name(device)), free, len(rows)))
		for _, tell := range said {
			tell()
		}
	}
}

// theirs is what the other party calls a socket.
func (s *patchSheet) theirs(at patch.Socket) string {
	if name := s.view.TheirName(at); name != "" {
		return " (their " + name + ")"
	}
	return ""
}

// onward says which channels get a socket's signal.
func (s *patchSheet) onward(line *patch.Line, at patch.Socket) string {
	var channels []string
	for _, leg := range line.Legs {
		if leg.Socket != at {
			continue
		}
		for _, channel := range leg.Channels {
			words := fmt.Sprintf("%s %d", s.view.Name(channel.Console), channel.Number)
			if !channel.Reached {
				words += " " + s.view.Unreached(channel.Lost)
			}
			channels = append(channels, words)
		}
	}
	if len(channels) == 0 {
		return ""
	}
	return " → " + strings.Join(channels, ", ")
}

func (s *patchSheet) byConsole(act *patch.Act) {
	rows := s.view.ConsoleRows(act)
	for _, console := range s.view.Consoles() {
		head := false
		for _, row := range rows[console] {
			var names []string
			own := s.whole
			for _, line := range row.Lines {
				names = append(names, line.Input.Name+s.remarks(act, line, s.phantoms.At(line, row.Socket)))
				own = own || s.view.Differs(act, line)
			}
			if !own {
				continue
			}
			if !head {
				s.hang("", printable(s.view.Name(console)))
				head = true
			}
			text := strings.Join(names, ", ")
			if text == "" {
				text = "nothing"
			}
			text += " from " + s.view.SocketWords(row.Socket)
			switch slots := s.view.SlotWords(row.Channel.Hops); {
			case !row.Channel.Reached:
				text += ", " + s.view.Unreached(row.Channel.Lost)
			case slots != "":
				text += ", " + slots
			}
			s.hang("  "+right(fmt.Sprint(row.Number), 4)+"  ", printable(text))
		}
	}
}
