package house

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"stageloom/model/atomicfile"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// head begins the file, so that it is not taken for something else.
const head = "stageloom kinds 1\n"

// Library is the user's own kinds on disk. The zero Library, without a folder, keeps nothing and has nothing.
type Library struct {
	folder string
	// step notes what changes the house's stock; nil where nobody asks.
	step *Step
}

// Open returns the library in a folder, which need not be there yet.
func Open(folder string) Library { return Library{folder: folder} }

func (l Library) file() string { return filepath.Join(l.folder, "kinds.stageloom-kinds") }

// read reads a file of the library; there is false where it has none yet and where it cannot be read, which the error then
// says of what it holds.
func (l Library) read(file, what string) (text []byte, there bool, err error) {
	if l.folder == "" {
		return nil, false, nil
	}
	text, err = atomicfile.ReadRegular(file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, false, nil
	case err != nil:
		return nil, false, fmt.Errorf("%s cannot be read: %w", what, err)
	}
	return text, true, nil
}

// Kinds reads the kinds. A file that cannot be read is an error that names it; it is never written over unread.
func (l Library) Kinds() ([]catalogue.DeviceKind, error) {
	text, there, err := l.read(l.file(), "your own kinds")
	if !there {
		return nil, err
	}
	body, found := bytes.CutPrefix(text, []byte(head))
	if !found {
		return nil, fmt.Errorf("%s does not hold kinds of Stageloom; move it away", l.file())
	}
	delta, err := planfile.DecodeDelta(bytes.TrimSpace(body), planfile.Version)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", l.file(), err)
	}
	return kindsOf(delta), nil
}

func kindsOf(d *plan.Delta) []catalogue.DeviceKind {
	var kinds []catalogue.DeviceKind
	for _, kind := range d.Kinds.Set {
		own := catalogue.DeviceKind{Kind: kind}
		for _, port := range d.KindPorts.Set {
			if port.Kind == kind.ID {
				own.Ports = append(own.Ports, port)
			}
		}
		for _, socket := range d.KindSockets.Set {
			if socket.Kind == kind.ID {
				own.Sockets = append(own.Sockets, socket)
			}
		}
		for _, way := range d.KindWays.Set {
			if way.Kind == kind.ID {
				own.Ways = append(own.Ways, way)
			}
		}
		kinds = append(kinds, own)
	}
	return kinds
}

// Keep adds a kind, or replaces the one of its slug.
func (l Library) Keep(kind catalogue.DeviceKind) error {
	return l.change(func(kinds []catalogue.DeviceKind) []catalogue.DeviceKind {
		return append(without(kinds, kind.Kind.ID), kind)
	})
}

// Forget takes a kind out; plans that use it keep their copy.
func (l Library) Forget(id plan.KindID) error {
	return l.change(func(kinds []catalogue.DeviceKind) []catalogue.DeviceKind { return without(kinds, id) })
}

func without(kinds []catalogue.DeviceKind, id plan.KindID) []catalogue.DeviceKind {
	return slices.DeleteFunc(kinds, func(kind catalogue.DeviceKind) bool { return kind.Kind.ID == id })
}

// change reads, changes and writes the kinds while no other window does.
func (l Library) change(with func([]catalogue.DeviceKind) []catalogue.DeviceKind) error {
	if l.folder == "" {
		return errors.New("there is no folder to keep your own kinds in")
	}
	lock, err := l.lock(l.file())
	if err != nil {
		return fmt.Errorf("your own kinds were not kept: %w", err)
	}
	defer func() { _ = lock.Release() }() // the file stands; a lock left behind frees itself with the program
	kinds, err := l.Kinds()
	if err != nil {
		return err
	}
	delta := &plan.Delta{}
	for _, kind := range with(kinds) {
		delta.Kinds.Set = append(delta.Kinds.Set, kind.Kind)
		delta.KindPorts.Set = append(delta.KindPorts.Set, kind.Ports...)
		delta.KindSockets.Set = append(delta.KindSockets.Set, kind.Sockets...)
		delta.KindWays.Set = append(delta.KindWays.Set, kind.Ways...)
	}
	text, err := planfile.EncodeDelta(delta)
	if err != nil {
		return fmt.Errorf("your own kinds were not kept: %w", err)
	}
	return atomicfile.Write(l.file(), func(w io.Writer) error {
		_, err := io.WriteString(w, head+string(text)+"\n")
		return err
	}, nil)
}

// Slug makes a name a slug that is not taken.
func Slug(name string, taken func(plan.KindID) bool) plan.KindID {
	stem := strings.Trim(strings.Map(func(sign rune) rune {
		switch {
		case sign >= 'a' && sign <= 'z', sign >= '0' && sign <= '9':
			return sign
		}
		return '-'
	}, strings.ToLower(name)), "-")
	for strings.Contains(stem, "--") {
		stem = strings.ReplaceAll(stem, "--", "-")
	}
	if stem == "" {
		stem = "own"
	}
	slug := plan.KindID(stem)
	for n := 2; taken(slug); n++ {
		slug = plan.KindID(fmt.Sprintf("%s-%d", stem, n))
	}
	return slug
}
