package plan

// Plan is the whole document, immutable. Use New for an empty one and an Edit to get the next.
type Plan struct {
	Settings Settings

	Contacts       *Table[Contact]
	TransportRules *Table[TransportRule]
	Levels         *Table[Level]
	Positions      *Table[Position]
	Areas          *Table[Area]
	AreaPoints     *Table[AreaPoint]
	Routes         *Table[Route]
	RoutePoints    *Table[RoutePoint]
	Kinds          *Table[Kind]
	KindPorts      *Table[KindPort]
	KindSockets    *Table[KindSocket]
	KindWays       *Table[KindWay]
	Devices        *Table[Device]
	CableKinds     *Table[CableKind]
	Cases          *Table[Case]
	Reels          *Table[Reel]
	GivenBack      *Table[GivenBack]
	Services       *Table[Service]
	HouseLines     *Table[HouseLine]
	Looms          *Table[Loom]
	LoomPoints     *Table[LoomPoint]
	Links          *Table[Link]
	LinkPoints     *Table[LinkPoint]
	Segments       *Table[Segment]
	Inputs         *Table[Input]
	Outputs        *Table[Output]
	Acts           *Table[Act]
	StagePatches   *Table[StagePatch]
	ConsolePatches *Table[ConsolePatch]
	SlotPatches    *Table[SlotPatch]
	OutputPatches  *Table[OutputPatch]
	ActConsoles    *Table[ActConsole]
	SocketOwners   *Table[SocketOwner]
	SocketNames    *Table[SocketName]
	LineChecks     *Table[LineCheck]
	Revisions      *Table[Revision]
}

// New returns an empty plan with the default settings.
func New(name string) *Plan {
	settings := DefaultSettings()
	settings.Name = name
	return &Plan{Settings: settings}
}

// Equal reports whether two plans hold the same rows, whatever the identity of their tables.
func Equal(a, b *Plan) bool {
	if a.Settings != b.Settings {
		return false
	}
	for _, table := range tables {
		if !table.equal(a, b) {
			return false
		}
	}
	return true
}

// Ports returns the ports of a device's kind in key order.
func (p *Plan) Ports(kind KindID) []KindPort { return p.KindPorts.Under(Key(kind)) }

// SegmentsOf returns the segments of a link from its near end on.
func (p *Plan) SegmentsOf(link LinkID) []Segment { return p.Segments.Under(Key(link)) }

// PointsOf returns the way points of a link from its near end on.
func (p *Plan) PointsOf(link LinkID) []LinkPoint { return p.LinkPoints.Under(Key(link)) }

// Device returns the device with this id.
func (p *Plan) Device(id DeviceID) (Device, bool) { return p.Devices.Get(Key(id)) }

// Link returns the link with this id.
func (p *Plan) Link(id LinkID) (Link, bool) { return p.Links.Get(Key(id)) }
