package checks_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/checks"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// rig is a small sound plan: a main and a backup from Stage to FOH, a network link, a fibre, an audio pair.
type rig struct {
	*plan.Plan
	ids *plan.IDSource
	// devices
	stage, foh, foh2, screen plan.DeviceID
	// links
	main, backup, network, fibre, pair plan.LinkID
}

// newRig lays FOH 40 m from Stage. Nothing about it is worth a finding.
func newRig(t *testing.T) *rig {
	t.Helper()
	r := &rig{Plan: plan.New("Rig"), ids: plan.NewIDSource(8, 9)}
	r.do(t, func(e *plan.Edit) {
		settings := e.Now().Settings
		settings.SlackPercent, settings.SlackEnd = plan.Some(10), plan.Some(3)
		e.SetSettings(settings)
		for _, kind := range catalogue.CableKinds() {
			require.NoError(t, catalogue.UseCable(e, kind.ID))
		}
		lowLoss(t, e)
		for _, kind := range []plan.KindID{"stage-rack-48-20", "console-56", "switch-16", "switch-8", "media-converter", "processor-6-12"} {
			require.NoError(t, catalogue.Use(e, kind))
		}
		r.stage = e.AddDevice(plan.Device{Name: "Stage", Kind: "stage-rack-48-20"})
		r.foh = e.AddDevice(plan.Device{Name: "FOH", Kind: "console-56", Y: -40})
		r.foh2 = e.AddDevice(plan.Device{Name: "FOH network", Kind: "switch-16", X: 3, Y: -40})
		r.screen = e.AddDevice(plan.Device{Name: "Screen", Kind: "processor-6-12", X: 30, Y: -40})
		one := e.AddDevice(plan.Device{Name: "Converter 1", Kind: "media-converter", X: 6, Y: -40})
		two := e.AddDevice(plan.Device{Name: "Converter 2", Kind: "media-converter", X: 6, Y: 40})
		r.main = e.AddLink(plan.Link{Transport: "aes50", From: r.stage, FromPort: "AES50 1", To: r.foh, ToPort: "AES50 1", FillKind: "cat6a-own"})
		r.backup = e.AddLink(plan.Link{Transport: "aes50", From: r.stage, FromPort: "AES50 2", To: r.foh, ToPort: "AES50 2"})
		r.network = e.AddLink(plan.Link{Transport: "1000base-t", From: r.foh2, FromPort: "01", To: r.screen, ToPort: "N1"})
		r.fibre = e.AddLink(plan.Link{Transport: "fibre", From: one, FromPort: "F", To: two, ToPort: "F"})
		r.pair = e.AddLink(plan.Link{Transport: "aes3", From: r.foh, FromPort: "D1", To: r.screen, ToPort: "D1"})
		require.NoError(t, e.Pair(r.main, r.backup))
		require.NoError(t, e.Draw(r.backup, []geom.Point{{X: -20, Y: 0}, {X: -20, Y: -40}}))
		plan.Put(e, plan.Reel{ID: "r-22222", Tag: "6A-01", Kind: "cat6a-own", Length: 60})
		plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "H1", Kind: "cat6a-solid", Length: 40})
		e.SetSegments(r.main, []plan.Segment{{Reel: "r-22222"}})
		e.SetSegments(r.backup, of("cat6a-own", 100))
		e.SetSegments(r.network, of("cat6a-own", 45))
		e.SetSegments(r.fibre, of("fibre-multimode", 120))
		e.SetSegments(r.pair, of("audio-pair", 45))
	})
	return r
}

// lowLoss gives the low-loss kinds the figures that the sums of these tests are about.
func lowLoss(t *testing.T, e *plan.Edit) {
	t.Helper()
	for id, figure := range map[plan.CableKindID]float64{"cat6a-own": 18.5, "cat7-own": 18} {
		require.NoError(t, plan.Update(e, plan.Key(id), func(k *plan.CableKind) {
			name, _, _ := strings.Cut(k.Name, ",")
			k.Name, k.OwnFigure = fmt.Sprintf("%s, own figure %.1f", name, figure), plan.Some(figure)
		}))
	}
}

func of(kind plan.CableKindID, lengths ...float64) (segments []plan.Segment) {
	for _, length := range lengths {
		segments = append(segments, plan.Segment{Kind: kind, Length: length})
	}
	return segments
}

