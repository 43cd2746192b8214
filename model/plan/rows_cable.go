package plan

// CableKind is a kind of cable: what it is made of, and how its ends are finished.
// A balanced pair states its category and gauge; a maker's own figure replaces the category's at 100 MHz. Any figure is
// kept so that every file opens; what its category can have decides whether it grades (standards.Cable.CheckOwnFigure).
type CableKind struct {
	ID         CableKindID `json:"id" slug:"true"`
	Name       string      `json:"name"`
	Media      string      `json:"media" slug:"true"`
	Category   string      `json:"category,omitzero" slug:"true"`
	Gauge      int         `json:"gauge_AWG,omitzero" range:"0 40"`
	Solid      bool        `json:"solid,omitzero"`
	Screened   bool        `json:"screened,omitzero"`
	Allowance  bool        `json:"allowance_50_percent,omitzero"`
	OwnFigure  Optional    `json:"own_figure_dB_per_100m,omitzero" range:"1 100"`
	Pairs      int         `json:"pairs,omitzero" range:"0 256"`
	Ways       int         `json:"ways,omitzero" range:"0 256"`
	Connector  string      `json:"connector,omitzero"`
	Hardware   HardwareID  `json:"hardware,omitzero" slug:"true"`
	Lockable   bool        `json:"lockable,omitzero"`
	MetalShell bool        `json:"metal_shell,omitzero"`
	NearEnd    string      `json:"near_end,omitzero" oneof:"plug socket"`
	FarEnd     string      `json:"far_end,omitzero" oneof:"plug socket"`
	Form       string      `json:"form,omitzero" oneof:"drum coil loom tail"`
	Weight     Optional    `json:"mass_kg_per_100m,omitzero" range:"0.1 1000"`
	Own        bool        `json:"own,omitzero"`
	Note       string      `json:"note,omitzero" long:"true"`
}

// Key is the cable kind's slug.
func (r CableKind) Key() Key { return Key(r.ID) }

// Case is where reels live in the truck: how many pieces and how much it takes, and its own mass when it is empty.
type Case struct {
	ID     CaseID   `json:"id"`
	Name   string   `json:"name"`
	Pieces int      `json:"takes_pieces,omitzero" range:"0 10000"`
	Most   Optional `json:"takes_kg,omitzero" range:"0 10000"`
	Weight Optional `json:"empty_kg,omitzero" range:"0 10000"`
	Note   string   `json:"note,omitzero" long:"true"`
}

// Key is the case's id.
func (r Case) Key() Key { return Key(r.ID) }

// Reel is one cable of the stock, or a quantity of equal untagged ones (quantity 0 counts as 1). FoundAt and FoundOn say of a
// suspect or faulty one where and on which day that was found. State says that it is not there although it is in the stock, since
// StateOn. TiedInto names the loom or the trunk piece that it is part of, which is taken and laid whole. Taking names what the show
// has of the house's stock by this row, and HouseReel the row of that stock; Lacking is how many of them the house does not let the
// show have, and LackingWhy where they are.
type Reel struct {
	ID         ReelID      `json:"id"`
	Tag        string      `json:"tag,omitzero"`
	Kind       CableKindID `json:"kind" ref:"cable_kinds"`
	Length     float64     `json:"length_m" range:"0.1 10000"`
	Nominal    float64     `json:"nominal_m,omitzero" range:"0 10000"`
	Quantity   int         `json:"quantity,omitzero" range:"0 10000"`
	Case       CaseID      `json:"case,omitzero" ref:"cases"`
	Owner      string      `json:"owner,omitzero"`
	Hire       string      `json:"hire_reference,omitzero"`
	Return     string      `json:"return_date,omitzero"`
	Condition  string      `json:"condition,omitzero" oneof:"good suspect faulty"`
	Reason     string      `json:"reason,omitzero" long:"true"`
	FoundAt    string      `json:"found_at,omitzero"`
	FoundOn    string      `json:"found_on,omitzero"`
	Measured   Optional    `json:"measured_loss_dB,omitzero" range:"0 200"`
	Bought     string      `json:"bought_on,omitzero"`
	Weight     Optional    `json:"mass_kg,omitzero" range:"0 1000"`
	State      string      `json:"state,omitzero" oneof:"missing repair written_off"`
	StateOn    string      `json:"state_since,omitzero"`
	TiedInto   string      `json:"tied_into,omitzero"`
	Taking     string      `json:"house_taking,omitzero"`
	HouseReel  string      `json:"house_reel,omitzero"`
	Lacking    int         `json:"house_lacks,omitzero" range:"0 10000"`
	LackingWhy string      `json:"house_lacks_why,omitzero" long:"true"`
	Note       string      `json:"note,omitzero" long:"true"`
}

