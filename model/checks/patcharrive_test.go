package checks_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/checks"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// narrow gives a multicore so many ways.
func narrow(e *plan.Edit, link plan.LinkID, ways int) {
	plan.Put(e, plan.CableKind{ID: "multi-n", Name: "Narrow", Media: "analogue-multicore", Ways: ways})
	e.SetSegments(link, []plan.Segment{{Kind: "multi-n", Length: 5}})
}

func (s *show) listen(e *plan.Edit, act plan.ActID, console string, channel int, device string, socket int) {
	plan.Put(e, plan.ConsolePatch{Act: act, Console: s.devices[console], Channel: channel, Device: s.devices[device], Socket: socket})
}

// fed is the show with inputs on sockets 5 to 16 of the splitter too, all of them on both consoles.
func fed(t *testing.T) *show {
	s := newShow(t)
	s.do(t, func(e *plan.Edit) {
		for number := 5; number <= 16; number++ {
			id := plan.InputID("i-3333" + plan.Signs[number:number+1])
			plan.Put(e, plan.Input{ID: id, Number: number, Name: "In " + string(plan.Signs[number])})
			must(patch.Plug(e, "", id, s.at("Split", number), false))
			must(patch.SetChannel(e, "", id, s.devices["FOH"], number))
			must(patch.SetChannel(e, "", id, s.devices["Mon"], number))
		}
	})
	require.Empty(t, s.found())
	return s
}

