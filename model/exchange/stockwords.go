package exchange

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"unicode"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// What words of a stock list are asked about for.
const (
	OfKind      = "kind"
	OfCondition = "condition"
	OfOwner     = "owner"
	OfUnit      = "unit"
	OfWeight    = "weight"
)

// What words can mean beside kinds, conditions and states: rows that say it are left out; an owner is the house itself or
// another; a unit is none of length, but of what is counted.
const (
	LeaveOut     = "leave out"
	HouseItself  = "house"
	AnotherOwner = "other"
	CountedIn    = "count"
	thereAgain   = "there"
)

// Said is a word of a list, as words are compared, and what it is asked about for.
type Said struct{ For, Word string }

// SaidOf names a word; two that differ by capitals and blanks alone are one.
func SaidOf(asks, word string) Said { return Said{asks, plan.Folded(word)} }

// Unknown is a word that somebody has to say the meaning of, as it was first written, and in how many rows it stands. Likely is
// what it mostly means, blank where nothing tells.
type Unknown struct {
	Said
	Word   string
	Rows   int
	Likely string
}

// Meaning is what a word can mean: as it is kept, and in words.
type Meaning struct{ Value, Words string }

// Meanings are what a word that is asked about can mean.
func Meanings(asks string, kinds []plan.CableKind) (all []Meaning) {
	switch asks {
	case OfKind:
		for _, kind := range kinds {
			all = append(all, Meaning{string(kind.ID), kind.Name})
		}
		return all
	case OfCondition:
		return []Meaning{
			{plan.Good, "good"},
			{plan.Suspect, "suspect"},
			{plan.Faulty, "faulty"},
			{plan.Missing, "missing"},
			{plan.InRepair, "in repair"},
			{plan.WrittenOff, "written off"},
		}
	case OfOwner:
		return []Meaning{{HouseItself, "the house itself"}, {AnotherOwner, "another's: hired in"}}
	case OfWeight:
		return []Meaning{{"kg", "in kilograms"}, {"lb", "in pounds"}}
	}
	return []Meaning{
		{"m", "metres"},
		{"ft", "feet"},
		{"in", "inches"},
		{"cm", "centimetres"},
		{"yd", "yards"},
		{CountedIn, "no unit of length: how they are counted"},
	}
}

func asking(asks, word string) string {
	word = plan.Clipped(word)
	switch asks {
	case OfKind:
		return fmt.Sprintf("%q is no kind of cable here", word)
	case OfCondition:
		return fmt.Sprintf("%q is no condition that is known here", word)
	case OfOwner:
		return fmt.Sprintf("%q may be the house itself or another", word)
	case OfUnit:
		return fmt.Sprintf("%q is no unit of length that is known here", word)
	}
	return fmt.Sprintf("a weight under %q has no unit", word)
}

// standings are the words for conditions and states in English, German and French, made comparable. What else a list says is
// asked about and never taken for good.
var standings = index(map[string]string{
	plan.Good: "good|ok|okay|fine|new|working|tested|pass|passed|sound|gut|in ordnung|io|neu|geprüft|einwandfrei|bon|bonne|bon état|neuf|neuve|testé|conforme",
	plan.Suspect: "suspect|doubtful|check|to check|intermittent|questionable|unsure|fair|fraglich|prüfen|zu prüfen|unsicher|verdächtig|" +
		"douteux|suspecte|à vérifier|à contrôler|incertain",
	plan.Faulty: "faulty|fault|broken|defect|defective|bad|dead|fail|failed|damaged|defekt|kaputt|schlecht|beschädigt|schadhaft|" +
		"défectueux|défectueuse|en panne|cassé|hors service|mauvais|endommagé",
	plan.Missing:    "missing|lost|stolen|fehlt|vermisst|verloren|gestohlen|manquant|manque|perdu|volé",
	plan.InRepair:   "in repair|under repair|being repaired|at repair|in reparatur|reparatur|en réparation|réparation",
	plan.WrittenOff: "written off|write off|scrapped|scrap|discarded|ausgemustert|abgeschrieben|verschrottet|réformé|au rebut|mis au rebut",
	thereAgain:      "there|present|in stock|available|vorhanden|auf lager|verfügbar|en stock|disponible|présent",
})

// index turns lists of words by what they mean into what each means, the words made comparable.
func index(lists map[string]string) map[string]string {
	meanings := map[string]string{}
	for meaning, list := range lists {
		for word := range strings.SplitSeq(list, "|") {
			meanings[plain(word)] = meaning
		}
	}
	return meanings
}

func isCondition(text string) bool {
	_, known := standings[plain(text)]
	return known
}

var lengthUnits = index(map[string]string{
	"m":       "m|metre|metres|meter|meters|mtr|mtrs|mètre|mètres",
	"ft":      "ft|foot|feet|fuß|fuss|pied|pieds",
	"in":      "in|inch|inches|zoll|pouce|pouces",
	"cm":      "cm|zentimeter|centimetre|centimetres|centimètre|centimètres",
	"mm":      "mm",
	"km":      "km",
	"yd":      "yd|yds|yard|yards",
	CountedIn: "pc|pcs|piece|pieces|ea|each|stk|stck|stück|st|pce|pces|pièce|pièces|unit|units|roll|rolls|rolle|rollen",
})

// unitNamed is the unit of length that a word names, or how things are counted.
func unitNamed(word string) (unit string, known bool) {
	switch strings.TrimSpace(word) {
	case "'", "′", "’":
		return "ft", true
	case `"`, "″", "”":
		return "in", true
	}
	unit, known = lengthUnits[plain(word)]
	return unit, known
}

var oursWords = index(map[string]string{
	HouseItself: "us|we|our|ours|own|owned|self|house|the house|in house|inhouse|our own|uns|unser|unsere|unseres|wir|eigen|eigene|eigenes|haus|eigentum|nous|notre|le nôtre|propre|maison",
})

// saysOurs reports whether an owner is a word by which people call themselves.
func saysOurs(owner string) bool { return oursWords[plain(owner)] == HouseItself }

// SaysOurs reports whether an owner is a word by which people call themselves, as "us".
func SaysOurs(owner string) bool { return saysOurs(owner) }

// kilogramsOfPound is the avoirdupois pound. Source: NIST Special Publication 811 (2008), appendix B.8.
const kilogramsOfPound = 0.45359237

var weighed = regexp.MustCompile(`(?i)^(.*?[0-9.,])\s*(kg|kgs|kilo|kilos|lb|lbs|pound|pounds|pfd)\.?$`)

// readWeight reads a mass in kg, and in the unit given where it names none.
func readWeight(text, unit string) (mass float64, named string, err error) {
	text = strings.TrimSpace(text)
	if found := weighed.FindStringSubmatch(text); found != nil {
		text, unit = found[1], weightUnit(found[2])
	}
	mass, err = fields.Of(plan.ReelsTable, "weight").Parse(words.Units{}, text)
	if unit == "lb" {
		mass = math.Round(mass*kilogramsOfPound*1e9) / 1e9
	}
	return mass, unit, err
}

// bareWeight reports whether a weight names no unit.
func bareWeight(text string) bool { return weighed.FindStringSubmatch(strings.TrimSpace(text)) == nil }

// weightUnit is the unit of mass that a head names, blank where it names none.
func weightUnit(head string) string {
	for _, word := range strings.FieldsFunc(strings.ToLower(head), func(sign rune) bool { return !unicode.IsLetter(sign) }) {
		switch word {
		case "kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramm", "kilogrammes":
			return "kg"
		case "lb", "lbs", "pound", "pounds", "livres":
			return "lb"
		}
	}
	return ""
}
