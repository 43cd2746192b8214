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

// show is a sound patch: four inputs through a splitter to two racks and two consoles, in the house and two acts; the second
// act has a guest at a drop.
type show struct {
	*plan.Plan
	ids     *plan.IDSource
	devices map[string]plan.DeviceID
	links   map[string]plan.LinkID
	inputs  map[string]plan.InputID
}

const (
	first  = plan.ActID("n-22222")
	second = plan.ActID("n-33333")
)

func newShow(t *testing.T) *show {
	t.Helper()
	s := &show{
		Plan: plan.New("Show"), ids: plan.NewIDSource(2, 5),
		devices: map[string]plan.DeviceID{}, links: map[string]plan.LinkID{}, inputs: map[string]plan.InputID{},
	}
	s.do(t, func(e *plan.Edit) {
		for _, d := range [][2]string{
			{"Split", "splitter-48"},
			{"SL", "stage-rack-48-20"},
			{"MR", "stage-rack-48-20"},
			{"FOH", "console-72"},
			{"Mon", "console-56"},
			{"Guest", "console-40"},
			{"Drop", "drop-aes50"},
		} {
			must(catalogue.Use(e, plan.KindID(d[1])))
			s.devices[d[0]] = e.AddDevice(plan.Device{Name: d[0], Kind: plan.KindID(d[1])})
		}
		for _, l := range [][6]string{
			{"M01", "analogue-multicore", "Split", "A1", "SL", "M1"},
			{"M02", "analogue-multicore", "Split", "B1", "MR", "M1"},
			{"L01", "aes50", "SL", "AES50 1", "FOH", "AES50 1"},
			{"L02", "aes50", "SL", "AES50 2", "FOH", "AES50 2"},
			{"L03", "aes50", "MR", "AES50 1", "Mon", "AES50 1"},
			{"L04", "aes50", "MR", "AES50 2", "Drop", "BACK"},
		} {
			s.links[l[0]] = e.AddLink(plan.Link{Name: l[0], Transport: plan.TransportID(l[1]), From: s.devices[l[2]], FromPort: l[3], To: s.devices[l[4]], ToPort: l[5]})
		}
		must(e.Pair(s.links["L01"], s.links["L02"]))
		plan.Put(e, plan.Act{ID: first, Name: "Brass", Order: 1, Stage: "Main"})
		plan.Put(e, plan.Act{ID: second, Name: "Strings", Order: 2, Stage: "Main"})
		plan.Put(e, plan.ActConsole{Act: second, Console: s.devices["Guest"], Port: "AES50 1", Drop: s.devices["Drop"], DropPort: "GUEST"})
		plan.Put(e, plan.Output{ID: "o-22222", Number: 1, Name: "PA"})
		plan.Put(e, plan.Output{ID: "o-33333", Number: 2, Name: "Wedge"})
		for i, input := range []plan.Input{{Name: "Kick", Use: "mic"}, {Name: "Hat", Use: "mic", Phantom: true}, {Name: "Bass", Use: "DI"}, {Name: "Keys", Use: "line"}} {
			input.Number, input.ID = i+1, plan.InputID("i-2222"+plan.Signs[i:i+1])
			plan.Put(e, input)
			s.inputs[input.Name] = input.ID
			must(patch.Plug(e, "", input.ID, s.at("Split", i+1), false))
			must(patch.SetChannel(e, "", input.ID, s.devices["FOH"], i+1))
			must(patch.SetChannel(e, "", input.ID, s.devices["Mon"], i+1))
		}
		must(patch.SetOutput(e, "", "o-22222", s.devices["FOH"], s.at("SL", 1)))
		must(patch.SetOutput(e, "", "o-33333", s.devices["Mon"], s.at("MR", 1)))
		must(patch.SetChannel(e, second, s.inputs["Kick"], s.devices["Guest"], 1))
		patch.Own(e, "", s.at("MR", 1), s.devices["Mon"], "")
	})
	return s
}

func (s *show) do(t *testing.T, edit func(*plan.Edit)) {
	t.Helper()
	next, err := plan.Do(s.Plan, s.ids, func(e *plan.Edit) error { edit(e); return nil })
	require.NoError(t, err)
	s.Plan = next
}

func (s *show) at(device string, number int) patch.Socket {
	return patch.Socket{Device: s.devices[device], Number: number}
}

