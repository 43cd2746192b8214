package ui

import (
	"errors"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/ui/panel"
)

// noKind stands for no wanted kind of cable in the form.
const noKind = "none: what is missing stays uncabled"

// linkForm is the form of a link's own figures.
type linkForm struct {
	*window
	link    plan.Link
	fields  []panel.Field
	entries []*field
	trouble *widget.Label
	form    *widget.Form
	kinds   []plan.CableKind
	wanted  *chooser
	panels  [2]*chooser
	// transport, rule, partner and role are chosen from lists; the rules follow the transport.
	transport, rule, partner, role *listed
	dialog                         *dialog.CustomDialog
}

// editLink opens the form of the one selected link.
func (w *window) editLink() {
	links := w.selectedLinks()
	if len(links) != 1 {
		w.notice.Say("Select one link to change its figures.")
		return
	}
	link, _ := w.desk.Plan().Link(links[0])
	f := &linkForm{window: w, link: link, fields: panel.LinkFields(w.desk.Plan(), link, w.units()), form: widget.NewForm()}
	for _, each := range f.fields {
		entry := w.newField()
		entry.SetText(each.Text)
		entry.SetPlaceHolder(each.Blank)
		entry.OnSubmitted = func(string) { f.take() }
		f.entries = append(f.entries, entry)
		f.form.AppendItem(widget.NewFormItem(each.Name, entry))
	}
	f.offerKinds()
	f.offerLists()
	f.panels[0] = f.offerPanel("Panel at the near end", link.FromPanel)
	f.panels[1] = f.offerPanel("Panel at the far end", link.ToPanel)
	f.trouble = widget.NewLabel("A blank is the plan's figure.")
	take := widget.NewButton("Keep", f.take)
	take.Importance = widget.HighImportance
	f.dialog = dialog.NewCustomWithoutButtons("Link "+link.Name, container.NewBorder(nil, steady(f.trouble, 2), nil, nil, container.NewVScroll(f.form)), w.window)
	f.dialog.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", f.dialog.Hide), take})
	size := w.window.Canvas().Size()
	f.dialog.Resize(fyne.NewSize(560, min(520, size.Height*0.9)))
	w.escapable(f.dialog.Hide)
	f.dialog.Show()
	w.window.Canvas().Focus(f.entries[panel.FieldRiseFrom])
}

// offerKinds lists the kinds of cable that could fill what is missing.
func (f *linkForm) offerKinds() {
	names := []string{noKind}
	chosen := 0
	transport, err := standards.TransportBySlug(standards.TransportSlug(f.link.Transport))
	for _, kind := range catalogue.CableKindsFor(f.desk.Plan()) {
		if err != nil || !budget.Fits(kind, transport.Media) {
			continue
		}
		f.kinds = append(f.kinds, kind)
		names = append(names, kind.Name)
		if kind.ID == f.link.FillKind {
			chosen = len(f.kinds)
		}
	}
	f.wanted = f.newChooser(names, nil)
	f.wanted.SetSelectedIndex(chosen)
	f.form.AppendItem(widget.NewFormItem("Wanted kind", f.wanted))
}

// listed is a list of a form with what its entries stand for.
type listed struct {
	*chooser
	choices []panel.Choice
}

func (f *linkForm) offerList(label string, choices []panel.Choice, now string) *listed {
	l := &listed{chooser: f.newChooser(nil, nil)}
	l.offer(choices, now)
	f.form.AppendItem(widget.NewFormItem(label, l.chooser))
	return l
}

func (l *listed) offer(choices []panel.Choice, now string) {
	l.choices, l.Options = choices, nil
	for _, choice := range choices {
		l.Options = append(l.Options, choice.Words)
	}
	l.SetSelectedIndex(panel.IndexOf(choices, now))
}

// value is what the chosen entry stands for.
func (l *listed) value() string { return l.choices[max(0, l.SelectedIndex())].Value }

// offerLists lists transports, limit rules and partners.
func (f *linkForm) offerLists() {
	p := f.desk.Plan()
	f.transport = f.offerList("Transport", panel.TransportChoices(p, f.link), string(f.link.Transport))
	if len(f.transport.choices) == 1 {
		f.transport.Disable() // the two ports take no other
	}
	f.rule = f.offerList("Limit rule", panel.RuleChoices(p, f.link.Transport), string(f.link.Rule))
	f.transport.OnChanged = func(string) {
		f.rule.offer(panel.RuleChoices(p, plan.TransportID(f.transport.value())), f.rule.value())
	}
	f.partner = f.offerList("Partner", panel.PartnerChoices(p, f.link), string(f.link.Partner))
	f.role = f.offerList("Of the two this is", panel.RoleChoices(), f.link.Role)
}

// offerPanel lists the hardware of a feed-through in front of a device; it counts as two connections.
func (f *linkForm) offerPanel(label string, now plan.HardwareID) *chooser {
	names, chosen := []string{"none"}, 0
	for i, hardware := range standards.AllHardware() {
		names = append(names, hardware.Name)
		if plan.HardwareID(hardware.Slug) == now {
			chosen = i + 1
		}
	}
	choice := f.newChooser(names, nil)
	choice.SetSelectedIndex(chosen)
	f.form.AppendItem(widget.NewFormItem(label, choice))
	return choice
}

// panel is the hardware chosen at an end, blank for none.
func (f *linkForm) panel(end int) plan.HardwareID {
	if i := f.panels[end].SelectedIndex(); i > 0 {
		return plan.HardwareID(standards.AllHardware()[i-1].Slug)
	}
	return ""
}

// take keeps the form as one step; what cannot be read is told with its field, which gets the cursor; nothing is lost.
func (f *linkForm) take() {
	for i, entry := range f.entries {
		f.fields[i].Text, f.fields[i].Fault = entry.Text, ""
	}
	link, faulted, ok := panel.WithLinkFields(f.desk.Plan(), f.link, f.fields, f.units())
	if !ok {
		at := slices.IndexFunc(faulted, func(field panel.Field) bool { return field.Fault != "" })
		f.tell(faulted[at].Name + ": " + faulted[at].Fault)
		f.window.window.Canvas().Focus(f.entries[at])
		return
	}
	link.FromPanel, link.ToPanel = f.panel(0), f.panel(1)
	link.Transport, link.Rule = plan.TransportID(f.transport.value()), plan.RuleID(f.rule.value())
	link.FillKind = ""
	if i := f.wanted.SelectedIndex(); i > 0 {
		link.FillKind = f.kinds[i-1].ID
	}
	err := f.desk.Do("Change "+link.Name, func(e *plan.Edit) error {
		if link.FillKind != "" {
			if err := catalogue.UseCable(e, link.FillKind); err != nil && !errors.Is(err, catalogue.ErrUnknown) {
				return err
			}
		}
		plan.Put(e, link)
		return panel.Paired(e, link.ID, plan.LinkID(f.partner.value()), f.role.value())
	})
	if err != nil {
		f.tell(sentence(err))
		return
	}
	f.dialog.Hide()
}

// tell says what cannot stand as it is.
func (f *linkForm) tell(text string) {
	f.trouble.Importance = widget.DangerImportance
	f.trouble.SetText(text)
}
