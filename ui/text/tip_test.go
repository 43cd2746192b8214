package text_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/text"
)

func TestTipsTellWhatLiesUnderThePointer(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	metres, feet := words.Units{}, words.Units{Length: quantity.Imperial}
	part := func(ref plan.Ref, name string) plan.Ref {
		ref.Part = name
		return ref
	}
	var said []string
	tell := func(what string, ref plan.Ref, units words.Units) {
		said = append(said, "["+what+"]\n"+text.TipOf(a, ref, units, worst)+"\n")
	}
	tell("a port in use", part(deviceNamed(p, "FOH console"), "AES50 3"), metres)
	tell("its other end", part(deviceNamed(p, "Stage right box"), "AES50 1"), metres)
	tell("a free port", freePort(t, p), metres)
	tell("a device", deviceNamed(p, "FOH console"), metres)
	tell("a tight link", linkNamed(p, "L02"), metres)
	tell("a link over its limit", linkNamed(p, "L03"), metres)
	tell("an uncabled link", linkNamed(p, "L20"), metres)
	tell("a link without grade", linkNamed(p, "L05"), metres)
	tell("a way point", part(linkNamed(p, "L02"), "way 1"), metres)
	tell("a position", positionNamed(p, "FOH tower"), metres)
	tell("a position in feet", positionNamed(p, "FOH tower"), feet)
	for area := range p.Areas.All() {
		require.Empty(t, text.TipOf(a, plan.RefOf(area), metres, worst), "an area's name stands on the plan")
	}
	for loom := range p.Looms.All() {
		tell("a loom", plan.RefOf(loom), metres)
		break
	}
	golden(t, "tips", strings.Join(said, "\n"))
	require.Empty(t, text.TipOf(a, plan.Ref{Table: "devices", Key: "gone"}, metres, worst), "what is no more says nothing")
	require.Empty(t, text.TipOf(a, plan.Ref{}, metres, worst))
}

// freePort is a port that holds no link.
func freePort(t *testing.T, p *plan.Plan) plan.Ref {
	t.Helper()
	for device := range p.Devices.All() {
		for _, port := range p.Ports(device.Kind) {
			free := true
			for _, id := range p.LinksAt(device.ID) {
				link, _ := p.Link(id)
				free = free && !(link.From == device.ID && link.FromPort == port.Name || link.To == device.ID && link.ToPort == port.Name)
			}
			if free {
				return plan.Ref{Table: "devices", Key: device.Key(), Part: port.Name}
			}
		}
	}
	require.Fail(t, "no port is free")
	return plan.Ref{}
}

func TestEveryFigureOfALinksCardSaysWhatItIs(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	for _, name := range []string{"L02", "L03", "L20"} {
		for _, figure := range text.CardOf(a, []plan.Ref{linkNamed(p, name)}, words.Units{}, text.Preview{}).Figures {
			require.NotEmpty(t, text.MeaningOf(figure.Name), figure.Name)
		}
	}
	require.Empty(t, text.MeaningOf("port A"))
}

func TestEveryPieceOfTheOverviewSaysWhatItCounts(t *testing.T) {
	var said []string
	for _, item := range text.OverviewOf(assess.Of(demo.Weekender()), text.Preview{}) {
		said = append(said, item.Tip())
	}
	for _, grade := range append(budget.Grades(), budget.Ungraded) {
		said = append(said, text.Item{Grade: grade, Line: true}.Tip())
	}
	golden(t, "tips-overview", strings.Join(said, "\n")+"\n")
}

// worst stands for what the chart says of a link.
func worst(budget.Budget) string { return "worst where the chart says" }
