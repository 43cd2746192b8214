package fields_test

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

// inUnits runs a test in metres and °C, and in feet and °F.
func inUnits(t *testing.T, test func(t *testing.T, units words.Units)) {
	t.Run("metres", func(t *testing.T) { test(t, words.Units{}) })
	t.Run("feet", func(t *testing.T) {
		test(t, words.Units{Length: quantity.Imperial, Temperature: quantity.Imperial})
	})
}

// rowsOf yields the rows of a table that has fields, with their keys.
func rowsOf(p *plan.Plan, table string) (keys []plan.Key, rows []any) {
	if table == fields.Settings {
		return []plan.Key{""}, []any{p.Settings}
	}
	info, _ := plan.TableNamed(table)
	for row := range info.Rows(p) {
		keys, rows = append(keys, info.KeyOf(row)), append(rows, row)
	}
	return keys, rows
}

// everything is the demo plan with a row of each table that it lacks.
var everything = sync.OnceValue(func() *plan.Plan {
	p, err := plan.Do(demo.Weekender(), plan.NewIDSource(2, 2), func(e *plan.Edit) error {
		kind, _ := e.Now().CableKinds.Get("cat6a")
		kind.ID, kind.Name, kind.Own = "cat6a-ours", "Cat 6A of ours", true
		plan.Put(e, kind)
		plan.Put(e, plan.Kind{ID: "box-ours", Name: "Box of ours", Group: "Stage boxes", Inputs: 8, Own: true})
		plan.Put(e, plan.KindSocket{Kind: "box-ours", Direction: "in", First: 1, Count: 8, Use: "line"})
		e.AddHouseLine(plan.HouseLine{Name: "H01", Kind: kind.ID, Length: 45, Condition: plan.Suspect, Reason: "bent pin"})
		device := e.Now().Devices.At(0)
		device.Unplaced = true
		plan.Put(e, device)
		_, err := e.AddSpare(e.Now().Links.At(0).ID)
		return err
	})
	if err != nil {
		panic(err)
	}
	return p
})

// enough rows of a table are tested in each field.
const enough = 12

// eachField runs a test for each field of rows of the demo plan to which it applies.
func eachField(t *testing.T, units words.Units, test func(s fields.State, f *fields.Field, key plan.Key, row any)) {
	s := fields.On(everything(), nil, units)
	p := s.Plan
	for _, table := range fields.Tables() {
		keys, rows := rowsOf(p, table)
		for _, f := range fields.All(table) {
			tested := 0
			for i, row := range rows {
				if f.Applies(s, row) && tested < enough {
					tested++
					test(s, f, keys[i], row)
				}
			}
		}
	}
}

func TestEveryFieldIsDescribedOnce(t *testing.T) {
	for _, table := range fields.Tables() {
		ids, names := map[string]bool{}, map[string]bool{}
		for _, f := range fields.All(table) {
			require.Equal(t, table, f.Table)
			require.False(t, ids[f.ID] || names[f.Name], "%s: %s is there twice", table, f.ID)
			ids[f.ID], names[f.Name] = true, true
			require.NotEmpty(t, f.Name)
			require.True(t, strings.HasSuffix(f.Help, "."), "%s: the help of %s is a sentence's end", table, f.ID)
			require.Same(t, f, fields.Of(table, f.ID))
		}
	}
}

// whatItIsLike is why what a kind of cable is made of is not edited.
const whatItIsLike = "of the kind that an own one is made like"

