package exchange

import (
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/quantity"
)

// The fields of a stock list are called as on the card and in the table.
var (
	Kind      = fields.Of(plan.ReelsTable, "kind").Name
	Length    = fields.Of(plan.ReelsTable, "length").Name
	Quantity  = fields.Of(plan.ReelsTable, "count").Name
	Tag       = fields.Of(plan.ReelsTable, "tag").Name
	CaseName  = fields.Of(plan.ReelsTable, "case").Name
	Owner     = fields.Of(plan.ReelsTable, "owner").Name
	Hire      = fields.Of(plan.ReelsTable, "hire").Name
	Return    = fields.Of(plan.ReelsTable, "return").Name
	Bought    = fields.Of(plan.ReelsTable, "bought").Name
	Condition = fields.Of(plan.ReelsTable, "condition").Name
	Reason    = fields.Of(plan.ReelsTable, "reason").Name
	FoundAt   = fields.Of(plan.ReelsTable, "found_at").Name
	FoundOn   = fields.Of(plan.ReelsTable, "found_on").Name
	Measured  = fields.Of(plan.ReelsTable, "measured").Name
	Nominal   = fields.Of(plan.ReelsTable, "nominal").Name
	State     = fields.Of(plan.ReelsTable, "state").Name
	StateOn   = fields.Of(plan.ReelsTable, "state_on").Name
	Weight    = fields.Of(plan.ReelsTable, "weight").Name
	TiedInto  = fields.Of(plan.ReelsTable, "tied").Name
	Note      = fields.Of(plan.ReelsTable, "note").Name
)

// Columns of a stock list that are no field of a reel: the unit of its lengths, and the last line of its history.
const (
	Unit        = "Unit"
	LastService = "Last service"
	ServiceNote = "Service note"
	ServicedBy  = "Serviced by"
)

// Meanings of columns that are no field of a row: one goes into the note with its head, of the other the user said that it is
// not read. Several columns may have either.
const (
	IntoNote = "into the note"
	PassOver = "pass over"
)

// StockFields are what a column of a stock list can mean.
func StockFields() []Field {
	amount := func(text string) bool { _, err := ReadAmount(text, quantity.Metric); return err == nil }
	loss := func(text string) bool { _, err := quantity.ReadDecibels(text); return err == nil }
	day := func(text string) bool { _, err := readDay(text); return err == nil }
	weight := func(text string) bool { _, _, err := readWeight(text, "kg"); return err == nil }
	unit := func(text string) bool { _, known := unitNamed(text); return known }
	return []Field{
		{Length, []string{"length", "len", "length m", "length ft", "m", "metres", "meters", "ft", "feet", "länge", "laenge", "longueur", "long", "amount", "cable"}, amount, nil, nil},
		{Quantity, []string{"quantity", "qty", "count", "pcs", "pieces", "number of", "how many", "anzahl", "anz", "stück", "stk", "menge", "quantité", "qté"}, isCount, nil, nil},
		{Kind, []string{"kind", "type", "cable kind", "cable type", "cable", "description", "item", "article", "model", "category", "name", "typ", "art", "kabel", "bezeichnung", "désignation"}, nil, nil, nil},
		{Tag, []string{"tag", "tags", "label", "asset tag", "asset", "barcode", "code", "serial", "serial number", "number", "no", "id", "mark", "nummer", "nr", "étiquette"}, nil, nil, nil},
		{CaseName, []string{"case", "box", "flight case", "flightcase", "crate", "trunk", "stored in", "storage", "location", "kiste", "koffer", "caisse", "lagerort"}, nil, nil, nil},
		{Owner, []string{"owner", "owned by", "property of", "company", "supplier", "belongs to", "eigentümer", "besitzer", "propriétaire"}, nil, nil, nil},
		{Hire, []string{"hire reference", "hire", "hire ref", "rental", "rental reference", "rental ref", "booking", "job", "order", "order number"}, nil, nil, nil},
		{Return, []string{"return date", "return", "return by", "back by", "due back", "due", "due date", "rückgabe", "retour"}, day, nil, nil},
		{Bought, []string{"bought on", "bought", "purchase date", "purchased", "date of purchase", "kaufdatum", "acheté le"}, day, nil, nil},
		{Condition, []string{"condition", "cond", "cnd", "status", "zustand", "zust", "beschaffenheit", "état", "etat"}, isCondition, nil, nil},
		{State, []string{"state", "availability", "whereabouts", "verbleib", "disponibilité"}, isCondition, nil, nil},
		{StateOn, []string{"state since", "since", "seit", "depuis"}, day, nil, nil},
		{Reason, []string{"reason", "fault", "defect", "damage", "why", "grund", "mangel", "défaut"}, nil, nil, nil},
		{FoundAt, []string{"found where", "found at", "where found", "where", "found in"}, nil, nil, nil},
		{FoundOn, []string{"found on", "date found", "when found", "when"}, day, nil, nil},
		{Measured, []string{"measured loss", "measured", "measured loss db", "loss", "loss db", "attenuation", "insertion loss"}, loss, nil, nil},
		{Nominal, []string{"nominal length", "nominal", "nominal m", "nominal length m", "sold as", "nennlänge"}, amount, nil, nil},
		{Unit, []string{"unit", "units", "u", "uom", "unit of length", "einheit", "einh", "unité", "m ft", "ft m"}, unit, nil, nil},
		{Weight, []string{"weight", "weight kg", "weight lb", "mass", "kg", "lb", "lbs", "gewicht", "gew", "poids", "masse"}, weight, nil, nil},
		{LastService, []string{"last service", "serviced on", "serviced", "service date", "last test", "tested on", "last check", "last checked", "service", "letzte prüfung", "prüfdatum", "geprüft am", "dernier contrôle", "contrôlé le"}, day, nil, nil},
		{ServiceNote, []string{"service note", "service notes", "service work", "work done", "prüfvermerk", "remarque contrôle"}, nil, nil, nil},
		{ServicedBy, []string{"serviced by", "tested by", "checked by", "prüfer", "contrôlé par"}, nil, nil, nil},
		{TiedInto, []string{"tied into", "part of", "loom", "bundle", "kabelbaum", "toron"}, nil, nil, nil},
		{Note, []string{"note", "notes", "remark", "remarks", "comment", "comments", "bemerkung", "remarque"}, nil, nil, nil},
		{IntoNote, nil, nil, nil, nil},
	}
}
