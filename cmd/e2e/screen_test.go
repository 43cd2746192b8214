package e2e_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// patience is how long a state may take to come; it is no measure of speed.
const patience = 20 * time.Second

// screen is a display of its own.
type screen struct {
	t       testing.TB
	display string
}

// newScreen starts a display of this size, which ends with the test.
func newScreen(t testing.TB, size string) *screen {
	t.Helper()
	read, write, err := os.Pipe()
	require.NoError(t, err)
	server := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", size+"x24", "-nolisten", "tcp")
	server.ExtraFiles = []*os.File{write}
	require.NoError(t, server.Start(), "Xvfb shows the window; on Debian it is the package xvfb")
	require.NoError(t, write.Close())
	t.Cleanup(func() { _ = server.Process.Kill(); _ = server.Wait() })
	number, err := bufio.NewReader(read).ReadString('\n')
	require.NoError(t, err, "Xvfb tells its display when it is ready")
	return &screen{t, ":" + strings.TrimSpace(number)}
}

// do runs xdotool with these words, in one call.
func (s *screen) do(words ...string) {
	s.t.Helper()
	tool := exec.Command("xdotool", words...)
	tool.Env = append(os.Environ(), "DISPLAY="+s.display)
	out, err := tool.CombinedOutput()
	require.NoError(s.t, err, "xdotool: %s", out)
}

// picture keeps what the screen shows as NAME.png where STAGELOOM_PICTURES says.
func (s *screen) picture(name string) string {
	s.t.Helper()
	folder := os.Getenv("STAGELOOM_PICTURES")
	if folder == "" {
		folder = s.t.TempDir()
	}
	time.Sleep(150 * time.Millisecond) // the state is true before its frame is shown
	path := filepath.Join(folder, name+".png")
	tool := exec.Command("import", "-window", "root", path)
	tool.Env = append(os.Environ(), "DISPLAY="+s.display)
	out, err := tool.CombinedOutput()
	require.NoError(s.t, err, "import: %s", out)
	return path
}

// program is the desktop program in its window.
type program struct {
	*screen
	connection net.Conn
	lines      *bufio.Reader
	output     *bytes.Buffer
	process    *exec.Cmd
	ended      chan error
}

// launch starts the program on a screen and waits until it answers.
func (s *screen) launch(home string, extra []string, arguments ...string) *program {
	s.t.Helper()
	path := os.Getenv("STAGELOOM_WINDOW")
	if path == "" {
		s.t.Skip("STAGELOOM_WINDOW names no program; run cmd/e2e/window")
	}
	socket := filepath.Join(s.t.TempDir(), "questions")
	p := &program{screen: s, output: &bytes.Buffer{}, process: exec.Command(path, arguments...), ended: make(chan error, 1)}
	p.process.Stdout, p.process.Stderr = p.output, p.output
	p.process.Env = append(os.Environ(), "DISPLAY="+s.display, "HOME="+home, "XDG_CONFIG_HOME="+filepath.Join(home, "config"),
		"LANG=en_US.UTF-8", "FYNE_SCALE=1", "STAGELOOM_QUESTIONS="+socket)
	p.process.Env = append(p.process.Env, extra...)
	require.NoError(s.t, p.process.Start())
	go func() { p.ended <- p.process.Wait() }()
	s.t.Cleanup(func() { _ = p.process.Process.Kill() })
	p.until("the program answers", func() bool {
		var err error
		p.connection, err = net.Dial("unix", socket)
		return err == nil
	})
	p.lines = bufio.NewReader(p.connection)
	p.until("the window is up", func() bool { return p.state().Scale > 0 && p.state().Frames > 0 })
	return p
}

func (s *screen) until(what string, reached func() bool) {
	s.t.Helper()
	for limit := time.Now().Add(patience); ; time.Sleep(15 * time.Millisecond) {
		if reached() {
			return
		}
		if time.Now().After(limit) {
			require.Fail(s.t, "never came: "+what)
		}
	}
}

// ask puts one question and reads the answer into a value.
func (p *program) ask(question string, answer any) {
	p.t.Helper()
	_, err := fmt.Fprintln(p.connection, question)
	require.NoError(p.t, err, "the program went away: %s", p.output)
	line, err := p.lines.ReadBytes('\n')
	require.NoError(p.t, err, "the program went away: %s", p.output)
	require.NotContains(p.t, string(line), `{"error"`)
	require.NoError(p.t, json.Unmarshal(line, answer))
}

