//go:build unix

package planfile_test

import (
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

func TestAPipeIsNoPlanAndNobodyWaitsForIt(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "show.stageloom")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	for name, path := range map[string]string{"a pipe": pipe, "a device": "/dev/null"} {
		t.Run(name, func(t *testing.T) {
			_, _, err := planfile.Open(path)
			require.EqualError(t, err, filepath.Base(path)+" is a pipe or a device, not a plan: choose a file whose name ends in .stageloom")
			_, err = planfile.Save(path, plan.New("x"), planfile.Stamp{}, nil)
			require.ErrorContains(t, err, "is a pipe or a device")
		})
	}
}
