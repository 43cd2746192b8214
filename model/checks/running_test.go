package checks_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/checks"
	"stageloom/model/plan"
)

// acts adds acts with their stage, start and end in order.
func acts(e *plan.Edit, rows ...[4]string) {
	for i, row := range rows {
		e.AddAct(plan.Act{Name: row[0], Order: i + 1, Stage: row[1], Start: row[2], End: row[3]})
	}
}

func TestActTimes(t *testing.T) {
	check(t, []breach{
		{
			"no time of day", "act-times", checks.Warn, `Brass starts at "25:99", which is no time of day`,
			func(r *rig, e *plan.Edit) { acts(e, [4]string{"Brass", "Main", "25:99", "21:00"}) },
		},
		{
			"a name in the place of a time", "act-times", checks.Warn, `Brass ends at "Mill Choir", which is no time of day`,
			func(r *rig, e *plan.Edit) { acts(e, [4]string{"Brass", "Main", "20:00", "Mill Choir"}) },
		},
		{
			"a line check at no time of day", "act-times", checks.Warn, `Brass has its line check at "after lunch", which is no time of day: its inputs have no times`,
			func(r *rig, e *plan.Edit) {
				e.AddAct(plan.Act{Name: "Brass", Order: 1, CheckStart: "after lunch"})
				e.AddAct(plan.Act{Name: "Choir", Order: 2, CheckStart: "16.20"})
			},
		},
		{
			"an end before its start", "act-times", checks.Warn, "Brass ends at 19:00, before it starts at 20:00",
			func(r *rig, e *plan.Edit) { acts(e, [4]string{"Brass", "Main", "20:00", "19:00"}) },
		},
		{
			"two acts at once", "act-times", checks.Warn, "Choir (20:30 to 21:30) begins before Brass (20:00 to 21:00) is over on main ",
			func(r *rig, e *plan.Edit) {
				acts(e, [4]string{"Brass", "Main", "20:00", "21:00"}, [4]string{"Choir", "main ", "20:30", "21:30"})
			},
		},
		{
			"two acts at once past midnight", "act-times", checks.Warn, "Choir (0:15 to 1:00) begins before Brass (23:30 to 00:30) is over",
			func(r *rig, e *plan.Edit) {
				acts(e, [4]string{"Brass", "", "23:30", "00:30"}, [4]string{"Choir", "", "0:15", "1:00"})
			},
		},
		{
			"the later one first in the list", "act-times", checks.Warn, "Choir (19:30 to 20:30) begins before Brass (20:00 to 21:00) is over on Main",
			func(r *rig, e *plan.Edit) {
				acts(e, [4]string{"Brass", "Main", "20:00", "21:00"}, [4]string{"Choir", "Main", "19:30", "20:30"})
			},
		},
		{
			"the later one first, and neither meets the other", "act-times", checks.Warn, "Choir (18:00 to 19:00) begins before Brass (20:00 to 21:00), which the list has before it on Main",
			func(r *rig, e *plan.Edit) {
				acts(e, [4]string{"Brass", "Main", "20:00", "21:00"}, [4]string{"Choir", "Main", "18:00", "19:00"})
			},
		},
		{
			"the later one first, and no end is said", "act-times", checks.Warn, "Choir (from 18:00) begins before Brass (from 20:00), which the list has before it",
			func(r *rig, e *plan.Edit) {
				acts(e, [4]string{"Brass", "", "20:00", ""}, [4]string{"Choir", "", "18:00", ""})
			},
		},
		{
			"one begins within another, and its end is not said", "act-times", checks.Warn, "Choir (from 20:30) begins before Brass (20:00 to 21:00) is over",
			func(r *rig, e *plan.Edit) {
				acts(e, [4]string{"Brass", "", "20:00", "21:00"}, [4]string{"Choir", "", "20:30", ""})
			},
		},
	})
	t.Run("one order that is wrong is told once, and what follows is right", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			acts(
				e, [4]string{"Brass", "Main", "18:00", "19:00"}, [4]string{"Choir", "Main", "21:00", "22:00"}, [4]string{"Strings", "Main", "19:30", "20:30"},
				[4]string{"Late", "Main", "22:30", "23:30"},
			)
		})
		require.Len(t, said(r, "act-times"), 1)
	})
	t.Run("two days, two stages, a set past midnight and acts without times are right", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			acts(
				e, [4]string{"Brass", "Main", "20:00", "21:00"}, [4]string{"Choir", "Mill", "20:30", "21:30"}, [4]string{"Late", "Main", "23:00", "2:00"},
				[4]string{"Next day", "Main", "14:00", "15:00"}, [4]string{"Evening", "Main", "15:00", "24:00"}, [4]string{"Whenever", "Main", "", ""},
			)
		})
		require.Empty(t, r.find())
	})
}

