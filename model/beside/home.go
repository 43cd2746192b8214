package beside

import (
	"errors"
	"fmt"
	"image"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"stageloom/model/atomicfile"
)

// Home is the folder of a plan's pictures. It need not be there: the first picture makes it.
type Home struct {
	folder string
	ops    atomicfile.Ops
}

// Of is the home beside a plan's file, which need not be there. Where the plan's file is a link, the pictures lie beside
// the file that it leads to.
func Of(plan string) (Home, error) { return OfWith(plan, atomicfile.System()) }

// OfWith is Of with other operations on the disk.
func OfWith(plan string, ops atomicfile.Ops) (Home, error) {
	file, err := atomicfile.Resolve(plan)
	if err != nil {
		return Home{}, fmt.Errorf("find the folder of the pictures of %s: %w", quoted(filepath.Base(plan)), err)
	}
	return Home{folder: strings.TrimSuffix(file, ".stageloom") + ".pictures", ops: ops}, nil
}

// Folder is the path of the folder.
func (h Home) Folder() string { return h.folder }

// Trouble says what is wrong with the folder or a file in it, and what to do.
type Trouble struct {
	// Name is the picture it is about; blank is the folder itself.
	Name Name
	// Folder is the folder's path.
	Folder string
	// Missing tells that there is no such file, Damaged that its bytes are not those it is named by.
	Missing, Damaged bool
	// Err is the cause; nil where the trouble is what Missing or Damaged say.
	Err error
}

// Error is the sentence.
func (t *Trouble) Error() string {
	folder := quoted(filepath.Base(t.Folder))
	switch {
	case t.Missing:
		return fmt.Sprintf("the picture %s is missing in the folder %s: put it back beside the plan, or choose the picture again", t.Name.short(), folder)
	case t.Damaged:
		return fmt.Sprintf("the picture %s in the folder %s was changed or is damaged: choose the picture again", t.Name.short(), folder)
	case errors.Is(t.Err, errLink) && t.Name == "":
		return fmt.Sprintf("%s is not a folder of its own: a link or a file has this name; move it away and put a folder in its place", folder)
	case errors.Is(t.Err, errLink):
		return fmt.Sprintf("%s in the folder %s is a link or a folder and not a picture: take it away and choose the picture again", t.Name.short(), folder)
	case errors.Is(t.Err, errMany):
		return fmt.Sprintf("the folder %s holds more than %d files: it is for the plan's pictures alone, move the others away", folder, mostFiles)
	}
	reason := atomicfile.Reason(t.Err)
	if t.Name == "" {
		return fmt.Sprintf("the folder %s beside the plan cannot be used: %s; mend that, or save the plan elsewhere", folder, reason)
	}
	return fmt.Sprintf("the picture %s cannot be kept in or read from the folder %s: %s; mend that, or save the plan elsewhere", t.Name.short(), folder, reason)
}

// Unwrap gives the cause.
func (t *Trouble) Unwrap() error { return t.Err }

var (
	errLink = errors.New("not a regular file or folder")
	errMany = errors.New("too many files")
)

// mostFiles bounds what is read of a folder.
const mostFiles = 10_000

func (h Home) trouble(name Name, err error) error {
	return &Trouble{Name: name, Folder: h.folder, Err: err}
}

// Put keeps the bytes of a picture and gives the name and what the picture is. It is decoded once, so that what is kept can
// be drawn; what cannot be taken is *Refused. A picture that is there already is left as it is, and one that was damaged is
// made whole.
func (h Home) Put(data []byte) (Name, Look, error) {
	look, err := LookAt(data)
	if err != nil {
		return "", Look{}, err
	}
	if _, err := Decode(data); err != nil {
		return "", Look{}, err
	}
	name := nameOf(data, look.Form)
	return name, look, h.keep(name, data)
}

// PutFile is Put for a file on the disk, which may be reached by links. Folders, pipes and devices are refused.
func (h Home) PutFile(path string) (Name, Look, error) {
	file, info, err := atomicfile.OpenRegular(path)
	if err != nil {
		return "", Look{}, fmt.Errorf("read the picture %s: %w", quoted(filepath.Base(path)), err)
	}
	defer file.Close() // nothing was written
	if info.Size() > MostBytes {
		return "", Look{}, tooManyBytes()
	}
	data, err := io.ReadAll(io.LimitReader(file, MostBytes+1))
	if err != nil {
		return "", Look{}, fmt.Errorf("read the picture %s: %w", quoted(filepath.Base(path)), err)
	}
	return h.Put(data)
}

