package patch

import (
	"maps"
	"slices"

	"stageloom/model/plan"
)

// SwapBoxes lets two devices change places in the patch of all acts: inputs, outputs and who sets gain and switches 48 V keep
// the numbers of their sockets, channels their inputs, and channels on links are assigned anew. What comes to either over a
// multicore stays. It refuses where a device has not the sockets.
func SwapBoxes(e *plan.Edit, a, b plan.DeviceID) error {
	w, err := newWork(e, "")
	if err != nil {
		return err
	}
	if w.net.devices[a] == nil || w.net.devices[b] == nil || a == b {
		return refuse("two devices are needed to swap")
	}
	s := swapping{work: w, a: a, b: b, fed: w.net.fed()}
	used := w.used(e.Now())
	for _, step := range []func() error{s.sockets, s.snakes, s.outputs} {
		if err := step(); err != nil {
			return err
		}
	}
	s.owners()
	s.listeners()
	if s.moved == 0 {
		return refuse("nothing is patched at %s nor at %s", w.net.name(a), w.net.name(b))
	}
	w.also = append(w.also, func() { w.release(used) })
	return w.settle()
}

type swapping struct {
	*work
	a, b  plan.DeviceID
	fed   map[Socket]bool
	moved int
}

// turn is a socket with the other device; moves is false where it is of neither.
func (s *swapping) turn(at Socket) (to Socket, moves bool) {
	to = at
	switch at.Device {
	case s.a:
		to.Device = s.b
	case s.b:
		to.Device = s.a
	}
	return to, to != at
}

// there refuses a socket that the other device has not.
func (s *swapping) there(name string, act plan.ActID, at, to Socket) error {
	if s.exists(to) != nil {
		return refuse("there is no %s: %s is on %s", s.net.socketWords(to), s.inActNamed(name, act), s.net.socketWords(at))
	}
	s.moved++
	return nil
}

func (s *swapping) sockets() error {
	for _, o := range s.acts {
		for _, id := range s.order {
			row, said := o.stage[id]
			at := Socket{Device: row.Device, Number: row.Socket}
			to, moves := s.turn(at)
			if !said || row.Strike || !moves {
				continue
			}
			if err := s.there(s.inputs[id].Name, o.act, at, to); err != nil {
				return err
			}
			row.Device = to.Device
			s.stage(row, true)
		}
	}
	return nil
}

// snakes turns what is plugged into a sub-snake's way, or leaves a rack.
func (s *swapping) snakes() error {
	for _, id := range s.order {
		input := s.inputs[id]
		at := s.net.snake(input)
		to, moves := s.turn(at)
		if !moves {
			continue
		}
		to.Output = !s.net.passive(to.Device)
		if err := s.there(input.Name, input.Act, at, to); err != nil {
			return err
		}
		s.snake(input, to.Device, to.Number)
	}
	return nil
}

func (s *swapping) outputs() error {
	for _, row := range slices.Collect(s.edit.Now().OutputPatches.All()) {
		at := Socket{row.Device, row.Socket, true}
		to, moves := s.turn(at)
		if row.Strike || !moves {
			continue
		}
		output, _ := s.edit.Now().Outputs.Get(plan.Key(row.Output))
		if err := s.there(output.Name, row.Act, at, to); err != nil {
			return err
		}
		row.Device = to.Device
		s.also = append(s.also, func() { plan.Put(s.edit, row) })
		if row.Console != "" {
			s.wishes[row.Act] = append(s.wishes[row.Act], wish{to, row.Console})
		}
	}
	return nil
}

// owners turns who sets gain and switches 48 V with the sockets; a box that does so itself stays its own.
func (s *swapping) owners() {
	var old, turned []plan.SocketOwner
	for row := range s.edit.Now().SocketOwners.All() {
		at := Socket{Device: row.Device, Number: row.Socket}
		to, moves := s.turn(at)
		if !moves || s.fed[at] || s.fed[to] || s.exists(to) != nil {
			continue
		}
		old = append(old, row)
		for _, owner := range []*plan.DeviceID{&row.Gain, &row.Phantom} {
			if *owner == row.Device {
				*owner = to.Device
			}
		}
		row.Device = to.Device
		turned = append(turned, row)
	}
	s.also = append(s.also, func() {
		for _, row := range old {
			plan.Drop[plan.SocketOwner](s.edit, row.Key())
		}
		for _, row := range turned {
			plan.Put(s.edit, row)
		}
	})
}

// listeners turns channels that listen to a socket where no input is yet.
func (s *swapping) listeners() {
	for _, o := range s.acts {
		for at, row := range maps.Clone(o.channels) {
			from := Socket{Device: row.Device, Number: row.Socket}
			to, moves := s.turn(from)
			if row.Strike || !moves || len(s.before[o.act].has[at]) > 0 || s.fed[from] || s.fed[to] || s.exists(to) != nil {
				continue
			}
			s.listen(o, at, to)
		}
	}
}
