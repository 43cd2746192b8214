package budget

import (
	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// ready is a medium made ready for one plan.
type ready struct {
	medium.Medium
	hardware []medium.Hardware // poorest first
	coupler  *medium.Hardware
	joints   int // of a coupler or panel
	own      scale
	noLead   cable // stands for an inner lead of no stated kind
}

// cable is one cable kind made ready for reckoning.
type cable struct {
	medium.Cable
	id         plan.CableKindID
	name       string
	medium     *ready // nil where no medium reckons its loss
	plug       *medium.Hardware
	nearSocket bool
	farSocket  bool
	drum       bool
}

// Fits reports whether a cable kind's media is a transport's: the same words with hyphens for blanks, or the same and a
// sort of it behind one more hyphen, such as "fibre-multimode" for fibre.
func Fits(kind plan.CableKind, media standards.Media) bool {
	own := kind.Media
	if media == "" || len(own) < len(media) {
		return false
	}
	for i := range len(media) {
		if own[i] != media[i] && (media[i] != ' ' || own[i] != '-') {
			return false
		}
	}
	return len(own) == len(media) || own[len(media)] == '-'
}

// readyMedia makes the media ready: the first is also asked for the names of hardware where nothing is graded.
func (r *Reckoner) readyMedia() {
	for _, m := range medium.All() {
		own := &ready{Medium: m, hardware: medium.HardwareOf(m), joints: m.CouplerJoints()}
		own.own = scaleOf(m, standards.Transport{})
		own.coupler = own.hardwareOf(plan.HardwareID(r.plan.Settings.Coupler))
		r.media = append(r.media, own)
		own.noLead = r.newCable(m.Lead())
	}
}

// scale is the decibels of a loss of 1 in each of its figures, at the reference of a transport. A medium's decibels are
// linear: it need not be asked for every part of a plan.
type scale medium.Loss

func scaleOf(m medium.Medium, on standards.Transport) (s scale) {
	for i := range s {
		var one medium.Loss
		one[i] = 1
		s[i] = m.DB(one, on)
	}
	return s
}

// dB is what a loss comes to.
func (s *scale) dB(l medium.Loss) float64 { return s[0]*l[0] + s[1]*l[1] + s[2]*l[2] }

// mediumOf finds a medium that is ready; nil where there is none.
func (r *Reckoner) mediumOf(name standards.Media) *ready {
	for _, m := range r.media {
		if m.Media() == name {
			return m
		}
	}
	return nil
}

// hardwareOf returns the hardware with this slug; what is not known is the poorest.
func (m *ready) hardwareOf(id plan.HardwareID) *medium.Hardware {
	for i := range m.hardware {
		if m.hardware[i].ID == id {
			return &m.hardware[i]
		}
	}
	return &m.hardware[0]
}

// newCable makes a kind ready by the medium it is of.
func (r *Reckoner) newCable(kind plan.CableKind) cable {
	c := cable{
		id: kind.ID, name: kind.Name,
		nearSocket: kind.NearEnd == "socket", farSocket: kind.FarEnd == "socket", drum: kind.Form == "drum",
	}
	for _, m := range r.media {
		if Fits(kind, m.Media()) {
			c.medium, c.Cable = m, m.Cable(kind)
			break
		}
	}
	named := r.media[0]
	if c.medium != nil {
		named = c.medium
	}
	c.plug = named.hardwareOf(kind.Hardware)
	return c
}

// knownIn reports whether a medium knows the cable's loss.
func (c *cable) knownIn(m *ready) bool { return c.Known && c.medium == m }

// db is what a metre loses at 20 °C, at the reference of the medium's own figures.
func (c *cable) db() float64 {
	if c.medium == nil {
		return 0
	}
	return c.medium.own.dB(c.PerMetre)
}

// at is the loss of so many metres at a temperature in °C.
func (c *cable) at(length, temperatureC float64) medium.Loss {
	return c.PerMetre.Times(c.medium.Warm(temperatureC, c.Screened) * length)
}

// measured returns the cable with the loss measured on one piece of it, in dB, taken as measured at 20 °C.
func (c cable) measured(lossDB, length float64) cable {
	c.Cable = c.medium.Measured(c.Cable, lossDB, length)
	return c
}
