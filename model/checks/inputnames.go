package checks

import (
	"fmt"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// doubleInput finds inputs of one act that bear one name, whatever their capitals and blanks.
func doubleInput(s *Subject) []Finding {
	var sights []sight
	for _, act := range s.Patch.Acts {
		same, order := map[string][]*patch.Line{}, []string(nil)
		for _, line := range act.Lines {
			name := plan.Folded(line.Input.Name)
			if line.Struck || name == "" {
				continue
			}
			if same[name] == nil {
				order = append(order, name)
			}
			same[name] = append(same[name], line)
		}
		for _, name := range order {
			lines := same[name]
			if len(lines) < 2 {
				continue
			}
			finding := Finding{Severity: Warn, Remedy: "Give each its own name: the crew calls them by it."}
			var numbers []string
			for _, line := range lines {
				numbers = append(numbers, fmt.Sprint(line.Input.Number))
				finding.Where = append(finding.Where, inputPlace(line))
			}
			finding.What = fmt.Sprintf("inputs %s are all called %s", words.And(numbers, fewNamed), lines[0].Input.Name)
			if len(lines) == 2 {
				finding.What = fmt.Sprintf("inputs %s are both called %s", words.And(numbers, fewNamed), lines[0].Input.Name)
			}
			sights = append(sights, sight{finding, act, ""})
		}
	}
	return s.once(sights)
}

// numberThem proposes a number behind the name of each of those that bear the same.
func numberThem(s *Subject, f Finding) []Fix {
	return []Fix{{Label: "Number them", Edit: func(e *plan.Edit) error {
		taken := map[string]bool{}
		for input := range e.Now().Inputs.All() {
			taken[plan.Folded(input.Name)] = true
		}
		number := 0
		for _, place := range f.Where {
			input, found := e.Now().Inputs.Get(place.Key)
			if place.Table != plan.InputsTable || !found {
				continue
			}
			name := ""
			for name == "" || taken[plan.Folded(name)] {
				number++
				name = fmt.Sprintf("%s %d", strings.TrimSpace(input.Name), number)
			}
			taken[plan.Folded(name)] = true
			if err := plan.Update(e, place.Key, func(r *plan.Input) { r.Name = name }); err != nil {
				return err
			}
		}
		return nil
	}}}
}

// theirName finds sockets of one device which the other party calls alike.
func theirName(s *Subject) (found []Finding) {
	type called struct {
		device    plan.DeviceID
		direction string
		name      string
	}
	first := map[called]plan.SocketName{}
	for row := range s.Plan.SocketNames.All() {
		key := called{row.Device, row.Direction, plan.Folded(row.Name)}
		other, twice := first[key]
		if !twice {
			first[key] = row
			continue
		}
		device := s.device(row.Device)
		found = append(found, Finding{
			Severity: Warn, Where: []Place{{plan.DevicesTable, device.Key()}},
			What:   fmt.Sprintf("%s %s %d and %d have one name on their side: %s", device.Name, row.Direction, other.Socket, row.Socket, row.Name),
			Remedy: "Ask the other party which is which, and write it under Their name in the table of sockets.",
		})
	}
	return found
}
