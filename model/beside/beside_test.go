package beside_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"image"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/atomicfile"
	"stageloom/model/beside"
)

// home is that of a plan in a folder of its own.
func home(t *testing.T) (beside.Home, string) {
	t.Helper()
	plan := filepath.Join(t.TempDir(), "Show.stageloom")
	h, err := beside.Of(plan)
	require.NoError(t, err)
	return h, plan
}

// drawing is a PNG of a grey tone.
func drawing(t testing.TB, tone uint8) []byte {
	t.Helper()
	pixels := image.NewGray(image.Rect(0, 0, 30, 20))
	for i := range pixels.Pix {
		pixels.Pix[i] = tone + uint8(i%7)
	}
	var out bytes.Buffer
	require.NoError(t, png.Encode(&out, pixels))
	return out.Bytes()
}

// photo is a JPEG.
func photo(t testing.TB) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, jpeg.Encode(&out, image.NewRGBA(image.Rect(0, 0, 16, 8)), nil))
	return out.Bytes()
}

func put(t *testing.T, h beside.Home, data []byte) beside.Name {
	t.Helper()
	name, _, err := h.Put(data)
	require.NoError(t, err)
	return name
}

func TestAPictureIsKeptByItsContentAndReadBack(t *testing.T) {
	h, plan := home(t)
	require.Equal(t, filepath.Join(filepath.Dir(plan), "Show.pictures"), h.Folder())
	names, err := h.List()
	require.NoError(t, err)
	require.Empty(t, names, "no folder is no picture")
	require.NoDirExists(t, h.Folder(), "and looking makes none")

	name, look, err := h.Put(drawing(t, 1))
	require.NoError(t, err)
	require.Equal(t, beside.Look{Form: beside.PNG, Width: 30, Height: 20}, look)
	sum := sha256.Sum256(drawing(t, 1))
	require.Equal(t, hex.EncodeToString(sum[:])+".png", string(name))
	data, err := h.Get(name)
	require.NoError(t, err)
	require.Equal(t, drawing(t, 1), data, "byte for byte as it came")
	decoded, err := h.Image(name)
	require.NoError(t, err)
	require.Equal(t, image.Pt(30, 20), decoded.Bounds().Size())

	second, look, err := h.Put(photo(t))
	require.NoError(t, err)
	require.Equal(t, beside.Look{Form: beside.JPEG, Width: 16, Height: 8}, look)
	require.True(t, strings.HasSuffix(string(second), ".jpg"))
	require.Equal(t, name, put(t, h, drawing(t, 1)), "the same once more is the same file")
	names, err = h.List()
	require.NoError(t, err)
	require.ElementsMatch(t, []beside.Name{name, second}, names)
	unused, err := h.Unused([]beside.Name{second})
	require.NoError(t, err)
	require.Equal(t, []beside.Name{name}, unused)
	require.Len(t, filesIn(t, h.Folder()), 2, "nothing half written lies about")
}

func filesIn(t *testing.T, folder string) []os.DirEntry {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	return entries
}

func TestAPictureIsTakenFromAFile(t *testing.T) {
	h, plan := home(t)
	path := filepath.Join(filepath.Dir(plan), "aerial.JPG")
	require.NoError(t, os.WriteFile(path, photo(t), 0o600))
	name, _, err := h.PutFile(path)
	require.NoError(t, err)
	require.True(t, strings.HasSuffix(string(name), ".jpg"))
	_, _, err = h.PutFile(filepath.Dir(plan))
	require.ErrorIs(t, err, atomicfile.ErrNotRegular)
	_, _, err = h.PutFile(filepath.Join(filepath.Dir(plan), "none.png"))
	require.ErrorIs(t, err, os.ErrNotExist)
	require.NoError(t, os.Truncate(path, beside.MostBytes+1))
	_, _, err = h.PutFile(path)
	require.EqualError(t, err, "the picture is not taken: its file is larger than 50 MB; save it smaller, or as a JPEG")
}

