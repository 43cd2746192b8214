package ui_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestDevicesAreTakenOffThePlanIntoTheList(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.desk.Select(plan.RefOf(s.device("Broadcast van")))
	s.choose("Edit", "Take off the plan, into the list")
	require.True(t, s.device("Broadcast van").Unplaced)
	require.Contains(t, s.state().Notice, "Broadcast van is in the list now")
	s.choose("Edit", "Take off the plan, into the list")
	require.Contains(t, s.state().Notice, "Select devices that stand on the plan")
}

func TestAListOfDevicesIsImportedWithWhatItChanges(t *testing.T) {
	s := open(t, "light", demoFile(t))
	path := filepath.Join(t.TempDir(), "devices.csv")
	require.NoError(t, os.WriteFile(path, []byte("Name,Kind,Note\nBroadcast van,,at the gate\nSpare split,Splitter,\n"), 0o600))
	s.choose("Edit", "Import a list of devices…")
	entry := s.entries()[0]
	entry.SetText(path)
	entry.OnSubmitted(path)
	s.tap("Import")
	require.Equal(t, "at the gate", s.device("Broadcast van").Note)
	require.True(t, s.device("Spare split").Unplaced)
	require.Contains(t, s.state().Notice, "1 new device in the list, without a place on the ground; 1 device changes")
}