// found are the findings of the rules that look at the patch, and of cables used twice.
func (s *show) found() (found []checks.Finding) {
	subject := checks.NewSubject(s.Plan)
	for _, rule := range checks.Rules() {
		if rule.Patch || rule.ID == "cable-twice" || rule.ID == "phantom-missing" {
			found = append(found, rule.Find(subject)...)
		}
	}
	return found
}

func TestASoundPatchHasNoFinding(t *testing.T) {
	require.Empty(t, newShow(t).found())
}

// fault is one way to break a patch, and all that must be said of it.
type fault struct {
	name string
	edit func(*show, *plan.Edit)
	want []checks.Finding // rule, severity and words
}

func told(rule string, severity checks.Severity, sentences ...string) (want []checks.Finding) {
	for _, what := range sentences {
		want = append(want, checks.Finding{Rule: rule, Severity: severity, What: what})
	}
	return want
}

// always are the house and both acts.
func always(want []checks.Finding) []checks.Finding {
	for i := range want {
		want[i].Acts = []plan.ActID{"", first, second}
	}
	return want
}

// toldIn is told of one act.
func toldIn(act plan.ActID, rule string, severity checks.Severity, sentences ...string) []checks.Finding {
	want := told(rule, severity, sentences...)
	for i := range want {
		want[i].Acts = []plan.ActID{act}
	}
	return want
}

