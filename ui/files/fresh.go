package files

import (
	"bytes"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/ui/settings"
)

// NewName is what a plan is called that nobody has named.
const NewName = "New plan"

// FreshPlan is a plan as new ones begin: with what the user wants, else as the program came.
func FreshPlan(s *settings.Settings) *plan.Plan {
	next, err := plan.Do(Template(s), nil, func(e *plan.Edit) error {
		fresh := e.Now().Settings
		fresh.Name, fresh.Standards = NewName, plan.DefaultSettings().Standards
		e.SetSettings(fresh)
		return nil
	})
	if err != nil {
		return plan.New(NewName)
	}
	return next
}

// Template is what is kept of how new plans begin. What can't be read any more is left alone, and new plans begin as they
// came.
func Template(s *settings.Settings) *plan.Plan {
	if text := s.NewPlan(); text != "" {
		if p, err := planfile.Read(strings.NewReader(text)); err == nil {
			return p
		}
	}
	return plan.New(NewName)
}

// KeepTemplate keeps how new plans begin.
func KeepTemplate(s *settings.Settings, p *plan.Plan) error {
	var text bytes.Buffer
	if err := planfile.Write(&text, p); err != nil {
		return err
	}
	s.SetNewPlan(text.String())
	return nil
}
