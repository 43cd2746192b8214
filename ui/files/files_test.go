package files_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/files"
	"stageloom/ui/settings"
)

func open(t *testing.T, p *plan.Plan) (*hosttest.Host, *files.Dialogs) {
	t.Helper()
	app := test.NewTempApp(t)
	h := hosttest.New(t, p)
	return h, &files.Dialogs{Host: h, Settings: settings.New(app.Preferences()), Notice: h, Opened: func() {}}
}

func TestAPlanThatNobodyHasNamedIsNamedAfterItsFile(t *testing.T) {
	h, f := open(t, plan.New(files.NewName))
	f.Save()
	h.Field().SetText("main stage")
	h.Tap("Save")
	path := filepath.Join(h.Folder(), "main stage.stageloom")
	require.FileExists(t, path)
	require.Equal(t, "main stage", h.Desk().Plan().Settings.Name)
	require.Equal(t, "Saved "+path, h.Said)
	require.Equal(t, []string{path}, f.Settings.Recent())
}

func TestUnsavedWorkIsAskedAboutBeforeItGoes(t *testing.T) {
	h, f := open(t, plan.New("Show"))
	gone := 0
	f.KeepFirst(func() { gone++ })
	require.Equal(t, 1, gone, "there is nothing to lose")
	require.NoError(t, h.Desk().Do("Add", func(e *plan.Edit) error {
		e.AddPosition(plan.Position{Name: "FOH"})
		return nil
	}))
	f.KeepFirst(func() { gone++ })
	h.Keys().GiveUp()
	require.Equal(t, 1, gone, "Escape keeps the plan")
	f.KeepFirst(func() { gone++ })
	h.Tap("Don't save")
	require.Equal(t, 2, gone)
}

func TestAFileThatCannotBeReadLeavesThePlanAndSaysWhy(t *testing.T) {
	h, f := open(t, demo.Weekender())
	before := h.Desk().Plan()
	path := filepath.Join(h.Folder(), "broken.stageloom")
	require.NoError(t, os.WriteFile(path, []byte("{ no plan"), 0o600))
	f.Open(path)
	require.Same(t, before, h.Desk().Plan())
	require.Contains(t, h.Said, "broken.stageloom")
	f.Settings.Used(path)
	require.NoError(t, os.Remove(path))
	f.Open(path)
	require.Empty(t, f.Settings.Recent(), "what is no more is not offered again")
}

func TestNewPlansBeginAsIsWanted(t *testing.T) {
	_, f := open(t, plan.New("Show"))
	template := plan.New("Whatever")
	next, err := plan.Do(template, nil, func(e *plan.Edit) error {
		wanted := e.Now().Settings
		wanted.Site = "The barn"
		e.SetSettings(wanted)
		return nil
	})
	require.NoError(t, err)
	require.NoError(t, files.KeepTemplate(f.Settings, next))
	fresh := files.FreshPlan(f.Settings)
	require.Equal(t, "The barn", fresh.Settings.Site)
	require.Equal(t, files.NewName, fresh.Settings.Name)
	f.Settings.SetNewPlan(strings.Repeat("no plan ", 3))
	require.Empty(t, files.FreshPlan(f.Settings).Settings.Site, "what cannot be read is left alone")
}
