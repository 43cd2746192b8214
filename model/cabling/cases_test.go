package cabling_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/cabling"
	"stageloom/model/plan"
)

func TestWhatIsPicked(t *testing.T) {
	for _, c := range []struct {
		name    string
		ways    []float64
		arrange func(t *testing.T, s *show)
		request cabling.Request
		want    []string
	}{
		{"the cable that leaves least coiled", []float64{30}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 100)
			s.reel(t, "B", "cat6a", 50)
		}, cabling.Request{}, []string{"B"}},
		{"one cable rather than two that reach more closely", []float64{60}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 100)
			s.reel(t, "B", "cat6a", 30, many(2))
		}, cabling.Request{}, []string{"A"}},
		{"the longest lies at the drum end, which is the far one unless said otherwise", []float64{60, 60}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 50)
			s.reel(t, "B", "cat6a", 50)
			s.reel(t, "C", "cat6a", 10)
			s.reel(t, "D", "cat6a", 10)
			s.change(t, 1, func(l *plan.Link) { l.DrumEnd = "from" })
		}, cabling.Request{}, []string{"C + A", "B + D"}},
		{"a port without room for a shell gets a tail with a plain plug", []float64{50}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 50)
			s.reel(t, "T", "cat6a-tail", 2)
			s.change(t, 0, func(l *plan.Link) { l.FromPort = "B0" })
		}, cabling.Request{}, []string{"T + A"}},
		{"a drum's socket takes the next plug, and the chain ends in a plug", []float64{95}, func(t *testing.T, s *show) {
			s.reel(t, "S", "cat6a-drum-socket", 50)
			s.reel(t, "A", "cat6a", 50)
		}, cabling.Request{}, []string{"S + A"}},
		{"a house line between sockets gets a cable at both ends", []float64{60}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 25)
			s.reel(t, "B", "cat6a", 5)
			s.do(t, func(e *plan.Edit) error {
				plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "H1", Kind: "cat6a-solid", Length: 40})
				return nil
			})
			s.lay(t, 0, plan.Segment{HouseLine: "h-22222"})
		}, cabling.Request{}, []string{"B + house line H1 + A"}},
		{"a kept cable stays, and the rest is picked about it", []float64{90}, func(t *testing.T, s *show) {
			long := s.reel(t, "A", "cat5e", 50)
			s.reel(t, "B", "cat6a", 100)
			s.reel(t, "C", "cat6a", 40)
			s.lay(t, 0, plan.Segment{Reel: long, Kept: true})
		}, cabling.Request{}, []string{"C + A"}},
		{"never a faulty reel, and a suspect one not unasked", []float64{30}, func(t *testing.T, s *show) {
			bad := s.reel(t, "F", "cat6a", 30, condition(plan.Faulty))
			s.reel(t, "S", "cat6a", 31, condition(plan.Suspect))
			s.reel(t, "G", "cat6a", 60)
			s.lay(t, 0, plan.Segment{Reel: bad, Kept: true})
		}, cabling.Request{}, []string{"G"}},
		{"a suspect reel when asked", []float64{30}, func(t *testing.T, s *show) {
			s.reel(t, "S", "cat6a", 31, condition(plan.Suspect))
			s.reel(t, "G", "cat6a", 60)
		}, cabling.Request{Suspect: true}, []string{"S"}},
		{"of equal reels a link keeps the one it had", []float64{40, 40}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 50)
			s.reel(t, "B", "cat6a", 50)
			own := s.reel(t, "C", "cat6a", 50)
			s.lay(t, 1, plan.Segment{Reel: own})
		}, cabling.Request{}, []string{"A", "C"}},
		{"tags are given out as a reader sorts them", []float64{40, 40, 40}, func(t *testing.T, s *show) {
			for _, tag := range []string{"A10", "A9", "A2"} {
				s.reel(t, tag, "cat6a", 50)
			}
		}, cabling.Request{}, []string{"A2", "A9", "A10"}},
		{"a heap without tags serves as many links as it has cables", []float64{40, 40, 40}, func(t *testing.T, s *show) {
			s.reel(t, "", "cat6a", 50, many(2))
		}, cabling.Request{}, []string{"50 m of Cat 6A", "50 m of Cat 6A", "no cable"}},
		{"priority decides who is served", []float64{40, 40}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 50)
			s.change(t, 1, func(l *plan.Link) { l.Priority = 5 })
		}, cabling.Request{}, []string{"no cable", "A"}},
		{"main and backup never share a reel, and have different kinds when asked", []float64{40, 40}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 40, many(2))
			s.reel(t, "B", "cat5e", 60)
			s.do(t, func(e *plan.Edit) error { return e.Pair(s.links[0], s.links[1]) })
		}, cabling.Request{DifferentKinds: true, Barred: nil}, []string{"A", "B"}},
		{"a partner that is not picked for keeps its kind to itself", []float64{40, 40}, func(t *testing.T, s *show) {
			a := s.reel(t, "A", "cat6a", 40, many(2))
			s.reel(t, "B", "cat5e", 60)
			s.do(t, func(e *plan.Edit) error { return e.Pair(s.links[0], s.links[1]) })
			s.lay(t, 1, plan.Segment{Reel: a})
			s.links = s.links[:1]
		}, cabling.Request{DifferentKinds: true}, []string{"B"}},
		{"kinds that are barred stay in the truck", []float64{40}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 40)
			s.reel(t, "B", "cat5e", 60)
		}, cabling.Request{Barred: []plan.CableKindID{"cat6a"}}, []string{"B"}},
		{"kinds that are wanted are taken alone", []float64{40}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 40)
			s.reel(t, "B", "cat5e", 60)
		}, cabling.Request{Wanted: []plan.CableKindID{"cat5e"}}, []string{"B"}},
		{"a link's own wanted kind alone, when asked", []float64{40}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 40)
			s.reel(t, "B", "cat5e", 60)
			s.change(t, 0, func(l *plan.Link) { l.FillKind = "cat5e" })
		}, cabling.Request{OwnKind: true}, []string{"B"}},
		{"no more joins than the link allows", []float64{90}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 30, many(4))
			s.change(t, 0, func(l *plan.Link) { l.MaxJoins = 1 })
		}, cabling.Request{}, []string{"no cable"}},
		{"a measured reel counts by its own loss", []float64{90}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat5e", 90, measured(30))
			s.reel(t, "B", "cat5e", 92)
		}, cabling.Request{}, []string{"B"}},
		{"the wanted margin goes before joins and metres", []float64{85}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat5e", 85)
			s.reel(t, "B", "cat6a-own", 100)
			s.change(t, 0, func(l *plan.Link) { l.WantedMargin = plan.Some(5) })
		}, cabling.Request{}, []string{"B"}},
		{"for a new plan fewer joins go before fewer changes", []float64{60}, func(t *testing.T, s *show) {
			a, b := s.reel(t, "A", "cat6a", 40), s.reel(t, "B", "cat6a", 30)
			s.reel(t, "C", "cat6a", 100)
			s.lay(t, 0, plan.Segment{Reel: b}, plan.Segment{Reel: a})
		}, cabling.Request{}, []string{"C"}},
		{"on the day fewer changes go before fewer joins", []float64{60}, func(t *testing.T, s *show) {
			a, b := s.reel(t, "A", "cat6a", 40), s.reel(t, "B", "cat6a", 30)
			s.reel(t, "C", "cat6a", 100)
			s.lay(t, 0, plan.Segment{Reel: b}, plan.Segment{Reel: a})
		}, cabling.Request{OnTheDay: true}, []string{"B + A"}},
		{"what is laid stays in its order while it does", []float64{60}, func(t *testing.T, s *show) {
			a, b := s.reel(t, "A", "cat6a", 40), s.reel(t, "B", "cat6a", 30)
			s.lay(t, 0, plan.Segment{Reel: a}, plan.Segment{Reel: b})
		}, cabling.Request{}, []string{"A + B"}},
		{"an unserved link keeps what nobody else takes", []float64{120}, func(t *testing.T, s *show) {
			a := s.reel(t, "A", "cat6a", 40)
			s.lay(t, 0, plan.Segment{Reel: a})
		}, cabling.Request{}, []string{"A"}},
		{"an unserved link gives up what serves another", []float64{120, 40}, func(t *testing.T, s *show) {
			a := s.reel(t, "A", "cat6a", 40)
			s.lay(t, 0, plan.Segment{Reel: a})
		}, cabling.Request{}, []string{"no cable", "A"}},
		{"fibre goes by length, and never joins two sorts", []float64{90}, func(t *testing.T, s *show) {
			s.reel(t, "M", "fibre-multimode", 50)
			s.reel(t, "N", "fibre-multimode", 60)
			s.reel(t, "S", "fibre-singlemode", 50)
			s.change(t, 0, func(l *plan.Link) { l.Transport, l.FromPort, l.ToPort = "fibre", "F0", "F0" })
		}, cabling.Request{}, []string{"M + N"}},
		{"a link without a grade has the kind it wants", []float64{90}, func(t *testing.T, s *show) {
			s.reel(t, "M", "fibre-multimode", 90)
			s.reel(t, "S", "fibre-singlemode", 100)
			s.change(t, 0, func(l *plan.Link) {
				l.Transport, l.FromPort, l.ToPort, l.FillKind = "fibre", "F0", "F0", "fibre-singlemode"
			})
		}, cabling.Request{}, []string{"S"}},
		{"nothing needless is held back where it would leave a link unserved", []float64{40}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 40)
			s.stand(t)
		}, cabling.Request{HoldBack: true}, []string{"A"}},
		{"one cable is held back though it is the better pick", []float64{40}, func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 40)
			s.reel(t, "B", "cat6a", 25, many(2))
			s.stand(t)
		}, cabling.Request{HoldBack: true}, []string{"B + B"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newShow(t, c.ways...)
			c.arrange(t, s)
			before := s.Plan
			c.request.Links = s.links
			proposal := s.take(t, c.request)
			require.Equal(t, c.want, s.words())
			require.True(t, proposal.Proved)
			stands(t, before, s.Plan, proposal)
		})
	}
}