func TestPatch(t *testing.T) {
	for _, c := range faults() {
		t.Run(c.name, func(t *testing.T) {
			s := newShow(t)
			sound := s.Plan
			s.do(t, func(e *plan.Edit) { c.edit(s, e) })
			got := s.found()
			for i := range got {
				require.False(t, ruleNamed(t, got[i].Rule).Same(sound, s.Plan), "what the case changes is among what the rule reads")
				require.NotEmpty(t, got[i].Remedy)
				require.NotEmpty(t, got[i].Where)
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

func rate(e *plan.Edit, sampleRate string) {
	settings := e.Now().Settings
	settings.SampleRate = sampleRate
	e.SetSettings(settings)
}

func faults() []fault {
	return []fault{
		{
			"more slots than the link has", func(s *show, e *plan.Edit) { rate(e, "96") },
			told(
				"slots-over", checks.Stop,
				"L01 carries 24 channels each way at 96 kHz, and 48 are assigned going out, up to channel 48",
				"L03 carries 24 channels each way at 96 kHz, and 48 are assigned going out, up to channel 48",
				"L04 carries 24 channels each way at 96 kHz, and 48 are assigned going out, up to channel 48",
			),
		},
		{
			"main and backup join different devices", func(s *show, e *plan.Edit) {
				set(e, s.links["L02"], func(l *plan.Link) { l.To, l.ToPort = s.devices["Mon"], "AES50 2" })
			},
			told("pair-crossed", checks.Stop, "L01 and its backup L02 do not join the same two devices"),
		},
		{
			"main and backup crossed", func(s *show, e *plan.Edit) {
				set(e, s.links["L02"], func(l *plan.Link) { l.ToPort = "AES50 3" })
				set(e, s.links["L01"], func(l *plan.Link) { l.ToPort = "AES50 2" })
				set(e, s.links["L02"], func(l *plan.Link) { l.ToPort = "AES50 1" })
			},
			told("pair-crossed", checks.Warn, "L01 and its backup L02 are crossed: AES50 1 to AES50 2 beside AES50 2 to AES50 1"),
		},
		{
			"a socket that is not there", func(s *show, e *plan.Edit) {
				plan.Put(e, plan.ConsolePatch{Console: s.devices["FOH"], Channel: 40, Device: s.devices["SL"], Socket: 49})
			},
			always(told("no-arrival", checks.Stop, "FOH 40 gets nothing in every act: there is no SL in 49, SL has 48 inputs")),
		},
		{
			"two inputs on a socket", func(s *show, e *plan.Edit) {
				plan.Put(e, plan.StagePatch{Act: first, Input: s.inputs["Kick"], Device: s.devices["Split"], Socket: 2})
			},
			slices.Concat(
				toldIn(first, "double-patched", checks.Stop, "Split in 2 holds two inputs in Brass: Kick and Hat"),
				toldIn(
					first, "no-arrival", checks.Warn,
					"FOH 1 gets nothing in Brass: nothing is plugged into SL in 1",
					"Mon 1 gets nothing in Brass: nothing is plugged into MR in 1",
				),
			),
		},
		{
			"two inputs on a socket, one of them behind the splitter", func(s *show, e *plan.Edit) {
				plan.Put(e, plan.StagePatch{Act: first, Input: s.inputs["Kick"], Device: s.devices["SL"], Socket: 4})
			},
			slices.Concat(
				toldIn(first, "double-patched", checks.Stop, "SL in 4 holds two inputs in Brass: Kick and Keys"),
				toldIn(first, "no-arrival", checks.Warn, "FOH 1 gets nothing in Brass: nothing is plugged into SL in 1"),
				toldIn(first, "no-arrival", checks.Stop, "Mon 1 gets nothing in Brass: nothing is plugged into MR in 1, and Kick is plugged elsewhere"),
			),
		},
		{
			"an input plugged where a sub-snake comes in", func(s *show, e *plan.Edit) {
				must(catalogue.Use(e, "sub-snake-12-4"))
				snake := e.AddDevice(plan.Device{Name: "Snake", Kind: "sub-snake-12-4"})
				e.AddLink(plan.Link{Name: "M03", Transport: "analogue-multicore", From: snake, FromPort: "M", To: s.devices["Split"], ToPort: "IN1"})
				must(plan.Update(e, plan.Key(s.inputs["Bass"]), func(i *plan.Input) { i.Snake, i.SnakeWay = snake, 2 }))
				plan.Drop[plan.StagePatch](e, plan.StagePatch{Input: s.inputs["Bass"]}.Key())
				patch.ClearChannels(e, "", s.devices["FOH"], 3)
				patch.ClearChannels(e, "", s.devices["Mon"], 3)
			},
			always(told("double-patched", checks.Stop, "Split in 2 holds two inputs in every act: Hat and Bass")),
		},
		{
			"an input of an act on a channel of what it does without", func(s *show, e *plan.Edit) { s.left(e) },
			toldIn(first, "channel-left", checks.Warn, "Tuba comes up on FOH 3 and 37 in Brass: the house keeps FOH 3 for Bass, not used there"),
		},
		{
			"an output socket fed twice", func(s *show, e *plan.Edit) {
				plan.Put(e, plan.OutputPatch{Act: second, Output: "o-33333", Console: s.devices["FOH"], Device: s.devices["SL"], Socket: 1})
			},
			toldIn(second, "double-patched", checks.Stop, "SL out 1 is fed twice in Strings: by PA and Wedge"),
		},
		{
			"an input that reaches no console", func(s *show, e *plan.Edit) {
				patch.StrikeChannels(e, first, s.devices["FOH"], 4)
				patch.StrikeChannels(e, first, s.devices["Mon"], 4)
			},
			toldIn(first, "no-console", checks.Warn, "Split: Keys on it reaches no console in Brass"),
		},
		{
			"a channel without its slots", func(s *show, e *plan.Edit) { e.RemoveLinks(s.links["L03"]) },
			always(slices.Concat(
				told("no-arrival", checks.Stop, "Mon 1–4 get nothing in every act: no link that carries channels leads from MR to Mon"),
				told("no-console", checks.Stop, "Wedge does not get from Mon to MR out 1 in every act"),
				told("wrong-owner", checks.Warn, "MR in 1: gain is owned by Mon in every act, and no link joins the two"),
			)),
		},
		{
			"48 V switched behind an isolated output", func(s *show, e *plan.Edit) {
				patch.Own(e, "", s.at("MR", 2), "", s.devices["Mon"])
			},
			always(told("phantom-blocked", checks.Stop, "48 V for Hat is switched by Mon at MR in 2, behind an isolated output: it does not come through in every act")),
		},
		{
			"48 V with every way isolated", func(s *show, e *plan.Edit) { e.RemoveLinks(s.links["M01"]) },
			always(slices.Concat(
				told("no-arrival", checks.Stop, "FOH 1–4 get nothing in every act: SL M1 joins nothing, and Kick, Hat, Bass and 1 more on Split wait for it"),
				told("phantom-blocked", checks.Stop, "Hat wants 48 V, and every split from it is isolated in every act"),
			)),
		},
		{
			"48 V from a socket that has none", func(s *show, e *plan.Edit) {
				must(plan.Update(e, plan.KindSocket{Kind: "stage-rack-48-20", Direction: "in", First: 1}.Key(), func(r *plan.KindSocket) { r.Phantom = false }))
			},
			always(told("phantom-blocked", checks.Stop, "Hat wants 48 V, and SL in 2 has none in every act")),
		},
		{
			"48 V left on for a DI", func(s *show, e *plan.Edit) {
				must(patch.Swap(e, second, s.inputs["Hat"], s.inputs["Bass"], true))
			},
			toldIn(second, "phantom-left", checks.Warn, "SL in 2 had 48 V for Hat in Brass, and Bass (DI) comes on it in Strings"),
		},
		{
			"48 V with two owners", func(s *show, e *plan.Edit) {
				must(plan.Update(e, plan.PortKey("splitter-48", "B1"), func(r *plan.KindPort) { r.Splitter = "direct" }))
				patch.Own(e, "", s.at("SL", 2), "", s.devices["FOH"])
				patch.Own(e, "", s.at("MR", 2), "", s.devices["Mon"])
			},
			always(told("two-owners", checks.Warn, "48 V for Hat has two owners in every act: at SL in 2 and MR in 2")),
		},
		{
			"gain that two consoles have and nobody owns", func(s *show, e *plan.Edit) {
				must(patch.SetChannel(e, second, s.inputs["Hat"], s.devices["Guest"], 2))
			},
			toldIn(second, "two-owners", checks.Note, "MR: nobody owns the gain of Hat in Strings, and Guest and Mon have it"),
		},
		{
			"a guest in another act", func(s *show, e *plan.Edit) {
				plan.Put(e, plan.ConsolePatch{Act: first, Console: s.devices["Guest"], Channel: 3, Device: s.devices["MR"], Socket: 3})
				plan.Put(e, plan.OutputPatch{Act: first, Output: "o-22222", Console: s.devices["Guest"], Device: s.devices["SL"], Socket: 1})
				plan.Put(e, plan.SocketOwner{Act: first, Device: s.devices["MR"], Socket: 3, Gain: s.devices["Guest"]})
			},
			toldIn(
				first, "absent", checks.Warn,
				"Guest is patched and not there in Brass",
				"PA comes from Guest, which is not there in Brass",
				"MR in 3 is owned by Guest, which is not there in Brass",
			),
		},
		{
			"an input of another act", func(s *show, e *plan.Edit) {
				plan.Put(e, plan.Input{ID: "i-99999", Number: 9, Name: "Harp", Act: second})
				plan.Put(e, plan.StagePatch{Act: first, Input: "i-99999", Device: s.devices["SL"], Socket: 9})
			},
			toldIn(first, "absent", checks.Warn, "Harp is patched and an input of Strings alone in Brass"),
		},
		{
			"one cable in two links", func(s *show, e *plan.Edit) {
				plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
				for i, link := range []string{"L01", "L03"} {
					reel := plan.ReelID("r-2222" + plan.Signs[i:i+1])
					plan.Put(e, plan.Reel{ID: reel, Tag: "A07", Kind: "cat6a", Length: 50})
					e.SetSegments(s.links[link], []plan.Segment{{Reel: reel}})
				}
			},
			told("cable-twice", checks.Stop, "reel A07 is used twice: two cables bear this tag, in L01 and L03"),
		},
	}
}

func TestAPatchOfOneActNamesNoAct(t *testing.T) {
	s := newShow(t)
	s.do(t, func(e *plan.Edit) {
		for _, row := range []plan.Key{plan.ActConsole{Act: second, Console: s.devices["Guest"], Port: "AES50 1"}.Key()} {
			plan.Drop[plan.ActConsole](e, row)
		}
		patch.ClearChannels(e, second, s.devices["Guest"], 1)
		plan.Drop[plan.Act](e, plan.Key(first))
		plan.Drop[plan.Act](e, plan.Key(second))
		plan.Put(e, plan.StagePatch{Input: s.inputs["Kick"], Device: s.devices["Split"], Socket: 2})
	})
	found := ofRule(s.found(), "double-patched")
	require.Len(t, found, 1)
	require.Equal(t, "Split in 2 holds two inputs: Kick and Hat", found[0].What)
}