// keep writes bytes under their name where they are not there yet.
func (h Home) keep(name Name, data []byte) error {
	if err := h.make(); err != nil {
		return err
	}
	_, err := h.Get(name)
	var trouble *Trouble
	switch {
	case err == nil:
		return nil
	case errors.As(err, &trouble) && !trouble.Missing && !trouble.Damaged:
		return err
	}
	err = atomicfile.Write(filepath.Join(h.folder, string(name)), func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}, &h.ops)
	if err != nil {
		return h.trouble(name, err)
	}
	return nil
}

// make makes the folder where there is none.
func (h Home) make() error {
	err := os.Mkdir(h.folder, 0o777)
	switch {
	case err == nil:
		if err := h.ops.SyncFolder(filepath.Dir(h.folder)); err != nil {
			return h.trouble("", err)
		}
		return nil
	case !errors.Is(err, fs.ErrExist):
		return h.trouble("", err)
	}
	_, err = h.there()
	return err
}

// there reports whether the folder is there; what else has its name is a trouble.
func (h Home) there() (bool, error) {
	info, err := os.Lstat(h.folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, h.trouble("", err)
	case !info.IsDir():
		return false, h.trouble("", errLink)
	}
	return true, nil
}

// Get reads the bytes of a picture. They are those that were put: a file that is missing, was changed or is a link is a
// *Trouble.
func (h Home) Get(name Name) ([]byte, error) {
	if err := name.valid(); err != nil {
		return nil, err
	}
	there, err := h.there()
	if err != nil {
		return nil, err
	}
	if !there {
		return nil, &Trouble{Name: name, Folder: h.folder, Missing: true}
	}
	data, err := h.read(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, &Trouble{Name: name, Folder: h.folder, Missing: true, Err: err}
	case err != nil:
		return nil, h.trouble(name, err)
	case nameOf(data, name.form()) != name:
		return nil, &Trouble{Name: name, Folder: h.folder, Damaged: true}
	}
	return data, nil
}

// read reads a file of the folder that is no link, no more than is taken.
func (h Home) read(name Name) ([]byte, error) {
	root, err := os.OpenRoot(h.folder)
	if err != nil {
		return nil, err
	}
	defer root.Close() // nothing was written
	info, err := root.Lstat(string(name))
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errLink
	}
	file, err := root.Open(string(name))
	if err != nil {
		return nil, err
	}
	defer file.Close() // nothing was written
	return io.ReadAll(io.LimitReader(file, MostBytes+1))
}

// Image reads and decodes a picture.
func (h Home) Image(name Name) (image.Image, error) {
	data, err := h.Get(name)
	if err != nil {
		return nil, err
	}
	return Decode(data)
}

// List names the pictures in the folder, in the order of their names. Whether they are whole is told by Get. What else lies
// there is none of them.
func (h Home) List() ([]Name, error) {
	there, err := h.there()
	if err != nil || !there {
		return nil, err
	}
	folder, err := os.Open(h.folder)
	if err != nil {
		return nil, h.trouble("", err)
	}
	defer folder.Close() // nothing was written
	entries, err := folder.ReadDir(mostFiles + 1)
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, h.trouble("", err)
	}
	if len(entries) > mostFiles {
		return nil, h.trouble("", errMany)
	}
	var names []Name
	for _, entry := range entries {
		if name, err := ParseName(entry.Name()); err == nil && entry.Type().IsRegular() {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names, nil
}

// Unused names the pictures in the folder that are not among those used. Earlier revisions and what can be undone use
// pictures, too.
func (h Home) Unused(used []Name) ([]Name, error) {
	names, err := h.List()
	return slices.DeleteFunc(names, func(name Name) bool { return slices.Contains(used, name) }), err
}

// CopyTo brings the pictures that are used along when a plan is saved under another name. What is wrong with one does not
// keep the others back; all that is wrong is told. A picture that the other home holds whole already is no trouble.
func (h Home) CopyTo(other Home, used []Name) error {
	if other.folder == h.folder {
		return nil
	}
	var wrong []error
	for _, name := range used {
		if err := h.copyTo(other, name); err != nil {
			wrong = append(wrong, err)
		}
	}
	return errors.Join(wrong...)
}

func (h Home) copyTo(other Home, name Name) error {
	data, err := h.Get(name)
	if err != nil {
		if _, held := other.Get(name); held == nil {
			return nil
		}
		return err
	}
	return other.keep(name, data)
}