func TestAPictureThatIsMissingOrDamagedIsTold(t *testing.T) {
	h, _ := home(t)
	name := put(t, h, drawing(t, 1))
	path := filepath.Join(h.Folder(), string(name))
	var trouble *beside.Trouble

	require.NoError(t, os.WriteFile(path, drawing(t, 2), 0o600))
	_, err := h.Get(name)
	require.ErrorAs(t, err, &trouble)
	require.True(t, trouble.Damaged)
	require.ErrorContains(t, err, `in the folder "Show.pictures" was changed or is damaged: choose the picture again`)
	require.NotContains(t, err.Error(), string(name), "the whole name is nothing to read")
	require.Equal(t, name, put(t, h, drawing(t, 1)))
	_, err = h.Get(name)
	require.NoError(t, err, "chosen again, it is whole")

	require.NoError(t, os.Remove(path))
	_, err = h.Image(name)
	require.ErrorAs(t, err, &trouble)
	require.True(t, trouble.Missing)
	require.ErrorContains(t, err, "put it back beside the plan")
	require.NoError(t, os.Remove(h.Folder()))
	_, err = h.Get(name)
	require.ErrorAs(t, err, &trouble)
	require.True(t, trouble.Missing)
}

func TestNoNameLeadsOutOfTheFolder(t *testing.T) {
	h, plan := home(t)
	put(t, h, drawing(t, 1))
	require.NoError(t, os.WriteFile(plan, []byte("secret"), 0o600))
	digits := strings.Repeat("a", 64)
	for _, text := range []string{
		"", "../Show.stageloom", "..", ".", "/etc/hostname", digits, digits + ".gif", digits + ".png/..", "../" + digits + ".png",
		strings.ToUpper(digits) + ".png", digits + ".png\x00", digits[1:] + "/.png", digits + ".png\n", `..\` + digits + ".png", "C:" + digits + ".png",
	} {
		_, err := beside.ParseName(text)
		require.ErrorContains(t, err, "does not name a picture beside a plan", "%q", text)
		_, err = h.Get(beside.Name(text))
		require.Error(t, err, "%q", text)
		require.Error(t, h.CopyTo(mustHome(t), []beside.Name{beside.Name(text)}), "%q", text)
	}
	_, err := beside.ParseName(strings.Repeat("x\x1b", 500))
	require.Less(t, len(err.Error()), 300, "what is quoted is clipped")
	require.NotContains(t, err.Error(), "\x1b")
}

func mustHome(t *testing.T) beside.Home {
	h, _ := home(t)
	return h
}

func TestLinksAreNeitherReadNorReplaced(t *testing.T) {
	h, plan := home(t)
	name := put(t, h, drawing(t, 1))
	path, outside := filepath.Join(h.Folder(), string(name)), filepath.Join(filepath.Dir(plan), "outside")
	require.NoError(t, os.Rename(path, outside))
	require.NoError(t, os.Symlink(outside, path))
	_, err := h.Get(name)
	require.ErrorContains(t, err, "is a link or a folder and not a picture")
	names, err := h.List()
	require.NoError(t, err)
	require.Empty(t, names)
	require.NoError(t, os.WriteFile(outside, []byte("mine"), 0o600))
	_, _, err = h.Put(drawing(t, 1))
	require.ErrorContains(t, err, "is a link or a folder and not a picture")
	kept, err := os.ReadFile(outside)
	require.NoError(t, err)
	require.Equal(t, "mine", string(kept), "what the link leads to is untouched")

	require.NoError(t, os.Remove(path))
	require.NoError(t, os.Mkdir(path, 0o700))
	_, err = h.Get(name)
	require.ErrorContains(t, err, "is a link or a folder and not a picture")
}

func TestAFolderThatIsALinkOrAFileIsNotUsed(t *testing.T) {
	for _, c := range []struct {
		sentence string
		lay      func(folder string) error
	}{
		{"a link", func(folder string) error { return os.Symlink(t.TempDir(), folder) }},
		{"a file", func(folder string) error { return os.WriteFile(folder, nil, 0o600) }},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			h, _ := home(t)
			require.NoError(t, c.lay(h.Folder()))
			_, _, err := h.Put(drawing(t, 1))
			require.ErrorContains(t, err, `"Show.pictures" is not a folder of its own`)
			_, err = h.List()
			require.ErrorContains(t, err, "is not a folder of its own")
			_, err = h.Get(beside.Name(strings.Repeat("0", 64) + ".png"))
			require.ErrorContains(t, err, "is not a folder of its own")
		})
	}
}

func TestAPlanThatIsALinkHasItsPicturesBesideTheFile(t *testing.T) {
	h, plan := home(t)
	require.NoError(t, os.WriteFile(plan, nil, 0o600))
	link := filepath.Join(t.TempDir(), "Tonight.stageloom")
	require.NoError(t, os.Symlink(plan, link))
	same, err := beside.Of(link)
	require.NoError(t, err)
	real, err := filepath.EvalSymlinks(filepath.Dir(h.Folder()))
	require.NoError(t, err)
	require.Equal(t, filepath.Join(real, "Show.pictures"), same.Folder())
}

func TestWhatElseLiesInTheFolderIsNoPicture(t *testing.T) {
	h, _ := home(t)
	name := put(t, h, drawing(t, 1))
	for _, other := range []string{"notes.txt", ".DS_Store", "Copy of " + string(name), string(name) + ".part"} {
		require.NoError(t, os.WriteFile(filepath.Join(h.Folder(), other), nil, 0o600))
	}
	names, err := h.List()
	require.NoError(t, err)
	require.Equal(t, []beside.Name{name}, names)
}

func TestPicturesComeAlongWhenAPlanIsSavedUnderAnotherName(t *testing.T) {
	h, _ := home(t)
	one, two, lost := put(t, h, drawing(t, 1)), put(t, h, photo(t)), put(t, h, drawing(t, 3))
	put(t, h, drawing(t, 4)) // not used
	require.NoError(t, os.Remove(filepath.Join(h.Folder(), string(lost))))
	other := mustHome(t)
	err := h.CopyTo(other, []beside.Name{lost, one, two, one})
	require.ErrorContains(t, err, "is missing", "what is missing is told")
	names, listed := other.List()
	require.NoError(t, listed)
	require.ElementsMatch(t, []beside.Name{one, two}, names, "and the others are there all the same, the unused one stays")
	for _, name := range names {
		_, err := other.Get(name)
		require.NoError(t, err)
	}
	require.NoError(t, h.CopyTo(h, []beside.Name{lost}), "onto itself there is nothing to do")
	put(t, other, drawing(t, 3))
	require.NoError(t, h.CopyTo(other, []beside.Name{lost}), "what the other holds is not missed")
	require.NoError(t, mustHome(t).CopyTo(mustHome(t), nil))
}

func TestAFullDiskLeavesNothingHalf(t *testing.T) {
	_, plan := home(t)
	ops := atomicfile.System()
	create := ops.Create
	ops.Create = func(path string) (atomicfile.File, error) {
		file, err := create(path)
		return full{file}, err
	}
	h, err := beside.OfWith(plan, ops)
	require.NoError(t, err)
	_, _, err = h.Put(drawing(t, 1))
	require.ErrorContains(t, err, `the folder "Show.pictures": the disk is full`)
	require.ErrorIs(t, err, syscall.ENOSPC)
	require.Empty(t, filesIn(t, h.Folder()))

	_, err = beside.Of(filepath.Join(filepath.Dir(plan), "nowhere", "Show.stageloom"))
	require.ErrorContains(t, err, `find the folder of the pictures of "Show.stageloom"`)
}

// full is a file on a full disk.
type full struct{ atomicfile.File }

func (full) Write([]byte) (int, error) { return 0, syscall.ENOSPC }

func TestAFolderOfTooManyFilesIsNotRead(t *testing.T) {
	h, _ := home(t)
	require.NoError(t, os.Mkdir(h.Folder(), 0o700))
	for i := range 10_001 {
		require.NoError(t, os.WriteFile(filepath.Join(h.Folder(), strconv.Itoa(i)), nil, 0o600))
	}
	_, err := h.List()
	require.ErrorContains(t, err, "holds more than 10000 files")
	require.NoError(t, os.Remove(filepath.Join(h.Folder(), "7")))
	names, err := h.List()
	require.NoError(t, err)
	require.Empty(t, names)
}