type linkState struct {
	Grade   string  `json:"grade"`
	Label   string  `json:"label"`
	Run     float64 `json:"run_m"`
	Margin  float64 `json:"margin_dB"`
	Missing float64 `json:"missing_m"`
	Cables  int     `json:"cables"`
}

type state struct {
	Title     string               `json:"title"`
	Path      string               `json:"path"`
	Unsaved   bool                 `json:"unsaved"`
	ReadOnly  string               `json:"read_only"`
	Notice    string               `json:"notice"`
	Selection []string             `json:"selection"`
	History   []string             `json:"history"`
	Step      int                  `json:"step"`
	Links     map[string]linkState `json:"links"`
	Scale     float64              `json:"scale"`
	Dragging  bool                 `json:"dragging"`
	Overlays  int                  `json:"overlays"`
	Focus     string               `json:"focus"`
	Frames    int                  `json:"frames"`
	Tip       string               `json:"tip"`
	Lists     []listState          `json:"lists"`
}

type listState struct {
	Name     string   `json:"name"`
	Lines    []string `json:"lines"`
	Selected []int    `json:"selected"`
}

func (p *program) state() (s state) {
	p.t.Helper()
	p.ask(`{"ask":"state"}`, &s)
	return s
}

// where is the place of a row's mark on the screen.
func (p *program) where(table, name string) (x, y int) {
	p.t.Helper()
	var place struct {
		X     float64 `json:"x_px"`
		Y     float64 `json:"y_px"`
		Found bool    `json:"found"`
	}
	p.ask(fmt.Sprintf(`{"ask":"where","table":%q,"name":%q}`, table, name), &place)
	require.True(p.t, place.Found, "%s %s is not on the screen", table, name)
	return int(place.X), int(place.Y)
}

// item is the place of a button, a field or a menu item by the words it bears.
func (p *program) item(words string) (x, y int) {
	p.t.Helper()
	var place struct {
		X     float64 `json:"x_px"`
		Y     float64 `json:"y_px"`
		Found bool    `json:"found"`
	}
	p.until("on the screen: "+words, func() bool {
		p.ask(fmt.Sprintf(`{"ask":"item","name":%q}`, words), &place)
		return place.Found
	})
	return int(place.X), int(place.Y)
}

func (p *program) click(x, y int) {
	p.t.Helper()
	p.do("mousemove", strconv.Itoa(x), strconv.Itoa(y), "click", "1")
}

// press types keys, such as "ctrl+s".
func (p *program) press(keys ...string) {
	p.t.Helper()
	p.do(append([]string{"key", "--delay", "30"}, keys...)...)
}

// drag presses at a place, goes to another in eight steps and releases there, in one call.
func (p *program) drag(x, y, toX, toY int) {
	p.t.Helper()
	words := []string{"mousemove", strconv.Itoa(x), strconv.Itoa(y), "mousedown", "1"}
	for i := 1; i <= 8; i++ {
		words = append(words, "mousemove", strconv.Itoa(x+(toX-x)*i/8), strconv.Itoa(y+(toY-y)*i/8))
	}
	p.do(append(words, "mouseup", "1")...)
}

// over reports whether the program has ended.
func (p *program) over() bool {
	select {
	case err := <-p.ended:
		p.ended <- err
		return true
	default:
		return false
	}
}

// runWithoutDisplay runs the program to its end with no display and returns what it said and its exit code.
func runWithoutDisplay(t *testing.T) (output string, code int) {
	t.Helper()
	path := os.Getenv("STAGELOOM_WINDOW")
	if path == "" {
		t.Skip("STAGELOOM_WINDOW names no program; run cmd/e2e/window")
	}
	process := exec.Command(path)
	for _, entry := range os.Environ() {
		if !strings.HasPrefix(entry, "DISPLAY=") && !strings.HasPrefix(entry, "WAYLAND_DISPLAY=") {
			process.Env = append(process.Env, entry)
		}
	}
	process.Env = append(process.Env, "LANG=en_US.UTF-8", "LC_ALL=") // the toolkit complains about the locale C
	said, _ := process.CombinedOutput()
	return string(said), process.ProcessState.ExitCode()
}
