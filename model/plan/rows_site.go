package plan

import (
	"fmt"

	"stageloom/model/geom"
)

// part joins a parent's key and an order to a composite key that sorts by order.
func part[T ~string](parent T, order int) Key { return Key(fmt.Sprintf("%s/%04d", parent, order)) }

// Contact is a person the crew can ring.
type Contact struct {
	ID    ContactID `json:"id"`
	Name  string    `json:"name"`
	Role  string    `json:"role,omitzero"`
	Phone string    `json:"phone,omitzero"`
}

// Key is the contact's id.
func (r Contact) Key() Key { return Key(r.ID) }

// TransportRule sets the limit rule of one transport for this plan; without it the transport's default holds.
type TransportRule struct {
	Transport TransportID `json:"transport" slug:"true"`
	Rule      RuleID      `json:"limit_rule" slug:"true"`
}

// Key is the transport.
func (r TransportRule) Key() Key { return Key(r.Transport) }

// Level is a height at which devices and ways lie.
type Level struct {
	ID     LevelID `json:"id"`
	Name   string  `json:"name"`
	Height float64 `json:"height_m,omitzero" range:"-200 500"`
}

// Key is the level's id.
func (r Level) Key() Key { return Key(r.ID) }

// Position is a place whose devices move together: stage left, FOH tower. Its coordinates are the centre of
// its outline; width and depth 0 draw a spot. An unplaced one is only named: its coordinates mean nothing.
type Position struct {
	ID        PositionID `json:"id"`
	Name      string     `json:"name"`
	X         float64    `json:"x_m" range:"-20000 20000"`
	Y         float64    `json:"y_m" range:"-20000 20000"`
	Width     float64    `json:"width_m,omitzero" range:"0 2000"`
	Depth     float64    `json:"depth_m,omitzero" range:"0 2000"`
	Level     LevelID    `json:"level,omitzero" ref:"levels"`
	Exposure  string     `json:"exposure,omitzero" oneof:"indoors shade sun"`
	Supply    string     `json:"supply,omitzero"`
	Structure string     `json:"structure,omitzero"`
	Unplaced  bool       `json:"unplaced,omitzero"`
	Note      string     `json:"note,omitzero" long:"true"`
}

// Key is the position's id.
func (r Position) Key() Key { return Key(r.ID) }

// At is the centre of the position.
func (r Position) At() geom.Point { return geom.Point{X: r.X, Y: r.Y} }

// Area is a piece of ground that cautions speak of.
type Area struct {
	ID   AreaID `json:"id"`
	Name string `json:"name"`
	Use  string `json:"use" oneof:"stage building road water crowd walkway exit fire-lane"`
	Note string `json:"note,omitzero" long:"true"`
}

// Key is the area's id.
func (r Area) Key() Key { return Key(r.ID) }

// AreaPoint is a corner of an area, in order 1, 2, ….
type AreaPoint struct {
	Area  AreaID  `json:"area" ref:"areas"`
	Order int     `json:"order" range:"1 500"`
	X     float64 `json:"x_m" range:"-20000 20000"`
	Y     float64 `json:"y_m" range:"-20000 20000"`
}

// Key is area and order.
func (r AreaPoint) Key() Key { return part(r.Area, r.Order) }

// Route is a line along which cable may go.
type Route struct {
	ID   RouteID `json:"id"`
	Name string  `json:"name"`
	Lie  string  `json:"lie" oneof:"ground overhead trench ramp"`
	Note string  `json:"note,omitzero" long:"true"`
}

// Key is the route's id.
func (r Route) Key() Key { return Key(r.ID) }

// RoutePoint is a corner of a route, in order 1, 2, ….
type RoutePoint struct {
	Route RouteID `json:"route" ref:"routes"`
	Order int     `json:"order" range:"1 500"`
	X     float64 `json:"x_m" range:"-20000 20000"`
	Y     float64 `json:"y_m" range:"-20000 20000"`
	Level LevelID `json:"level,omitzero" ref:"levels"`
}

// Key is route and order.
func (r RoutePoint) Key() Key { return part(r.Route, r.Order) }