func (r *rig) do(t *testing.T, edit func(*plan.Edit)) {
	t.Helper()
	next, err := plan.Do(r.Plan, r.ids, func(e *plan.Edit) error { edit(e); return nil })
	require.NoError(t, err)
	r.Plan = next
}

func (r *rig) find() (found []checks.Finding) {
	subject := checks.NewSubject(r.Plan)
	for _, rule := range checks.Rules() {
		found = append(found, rule.Find(subject)...)
	}
	return found
}

func TestASoundPlanHasNoFinding(t *testing.T) {
	require.Empty(t, newRig(t).find())
}

// breach is one way to break one rule, and what must be said of it.
type breach struct {
	name, rule string
	severity   checks.Severity
	what       string
	edit       func(*rig, *plan.Edit)
}

// must stops a case that cannot even be set up.
func must(err error) {
	if err != nil {
		panic(err)
	}
}

func set(e *plan.Edit, id plan.LinkID, with func(*plan.Link)) {
	must(plan.Update(e, plan.Key(id), with))
}

func setKind(e *plan.Edit, id plan.CableKindID, with func(*plan.CableKind)) {
	must(plan.Update(e, plan.Key(id), with))
}

func setReel(e *plan.Edit, with func(*plan.Reel)) {
	must(plan.Update(e, "r-22222", with))
}

func setPort(e *plan.Edit, key plan.Key, with func(*plan.KindPort)) {
	must(plan.Update(e, key, with))
}

func setDevice(e *plan.Edit, id plan.DeviceID, with func(*plan.Device)) {
	must(plan.Update(e, plan.Key(id), with))
}

func area(e *plan.Edit, use string) { square(e, use, -1, -20, 1, -10) }

// square lays an area from corner to corner, one of each use.
func square(e *plan.Edit, use string, left, bottom, right, top float64) {
	id := plan.AreaID(map[string]string{"building": "a-33333"}[use])
	if id == "" {
		id = "a-22222"
	}
	plan.Put(e, plan.Area{ID: id, Name: "Strip", Use: use})
	for i, at := range []geom.Point{{X: left, Y: bottom}, {X: right, Y: bottom}, {X: right, Y: top}, {X: left, Y: top}} {
		plan.Put(e, plan.AreaPoint{Area: id, Order: i + 1, X: at.X, Y: at.Y})
	}
}

func ruleNamed(t *testing.T, id string) checks.Rule {
	t.Helper()
	for _, rule := range checks.Rules() {
		if rule.ID == id {
			return rule
		}
	}
	require.Fail(t, "there is no rule "+id)
	return checks.Rule{}
}

func check(t *testing.T, cases []breach) {
	for _, c := range cases {
		t.Run(c.rule+": "+c.name, func(t *testing.T) {
			r := newRig(t)
			sound := r.Plan
			r.do(t, func(e *plan.Edit) { c.edit(r, e) })
			require.False(t, ruleNamed(t, c.rule).Same(sound, r.Plan), "what the case changes is among what the rule reads")
			var said []string
			for _, finding := range r.find() {
				require.NotEmpty(t, finding.What)
				require.NotEmpty(t, finding.Remedy)
				require.NotEmpty(t, finding.Where)
				for _, place := range finding.Where {
					table, known := plan.TableNamed(place.Table)
					require.True(t, known && table.Has(r.Plan, place.Key), "it points to a row that is there: %v", place)
				}
				if finding.Rule == c.rule {
					require.Equal(t, c.severity, finding.Severity)
					said = append(said, finding.What)
				}
			}
			require.Equal(t, []string{c.what}, said)
		})
	}
}

func TestRulesNameWhatTheyRead(t *testing.T) {
	seen := map[string]bool{}
	for _, rule := range checks.Rules() {
		require.False(t, seen[rule.ID], rule.ID)
		seen[rule.ID] = true
		require.True(t, rule.Budgets || rule.Patch || rule.Plugs || len(rule.Reads) > 0, "%s reads something", rule.ID)
		for _, name := range rule.Reads {
			_, known := plan.TableNamed(name)
			require.True(t, known, "%s reads %s", rule.ID, name)
		}
	}
}

// issuedToAnother puts a revision into the plan on which a link that is gone bore a name.
func issuedToAnother(e *plan.Edit, name string) {
	plan.Put(e, plan.Revision{Number: 1, Letter: "A", Changes: `{"links": {"set": [{"id": "k-zzzzz", "name": "` + name + `"}]}}`})
}