func TestDates(t *testing.T) {
	dated := func(text string) []string {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			settings := r.Settings
			settings.Date = text
			e.SetSettings(settings)
		})
		return said(r, "date")
	}
	require.Equal(t, []string{`The plan is dated "2027-99-99", and there is no such day`}, dated("2027-99-99"))
	require.Equal(t, []string{`The plan is dated "2027-06-31", and there is no such day`}, dated("2027-06-19 to 2027-06-31"))
	for _, fine := range []string{"", "2027-06-19", "19 June 2027", "midsummer"} {
		require.Empty(t, dated(fine))
	}
}

func TestTheDaysOfTheStockAreInOrder(t *testing.T) {
	days := func(out, back string) []string {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			settings := r.Settings
			settings.OutOn, settings.BackOn = out, back
			e.SetSettings(settings)
		})
		return said(r, "date")
	}
	require.Equal(t, []string{`The stock leaves on "2027-06-22", after it is back on "2027-06-18"`}, days("2027-06-22", "2027-06-18"))
	require.Equal(t, []string{`The stock leaves on "2027-6-10", after it is back on "2027-06-09"`}, days("2027-6-10", "2027-06-09"))
	require.Equal(t, []string{`The stock is back on "2027-02-30", and there is no such day`}, days("2027-02-20", "2027-02-30"))
	for _, fine := range [][2]string{{"", ""}, {"2027-06-22", "2027-06-22"}, {"2027-06-22", ""}, {"", "2027-06-18"}, {"2027-06-22", "Monday"}} {
		require.Empty(t, days(fine[0], fine[1]))
	}
}

func TestDatesOfStockHouseLinesAndRevisions(t *testing.T) {
	check(t, []breach{
		{
			"a return", "date", checks.Warn, `reel 6A-01 is to be back by "2027-99-99", and there is no such day`,
			func(r *rig, e *plan.Edit) { setReel(e, func(r *plan.Reel) { r.Return = "2027-99-99, noon" }) },
		},
		{
			"the day a reel was found bad", "date", checks.Warn, `reel 6A-01 was found bad on "2027-02-30", and there is no such day`,
			func(r *rig, e *plan.Edit) { setReel(e, func(r *plan.Reel) { r.FoundOn = "2027-02-30" }) },
		},
		{
			"the day a house line was found bad", "date", checks.Warn, `house line H1 was found bad on "2027-13-01", and there is no such day`,
			func(r *rig, e *plan.Edit) {
				must(plan.Update(e, "h-22222", func(l *plan.HouseLine) { l.FoundOn = "2027-13-01" }))
			},
		},
		{
			"an issue", "date", checks.Warn, `revision A was issued on "2027-99-99", and there is no such day`,
			func(r *rig, e *plan.Edit) {
				plan.Put(e, plan.Revision{Number: 1, Letter: "A", Date: "2027-99-99", Changes: "{}"})
			},
		},
		{
			"four returns of one hire", "date", checks.Warn,
			`4 dates name a day that is not: reel 6A-01 back by "2027-99-99", reel 6A-02 back by "2027-99-99", reel 6A-03 back by "2027-99-99", reel 6A-04 back by "2027-99-99"`,
			func(r *rig, e *plan.Edit) {
				setReel(e, func(r *plan.Reel) { r.Return = "2027-99-99" })
				for i, id := range []plan.ReelID{"r-33333", "r-44444", "r-55555"} {
					plan.Put(e, plan.Reel{ID: id, Tag: fmt.Sprintf("6A-%02d", i+2), Kind: "cat6a-own", Length: 60, Return: "2027-99-99"})
				}
			},
		},
	})
	r := newRig(t)
	r.do(t, func(e *plan.Edit) {
		setReel(e, func(r *plan.Reel) { r.Return, r.FoundOn = "2027-06-22", "Saturday" })
		plan.Put(e, plan.Revision{Number: 1, Letter: "A", Date: "2028-02-29", Changes: "{}"})
	})
	require.Empty(t, said(r, "date"))
}