// Key is the reel's id.
func (r Reel) Key() Key { return Key(r.ID) }

// Count is how many cables the row stands for.
func (r Reel) Count() int { return max(1, r.Quantity) }

// The states of a reel that is in the stock and not there.
const (
	Missing    = "missing"
	InRepair   = "repair"
	WrittenOff = "written_off"
)

// There is how many of the row can be laid: none that is missing, in repair or written off, and none that the house does not
// let the show have.
func (r Reel) There() int {
	if r.State != "" {
		return 0
	}
	return max(0, r.Count()-r.Lacking)
}

// GivenBack is what a show gave back to the house's stock, as it was then: the taking that it was of, how many, and what was
// found out about them. The house learns it when the plan is saved. History has the lines that the show wrote into the row's.
type GivenBack struct {
	ID        GivenBackID `json:"id"`
	Taking    string      `json:"house_taking"`
	HouseReel string      `json:"house_reel"`
	Quantity  int         `json:"quantity" range:"1 10000"`
	Day       string      `json:"day"`
	Tag       string      `json:"tag,omitzero"`
	Length    float64     `json:"length_m" range:"0.1 10000"`
	Nominal   float64     `json:"nominal_m,omitzero" range:"0 10000"`
	Case      string      `json:"case,omitzero"`
	Condition string      `json:"condition,omitzero" oneof:"good suspect faulty"`
	Reason    string      `json:"reason,omitzero" long:"true"`
	FoundAt   string      `json:"found_at,omitzero"`
	FoundOn   string      `json:"found_on,omitzero"`
	Measured  Optional    `json:"measured_loss_dB,omitzero" range:"0 200"`
	State     string      `json:"state,omitzero" oneof:"missing repair written_off"`
	StateOn   string      `json:"state_since,omitzero"`
	History   string      `json:"history,omitzero" long:"true"`
	Note      string      `json:"note,omitzero" long:"true"`
}

// Key is the id of what was given back.
func (r GivenBack) Key() Key { return Key(r.ID) }

// Service is a line of a reel's history: what was done to it or found out about it, on which day and by whom.
type Service struct {
	ID   ServiceID `json:"id"`
	Reel ReelID    `json:"reel" ref:"reels"`
	Day  string    `json:"day"`
	Work string    `json:"work"`
	By   string    `json:"by,omitzero"`
}

// Key is the id of the line.
func (r Service) Key() Key { return Key(r.ID) }

// HouseLine is a tie line the venue owns, between two of its panels. FoundAt and FoundOn say of a suspect or faulty one where
// and on which day that was found.
type HouseLine struct {
	ID           HouseLineID `json:"id"`
	Name         string      `json:"name"`
	Kind         CableKindID `json:"kind" ref:"cable_kinds"`
	Length       float64     `json:"length_m" range:"0.1 10000"`
	FromPanel    string      `json:"from_panel,omitzero"`
	ToPanel      string      `json:"to_panel,omitzero"`
	FromPosition PositionID  `json:"from_position,omitzero" ref:"positions"`
	ToPosition   PositionID  `json:"to_position,omitzero" ref:"positions"`
	Condition    string      `json:"condition,omitzero" oneof:"good suspect faulty"`
	Reason       string      `json:"reason,omitzero" long:"true"`
	FoundAt      string      `json:"found_at,omitzero"`
	FoundOn      string      `json:"found_on,omitzero"`
	Measured     Optional    `json:"measured_loss_dB,omitzero" range:"0 200"`
	Note         string      `json:"note,omitzero" long:"true"`
}

// Key is the house line's id.
func (r HouseLine) Key() Key { return Key(r.ID) }

// Loom is a named set of links that share a route.
type Loom struct {
	ID     LoomID `json:"id"`
	Name   string `json:"name"`
	Colour string `json:"tape_colour,omitzero"`
	Stock  bool   `json:"stock_loom,omitzero"`
	Note   string `json:"note,omitzero" long:"true"`
}

// Key is the loom's id.
func (r Loom) Key() Key { return Key(r.ID) }

// LoomPoint is a corner of a loom's route; links may drop off there.
type LoomPoint struct {
	Loom  LoomID  `json:"loom" ref:"looms"`
	Order int     `json:"order" range:"1 500"`
	X     float64 `json:"x_m" range:"-20000 20000"`
	Y     float64 `json:"y_m" range:"-20000 20000"`
	Level LevelID `json:"level,omitzero" ref:"levels"`
}

// Key is loom and order.
func (r LoomPoint) Key() Key { return part(r.Loom, r.Order) }