// notEdited says of columns without a field why they have none.
var notEdited = map[string]string{
	"links.id": "an identity", "links.from": "the ends are dragged", "links.from_port": "the ends are dragged",
	"links.to": "the ends are dragged", "links.to_port": "the ends are dragged", "links.way": "drawn on the plan",
	"links.typed_way_m": "in typed", "links.typed_by": "in typed", "links.typed_doubtful": "in typed",
	"links.partner": "in partner", "links.role": "in role", "links.moved_since": "said by plan",
	"segments.link": "an identity", "segments.order": "an identity", "segments.house_line": "in reel",
	"reels.id": "an identity", "reels.house_taking": "said by the house's stock",
	"reels.house_reel": "said by the house's stock", "reels.house_lacks": "said by the house's stock", "reels.house_lacks_why": "said by the house's stock",
	"settings.identity": "an identity",
	"cases.id":          "an identity", "house_lines.id": "an identity", "devices.id": "an identity", "devices.unplaced": "in x and y", "positions.unplaced": "in x and y",
	"positions.id": "an identity", "areas.id": "an identity", "looms.id": "an identity", "levels.id": "an identity",
	"contacts.id": "an identity", "inputs.id": "an identity", "outputs.id": "an identity", "acts.id": "an identity",
	"settings.standards": "said by plan",
	"kinds.id":           "an identity", "kinds.own": "an identity", "kinds.group": whatItIsLike, "kinds.channels": whatItIsLike, "kinds.passive": whatItIsLike,
	"kinds.splitter": whatItIsLike, "kinds.latency_ms": whatItIsLike, "kinds.clock": whatItIsLike, "kinds.power_W": whatItIsLike, "kinds.note": whatItIsLike,
	"cable_kinds.id": "an identity", "cable_kinds.own": "an identity",
	"cable_kinds.media": whatItIsLike, "cable_kinds.category": whatItIsLike, "cable_kinds.gauge_AWG": whatItIsLike,
	"cable_kinds.solid": whatItIsLike, "cable_kinds.screened": whatItIsLike, "cable_kinds.allowance_50_percent": whatItIsLike,
	"cable_kinds.pairs": whatItIsLike, "cable_kinds.ways": whatItIsLike, "cable_kinds.connector": whatItIsLike,
	"cable_kinds.hardware": whatItIsLike,
}

func TestEveryColumnHasAFieldOrAReason(t *testing.T) {
	source := map[string]bool{}
	for _, table := range fields.Tables() {
		for _, f := range fields.All(table) {
			if name := f.Column(); name != "" {
				source[table+"."+name] = true
			}
		}
		columns := plan.SettingsColumns()
		if info, found := plan.TableNamed(table); found {
			columns = info.Columns()
		}
		for _, column := range columns {
			name := table + "." + column.Name()
			if notEdited[name] == "" {
				require.True(t, source[name], "%s has neither a field nor a reason why not", name)
			}
		}
	}
}

func TestAFieldReadsBackWhatItSays(t *testing.T) {
	inUnits(t, func(t *testing.T, units words.Units) {
		eachField(t, units, func(s fields.State, f *fields.Field, key plan.Key, row any) {
			text := f.Text(s, row)
			after, err := plan.Do(s.Plan, plan.NewIDSource(1, 1), func(e *plan.Edit) error { return f.Type(e, units, key, text) })
			require.NoError(t, err, "%s.%s: %q", f.Table, f.ID, text)
			require.True(t, plan.Between(s.Plan, after).Empty(), "%s.%s: %q", f.Table, f.ID, text)
			if text == "" {
				require.Empty(t, f.Value(s, row), "%s.%s", f.Table, f.ID)
			}
		})
	})
}

// ids are what no message may hold.
var ids = regexp.MustCompile(`\b[a-z]-[2-9a-z]{5}\b`)

// spoilt are texts that a field must refuse: figures out of its bounds, words that are not in its list, a blank where
// something is needed, letters where a figure is needed, more than is kept.
func spoilt(s fields.State, f *fields.Field, row any) (texts []string) {
	switch f.Kind {
	case fields.Figure:
		texts = append(texts, "x", "99999999", "-99999999")
	case fields.Choice, fields.Tick:
		if f.ID != "case" {
			texts = append(texts, "none such")
		}
	case fields.Words, fields.Note:
		texts = append(texts, strings.Repeat("x", 4001), "bell\arings")
		if f.Needed() {
			texts = append(texts, "", "   ")
		}
	}
	return texts
}