// stand gives the first box a position.
func (s *show) stand(t require.TestingT) {
	s.do(t, func(e *plan.Edit) error {
		id := e.AddPosition(plan.Position{Name: "Stage left"})
		return plan.Update(e, plan.Key(s.boxes[0]), func(d *plan.Device) { d.Position = id })
	})
}

func TestWhatIsHeldBackIsTold(t *testing.T) {
	s := newShow(t, 40, 20)
	s.stand(t)
	s.reel(t, "A", "cat6a", 40)
	require.Equal(t, "nothing for L01 at Stage left: what could replace it in one piece is in use",
		s.pick(t, cabling.Request{HoldBack: true}).Held[0].String())
	s.reel(t, "B", "cat5e", 60, many(2))
	held := s.pick(t, cabling.Request{HoldBack: true}).Held
	require.Len(t, held, 1)
	require.NotEmpty(t, held[0].Reel)
}

func TestWhereJoinsLie(t *testing.T) {
	ground := func(t *testing.T, s *show, use string, from, to float64) {
		s.do(t, func(e *plan.Edit) error {
			plan.Put(e, plan.Area{ID: "a-22222", Name: "Way", Use: use})
			for i, x := range []float64{from, to, to, from} {
				plan.Put(e, plan.AreaPoint{Area: "a-22222", Order: i + 1, X: x, Y: []float64{-5, -5, 5, 5}[i]})
			}
			return nil
		})
	}
	for _, c := range []struct {
		name    string
		arrange func(t *testing.T, s *show)
		want    string
		remark  string
	}{
		{"longest first from the drum end", func(*testing.T, *show) {}, "B + A", ""},
		{"but no join in a road", func(t *testing.T, s *show) { ground(t, s, "road", 25, 35) }, "A + B", ""},
		{"nor in water", func(t *testing.T, s *show) { ground(t, s, "water", 25, 35) }, "A + B", ""},
		{"nor in a crowd", func(t *testing.T, s *show) { ground(t, s, "crowd", 25, 35) }, "A + B", ""},
		{"a walkway bears one", func(t *testing.T, s *show) { ground(t, s, "walkway", 25, 35) }, "B + A", ""},
		{
			"where no order avoids it, it is told", func(t *testing.T, s *show) { ground(t, s, "road", 20, 75) }, "B + A",
			"a join lies in a road, in water or in a crowd, whatever the order: lift it clear, cover it, or lay one cable",
		},
		{"nor out of reach", func(t *testing.T, s *show) {
			s.do(t, func(e *plan.Edit) error {
				plan.Put(e, plan.Level{ID: "v-22222", Name: "Truss", Height: 3})
				if err := e.Draw(s.links[0], nil); err != nil {
					return err
				}
				e.SetPoints(s.links[0], []plan.LinkPoint{
					{X: 8, Y: 0}, {X: 9, Y: 0, Level: "v-22222"}, {X: 38, Y: 0, Level: "v-22222"}, {X: 39, Y: 0},
				})
				return plan.Update(e, plan.Key(s.links[0]), func(l *plan.Link) { l.Way = "drawn" })
			})
		}, "A + B", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newShow(t, 90)
			s.reel(t, "A", "cat6a-own", 70)
			s.reel(t, "B", "cat6a-own", 30)
			c.arrange(t, s)
			proposal := s.take(t, cabling.Request{})
			require.Equal(t, []string{c.want}, s.words())
			if c.remark == "" {
				require.Empty(t, proposal.Links[0].Remarks())
			} else {
				require.Equal(t, []string{c.remark}, proposal.Links[0].Remarks())
			}
		})
	}
}

