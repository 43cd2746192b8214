package plan

import "stageloom/model/geom"

// Link joins two ports; a spare stands ready for them and occupies none: it stands in for the link that it names, or for any
// of its transport between its ends. Blank figures are the plan's. A panel at an end names
// its hardware; its inner lead runs from the panel to the device. Done is the last step that is done of it on site; Moved tells
// that its way or its ends lie otherwise than when that was said. A typed way is the length of the way as somebody gave it, in
// the place of way and factor, and typed by says who; it is doubtful once an end moved since. Their
// names are what the other party calls its ends.
type Link struct {
	ID           LinkID      `json:"id"`
	Name         string      `json:"name"`
	Transport    TransportID `json:"transport" slug:"true"`
	From         DeviceID    `json:"from" ref:"devices"`
	FromPort     string      `json:"from_port"`
	To           DeviceID    `json:"to" ref:"devices"`
	ToPort       string      `json:"to_port"`
	Way          string      `json:"way" oneof:"straight drawn found"`
	TypedWay     float64     `json:"typed_way_m,omitzero" range:"0 20000"`
	TypedBy      string      `json:"typed_by,omitzero" oneof:"paced taped venue"`
	Doubtful     bool        `json:"typed_doubtful,omitzero"`
	RiseFrom     float64     `json:"rise_from_m,omitzero" range:"0 500"`
	RiseTo       float64     `json:"rise_to_m,omitzero" range:"0 500"`
	SlackPercent Optional    `json:"slack_percent,omitzero" range:"0 100"`
	SlackEnd     Optional    `json:"slack_end_m,omitzero" range:"0 100"`
	Temperature  Optional    `json:"temperature_C,omitzero" range:"-20 60"`
	WantedMargin Optional    `json:"wanted_margin_dB,omitzero" range:"1 20"`
	Rule         RuleID      `json:"limit_rule,omitzero" slug:"true"`
	FillKind     CableKindID `json:"fill_kind,omitzero" ref:"cable_kinds"`
	Priority     int         `json:"priority,omitzero" range:"0 9"`
	MaxJoins     int         `json:"max_joins,omitzero" range:"0 31"`
	Partner      LinkID      `json:"partner,omitzero" ref:"links"`
	Role         string      `json:"role,omitzero" oneof:"main backup spare"`
	StandsFor    LinkID      `json:"stands_for,omitzero" ref:"links"`
	Loom         LoomID      `json:"loom,omitzero" ref:"looms"`
	Colour       string      `json:"tape_colour,omitzero"`
	LayPhase     int         `json:"lay_phase,omitzero" range:"0 99"`
	DrumEnd      string      `json:"drum_end,omitzero" oneof:"from to"`
	FromPanel    HardwareID  `json:"from_panel,omitzero" slug:"true"`
	FromLeadKind CableKindID `json:"from_lead_kind,omitzero" ref:"cable_kinds"`
	FromLead     float64     `json:"from_lead_m,omitzero" range:"0 100"`
	ToPanel      HardwareID  `json:"to_panel,omitzero" slug:"true"`
	ToLeadKind   CableKindID `json:"to_lead_kind,omitzero" ref:"cable_kinds"`
	ToLead       float64     `json:"to_lead_m,omitzero" range:"0 100"`
	PowerW       float64     `json:"power_W,omitzero" range:"0 100"`
	FromTheirs   string      `json:"from_their_name,omitzero"`
	ToTheirs     string      `json:"to_their_name,omitzero"`
	Done         string      `json:"done_on_site,omitzero" oneof:"laid joined tested"`
	Moved        bool        `json:"moved_since,omitzero"`
	Note         string      `json:"note,omitzero" long:"true"`
}

// Key is the link's id.
func (r Link) Key() Key { return Key(r.ID) }

// Plug is what a link joins and carries, without how it lies and what it is made of.
func (r Link) Plug() Link {
	return Link{
		ID: r.ID, Name: r.Name, Transport: r.Transport, From: r.From, FromPort: r.FromPort, To: r.To, ToPort: r.ToPort,
		Partner: r.Partner, Role: r.Role,
	}
}

// LinkPoint is a way point of a drawn link, in order 1, 2, … from its near end.
type LinkPoint struct {
	Link  LinkID  `json:"link" ref:"links"`
	Order int     `json:"order" range:"1 500"`
	X     float64 `json:"x_m" range:"-20000 20000"`
	Y     float64 `json:"y_m" range:"-20000 20000"`
	Level LevelID `json:"level,omitzero" ref:"levels"`
}

// Key is link and order.
func (r LinkPoint) Key() Key { return part(r.Link, r.Order) }

// At is where the way point lies.
func (r LinkPoint) At() geom.Point { return geom.Point{X: r.X, Y: r.Y} }

// Segment is one cable of a link, in order 1, 2, … from its near end: a reel, a house line, or kind and length.
// The coupler, when named, is the one that joins it to the segment before.
type Segment struct {
	Link      LinkID      `json:"link" ref:"links"`
	Order     int         `json:"order" range:"1 32"`
	Reel      ReelID      `json:"reel,omitzero" ref:"reels"`
	HouseLine HouseLineID `json:"house_line,omitzero" ref:"house_lines"`
	Kind      CableKindID `json:"kind,omitzero" ref:"cable_kinds"`
	Length    float64     `json:"length_m,omitzero" range:"0 10000"`
	Coupler   HardwareID  `json:"coupler,omitzero" slug:"true"`
	Kept      bool        `json:"kept,omitzero"`
}

// Key is link and order.
func (r Segment) Key() Key { return part(r.Link, r.Order) }
