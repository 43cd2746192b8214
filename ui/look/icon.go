package look

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"stageloom/assets"
)

// Icon names one of our small drawings.
type Icon string

// The icons: those of the groups of equipment, of what a plan is made of, of findings by severity, and of commands.
const (
	IconStage        Icon = "stage"
	IconMixing       Icon = "mixing"
	IconNetwork      Icon = "network"
	IconLoudspeakers Icon = "loudspeakers"
	IconRadio        Icon = "radio"
	IconIntercom     Icon = "intercom"
	IconBroadcast    Icon = "broadcast"

	IconReel     Icon = "reel"
	IconCase     Icon = "case"
	IconCoupler  Icon = "coupler"
	IconLink     Icon = "link"
	IconPosition Icon = "position"
	IconArea     Icon = "area"

	IconStop Icon = "stop"
	IconWarn Icon = "warn"
	IconNote Icon = "note"

	IconFind Icon = "find"
	IconFit  Icon = "fit"
)

// Icons lists all icons.
func Icons() []Icon {
	return []Icon{
		IconStage, IconMixing, IconNetwork, IconLoudspeakers, IconRadio, IconIntercom, IconBroadcast,
		IconReel, IconCase, IconCoupler, IconLink, IconPosition, IconArea,
		IconStop, IconWarn, IconNote, IconFind, IconFit,
	}
}

// IconOf returns the icon of a group of equipment, in whatever case it is written, and whether there is one.
func IconOf(group string) (Icon, bool) {
	icon := Icon(strings.ToLower(group))
	return icon, slices.Contains(Icons(), icon)
}

// Resource returns the drawing in the colour of text, whatever the theme. An icon that is not built in is a
// programmer's mistake and panics.
func (i Icon) Resource() fyne.Resource { return i.In(theme.ColorNameForeground) }

// In returns the drawing in a colour of the theme.
func (i Icon) In(colour fyne.ThemeColorName) fyne.Resource {
	bytes, err := assets.Drawing(string(i))
	if err != nil {
		panic(fmt.Sprintf("look: %v", err))
	}
	return theme.NewColoredResource(fyne.NewStaticResource(string(i)+".svg", bytes), colour)
}