func TestUnknownNames(t *testing.T) {
	check(t, []breach{
		{
			"a limit rule", "unknown-name", checks.Warn, `L01 names the limit rule "own-rule", which is not known here: it is graded by the field rule for AES50, 25 dB at 100 MHz`,
			func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.Rule = "own-rule" }) },
		},
		{
			"a panel", "unknown-name", checks.Warn, `L01 names the panel "gold", which is not known here: it counts as Cat 5e hardware`,
			func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.ToPanel = "gold" }) },
		},
		{
			"a coupler", "unknown-name", checks.Warn, `L02 names the coupler "gold", which is not known here: it counts as Cat 5e hardware`,
			func(r *rig, e *plan.Edit) {
				joined := of("cat6a-own", 40, 40)
				joined[1].Coupler = "gold"
				e.SetSegments(r.backup, joined)
				set(e, r.backup, func(l *plan.Link) { l.FillKind = "cat6a-own" })
			},
		},
		{
			"a cable's plugs", "unknown-name", checks.Warn, `Cat 7 has plugs of "gold", which is not known here: it counts as Cat 5e hardware`,
			func(r *rig, e *plan.Edit) { setKind(e, "cat7", func(k *plan.CableKind) { k.Hardware = "gold" }) },
		},
	})
	t.Run("the plan's own", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			settings := r.Settings
			settings.Coupler = "gold"
			e.SetSettings(settings)
			plan.Put(e, plan.TransportRule{Transport: "aes50", Rule: "own-rule"})
		})
		require.Equal(t, []string{
			`The plan's coupler is "gold", which is not known here: it counts as Cat 5e hardware`,
			`The plan's limit rule for AES50 is "own-rule", which is not known here: the usual one grades it`,
		}, said(r, "unknown-name"))
	})
	t.Run("a long one is clipped", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) { acts(e, [4]string{"Brass", "", fmt.Sprintf("%0150d", 1), ""}) })
		require.Len(t, said(r, "act-times"), 1)
		require.Less(t, len(said(r, "act-times")[0]), 120)
	})
}