func TestWhyALinkStaysUnserved(t *testing.T) {
	for _, c := range []struct {
		name    string
		arrange func(t *testing.T, s *show)
		request cabling.Request
		want    string
	}{
		{"too short", func(t *testing.T, s *show) { s.reel(t, "A", "cat6a", 78) }, cabling.Request{}, "L01 cannot be reached from all of the stock: too short by 12.0 m"},
		{"over", func(t *testing.T, s *show) { s.reel(t, "A", "cat5e", 50, many(2)) }, cabling.Request{}, "L01 cannot be reached from all of the stock: over by 2.2 dB at 100 MHz"},
		{"no kind", func(t *testing.T, s *show) { s.reel(t, "A", "cat6a", 100) }, cabling.Request{Barred: []plan.CableKindID{"cat6a"}}, "L01 cannot be reached from all of the stock: it holds no kind of cable that is allowed for it"},
		{"nothing fits", func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a", 100)
			s.change(t, 0, func(l *plan.Link) { l.FromPort = "B0" })
		}, cabling.Request{}, "L01 cannot be reached from all of the stock: no cables that reach fit port B0 at one end and port A0 at the other"},
		{"crowded out", func(t *testing.T, s *show) {
			s.reel(t, "A", "cat6a-own", 100)
			s.change(t, 1, func(l *plan.Link) { l.Priority = 3 })
		}, cabling.Request{}, "L01 gets none, too few for all: taken by L02 (priority 3)"},
		{"crowded out by a link that is not picked for", func(t *testing.T, s *show) {
			a := s.reel(t, "A", "cat6a-own", 100)
			s.lay(t, 1, plan.Segment{Reel: a})
			s.links = s.links[:1]
		}, cabling.Request{}, "L01 gets none, too few for all: taken by L02"},
		{"its kept cable is over alone", func(t *testing.T, s *show) {
			a := s.reel(t, "A", "cat5e", 130)
			s.lay(t, 0, plan.Segment{Reel: a, Kept: true})
		}, cabling.Request{}, "L01 cannot be reached from all of the stock: over by 9.3 dB at 100 MHz"},
		{"its kept cable carries something else", func(t *testing.T, s *show) {
			a := s.reel(t, "A", "fibre-multimode", 130)
			s.lay(t, 0, plan.Segment{Reel: a, Kept: true})
		}, cabling.Request{}, "L01 cannot be reached from all of the stock: its kept cables do not carry AES50"},
		{"about a kept cable it would be over", func(t *testing.T, s *show) {
			a := s.reel(t, "A", "cat6a-drum-socket", 50)
			s.reel(t, "B", "cat5e", 50)
			s.change(t, 0, func(l *plan.Link) { l.Temperature = plan.Some(60) })
			s.lay(t, 0, plan.Segment{Reel: a, Kept: true})
		}, cabling.Request{}, "L01 cannot be reached from all of the stock: over by "},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newShow(t, 90, 90)
			c.arrange(t, s)
			c.request.Links = s.links
			unserved := s.pick(t, c.request).Unserved
			require.NotEmpty(t, unserved)
			last := unserved[len(unserved)-1]
			for _, u := range unserved {
				if u.Name == "L01" {
					last = u
				}
			}
			require.Contains(t, last.String(), c.want)
		})
	}
}

