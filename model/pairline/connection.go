package pairline

// Interface is one mated connection, a plug in a socket.
type Interface struct {
	Name string
	// K gives the loss K·√f in dB.
	K float64
	// ReturnLossDB is the return loss at 1 MHz; it falls by 20 dB a decade.
	ReturnLossDB float64
	// NEXTDB and PowerSumNEXTDB are near-end crosstalk at 100 MHz, between two pairs and from the three others together.
	NEXTDB, PowerSumNEXTDB float64
	// FEXTDB is far-end crosstalk at 100 MHz.
	FEXTDB float64
}

// Loss is the loss of one mated connection.
func (i Interface) Loss() Loss { return Loss{A: i.K} }

// Poorer is the connection that two sides make: each figure is that of the poorer side, and the name is that of the side
// that loses more. This is our reading of the published rule that a mixed channel is rated by its lowest component.
func Poorer(a, b Interface) Interface {
	name := a.Name
	if b.K > a.K {
		name = b.Name
	}
	return Interface{
		Name:           name,
		K:              max(a.K, b.K),
		ReturnLossDB:   min(a.ReturnLossDB, b.ReturnLossDB),
		NEXTDB:         min(a.NEXTDB, b.NEXTDB),
		PowerSumNEXTDB: min(a.PowerSumNEXTDB, b.PowerSumNEXTDB),
		FEXTDB:         min(a.FEXTDB, b.FEXTDB),
	}
}

// Coupler gives the two connections of a coupler whose body joins the plug of the nearer cable to the plug of the farther.
func Coupler(nearPlug, body, farPlug Interface) [2]Interface {
	return [2]Interface{Poorer(nearPlug, body), Poorer(body, farPlug)}
}