func arrivals() []fault {
	return []fault{
		{
			"a leg of a splitter without its multicore", func(s *show, e *plan.Edit) { e.RemoveLinks(s.links["M02"]) },
			slices.Concat(
				toldIn(second, "no-arrival", checks.Stop, "Guest 1 gets nothing in Strings: MR M1 joins nothing, and Kick on Split waits for it"),
				always(told("no-arrival", checks.Stop, "Mon 1–16 get nothing in every act: MR M1 joins nothing, and Kick, Hat, Bass and 13 more on Split wait for it")),
			),
		},
		{
			"a leg of a splitter without its multicore, beside one that leads to the same box", func(s *show, e *plan.Edit) {
				e.RemoveLinks(s.links["M02"])
				e.AddLink(plan.Link{Name: "M05", Transport: "analogue-multicore", From: s.devices["Split"], FromPort: "B2", To: s.devices["MR"], ToPort: "M2"})
			},
			slices.Concat(
				toldIn(second, "no-arrival", checks.Stop, "Guest 1 gets nothing in Strings: Split B1 joins nothing, and MR M1 waits for it"),
				always(told("no-arrival", checks.Stop, "Mon 1–16 get nothing in every act: Split B1 joins nothing, and MR M1 waits for it")),
			),
		},
		{
			"a multicore of eight ways for sixteen inputs", func(s *show, e *plan.Edit) { narrow(e, s.links["M01"], 8) },
			always(told("no-arrival", checks.Stop, "FOH 9–16 get nothing in every act: M01 has 8 ways, too few for In c, In d, In f and 5 more")),
		},
		{"a multicore of sixteen ways for sixteen inputs", func(s *show, e *plan.Edit) { narrow(e, s.links["M01"], 16) }, nil},
		{
			"a socket that nothing is plugged in", func(s *show, e *plan.Edit) {
				for channel := 40; channel <= 42; channel++ {
					s.listen(e, "", "FOH", channel, "SL", channel-10)
				}
			},
			always(told("no-arrival", checks.Warn, "FOH 40–42 get nothing in every act: nothing is plugged into SL in 30–32")),
		},
		{
			"a socket that only one act plugs something in", func(s *show, e *plan.Edit) {
				s.listen(e, "", "FOH", 40, "SL", 30)
				plan.Put(e, plan.Input{ID: "i-99999", Number: 99, Name: "Harp", Act: second})
				plan.Put(e, plan.StagePatch{Act: second, Input: "i-99999", Device: s.devices["SL"], Socket: 30})
				must(patch.Connect(e, s.at("SL", 30), s.devices["FOH"]))
			}, nil,
		},
		{"an input that an act does without", func(s *show, e *plan.Edit) { patch.Strike(e, first, s.inputs["Kick"]) }, nil},
		{
			"an input moved without its channels", func(s *show, e *plan.Edit) {
				must(patch.Plug(e, first, s.inputs["Kick"], s.at("Split", 20), false))
			},
			toldIn(
				first, "no-arrival", checks.Stop,
				"FOH 1 gets nothing in Brass: nothing is plugged into SL in 1, and Kick is plugged elsewhere",
				"Mon 1 gets nothing in Brass: nothing is plugged into MR in 1, and Kick is plugged elsewhere",
			),
		},
		{
			"two acts of three with one fault", func(s *show, e *plan.Edit) {
				plan.Put(e, plan.Act{ID: "n-44444", Name: "Late", Order: 3, Stage: "Main"})
				for _, act := range []plan.ActID{first, "n-44444"} {
					s.listen(e, act, "FOH", 40, "SL", 30)
				}
			},
			[]checks.Finding{{
				Rule: "no-arrival", Severity: checks.Warn, Acts: []plan.ActID{first, "n-44444"},
				What: "FOH 40 gets nothing in Brass and Late: nothing is plugged into SL in 30",
			}},
		},
		{
			"a channel that the console has not", func(s *show, e *plan.Edit) { s.listen(e, "", "FOH", 1000, "SL", 3) },
			always(told("no-arrival", checks.Stop, "FOH 1000 is patched in every act, and FOH has 72 channels")),
		},
		{"the last channel of a console", func(s *show, e *plan.Edit) { s.listen(e, "", "FOH", 72, "SL", 3) }, nil},
		{
			"a box that is no console", func(s *show, e *plan.Edit) { s.listen(e, "", "MR", 1, "MR", 3) },
			always(slices.Concat(
				told("no-arrival", checks.Stop, "MR 1 is patched in every act, and MR has no channels"),
				told("two-owners", checks.Note, "MR: nobody owns the gain of Bass in every act, and Mon and MR have it"),
			)),
		},
		{
			"sockets that are not there", func(s *show, e *plan.Edit) {
				must(catalogue.Use(e, "sub-snake-12-4"))
				snake := e.AddDevice(plan.Device{Name: "Snake", Kind: "sub-snake-12-4"})
				plan.Put(e, plan.Input{ID: "i-99999", Number: 99, Name: "Harp", Act: second, Snake: snake, SnakeWay: 13})
				plan.Put(e, plan.StagePatch{Act: second, Input: "i-99999", Strike: true})
				plan.Put(e, plan.SlotPatch{Link: s.links["L01"], Direction: patch.Return, Slot: 30, Device: s.devices["SL"], Socket: 25, Output: true})
				plan.Put(e, plan.SocketOwner{Device: s.devices["MR"], Socket: 49, Gain: s.devices["Mon"]})
			},
			told(
				"no-socket", checks.Stop,
				"SL has no such sockets, and the patch uses them: SL out 25",
				"MR has no such sockets, and the patch uses them: MR in 49",
				"Snake has no such sockets, and the patch uses them: Snake in 13",
			),
		},
		{
			"slots that are not given out", func(s *show, e *plan.Edit) {
				for slot := 3; slot <= 5; slot++ {
					plan.Drop[plan.SlotPatch](e, plan.SlotPatch{Link: s.links["L01"], Direction: patch.Forward, Slot: slot}.Key())
				}
			},
			always(told("no-arrival", checks.Stop, "FOH 3–5 get nothing in every act: SL in 3–5 have no channel on L01")),
		},
		{
			"slots beyond what a link carries", func(s *show, e *plan.Edit) {
				must(catalogue.Use(e, "stage-rack-48-20"))
				rate(e, "96")
				s.listen(e, "", "FOH", 30, "SL", 30)
				plan.Put(e, plan.Input{ID: "i-99999", Number: 99, Name: "Harp"})
				plan.Put(e, plan.StagePatch{Input: "i-99999", Device: s.devices["SL"], Socket: 30})
			},
			slices.Concat(told(
				"slots-over", checks.Stop,
				"L01 carries 24 channels each way at 96 kHz, and 48 are assigned going out, up to channel 48; 1 input is dead: Harp",
				"L03 carries 24 channels each way at 96 kHz, and 48 are assigned going out, up to channel 48",
				"L04 carries 24 channels each way at 96 kHz, and 48 are assigned going out, up to channel 48",
			), always(told("no-arrival", checks.Stop, "FOH 30 gets nothing in every act: L01 carries 24 channels at 96 kHz, and SL in 30 lies beyond them"))),
		},
		{
			"a channel that listens to a splitter none of whose legs leads to it", func(s *show, e *plan.Edit) {
				s.listen(e, "", "FOH", 1, "Split", 1)
				e.RemoveLinks(s.links["M01"])
			},
			always(slices.Concat(
				told(
					"no-arrival", checks.Stop,
					"FOH 1 gets nothing in every act: Split A1 joins nothing, and nothing else leads from Split in 1 to FOH",
					"FOH 2–16 get nothing in every act: SL M1 joins nothing, and Hat, Bass, Keys and 12 more on Split wait for it",
				),
				told("phantom-blocked", checks.Stop, "Hat wants 48 V, and every split from it is isolated in every act"),
			)),
		},
		{
			"gain owned by an amplifier", func(s *show, e *plan.Edit) {
				must(catalogue.Use(e, "amplifier-rack-8"))
				amp := e.AddDevice(plan.Device{Name: "Amp", Kind: "amplifier-rack-8"})
				patch.Own(e, "", s.at("SL", 3), amp, amp)
				patch.Own(e, "", s.at("SL", 4), amp, amp)
				patch.Own(e, second, s.at("SL", 4), s.devices["FOH"], s.devices["FOH"])
			},
			[]checks.Finding{
				{
					Rule: "wrong-owner", Severity: checks.Warn, Acts: []plan.ActID{"", first},
					What: "SL in 3–4: gain and 48 V are owned by Amp in House and Brass, which is no console",
				},
				{
					Rule: "wrong-owner", Severity: checks.Warn, Acts: []plan.ActID{second},
					What: "SL in 3: gain and 48 V are owned by Amp in Strings, which is no console",
				},
			},
		},
		{
			"gain owned by a console that no link joins", func(s *show, e *plan.Edit) { patch.Own(e, "", s.at("SL", 3), s.devices["Mon"], "") },
			always(told("wrong-owner", checks.Warn, "SL in 3: gain is owned by Mon in every act, and no link joins the two")),
		},
		{
			"gain owned by a console at the box, by a guest and by the box itself", func(s *show, e *plan.Edit) {
				patch.Own(e, "", s.at("SL", 3), s.devices["FOH"], s.devices["FOH"])
				patch.Own(e, second, s.at("MR", 3), s.devices["Guest"], "")
				patch.Own(e, "", s.at("MR", 4), s.devices["MR"], "")
			}, nil,
		},
	}
}

func TestWhatDoesNotArriveIsToldAtItsChannel(t *testing.T) {
	for _, c := range arrivals() {
		t.Run(c.name, func(t *testing.T) {
			s := fed(t)
			s.do(t, func(e *plan.Edit) { c.edit(s, e) })
			got := s.found()
			for i := range got {
				require.NotEmpty(t, got[i].Remedy)
				for _, place := range got[i].Where {
					table, known := plan.TableNamed(place.Table)
					require.True(t, known && table.Has(s.Plan, place.Key), "it points to a row that is there: %v", place)
				}
				got[i].Remedy, got[i].Where = "", nil
			}
			require.Equal(t, c.want, got)
		})
	}
}
