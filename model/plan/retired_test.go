package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

// issued is the stage with its links L01 to L03 and its devices on an issued revision A, as planfile writes it.
func issued(t *testing.T) *stage {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error {
		set := func(table string, rows ...[2]string) string {
			text := `"` + table + `": {"set": [`
			for i, row := range rows {
				if i > 0 {
					text += ", "
				}
				text += `{"id": "` + row[0] + `", "name": "` + row[1] + `"}`
			}
			return text + "]}"
		}
		var links, devices [][2]string
		for link := range e.Now().Links.All() {
			links = append(links, [2]string{string(link.ID), link.Name})
		}
		for device := range e.Now().Devices.All() {
			devices = append(devices, [2]string{string(device.ID), device.Name})
		}
		plan.Put(e, plan.Revision{Number: 1, Letter: "A", Changes: "{" + set("devices", devices...) + ", " + set("links", links...) + "}"})
		return nil
	})
	return s
}

func name(t *testing.T, p *plan.Plan, id plan.LinkID) string {
	t.Helper()
	link, found := p.Link(id)
	require.True(t, found)
	return link.Name
}

func TestANameThatWasIssuedIsNeverAnotherLinks(t *testing.T) {
	again := func(e *plan.Edit, s *stage, called string) plan.LinkID {
		link, _ := s.Plan.Link(s.bc)
		e.RemoveLinks(s.bc)
		link.Partner, link.Role, link.Name = "", "", called
		return e.AddLink(link)
	}
	t.Run("without a revision the first free name is taken again", func(t *testing.T) {
		s := newStage(t)
		old := name(t, s.Plan, s.bc)
		var id plan.LinkID
		s.do(t, func(e *plan.Edit) error { id = again(e, s, ""); return nil })
		require.Equal(t, old, name(t, s.Plan, id))
	})
	t.Run("after an issue a new link takes another", func(t *testing.T) {
		s := issued(t)
		old := name(t, s.Plan, s.bc)
		var id plan.LinkID
		s.do(t, func(e *plan.Edit) error { id = again(e, s, ""); return nil })
		require.NotEqual(t, old, name(t, s.Plan, id))
		letter, retired := s.Plan.RetiredLinkName(" "+old+" ", id)
		require.True(t, retired)
		require.Equal(t, "A", letter)
	})
	t.Run("typed by hand it is refused with the reason and a name that would do", func(t *testing.T) {
		s := issued(t)
		old := name(t, s.Plan, s.bc)
		before := s.Plan
		_, err := plan.Do(s.Plan, plan.NewIDSource(8, 9), func(e *plan.Edit) error { again(e, s, old); return nil })
		require.ErrorIs(t, err, plan.ErrRefused)
		require.ErrorContains(t, err, old+" stood for another link on revision A, and the crew may still hold that sheet; take a name that was never issued, for instance "+before.FreeLinkName())
	})
	t.Run("two issued links cannot swap their names", func(t *testing.T) {
		s := issued(t)
		_, err := plan.Do(s.Plan, nil, func(e *plan.Edit) error {
			a, b := name(t, s.Plan, s.ab), name(t, s.Plan, s.bc)
			if err := plan.Update(e, plan.Key(s.ab), func(l *plan.Link) { l.Name = b }); err != nil {
				return err
			}
			return plan.Update(e, plan.Key(s.bc), func(l *plan.Link) { l.Name = a })
		})
		require.ErrorIs(t, err, plan.ErrRefused)
	})
	t.Run("a link may have its own name back", func(t *testing.T) {
		s := issued(t)
		old := name(t, s.Plan, s.bc)
		for _, called := range []string{"Delay", old} {
			s.do(t, func(e *plan.Edit) error {
				return plan.Update(e, plan.Key(s.bc), func(l *plan.Link) { l.Name = called })
			})
		}
		require.Equal(t, old, name(t, s.Plan, s.bc))
	})
	t.Run("what was changed elsewhere in the plan is not held up", func(t *testing.T) {
		s := issued(t)
		s.do(t, func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(s.bc), func(l *plan.Link) { l.Note = "behind the riser" })
		})
	})
	t.Run("a revision that cannot be read tells no name", func(t *testing.T) {
		s := newStage(t)
		s.do(t, func(e *plan.Edit) error {
			plan.Put(e, plan.Revision{Number: 1, Letter: "A", Changes: `{"links": 7}`})
			return nil
		})
		_, retired := s.Plan.RetiredLinkName("L01", "")
		require.False(t, retired)
	})
}

func TestLinksOnThePaperKeepTheirNamesWhenLinksAreNumberedAnew(t *testing.T) {
	s := issued(t)
	kept := map[plan.LinkID]string{}
	var all []plan.LinkID
	for link := range s.Plan.Links.All() {
		kept[link.ID], all = link.Name, append(all, link.ID)
	}
	var id plan.LinkID
	s.do(t, func(e *plan.Edit) error {
		link, _ := s.Plan.Link(s.bc)
		e.RemoveLinks(s.bc)
		link.Partner, link.Role, link.Name = "", "", "Delay"
		id = e.AddLink(link)
		return nil
	})
	gone := kept[s.bc]
	delete(kept, s.bc)
	s.do(t, func(e *plan.Edit) error { return e.Renumber(append([]plan.LinkID{id}, keysOf(kept)...)) })
	for link, was := range kept {
		require.Equal(t, was, name(t, s.Plan, link))
	}
	require.Regexp(t, `^L\d\d$`, name(t, s.Plan, id))
	require.NotEqual(t, gone, name(t, s.Plan, id))
	_, err := plan.Do(s.Plan, nil, func(e *plan.Edit) error { return e.Renumber(keysOf(kept)) })
	require.ErrorIs(t, err, plan.ErrRefused)
	require.ErrorContains(t, err, "keep their names")
}

func keysOf(m map[plan.LinkID]string) (keys []plan.LinkID) {
	for key := range m {
		keys = append(keys, key)
	}
	return keys
}

func TestANewDevicePassesOverNamesThatWereIssued(t *testing.T) {
	s := issued(t)
	var old plan.Device
	var fresh plan.DeviceID
	s.do(t, func(e *plan.Edit) error {
		kind := e.Now().Kinds.At(0)
		fresh = e.AddDevice(plan.Device{Kind: kind.ID})
		old, _ = e.Now().Device(fresh)
		return nil
	})
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.Revision{Number: 2, Letter: "B", Changes: `{"devices": {"set": [{"id": "` + string(fresh) + `", "name": "` + old.Name + `"}]}}`})
		e.RemoveDevices(fresh)
		return nil
	})
	s.do(t, func(e *plan.Edit) error {
		again, _ := e.Now().Device(e.AddDevice(plan.Device{Kind: old.Kind}))
		require.NotEqual(t, old.Name, again.Name)
		byHand, _ := e.Now().Device(e.AddDevice(plan.Device{Kind: old.Kind, Name: old.Name}))
		require.Equal(t, old.Name, byHand.Name, "what stands where the old one stood may be called as it was")
		return nil
	})
}
