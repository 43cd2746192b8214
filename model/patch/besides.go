package patch

import (
	"strconv"
	"strings"

	"stageloom/model/plan"
)

// Radio says over which radio way something goes: "RF 1, 518.25 MHz, handheld 1"; blank where none is named. A channel that is a
// number alone is said with what it is of.
func Radio(channel string, frequency float64, carrier string) string {
	if _, err := strconv.Atoi(channel); err == nil {
		channel = "RF " + channel
	}
	said := []string{channel, "", carrier}
	if frequency > 0 {
		said[1] = strconv.FormatFloat(frequency, 'f', -1, 64) + " MHz"
	}
	return joined(said)
}

func joined(words []string) string {
	var said []string
	for _, word := range words {
		if word != "" {
			said = append(said, word)
		}
	}
	return strings.Join(said, ", ")
}

// Remarks are what a person at the stage has to know of an input beside its way and 48 V, which [PhantomSheet] says: its side
// of a pair, its radio way.
func (a *Act) Remarks(line *Line) string {
	if line.Struck {
		return ""
	}
	return joined([]string{a.Side(line.Input), Radio(line.Input.RFChannel, line.Input.Frequency, line.Input.Transmitter)})
}

// OutputRemarks are what is said of an output beside its way: its mix and what it feeds, its side of a pair, its radio way.
func (a *Act) OutputRemarks(line *OutputLine) string {
	if line.Struck {
		return ""
	}
	out := line.Output
	return joined([]string{out.Mix, KindWords(out.Kind), a.OutputSide(out), Radio(out.RFChannel, out.Frequency, out.Pack)})
}

// KindWords is what an output feeds, in words: "side fill", "in-ear".
func KindWords(kind string) string {
	if kind == "in_ear" {
		return "in-ear"
	}
	return strings.ReplaceAll(kind, "_", " ")
}

// TheirName is what the other party calls a socket; blank where nobody told.
func (v *View) TheirName(s Socket) string {
	row, _ := v.Plan.SocketNames.Get(s.nameKey())
	return row.Name
}

// nameKey is the key of what the other party calls a socket.
func (s Socket) nameKey() plan.Key {
	return plan.SocketName{Device: s.Device, Direction: s.direction(), Socket: s.Number}.Key()
}

func (s Socket) direction() string {
	if s.Output {
		return "out"
	}
	return "in"
}

// BothWords names a socket as we and as the other party does: "SL in 9 (their SR 9)".
func (v *View) BothWords(s Socket) string {
	said := v.SocketWords(s)
	if theirs := v.TheirName(s); theirs != "" {
		said += " (their " + theirs + ")"
	}
	return said
}

// Call says what the other party calls a socket; blank forgets it.
func Call(e *plan.Edit, s Socket, name string) error {
	name = strings.Join(strings.Fields(name), " ")
	row := plan.SocketName{Device: s.Device, Direction: s.direction(), Socket: s.Number, Name: name}
	if name == "" {
		plan.Drop[plan.SocketName](e, row.Key())
		return nil
	}
	if table, found := plan.TableNamed(plan.SocketNamesTable); found {
		if column, known := table.Column("name"); known {
			if reason := column.Check(name); reason != "" {
				return refuse("it %s", reason)
			}
		}
	}
	plan.Put(e, row)
	return nil
}