func TestAFieldRefusesWhatThePlanRefusesInWords(t *testing.T) {
	inUnits(t, func(t *testing.T, units words.Units) {
		seen := map[string]int{}
		eachField(t, units, func(s fields.State, f *fields.Field, key plan.Key, row any) {
			if seen[f.Table+f.ID]++; seen[f.Table+f.ID] > 3 {
				return
			}
			for _, text := range spoilt(s, f, row) {
				_, err := plan.Do(s.Plan, plan.NewIDSource(1, 1), func(e *plan.Edit) error { return f.Type(e, units, key, text) })
				require.Error(t, err, "%s.%s takes %.20q", f.Table, f.ID, text)
				require.NotRegexp(t, ids, err.Error(), "%s.%s", f.Table, f.ID)
				require.Less(t, len(err.Error()), 400, "what is quoted is clipped")
			}
		})
	})
}

// Every entry of every list can be chosen and is what stands there then, typed by its words or put by its value; what
// plan's edits refuse, they refuse in words.
func TestEveryOptionCanBeChosen(t *testing.T) {
	chosen := map[string]int{}
	eachField(t, words.Units{}, func(s fields.State, f *fields.Field, key plan.Key, row any) {
		options := f.Options(s, row)
		if chosen[f.Table+f.ID] > 60 {
			return
		}
		for i, option := range options {
			if i > 12 {
				break
			}
			put, errPut := plan.Do(s.Plan, plan.NewIDSource(1, 1), func(e *plan.Edit) error { return f.Put(e, s.Units, key, option.Value) })
			typed, errTyped := plan.Do(s.Plan, plan.NewIDSource(1, 1), func(e *plan.Edit) error { return f.Type(e, s.Units, key, option.Words) })
			require.Equal(t, fmt.Sprint(errPut), fmt.Sprint(errTyped), "%s.%s: %q", f.Table, f.ID, option.Words)
			if errPut != nil {
				require.NotRegexp(t, ids, errPut.Error())
				continue
			}
			chosen[f.Table+f.ID]++
			require.True(t, plan.Between(put, typed).Empty(), "%s.%s: %q", f.Table, f.ID, option.Words)
			if now, found := f.Row(put, key); found && !ofSeveral(row) {
				require.Equal(t, option.Value, f.Value(fields.On(put, nil, s.Units), now), "%s.%s: %q", f.Table, f.ID, option.Words)
			}
		}
	})
	for _, table := range fields.Tables() {
		for _, f := range fields.All(table) {
			if _, rows := rowsOf(everything(), table); f.Kind == fields.Choice && len(rows) > 0 && f.ID != "stands_for" && !slices.Contains([]string{"segments.kind"}, table+"."+f.ID) {
				require.Positive(t, chosen[table+f.ID], "nothing of %s.%s can be chosen", table, f.ID)
			}
		}
	}
}

// ofSeveral reports whether a reel's row stands for several, of which one is marked in a row of its own.
func ofSeveral(row any) bool {
	reel, is := row.(plan.Reel)
	return is && reel.Count() > 1
}

func TestAFigureKeepsTheDigitsThatAreNotShown(t *testing.T) {
	p := demo.Weekender()
	link := p.Links.At(0)
	p, err := plan.Do(p, nil, func(e *plan.Edit) error {
		return plan.Update(e, link.Key(), func(r *plan.Link) { r.RiseFrom = 3.333 })
	})
	require.NoError(t, err)
	inUnits(t, func(t *testing.T, units words.Units) {
		rise := fields.Of("links", "rise_from")
		row, _ := rise.Row(p, link.Key())
		after, err := plan.Do(p, nil, func(e *plan.Edit) error {
			return rise.Type(e, units, link.Key(), rise.Text(fields.On(p, nil, units), row))
		})
		require.NoError(t, err)
		require.True(t, reflect.DeepEqual(p.Links, after.Links))
	})
}