func TestAProposalFitsItsPlanAlone(t *testing.T) {
	s := newShow(t, 40)
	reel := s.reel(t, "A", "cat6a", 50)
	proposal := s.pick(t, cabling.Request{})
	s.do(t, func(e *plan.Edit) error { return plan.Update(e, plan.Key(reel), func(r *plan.Reel) { r.Length = 20 }) })
	_, err := plan.Do(s.Plan, nil, proposal.Edit)
	require.ErrorIs(t, err, plan.ErrRefused)
	require.ErrorContains(t, err, "pick again")
}

func TestAPickThatIsCalledOffKeepsTheBestSoFar(t *testing.T) {
	s := newShow(t, 40)
	s.reel(t, "A", "cat6a", 50)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	proposal, err := cabling.Pick(ctx, s.Plan, cabling.Request{}, nil)
	require.NoError(t, err)
	s.do(t, proposal.Edit)
	for _, id := range []plan.LinkID{"k-99999"} {
		_, err = cabling.Pick(ctx, s.Plan, cabling.Request{Links: []plan.LinkID{id}}, nil)
		require.ErrorContains(t, err, "no link k-99999")
	}
	_, err = cabling.Pick(ctx, s.Plan, cabling.Request{Barred: []plan.CableKindID{"cat9"}}, nil)
	require.ErrorContains(t, err, "no kind of cable cat9")
}

func TestTheSamePlanGivesTheSamePicks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShow(t, 4)
		request := anyRequest(t, s)
		require.Equal(t, s.pick(t, request), s.pick(t, request))
	})
}
