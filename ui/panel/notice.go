package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/checks"
	"stageloom/ui/pointer"
)

// Notice is the line under the overview that says what happened and why. It is never modal, and stays until it is
// closed or something newer is to be said.
type Notice struct {
	widget.BaseWidget
	icon  *widget.Icon
	label *widget.Label
	row   *fyne.Container
	panel *canvas.Rectangle
}

// NewNotice returns an empty, hidden notice; tips tell what its button does, and may be nil.
func NewNotice(tips *pointer.Tips) *Notice {
	n := &Notice{icon: widget.NewIcon(theme.InfoIcon()), label: widget.NewLabel("")}
	n.label.Wrapping = fyne.TextWrapWord
	dismiss := pointer.NewIconButton(theme.CancelIcon(), "Close the message", tips, n.Clear)
	dismiss.Importance = widget.LowImportance
	n.panel = canvas.NewRectangle(theme.Color(theme.ColorNameBackground))
	n.panel.StrokeColor, n.panel.StrokeWidth = theme.Color(theme.ColorNameSeparator), 1
	n.row = container.NewStack(n.panel, container.NewBorder(nil, nil, container.NewPadded(n.icon), container.NewVBox(dismiss), n.label))
	n.ExtendBaseWidget(n)
	n.Hide()
	return n
}

// CreateRenderer implements fyne.Widget.
func (n *Notice) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(n.row) }

// Say tells something that went well.
func (n *Notice) Say(text string) { n.set(theme.InfoIcon(), widget.MediumImportance, text) }

// Warn tells what was refused or failed, and why.
func (n *Notice) Warn(text string) { n.set(theme.WarningIcon(), widget.DangerImportance, text) }

// Tell tells a finding: what is found and what cures it.
func (n *Notice) Tell(f checks.Finding) {
	icon, importance := theme.InfoIcon(), widget.MediumImportance
	if f.Severity != checks.Note {
		icon, importance = theme.WarningIcon(), widget.WarningImportance
	}
	if f.Severity == checks.Stop {
		importance = widget.DangerImportance
	}
	n.set(icon, importance, Sentences(f))
}

// Sentences are what a finding says: what is found, and what cures it.
func Sentences(f checks.Finding) string {
	what := strings.TrimRight(f.What, ". ") + "."
	if f.Remedy == "" {
		return what
	}
	return what + " " + strings.TrimRight(f.Remedy, ". ") + "."
}

func (n *Notice) set(icon fyne.Resource, importance widget.Importance, text string) {
	n.panel.FillColor, n.panel.StrokeColor = theme.Color(theme.ColorNameBackground), theme.Color(theme.ColorNameSeparator)
	n.icon.SetResource(icon)
	n.label.Importance = importance
	n.label.SetText(text)
	n.Show()
}

// Clear hides the notice.
func (n *Notice) Clear() {
	n.label.SetText("")
	n.Hide()
}

// Text is what the notice says now.
func (n *Notice) Text() string { return n.label.Text }
