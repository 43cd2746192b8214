package catalogue

import (
	"fmt"

	"stageloom/model/plan"
)

// DeviceKinds returns the built-in kinds of devices, by group and size. The slices are fresh at each call.
func DeviceKinds() []DeviceKind {
	var kinds []DeviceKind
	for _, some := range [][]DeviceKind{stage(), mixing(), network(), loudspeakers(), radio(), intercom(), broadcast()} {
		kinds = append(kinds, some...)
	}
	return kinds
}

func stage() []DeviceKind {
	return []DeviceKind{
		device("stagebox-12-6", Stage, "Stage box 12 in, 6 out", micIn(12), lineOut(6), aes50Ports(2), clocked("follows")),
		device("stagebox-24-12", Stage, "Stage box 24 in, 12 out", micIn(24), lineOut(12), aes50Ports(2), clocked("follows")),
		device("stagebox-40-20", Stage, "Stage box 40 in, 20 out", micIn(40), lineOut(20),
			aes50Ports(2), ports(talkPort, "IC"), clocked("follows")),
		device("stage-rack-48-20", Stage, "Stage rack 48 in, 20 out", micIn(48), lineOut(20),
			aes50Ports(3), ports(multiPort, "M1", "M2", "M3"), ports(talkPort, "IC"), clocked("follows"),
			sixteens("M1", "M2", "M3"),
			note("The multi-pin inlets lie parallel to inputs 1–16, 17–32 and 33–48.")),
		device("network-stagebox-40-20", Stage, "Network stage box 40 in, 20 out", micIn(40), lineOut(20),
			ports(ethernetPort, "N1", "N2"), ports(multiPort, "M1", "M2"), clocked("follows"), sixteens("M1", "M2"),
			note("The multi-pin inlets lie parallel to inputs 1–16 and 17–32; the rest are sockets alone.")),
		device("riser-box-10-4", Stage, "Riser box 10 in, 4 out", micIn(10), lineOut(4), aes50Ports(2), clocked("follows")),
		device("sub-snake-12-4", Stage, "Sub-snake 12 in, 4 out", micIn(12), lineOut(4), ports(multiPort, "M"), passive,
			ways("M", "in", 1, 12), ways("M", "out", 1, 4)),
		device("sub-snake-16-0", Stage, "Sub-snake 16 in", micIn(16), ports(multiPort, "M"), passive, ways("M", "in", 1, 16)),
		device("passive-riser-box-10-4", Stage, "Passive riser box 10 in, 4 out", micIn(10), lineOut(4), ports(multiPort, "M"), passive,
			ways("M", "in", 1, 10), ways("M", "out", 1, 4)),
		device("splitter-48", Stage, "Splitter 48 in, 3 ways", micIn(48),
			ports(multiPort, "IN1", "IN2", "IN3"),
			ports(multiPort, "A1", "A2", "A3"), ports(multiPort, "B1", "B2", "B3"), ports(multiPort, "C1", "C2", "C3"), passive,
			splitter("direct"), isolated("B1", "B2", "B3", "C1", "C2", "C3"),
			sixteens("IN1", "IN2", "IN3"), sixteens("A1", "A2", "A3"), sixteens("B1", "B2", "B3"), sixteens("C1", "C2", "C3"),
			note("Way A is direct and passes phantom power; B and C are isolated by transformers.")),
		device("drop-panel-8-4", Stage, "Drop panel 8 in, 4 out", micIn(8), lineOut(4), ports(multiPort, "M"), ports(videoPort, "V"), passive,
			ways("M", "in", 1, 8), ways("M", "out", 1, 4),
			note("A passive panel where a guest plugs in.")),
		device("active-splitter-16", Stage, "Active splitter 16 in, 2 ways", micIn(16), ports(multiPort, "IN", "A", "B"), splitter("active"),
			ways("IN", "in", 1, 16), ways("A", "in", 1, 16), ways("B", "in", 1, 16),
			note("It supplies 48 V and sets the gain itself.")),
		device("shared-preamp-40", Stage, "Shared preamp 40 in, 4 ways", micIn(40), aes50Ports(4), splitter("shared"), clocked("follows"),
			note("One preamp for several consoles: one of them owns gain and 48 V.")),
		device("drop-aes50", Stage, "Drop panel, AES50", ports(aes50Port, "BACK", "GUEST"), passive, hardware("cat6a"),
			note("A passive panel where a guest console plugs in.")),
		device("drop-network", Stage, "Drop panel, network", ports(ethernetPort, "BACK", "GUEST"), passive, hardware("cat6a"),
			note("A passive panel where a guest console plugs into the network.")),
	}
}

func mixing() []DeviceKind {
	var kinds []DeviceKind
	for _, count := range []int{24, 40, 56, 72} {
		ports50 := map[int]int{24: 1, 40: 2, 56: 3, 72: 4}[count]
		kinds = append(kinds, device(
			plan.KindID(fmt.Sprintf("console-%d", count)), Mixing, fmt.Sprintf("Console, %d channels", count), micIn(12), lineOut(12), channels(count),
			aes50Ports(ports50),
			ports(ethernetPort, "N1", "N2"), ports(aes3Port, "D1", "D2"), ports(talkPort, "IC"), clocked("own")))
	}
	return append(kinds,
		device("aes50-router-5", Mixing, "AES50 router, 5 ports", aes50Ports(5), clocked("own"),
			note("Passes channels between its ports; it is no network switch.")))
}

