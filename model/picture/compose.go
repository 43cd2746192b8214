package picture

import (
	"fmt"
	"math"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Compose gathers the figures of a plan. Budgets are those of its links in the order of their table.
func Compose(p *plan.Plan, budgets []budget.Budget) *Scene {
	s := &Scene{Links: make([]LinkFigure, 0, len(budgets))}
	for area := range p.Areas.All() {
		figure := AreaFigure{ID: area.ID, Name: area.Name, Use: area.Use}
		for _, corner := range p.AreaPoints.Under(area.Key()) {
			figure.Corners = append(figure.Corners, geom.Point{X: corner.X, Y: corner.Y})
		}
		s.Areas = append(s.Areas, figure)
	}
	for position := range p.Positions.All() {
		if position.Unplaced {
			continue
		}
		s.Positions = append(s.Positions, PositionFigure{
			ID: position.ID, Name: position.Name, Level: position.Level,
			Outline: geom.BoxAround(position.At(), position.Width, position.Depth),
		})
	}
	s.devices(p)
	for i := range budgets {
		if link, found := p.Link(budgets[i].Link); found {
			s.Links = append(s.Links, FigureOf(p, link, &budgets[i]))
		}
	}
	s.looms(p)
	s.bound()
	return s
}

func (s *Scene) devices(p *plan.Plan) {
	type end struct {
		device plan.DeviceID
		port   string
	}
	held := make(map[end]plan.LinkID, 2*p.Links.Len())
	for link := range p.Links.All() {
		if link.IsSpare() {
			continue
		}
		held[end{link.From, link.FromPort}] = link.ID
		held[end{link.To, link.ToPort}] = link.ID
	}
	for device := range p.Devices.All() {
		kind, _ := p.Kinds.Get(plan.Key(device.Kind))
		figure := DeviceFigure{
			ID: device.ID, Position: device.Position, Name: device.Name, Kind: kind.Name, At: device.At(),
			Level: levelOf(p, device), Unplaced: device.Unplaced, Pictogram: PictogramOf(kind, p.Ports(kind.ID)),
		}
		for _, port := range p.Ports(device.Kind) {
			figure.Ports = append(figure.Ports, PortFigure{Name: port.Name, Link: held[end{device.ID, port.Name}]})
		}
		s.Devices = append(s.Devices, figure)
	}
}

// levelOf is a device's own level, or that of its position.
func levelOf(p *plan.Plan, device plan.Device) plan.LevelID {
	if device.Level != "" || device.Position == "" {
		return device.Level
	}
	position, _ := p.Positions.Get(plan.Key(device.Position))
	return position.Level
}

// FigureOf is a link as drawn with a budget, which may be a preview's.
func FigureOf(p *plan.Plan, link plan.Link, b *budget.Budget) LinkFigure {
	shown := b.Printed(1)
	figure := LinkFigure{
		ID: link.ID, Label: labelOf(link, b), Name: link.Name, Run: runOf(shown), Grade: string(b.Grade), Standing: string(b.Standing()), Word: wordOf(b), Transport: link.Transport, From: link.From, To: link.To, Loom: link.Loom, Reached: 1, Done: link.Done,
	}
	figure.Tape, figure.Multicore = p.TapeColour(link), isMulticore(link)
	for _, point := range p.PointsOf(link.ID) {
		figure.Way = append(figure.Way, point.At())
	}
	if link.IsSpare() {
		figure.Grade = string(budget.Ungraded)
	}
	if from, found := p.Device(link.From); found {
		figure.Levels[0] = levelOf(p, from)
	}
	if to, found := p.Device(link.To); found {
		figure.Levels[1] = levelOf(p, to)
	}
	if b.Run <= 0 || b.Measured.Wanting() {
		return figure
	}
	switch {
	case b.TooShort():
		figure.Lacks, figure.Missing = "too short", shown.Missing
	case b.Assumed():
		figure.Lacks, figure.Missing = "to lay", shown.Missing
	}
	if b.Missing > 0 {
		figure.Reached = max(0, 1-b.Missing/b.Run)
	}
	for _, part := range b.Parts {
		if (part.What == budget.Coupler || part.What == budget.Connection) && !part.Assumed && part.Order > 1 {
			figure.Joins = append(figure.Joins, min(0.97, part.Start/max(b.Run, b.Length())))
		}
	}
	return figure
}

// isMulticore reports whether a link carries analogue ways in one cable.
func isMulticore(link plan.Link) bool {
	transport, err := standards.TransportBySlug(standards.TransportSlug(link.Transport))
	return err == nil && transport.Media == standards.AnalogueMulticore
}

// runOf is the length of a run, 0 where nobody gave the metres of its way.
func runOf(b budget.Budget) float64 {
	if b.Measured.Wanting() {
		return 0
	}
	return b.Run
}

// wordOf says why a badge is hollow, where what is missing doesn't say it.
func wordOf(b *budget.Budget) string {
	if b.Measured.Wanting() {
		return "no metres"
	}
	switch b.Standing() {
	case budget.Faulty:
		return "faulty"
	case budget.ToTest:
		return "to test"
	case budget.ToLay:
		if b.Missing == 0 {
			return "line to lay" // another piece of it
		}
	}
	return ""
}

// labelOf is a link's name with its margin in whole dB; a laid spare carries nothing, and says that instead.
func labelOf(link plan.Link, b *budget.Budget) string {
	if link.IsSpare() {
		return link.Name + " spare"
	}
	if label := b.Label(); label != "" {
		return link.Name + " " + label
	}
	return link.Name
}

// Content is what the label of a link says beside what it lacks.
type Content uint8

// The contents: the name with the margin, the name alone, or both with the length of the run.
const (
	NameAndMargin Content = iota
	NameAlone
	NameMarginRun
)

// Words are what stands on a link: its label, and in whole units of a length, rounded up, what is too short or to lay.
func (l *LinkFigure) Words(unit float64, content Content) string {
	name := "m"
	if unit > 0 && unit < 1 {
		name = "ft"
	}
	if unit <= 0 {
		unit = 1
	}
	said := l.Label
	switch {
	case content == NameAlone && l.Name != "":
		said = l.Name
	case content == NameMarginRun && l.Run > 0:
		said += fmt.Sprintf(", %.0f %s", math.Ceil(l.Run/unit-1e-6), name)
	}
	if l.Word != "" {
		said += ", " + l.Word
	}
	if l.Lacks == "" {
		return said
	}
	return fmt.Sprintf("%s %s %.0f %s", said, l.Lacks, math.Ceil(l.Missing/unit-1e-6), name)
}
