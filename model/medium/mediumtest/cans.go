package mediumtest

import (
	"fmt"

	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Cans and Bells are the transports, Media what they run on, and Twine the kind of cable in the plan.
const (
	Cans  plan.TransportID = "string-and-cans"
	Bells plan.TransportID = "string-and-bells"
	Media standards.Media  = "string"
	Twine plan.CableKindID = "twine"
)

// String is the medium.
type String struct{}

var _ medium.Medium = String{}

// Media is string.
func (String) Media() standards.Media { return Media }

// Reference is the ear, and what pulls at a bell.
func (String) Reference(on standards.Transport) string {
	if on.Slug == standards.TransportSlug(Bells) {
		return "by the pull"
	}
	return "by ear"
}

// DB takes decibels as they are; of a pull half as many are lost.
func (String) DB(l medium.Loss, on standards.Transport) float64 {
	if on.Slug == standards.TransportSlug(Bells) {
		return l[0] / 2
	}
	return l[0]
}

// Joint is a knot.
func (String) Joint(h standards.Hardware) medium.Loss { return medium.Loss{h.LossDB} }

// CouplerJoints: two ends of string make one knot.
func (String) CouplerJoints() int { return 1 }

// Cable knows all string alike.
func (String) Cable(plan.CableKind) medium.Cable {
	return medium.Cable{Known: true, PerMetre: medium.Loss{0.1}}
}

// Measured believes what was heard.
func (String) Measured(c medium.Cable, lossDB, length float64) medium.Cable {
	c.PerMetre = medium.Loss{lossDB / length}
	return c
}

// Lead is string like any.
func (String) Lead() plan.CableKind { return plan.CableKind{Media: string(Media)} }

// OwnFigure is by ear.
func (String) OwnFigure() string { return "dB per 100 m by ear" }

// RestsOn is hearsay.
func (String) RestsOn(plan.CableKind) (string, standards.Provenance) {
	return "what children say", standards.Provenance{}
}

// Instead is nothing: nobody has longer arms.
func (String) Instead() string { return "" }

// Warm makes no difference to string.
func (String) Warm(float64, bool) float64 { return 1 }

// Register brings the medium and its rows, and returns what takes them out again.
func Register() (undo func()) {
	invented := standards.Provenance{Status: standards.CommonPractice, Source: "invented for a test"}
	release := standards.Hold(standards.Rows{
		Transports: []standards.Transport{{
			Slug: standards.TransportSlug(Cans), Name: "String and cans", Media: Media, Connector: "can", Rule: "whisper", Provenance: invented,
		}, {
			Slug: standards.TransportSlug(Bells), Name: "String and bells", Media: Media, Connector: "loop", Rule: "whisper", Provenance: invented,
		}},
		Rules: []standards.LimitRule{
			{Slug: "whisper", Name: "whisper rule", Media: Media, Limit: 12, Provenance: invented},
			{Slug: "shout", Name: "shout rule", Media: Media, Limit: 20, Provenance: invented},
		},
		Hardware: []standards.Hardware{{Slug: "knot", Name: "a reef knot", Media: Media, LossDB: 2, Provenance: invented}},
	})
	leave := medium.Register(String{})
	return func() { leave(); release() }
}

// Plan is a plan of pairs of cans so many metres apart, linked by string in pieces of 30 m, with reels of it in stock.
func Plan(metres ...float64) (*plan.Plan, error) {
	p := plan.New("Playground")
	settings := p.Settings
	settings.SlackPercent, settings.SlackEnd, settings.Detour, settings.Exposure = plan.Some(0), plan.Some(0), 1, "indoors"
	settings.Temperature, settings.WantedMargin = plan.Some(20), plan.Some(1)
	return plan.Do(p, plan.NewIDSource(3, 3), func(e *plan.Edit) error {
		e.SetSettings(settings)
		plan.Put(e, plan.CableKind{ID: Twine, Name: "Twine", Media: string(Media), Hardware: "knot"})
		plan.Put(e, plan.Kind{ID: "can", Name: "Can", Group: "Stage"})
		plan.Put(e, plan.KindPort{Kind: "can", Name: "Hole", Transport: Cans})
		e.AddReel(plan.Reel{Kind: Twine, Length: 30, Quantity: 20})
		for i, way := range metres {
			y := 10 * float64(i)
			near := e.AddDevice(plan.Device{Name: fmt.Sprintf("Can %dA", i+1), Kind: "can", Y: y})
			far := e.AddDevice(plan.Device{Name: fmt.Sprintf("Can %dB", i+1), Kind: "can", X: way, Y: y})
			e.AddLink(plan.Link{Name: fmt.Sprintf("S%d", i+1), Transport: Cans, From: near, FromPort: "Hole", To: far, ToPort: "Hole", FillKind: Twine})
		}
		return nil
	})
}
