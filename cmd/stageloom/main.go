// Command stageloom is the desktop program: it opens a plan, given as its only argument, or an empty one.
package main

import (
	"crypto/rand"
	"encoding/binary"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"stageloom/assets"
	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui"
)

// version stands in the window's About and in FyneApp.toml.
const version = "0.1.0"

func main() {
	// A frame makes a few megabytes of marks; collecting less often keeps frames even and costs some tens of megabytes.
	debug.SetGCPercent(300)
	if len(os.Args) > 2 {
		fail("stageloom takes one plan file, or nothing.")
	}
	if !hasDisplay() {
		fail("There is no display to open a window on; loomsheet checks and prints plans without one.")
	}
	app.SetMetadata(fyne.AppMetadata{
		ID: "stageloom.desktop", Name: "Stageloom", Version: version, Icon: fyne.NewStaticResource("stageloom.png", assets.Icon()),
		// With the migration said to be done, fyne leaves its thread checks out; a test switches them on.
		Migrations: map[string]bool{"fyneDo": os.Getenv("STAGELOOM_CHECK_THREADS") == ""},
	})
	a := app.NewWithID("stageloom.desktop")
	d, library := desk.New(newIDs()), house.Library{}
	folder, err := os.UserConfigDir()
	if err == nil {
		d.KeepJournal(filepath.Join(folder, "stageloom", "unsaved"))
		library = house.Open(filepath.Join(folder, "stageloom"))
	} else {
		d.NoJournal("the system names no folder for it (" + err.Error() + ")")
	}
	window, questions := ui.Open(a, d, library, os.Args[1:]...)
	if path := os.Getenv("STAGELOOM_QUESTIONS"); path != "" {
		listen(a, path, questions)
	}
	window.ShowAndRun()
}

func fail(sentence string) {
	fmt.Fprintln(os.Stderr, sentence)
	os.Exit(2)
}

func hasDisplay() bool {
	if runtime.GOOS != "linux" {
		return true
	}
	return os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}

// newIDs gives ids that no other run gives.
func newIDs() *plan.IDSource {
	var seed [16]byte
	if _, err := rand.Read(seed[:]); err != nil {
		fail("The system gives no random numbers: " + err.Error())
	}
	return plan.NewIDSource(binary.LittleEndian.Uint64(seed[:8]), binary.LittleEndian.Uint64(seed[8:]))
}