func network() []DeviceKind {
	return []DeviceKind{
		device("switch-8", Network, "Network switch, 8 ports", ports(barePort, numbered("", 1, 8)...), ports(fibrePort, numbered("F", 1, 2)...)),
		device("switch-16", Network, "Network switch, 16 ports", ports(poweredPort, numbered("", 1, 16)...), ports(fibrePort, numbered("F", 1, 4)...)),
		device("switch-24", Network, "Network switch, 24 ports", ports(poweredPort, numbered("", 1, 24)...), ports(fibrePort, numbered("F", 1, 4)...)),
		device("media-converter", Network, "Media converter to fibre", ports(ethernetPort, "N"), ports(fibrePort, "F")),
		device("aes50-converter", Network, "AES50 converter to fibre", ports(aes50Port, "AES50"), ports(fibrePort, "F"),
			note("Works in pairs, one at each end of the fibre.")),
		device("computer", Network, "Computer", ports(barePort, "N1")),
		device("lighting-node", Network, "Control node, 100 Mb/s", ports(fastPort, "N1", "N2")),
	}
}

func loudspeakers() []DeviceKind {
	return []DeviceKind{
		device("processor-6-12", Loudspeakers, "Processor 6 in, 12 out", lineIn(6), lineOut(12),
			ports(aes3Port, "D1", "D2"), ports(ethernetPort, "N1", "N2"), clocked("follows")),
		device("processor-10-20", Loudspeakers, "Processor 10 in, 20 out", lineIn(10), lineOut(20),
			aes50Ports(2), ports(aes3Port, "D1", "D2", "D3", "D4"), ports(ethernetPort, "N1", "N2"), clocked("own")),
		device("amplifier-rack-8", Loudspeakers, "Amplifier rack 8 out", lineIn(8), speakerOut(8),
			ports(aes3Port, "D1", "D2"), ports(ethernetPort, "N1", "N2"), clocked("follows")),
		device("amplifier-rack-12", Loudspeakers, "Amplifier rack 12 out", lineIn(12), speakerOut(12),
			ports(aes3Port, "D1", "D2"), ports(ethernetPort, "N1", "N2"), ports(multiPort, "M"), clocked("follows")),
		device("amplifier-rack-24", Loudspeakers, "Amplifier rack 24 out", lineIn(24), speakerOut(24),
			ports(aes3Port, "D1", "D2", "D3", "D4"), ports(ethernetPort, "N1", "N2"), ports(multiPort, "M"), clocked("follows")),
		device("powered-loudspeaker", Loudspeakers, "Powered loudspeaker", lineIn(1), ports(aes3Port, "D1", "D2"), ports(ethernetPort, "N1", "N2"), clocked("follows")),
	}
}

func radio() []DeviceKind {
	return []DeviceKind{
		device("rf-rack-8", Radio, "RF rack, 8 ways", lineOut(8), ports(multiPort, "M"), ports(fastPort, "N1"), ports(aes3Port, "D1", "D2"), ports(aerialPort, "ANT1", "ANT2"), clocked("follows")),
		device("rf-rack-16", Radio, "RF rack, 16 ways", lineOut(16), ports(multiPort, "M"), ports(ethernetPort, "N1", "N2"), ports(aes3Port, "D1", "D2"), ports(aerialPort, "ANT1", "ANT2"), clocked("follows")),
		device("rf-antenna", Radio, "RF antenna", ports(aerialPort, "ANT")),
		device("in-ear-rack-8", Radio, "In-ear rack, 8 mixes", lineIn(16), ports(multiPort, "M"), ports(fastPort, "N1")),
	}
}

func intercom() []DeviceKind {
	return []DeviceKind{
		device("intercom-main-4", Intercom, "Intercom main, 4 channels", ports(talkPort, numbered("IC", 1, 4)...), ports(ethernetPort, "N1")),
		device("intercom-base", Intercom, "Intercom beltpack base", ports(poweredPort, "N1")),
		device("intercom-beltpack", Intercom, "Intercom beltpack", ports(talkPort, "IC1", "IC2")),
	}
}

func broadcast() []DeviceKind {
	return []DeviceKind{
		device("broadcast-van", Broadcast, "Broadcast van", lineIn(16),
			ports(fibrePort, numbered("F", 1, 4)...), ports(ethernetPort, "N1", "N2"), ports(videoPort, "V1", "V2"),
			ports(multiPort, "M"), ports(talkPort, "IC"), clocked("own"), channels(64), ways("M", "in", 1, 16)),
		device("broadcast-feed-8", Broadcast, "Broadcast feed 8 out", lineIn(8), lineOut(8),
			ports(multiPort, "M"), ports(aes3Port, "D1", "D2"), passive, splitter("isolated"), ways("M", "in", 1, 8),
			note("Isolated by transformers: the van has its own supply.")),
		device("camera", Broadcast, "Stage camera", ports(videoPort, "V"), ports(talkPort, "IC")),
		device("video-screen", Broadcast, "Video screen", ports(videoPort, "V1", "V2")),
	}
}
