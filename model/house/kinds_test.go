package house_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/house"
	"stageloom/model/plan"
)

func own(slug plan.KindID) catalogue.DeviceKind {
	return catalogue.DeviceKind{
		Kind:    plan.Kind{ID: slug, Name: "My box", Group: "Own", Inputs: 3, Own: true},
		Ports:   []plan.KindPort{{Kind: slug, Name: "A", Transport: "aes50"}},
		Sockets: []plan.KindSocket{{Kind: slug, Direction: "in", First: 1, Count: 3, Use: "mic"}},
	}
}

func TestKindsAreKeptReplacedAndForgotten(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "not", "there")
	l := house.Open(folder)
	kinds, err := l.Kinds()
	require.NoError(t, err)
	require.Empty(t, kinds)
	require.NoError(t, l.Keep(own("my-box")))
	require.NoError(t, l.Keep(own("other")))
	changed := own("my-box")
	changed.Kind.Inputs = 4
	require.NoError(t, l.Keep(changed))
	kinds, err = house.Open(folder).Kinds()
	require.NoError(t, err)
	require.Len(t, kinds, 2)
	require.Contains(t, kinds, changed)
	require.NoError(t, l.Forget("other"))
	kinds, err = l.Kinds()
	require.NoError(t, err)
	require.Equal(t, []catalogue.DeviceKind{changed}, kinds)
}

func TestAFileThatCannotBeReadIsNamedAndNotWrittenOver(t *testing.T) {
	folder := t.TempDir()
	l := house.Open(folder)
	require.NoError(t, l.Keep(own("my-box")))
	files, err := os.ReadDir(folder)
	require.NoError(t, err)
	path := filepath.Join(folder, files[0].Name())
	for _, text := range []string{"", "hello", "stageloom kinds 1\n{", "stageloom kinds 1\n{\"kinds\": 7}"} {
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		_, err := l.Kinds()
		require.ErrorContains(t, err, files[0].Name())
		require.Error(t, l.Keep(own("x")))
		held, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, text, string(held))
	}
}

func TestALibraryWithoutAFolderKeepsNothing(t *testing.T) {
	kinds, err := house.Library{}.Kinds()
	require.NoError(t, err)
	require.Empty(t, kinds)
	require.Error(t, house.Library{}.Keep(own("x")))
}

func TestANameBecomesASlugThatIsFree(t *testing.T) {
	none := func(plan.KindID) bool { return false }
	require.Equal(t, plan.KindID("my-box-32"), house.Slug("My box, 32!", none))
	require.Equal(t, plan.KindID("own"), house.Slug("🎸", none))
	require.Equal(t, plan.KindID("a-2"), house.Slug("a", func(slug plan.KindID) bool { return slug == "a" }))
}

func TestNoKindIsLostBetweenWindows(t *testing.T) {
	folder, windows, each := t.TempDir(), 4, 25
	failed := make(chan error, windows)
	for n := range windows {
		go func() {
			l := house.Open(folder)
			var err error
			for i := range each {
				slug := plan.KindID(fmt.Sprintf("box-%d-%d", n, i))
				err = errors.Join(err, l.Keep(own(slug)))
				if i%5 == 4 {
					err = errors.Join(err, l.Forget(slug))
				}
			}
			failed <- err
		}()
	}
	for range windows {
		require.NoError(t, <-failed)
	}
	kinds, err := house.Open(folder).Kinds()
	require.NoError(t, err)
	require.Len(t, kinds, windows*each*4/5)
	left, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Len(t, left, 1, "no lock stays")
}

func TestALockOfTheKindsThatIsALinkIsLeftAlone(t *testing.T) {
	folder := t.TempDir()
	l := house.Open(folder)
	require.NoError(t, l.Keep(own("my-box")))
	victim := filepath.Join(t.TempDir(), "victim")
	require.NoError(t, os.WriteFile(victim, []byte("precious"), 0o600))
	require.NoError(t, os.Symlink(victim, filepath.Join(folder, ".kinds.stageloom-kinds.lock")))
	require.ErrorContains(t, l.Keep(own("other")), "is a link")
	held, err := os.ReadFile(victim)
	require.NoError(t, err)
	require.Equal(t, "precious", string(held))
}
