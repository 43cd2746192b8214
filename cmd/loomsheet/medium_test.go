package main_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"

	loomsheet "stageloom/cmd/loomsheet"
	"stageloom/model/goldentest"
	"stageloom/model/medium/mediumtest"
	"stageloom/model/planfile"
)

// strung is the program with string between cans among its media.
func strung() {
	mediumtest.Register()
	loomsheet.Main()
}

// A medium that no room knows by name is checked, picked, told and printed.
func TestAMediumOfItsOwn(t *testing.T) {
	undo := mediumtest.Register()
	p, err := mediumtest.Plan(60, 120)
	undo()
	require.NoError(t, err)
	here, err := os.Getwd()
	require.NoError(t, err)
	testscript.Run(t, testscript.Params{
		Dir: "testdata/medium", UpdateScripts: goldentest.Accepting(), Condition: condition,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "narrow": narrow, "fits": fits},
		Setup: func(env *testscript.Env) error {
			env.Setenv("SCHEMAS", filepath.Join(here, "schema"))
			env.Setenv("COLUMNS", "80")
			if _, err := planfile.Save(filepath.Join(env.WorkDir, "playground.stageloom"), p, planfile.Stamp{}, nil); err != nil {
				return fmt.Errorf("save the playground: %w", err)
			}
			return nil
		},
	})
}
