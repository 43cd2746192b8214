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
	Own        bool        `json:"own,omitzero"`
	Note       string      `json:"note,omitzero" long:"true"`
}

// Key is the cable kind's slug.
func (r CableKind) Key() Key { return Key(r.ID) }

// Case is where reels live in the truck.
type Case struct {
	ID   CaseID `json:"id"`
	Name string `json:"name"`
	Note string `json:"note,omitzero" long:"true"`
}

// Key is the case's id.
func (r Case) Key() Key { return Key(r.ID) }

// Reel is one cable of the stock, or a quantity of equal untagged ones (quantity 0 counts as 1). FoundAt and FoundOn say of a
// suspect or faulty one where and on which day that was found; Taking names what the house's stock lent it by.
type Reel struct {
	ID        ReelID      `json:"id"`
	Tag       string      `json:"tag,omitzero"`
	Kind      CableKindID `json:"kind" ref:"cable_kinds"`
	Length    float64     `json:"length_m" range:"0.1 10000"`
	Nominal   float64     `json:"nominal_m,omitzero" range:"0 10000"`
	Quantity  int         `json:"quantity,omitzero" range:"0 10000"`
	Case      CaseID      `json:"case,omitzero" ref:"cases"`
	Owner     string      `json:"owner,omitzero"`
	Hire      string      `json:"hire_reference,omitzero"`
	Return    string      `json:"return_date,omitzero"`
	Condition string      `json:"condition,omitzero" oneof:"good suspect faulty"`
	Reason    string      `json:"reason,omitzero" long:"true"`
	FoundAt   string      `json:"found_at,omitzero"`
	FoundOn   string      `json:"found_on,omitzero"`
	Measured  Optional    `json:"measured_loss_dB,omitzero" range:"0 200"`
	Bought    string      `json:"bought_on,omitzero"`
	Taking    string      `json:"house_taking,omitzero"`
	Note      string      `json:"note,omitzero" long:"true"`
}

// Key is the reel's id.
func (r Reel) Key() Key { return Key(r.ID) }

// Count is how many cables the row stands for.
func (r Reel) Count() int { return max(1, r.Quantity) }

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
