package plan

import (
	"encoding/json"
	"fmt"
	"slices"
	"sync/atomic"
)

// issuedNames tells which links and devices bore a name on an issued revision, and the letter of the first that says so.
type issuedNames struct {
	of             []Revision
	links, devices map[string]map[Key]string
}

// lastIssued keeps what was read last of revisions, which change seldom and are asked for at every new link.
var lastIssued atomic.Pointer[issuedNames]

// issued reads the names that stood on the plan's revisions.
func (p *Plan) issued() *issuedNames {
	if p.Revisions.Len() == 0 {
		return &issuedNames{}
	}
	rows := slices.Collect(p.Revisions.All())
	if last := lastIssued.Load(); last != nil && slices.Equal(last.of, rows) {
		return last
	}
	names := &issuedNames{of: rows, links: map[string]map[Key]string{}, devices: map[string]map[Key]string{}}
	for _, row := range rows {
		names.read(row)
	}
	lastIssued.Store(names)
	return names
}

// read takes the names of one revision: the rows it sets. One that cannot be read tells none; the file's reader refuses it.
func (n *issuedNames) read(row Revision) {
	type named struct {
		Set []struct {
			ID   Key    `json:"id"`
			Name string `json:"name"`
		} `json:"set"`
	}
	var changes struct {
		Links   named `json:"links"`
		Devices named `json:"devices"`
	}
	if json.Unmarshal([]byte(row.Changes), &changes) != nil {
		return
	}
	note := func(names map[string]map[Key]string, rows named) {
		for _, each := range rows.Set {
			name := Folded(each.Name)
			if names[name] == nil {
				names[name] = map[Key]string{}
			}
			if _, known := names[name][each.ID]; !known {
				names[name][each.ID] = row.Letter
			}
		}
	}
	note(n.links, changes.Links)
	note(n.devices, changes.Devices)
}

// RetiredLinkName reports whether a name is retired for a link: another link bore it on an issued revision, and this one never
// did. The letter is that of the revision. A blank id is a link that is new.
func (p *Plan) RetiredLinkName(name string, id LinkID) (letter string, retired bool) {
	bearers := p.issued().links[Folded(name)]
	if _, own := bearers[Key(id)]; own || len(bearers) == 0 {
		return "", false
	}
	keys := make([]Key, 0, len(bearers))
	for key := range bearers {
		keys = append(keys, key)
	}
	return bearers[slices.Min(keys)], true
}

// WasIssued reports whether a link stood on an issued revision under the name that it bears.
func (p *Plan) WasIssued(link Link) bool {
	_, issued := p.issued().links[Folded(link.Name)][link.Key()]
	return issued
}

// refuseRetired refuses a link that is given a name which stands on the crew's paper for another.
func (e *Edit) refuseRetired() error {
	if e.base.Revisions.Len() == 0 || e.next.Links == e.base.Links {
		return nil
	}
	for link := range e.next.Links.All() {
		if old, stood := e.base.Link(link.ID); stood && old.Name == link.Name {
			continue
		}
		if letter, retired := e.base.RetiredLinkName(link.Name, link.ID); retired {
			return refuse("%s stood for another link on revision %s, and the crew may still hold that sheet; take a name that was never issued, for instance %s",
				clipped(link.Name), clipped(letter), e.next.FreeLinkName())
		}
	}
	return nil
}

// clipped is a name short enough for a message.
func clipped(name string) string {
	const most = 40
	if runes := []rune(name); len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return name
}

// FreeLinkName returns the first of L01, L02, … that no link bears and that no issued revision ever bore.
func (p *Plan) FreeLinkName() string {
	taken := map[string]bool{}
	for link := range p.Links.All() {
		taken[Folded(link.Name)] = true
	}
	retired := p.issued().links
	for n := 1; ; n++ {
		name := fmt.Sprintf("L%02d", n)
		if key := Folded(name); !taken[key] && retired[key] == nil {
			return name
		}
	}
}

// freshDeviceName is a name for a new device: numbered when a device bears it, or bore it on an issued revision.
func (p *Plan) freshDeviceName(stem string) string {
	taken := map[string]bool{}
	for device := range p.Devices.All() {
		taken[Folded(device.Name)] = true
	}
	retired := p.issued().devices
	name := stem
	for n := 2; taken[Folded(name)] || retired[Folded(name)] != nil; n++ {
		name = fmt.Sprintf("%s %d", stem, n)
	}
	return name
}
