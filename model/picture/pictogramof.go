package picture

import (
	"stageloom/model/plan"
)

// byGroup are the pictograms of the groups in which kinds of device are offered.
var byGroup = map[string]string{
	"Stage": PictogramBox, "Mixing": PictogramConsole, "Network": PictogramSwitch, "Loudspeakers": PictogramAmplifier,
	"Radio": PictogramRadio, "Intercom": PictogramIntercom, "Broadcast": PictogramBroadcast,
}

// mostConverterPorts is up to how many ports a device between two transports is a converter and no switch.
const mostConverterPorts = 4

// PictogramOf is what a kind of device does as drawn: by its group, and by what it is in it.
func PictogramOf(kind plan.Kind, ports []plan.KindPort) string {
	switch {
	case kind.Splitter != "":
		return PictogramSplitter
	case kind.Passive:
		return PictogramPanel
	case kind.Group == "Mixing" && !kind.Mixes():
		return PictogramProcessor
	case kind.Group == "Network" && converts(ports):
		return PictogramConverter
	}
	return byGroup[kind.Group]
}

// converts reports whether a kind has few ports, of more than one transport.
func converts(ports []plan.KindPort) bool {
	transports := map[plan.TransportID]bool{}
	for _, port := range ports {
		transports[port.Transport] = true
	}
	return len(transports) > 1 && len(ports) <= mostConverterPorts
}
