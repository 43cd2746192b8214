package clip

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// longest bounds the text that is read.
const longest = 8 << 20

// ErrForeign is the error of a text that is no clip.
var ErrForeign = errors.New("what the clipboard holds was not copied from a plan")

// Clip is what was copied, ready to be pasted.
type Clip struct{ delta *plan.Delta }

// Read reads a clip, as strictly as a plan's file is read.
func Read(text string) (*Clip, error) {
	body, found := strings.CutPrefix(text, head)
	if !found || len(text) > longest {
		return nil, ErrForeign
	}
	delta, err := planfile.DecodeDelta([]byte(body), planfile.Version)
	if err != nil {
		return nil, fmt.Errorf("what the clipboard holds is damaged: %w", err)
	}
	return &Clip{delta}, nil
}

// Middle is the middle of what was copied, in metres.
func (c *Clip) Middle() geom.Point {
	box := geom.EmptyBox()
	for _, position := range c.delta.Positions.Set {
		box = box.Include(position.At())
	}
	for _, device := range c.delta.Devices.Set {
		box = box.Include(device.At())
	}
	return box.Centre()
}

// Paste adds the clip to a plan, moved by metres, under new ids and free names, and returns what it added. Kinds that
// the plan has with another content come in under a slug of their own.
func (c *Clip) Paste(e *plan.Edit, by geom.Point) ([]plan.Ref, error) {
	p := &paster{
		edit: e, by: by, kinds: map[plan.KindID]plan.KindID{}, cables: map[plan.CableKindID]plan.CableKindID{},
		positions: map[plan.PositionID]plan.PositionID{}, devices: map[plan.DeviceID]plan.DeviceID{}, links: map[plan.LinkID]plan.LinkID{},
	}
	p.kindsOf(c.delta)
	p.cablesOf(c.delta)
	for _, position := range c.delta.Positions.Set {
		old := position.ID
		position.X, position.Y = position.X+by.X, position.Y+by.Y
		p.positions[old] = e.AddPosition(position)
		p.added = append(p.added, plan.Ref{Table: plan.PositionsTable, Key: plan.Key(p.positions[old])})
	}
	for _, device := range c.delta.Devices.Set {
		p.device(device)
	}
	for _, link := range c.delta.Links.Set {
		p.link(link, c.delta)
	}
	return p.added, p.pair(c.delta.Links.Set)
}

type paster struct {
	edit      *plan.Edit
	by        geom.Point
	kinds     map[plan.KindID]plan.KindID
	cables    map[plan.CableKindID]plan.CableKindID
	positions map[plan.PositionID]plan.PositionID
	devices   map[plan.DeviceID]plan.DeviceID
	links     map[plan.LinkID]plan.LinkID
	added     []plan.Ref
}

// kindsOf brings in the device kinds: one that the plan holds alike is taken as it is.
func (p *paster) kindsOf(d *plan.Delta) {
	for _, kind := range d.Kinds.Set {
		ports := under(d.KindPorts.Set, func(r plan.KindPort) bool { return r.Kind == kind.ID })
		sockets := under(d.KindSockets.Set, func(r plan.KindSocket) bool { return r.Kind == kind.ID })
		ways := under(d.KindWays.Set, func(r plan.KindWay) bool { return r.Kind == kind.ID })
		now := p.edit.Now()
		held, found := now.Kinds.Get(kind.Key())
		if found && held == kind && slices.Equal(now.Ports(kind.ID), ports) {
			p.kinds[kind.ID] = kind.ID
			continue
		}
		slug := plan.KindID(freeSlug(string(kind.ID), func(slug string) bool { return now.Kinds.Has(plan.Key(slug)) }))
		p.kinds[kind.ID] = slug
		kind.ID = slug
		plan.Put(p.edit, kind)
		for _, port := range ports {
			port.Kind = slug
			plan.Put(p.edit, port)
		}
		for _, socket := range sockets {
			socket.Kind = slug
			plan.Put(p.edit, socket)
		}
		for _, way := range ways {
			way.Kind = slug
			plan.Put(p.edit, way)
		}
	}
}

func (p *paster) cablesOf(d *plan.Delta) {
	for _, kind := range d.CableKinds.Set {
		now := p.edit.Now()
		if held, found := now.CableKinds.Get(kind.Key()); found && held == kind {
			p.cables[kind.ID] = kind.ID
			continue
		}
		slug := plan.CableKindID(freeSlug(string(kind.ID), func(slug string) bool { return now.CableKinds.Has(plan.Key(slug)) }))
		p.cables[kind.ID] = slug
		kind.ID = slug
		plan.Put(p.edit, kind)
	}
}

func under[R any](rows []R, picked func(R) bool) []R {
	var found []R
	for _, row := range rows {
		if picked(row) {
			found = append(found, row)
		}
	}
	return found
}

// freeSlug is a slug, numbered when it is taken.
func freeSlug(slug string, taken func(string) bool) string {
	free := slug
	for n := 2; taken(free); n++ {
		free = fmt.Sprintf("%s-%d", slug, n)
	}
	return free
}

func (p *paster) device(device plan.Device) {
	old := device.ID
	device.Kind, device.Position, device.Level = p.kinds[device.Kind], p.positions[device.Position], ""
	device.X, device.Y = device.X+p.by.X, device.Y+p.by.Y
	if device.Position == "" {
		device.Position = p.edit.Now().PositionAt(geom.Point{X: device.X, Y: device.Y})
	}
	device.Name = p.edit.FreeDeviceName(device.Name)
	p.devices[old] = p.edit.AddDevice(device)
	p.added = append(p.added, plan.Ref{Table: plan.DevicesTable, Key: plan.Key(p.devices[old])})
}

func (p *paster) link(link plan.Link, d *plan.Delta) {
	old := link.ID
	link.Name, link.Partner, link.Loom, link.StandsFor = "", "", "", ""
	if !link.IsSpare() {
		link.Role = ""
	}
	link.From, link.To = p.devices[link.From], p.devices[link.To]
	link.FillKind, link.FromLeadKind, link.ToLeadKind = p.cables[link.FillKind], p.cables[link.FromLeadKind], p.cables[link.ToLeadKind]
	id := p.edit.AddLink(link)
	p.links[old] = id
	p.added = append(p.added, plan.Ref{Table: plan.LinksTable, Key: plan.Key(id)})
	points := under(d.LinkPoints.Set, func(r plan.LinkPoint) bool { return r.Link == old })
	for i := range points {
		points[i].X, points[i].Y, points[i].Level = points[i].X+p.by.X, points[i].Y+p.by.Y, ""
	}
	p.edit.SetPoints(id, points)
	segments := under(d.Segments.Set, func(r plan.Segment) bool { return r.Link == old })
	for i := range segments {
		segments[i].Kind, segments[i].Reel, segments[i].HouseLine = p.cables[segments[i].Kind], "", ""
	}
	p.edit.SetSegments(id, segments)
}

// pair makes main and backup of each other again what were, and lets spares stand in for what they stood in for.
func (p *paster) pair(links []plan.Link) error {
	for _, link := range links {
		if target := p.links[link.StandsFor]; target != "" && link.IsSpare() {
			if err := p.edit.StandIn(p.links[link.ID], target); err != nil {
				return err
			}
		}
		if link.Role != "main" || p.links[link.Partner] == "" {
			continue
		}
		if err := p.edit.Pair(p.links[link.ID], p.links[link.Partner]); err != nil {
			return err
		}
	}
	return nil
}
