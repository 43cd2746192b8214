package settings

// What cables are picked from.
const (
	FromShow  = "show"
	FromHouse = "house"
	FromBoth  = "both"
)

const keyPickFrom = "pick from"

// PickFrom is the stock that cables were picked from last.
func (s *Settings) PickFrom() string { return s.word(keyPickFrom, FromBoth, FromShow, FromHouse) }

// SetPickFrom keeps it.
func (s *Settings) SetPickFrom(stock string) { s.kept.SetString(keyPickFrom, stock) }
