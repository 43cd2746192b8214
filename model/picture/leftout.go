package picture

import "stageloom/model/plan"

// LeftOut says what a picture leaves out; the zero value leaves out nothing. What is selected is drawn all the same,
// and what is not drawn is not hit by a pointer.
type LeftOut struct {
	// Labels are those on links, Names those in device boxes, which become dots.
	Labels, Names bool
	Outlines      bool
	Areas         bool
	Looms         bool
	// Grades, Transports and Levels leave out links, links, and devices with what is plugged in there.
	Grades     map[string]bool
	Transports map[plan.TransportID]bool
	Levels     map[plan.LevelID]bool
}

// Nothing reports whether nothing is left out.
func (w LeftOut) Nothing() bool {
	return !w.Labels && !w.Names && !w.Outlines && !w.Areas && !w.Looms && len(w.Grades)+len(w.Transports)+len(w.Levels) == 0
}

// lacksDevice reports whether a device is left out.
func (p *Picture) lacksDevice(device *DeviceFigure) bool {
	return p.options.LeftOut.Levels[device.Level] && !p.options.Selected[Ref{Table: plan.DevicesTable, Key: plan.Key(device.ID)}]
}

// lacksLink reports whether a link is left out.
func (p *Picture) lacksLink(link *LinkFigure) bool {
	w := p.options.LeftOut
	if p.options.Selected[Ref{Table: plan.LinksTable, Key: plan.Key(link.ID)}] {
		return false
	}
	return w.Grades[link.Standing] || w.Transports[link.Transport] || w.Levels[link.Levels[0]] || w.Levels[link.Levels[1]]
}

// lacksPosition reports whether the outline and the name of a position are left out.
func (p *Picture) lacksPosition(position PositionFigure) bool {
	w := p.options.LeftOut
	if p.options.Selected[Ref{Table: plan.PositionsTable, Key: plan.Key(position.ID)}] {
		return false
	}
	return w.Outlines || w.Levels[position.Level]
}

// lacksArea reports whether an area is left out.
func (p *Picture) lacksArea(area AreaFigure) bool {
	return p.options.LeftOut.Areas && !p.options.Selected[Ref{Table: plan.AreasTable, Key: plan.Key(area.ID)}]
}

// lacksLoom reports whether the marks and the name of a loom are left out.
func (p *Picture) lacksLoom(loom *LoomFigure) bool {
	return p.options.LeftOut.Looms && !p.options.Selected[loomRef(loom.ID)]
}
