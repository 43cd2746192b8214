package plan

// Changes are the rows of one table that a delta sets and the keys it drops.
type Changes[R Row] struct {
	Set  []R
	Drop []Key
}

// Delta is the difference of two plans. Apply(a, Between(a, b)) equals b.
type Delta struct {
	Settings *Settings

	Contacts       Changes[Contact]
	TransportRules Changes[TransportRule]
	Levels         Changes[Level]
	Positions      Changes[Position]
	Areas          Changes[Area]
	AreaPoints     Changes[AreaPoint]
	Routes         Changes[Route]
	RoutePoints    Changes[RoutePoint]
	Kinds          Changes[Kind]
	KindPorts      Changes[KindPort]
	KindSockets    Changes[KindSocket]
	KindWays       Changes[KindWay]
	Devices        Changes[Device]
	CableKinds     Changes[CableKind]
	Cases          Changes[Case]
	Reels          Changes[Reel]
	GivenBack      Changes[GivenBack]
	Services       Changes[Service]
	HouseLines     Changes[HouseLine]
	Looms          Changes[Loom]
	LoomPoints     Changes[LoomPoint]
	Links          Changes[Link]
	LinkPoints     Changes[LinkPoint]
	Segments       Changes[Segment]
	Inputs         Changes[Input]
	Outputs        Changes[Output]
	Acts           Changes[Act]
	StagePatches   Changes[StagePatch]
	ConsolePatches Changes[ConsolePatch]
	SlotPatches    Changes[SlotPatch]
	OutputPatches  Changes[OutputPatch]
	ActConsoles    Changes[ActConsole]
	SocketOwners   Changes[SocketOwner]
	SocketNames    Changes[SocketName]
	LineChecks     Changes[LineCheck]
	Revisions      Changes[Revision]
}

// Between returns what turns a into b. Tables the two plans share cost nothing.
func Between(a, b *Plan) *Delta {
	d := &Delta{}
	if a.Settings != b.Settings {
		settings := b.Settings
		d.Settings = &settings
	}
	for _, table := range tables {
		table.ops.between(a, b, d)
	}
	return d
}

// Empty reports whether the delta changes nothing.
func (d *Delta) Empty() bool {
	if d.Settings != nil {
		return false
	}
	for _, table := range tables {
		if set, drop := table.Changed(d); len(set)+len(drop) > 0 {
			return false
		}
	}
	return true
}

// Apply returns the plan that the delta makes of p, or *Invalid when it does not fit p.
func Apply(p *Plan, d *Delta) (*Plan, error) {
	e := NewEdit(p, nil)
	if d.Settings != nil {
		e.next.Settings = *d.Settings
	}
	var problems []Problem
	for _, table := range tables {
		for _, problem := range table.ops.apply(e, d) {
			problem.Table = table.Name
			problems = append(problems, problem)
		}
	}
	if len(problems) > 0 {
		return nil, &Invalid{Problems: problems}
	}
	return e.commit()
}