func TestClock(t *testing.T) {
	joined := func(e *plan.Edit, near, far plan.KindID) (plan.DeviceID, plan.DeviceID) {
		must(catalogue.Use(e, near))
		must(catalogue.Use(e, far))
		one := e.AddDevice(plan.Device{Name: "One", Kind: near, X: 50})
		two := e.AddDevice(plan.Device{Name: "Two", Kind: far, X: 60})
		e.SetSegments(e.AddLink(plan.Link{Transport: "aes50", From: one, FromPort: "AES50 1", To: two, ToPort: "AES50 1"}), of("cat6a-own", 30))
		return one, two
	}
	check(t, []breach{
		{
			"two boxes that only follow", "clock", checks.Warn, "nobody leads the clock: One, Two can only follow",
			func(r *rig, e *plan.Edit) { joined(e, "stagebox-24-12", "stagebox-40-20") },
		},
		{
			"two consoles", "clock", checks.Note, "One, Two are joined by digital audio, and each can lead the clock",
			func(r *rig, e *plan.Edit) { joined(e, "console-72", "console-40") },
		},
	})
	t.Run("AES3 brings its clock from its first end to its other", func(t *testing.T) {
		fed := func(from, to plan.KindID) []string {
			r := newRig(t)
			r.do(t, func(e *plan.Edit) {
				must(catalogue.Use(e, from))
				must(catalogue.Use(e, to))
				one := e.AddDevice(plan.Device{Name: "One", Kind: from, X: 50})
				two := e.AddDevice(plan.Device{Name: "Two", Kind: to, X: 60})
				e.SetSegments(e.AddLink(plan.Link{Name: "D9", Transport: "aes3", From: one, FromPort: "D1", To: two, ToPort: "D1"}), of("audio-pair", 30))
			})
			return said(r, "clock")
		}
		require.Empty(t, fed("processor-10-20", "amplifier-rack-8"), "what can only follow follows what it receives")
		require.Equal(t, []string{"nobody leads the clock: One, Two can only follow"}, fed("amplifier-rack-8", "processor-6-12"))
		require.Equal(t, []string{"nobody leads the clock: One can only follow"}, fed("processor-6-12", "processor-10-20"), "no clock comes back")
		require.Equal(t, []string{"D9 brings the clock of One to Two, which has one of its own"}, fed("processor-10-20", "console-40"))
	})
	t.Run("a network may bring the clock that AES3 goes on with", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			must(catalogue.Use(e, "amplifier-rack-8"))
			amplifier := e.AddDevice(plan.Device{Name: "Amplifier", Kind: "amplifier-rack-8", X: 60})
			e.RemoveLinks(r.pair)
			e.SetSegments(e.AddLink(plan.Link{Transport: "aes3", From: r.screen, FromPort: "D2", To: amplifier, ToPort: "D1"}), of("audio-pair", 130))
		})
		require.Empty(t, said(r, "clock"))
	})
	t.Run("a clock goes on from AES3 to AES50", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			one, _ := joined(e, "stagebox-24-12", "stagebox-40-20")
			must(catalogue.Use(e, "processor-10-20"))
			leader := e.AddDevice(plan.Device{Name: "Leader", Kind: "processor-10-20", X: 70})
			plan.Put(e, plan.KindPort{Kind: "stagebox-24-12", Name: "D1", Transport: "aes3", Connector: "XLR"})
			e.SetSegments(e.AddLink(plan.Link{Transport: "aes3", From: leader, FromPort: "D1", To: one, ToPort: "D1"}), of("audio-pair", 30))
		})
		require.Empty(t, said(r, "clock"))
	})
	t.Run("a leader may be behind fibre, and a device of unknown clock may lead", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			must(catalogue.Use(e, "aes50-converter"))
			near, far := optics(r)
			for _, id := range []plan.DeviceID{near, far} {
				setDevice(e, id, func(d *plan.Device) { d.Kind = "aes50-converter" })
			}
			must(catalogue.Use(e, "stagebox-24-12"))
			box := e.AddDevice(plan.Device{Name: "Far box", Kind: "stagebox-24-12", X: 6, Y: 50})
			e.SetSegments(e.AddLink(plan.Link{Transport: "aes50", From: r.foh, FromPort: "AES50 3", To: near, ToPort: "AES50"}), of("cat6a-own", 30))
			e.SetSegments(e.AddLink(plan.Link{Transport: "aes50", From: far, FromPort: "AES50", To: box, ToPort: "AES50 1"}), of("cat6a-own", 30))
		})
		require.Empty(t, said(r, "clock"))
		r.do(t, func(e *plan.Edit) {
			joined(e, "stagebox-24-12", "stagebox-40-20")
			must(plan.Update(e, "stagebox-40-20", func(k *plan.Kind) { k.Clock = "" }))
		})
		require.Empty(t, said(r, "clock"))
	})
}
