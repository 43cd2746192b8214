package fields_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
)

func linkIn(p *plan.Plan, name string) plan.Link {
	for link := range p.Links.All() {
		if link.Name == name {
			return link
		}
	}
	panic("there is no link " + name)
}

func options(p *plan.Plan, id string, link plan.Link) []fields.Option {
	return fields.Of("links", id).Options(fields.On(p, nil, words.Units{}), link)
}

func TestALinkTakesTheTransportsThatItsTwoPortsTake(t *testing.T) {
	p := demo.Weekender()
	for link := range p.Links.All() {
		choices := options(p, "transport", link)
		require.Equal(t, string(link.Transport), choices[0].Value, "%s's own comes first", link.Name)
		switch link.Transport {
		case "1000base-t":
			require.Len(t, choices, 2, "gigabit ports take 100BASE-TX too (IEEE 802.3 auto-negotiation)")
			require.Equal(t, "100base-tx", choices[1].Value)
		case "aes50":
			require.Len(t, choices, 1, "an AES50 port takes nothing else, and no network port takes AES50")
		}
	}
}

func TestLimitRulesOfATransport(t *testing.T) {
	p := demo.Weekender()
	rules := options(p, "rule", plan.Link{Transport: "aes50"})
	require.Empty(t, rules[0].Value)
	require.Contains(t, rules[0].Words, "the plan's: ")
	require.Greater(t, len(rules), 2)
	require.Len(t, options(p, "rule", plan.Link{Transport: "analogue-multicore"}), 1, "what carries no grade has no rule")
}

func TestPartnersBetweenTheSameDevicesComeFirst(t *testing.T) {
	p := demo.Weekender()
	link := linkIn(p, "L01")
	choices := options(p, "partner", link)
	require.Equal(t, fields.Option{Words: "none"}, choices[0])
	shares := 2
	for _, choice := range choices[1:] {
		other, _ := p.Link(plan.LinkID(choice.Value))
		require.True(t, other.Transport == link.Transport || other.ID == link.Partner)
		require.NotEqual(t, link.ID, other.ID)
		shared := 0
		for _, end := range []plan.DeviceID{other.From, other.To} {
			if end == link.From || end == link.To {
				shared++
			}
		}
		require.LessOrEqual(t, shared, shares, "%s shares more devices than those before it", choice.Words)
		shares = shared
	}
	require.Zero(t, shares, "all links of the transport are listed")
}

func TestPairsAreMadeTurnedAndParted(t *testing.T) {
	p := demo.Weekender()
	a, b := linkIn(p, "L11").ID, linkIn(p, "L12").ID
	paired := func(p *plan.Plan, partner plan.LinkID, role string) *plan.Plan {
		next, err := plan.Do(p, nil, func(e *plan.Edit) error {
			if err := fields.Of("links", "partner").Put(e, words.Units{}, plan.Key(a), string(partner)); err != nil || partner == "" {
				return err
			}
			return fields.Of("links", "role").Put(e, words.Units{}, plan.Key(a), role)
		})
		require.NoError(t, err)
		return next
	}
	made := paired(p, b, "main")
	require.Equal(t, "main", linkIn(made, "L11").Role)
	require.Equal(t, "backup", linkIn(made, "L12").Role)
	require.Same(t, made.Links, paired(made, b, "main").Links, "a pair that is as asked stays as it is")
	turned := paired(made, b, "backup")
	require.Equal(t, "backup", linkIn(turned, "L11").Role)
	require.Equal(t, a, linkIn(turned, "L12").Partner)
	parted := paired(turned, "", "main")
	require.Empty(t, linkIn(parted, "L11").Partner)
	require.Empty(t, linkIn(parted, "L12").Role)
}
