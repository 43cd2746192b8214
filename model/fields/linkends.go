package fields

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/catalogue"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// EndText is an end of a link as it is read and typed: "SL AES50 1".
func EndText(p *plan.Plan, id plan.DeviceID, port string) string {
	device, _ := p.Device(id)
	return device.Name + " " + port
}

// SetLinkEnd plugs an end of a link into the port that was typed, by the names of device and port. It refuses one that is not
// there, is in use or takes another transport, and says what is free. Where the end is at another device, channels on the
// link are assigned anew.
func SetLinkEnd(e *plan.Edit, id plan.LinkID, near bool, typed string) error {
	p := e.Now()
	link, found := p.Link(id)
	if !found {
		return errors.New("there is no such link any more")
	}
	device, port := link.To, link.ToPort
	if near {
		device, port = link.From, link.FromPort
	}
	if text := strings.Join(strings.Fields(typed), " "); text == strings.Join(strings.Fields(EndText(p, device, port)), " ") {
		return nil
	}
	to, toPort, err := readEnd(p, link, near, typed)
	if err != nil {
		return err
	}
	moved, reason := catalogue.MovedEnd(p, link, near, to.ID, toPort)
	if reason != "" {
		return fmt.Errorf("%s; %s", reason, freeAt(p, link, near, to))
	}
	if err := plan.Update(e, plan.Key(id), func(r *plan.Link) { *r = moved }); err != nil {
		return err
	}
	if to.ID != device {
		assignAnew(e, id)
	}
	return nil
}

// assignAnew frees the channels on a link that joins other devices now, and assigns those that are wanted.
func assignAnew(e *plan.Edit, id plan.LinkID) {
	var old []plan.SlotPatch
	for row := range e.Now().SlotPatches.All() {
		if row.Link == id && row.Device != "" {
			old = append(old, row)
		}
	}
	for _, row := range old {
		plan.Drop[plan.SlotPatch](e, row.Key())
	}
	patch.GiveOut(e)
}

// readEnd finds the device and the port that were typed: a device by its name or the beginning of it that no other has.
func readEnd(p *plan.Plan, link plan.Link, near bool, typed string) (plan.Device, string, error) {
	text := strings.ToLower(strings.Join(strings.Fields(typed), " "))
	if text == "" {
		return plan.Device{}, "", errors.New("a link has two ends: write a device and a port, or delete the link with Ctrl Delete")
	}
	var like []plan.Device // those whose name is meant, and which have no such port
	for cut := len(text); cut > 0; cut = strings.LastIndexByte(text[:cut], ' ') {
		called := strings.TrimSpace(text[:cut])
		wanted := strings.TrimSpace(text[cut:])
		devices := devicesCalled(p, called)
		for _, device := range devices {
			for _, port := range p.Ports(device.Kind) {
				if strings.ToLower(strings.Join(strings.Fields(port.Name), " ")) == wanted {
					return device, port.Name, nil
				}
			}
		}
		if len(like) == 0 {
			like = devices
		}
	}
	if len(like) > 0 {
		return plan.Device{}, "", fmt.Errorf("%q is no port of %s; %s", plan.Clipped(typed), like[0].Name, freeAt(p, link, near, like[0]))
	}
	var names []string
	for device := range p.Devices.All() {
		names = append(names, device.Name)
	}
	slices.SortFunc(names, words.Natural)
	return plan.Device{}, "", fmt.Errorf("no device is called as in %q; there are %s", plan.Clipped(typed), words.Listed(names))
}

// devicesCalled are the devices of a name, or else the one whose name alone begins so.
func devicesCalled(p *plan.Plan, name string) (exact []plan.Device) {
	var begin []plan.Device
	for device := range p.Devices.All() {
		switch folded := strings.ToLower(strings.Join(strings.Fields(device.Name), " ")); {
		case folded == name:
			exact = append(exact, device)
		case strings.HasPrefix(folded, name):
			begin = append(begin, device)
		}
	}
	if len(exact) == 0 && len(begin) == 1 {
		return begin
	}
	return exact
}

// freeAt says which ports of a device an end of a link could go to.
func freeAt(p *plan.Plan, link plan.Link, near bool, device plan.Device) string {
	var names []string
	for _, port := range p.Ports(device.Kind) {
		if _, reason := catalogue.MovedEnd(p, link, near, device.ID, port.Name); reason == "" {
			names = append(names, port.Name)
		}
	}
	if len(names) == 0 {
		return fmt.Sprintf("no port of %s is free that takes it", device.Name)
	}
	return fmt.Sprintf("free at %s: %s", device.Name, words.Listed(names))
}
