package answers_test

import (
	"bufio"
	"encoding/json"
	"net"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/ui/answers"
)

// window is one of which everything is known.
type window struct{ forgotten bool }

func (w *window) State() answers.State { return answers.State{Title: "Barn dance", Frames: 3} }

func (w *window) Row(table, name, port string) answers.Place {
	return answers.Place{X: 1, Y: 2, Found: table == "devices" && name == "FOH" && port == "AES50 1"}
}

func (w *window) Item(words string) answers.Place { return answers.Place{Found: words == "Save"} }

func (w *window) Frames(forget bool) map[string]answers.Frames {
	w.forgotten = forget
	return map[string]answers.Frames{"drag": {Count: 7, Median: 1.5}}
}

func (w *window) Memory() answers.Memory { return answers.Memory{Heap: 40, Start: 800} }

func TestEachQuestionHasItsAnswer(t *testing.T) {
	w := &window{}
	for _, c := range []struct{ question, answer string }{
		{`{"ask":"where","table":"devices","name":"FOH","port":"AES50 1"}`, `{"x_px":1,"y_px":2,"found":true}`},
		{`{"ask":"where","table":"links","name":"FOH"}`, `{"x_px":1,"y_px":2,"found":false}`},
		{`{"ask":"item","name":"Save"}`, `{"x_px":0,"y_px":0,"found":true}`},
		{`{"ask":"memory"}`, `{"heap_MB":40,"start_ms":800}`},
		{`{"ask":"frames","forget":true}`, `{"drag":{"count":7,"p50_ms":1.5,"p95_ms":0,"max_ms":0}}`},
		{`{"ask":"weather"}`, `{"error":"there is no question \"weather\"; ask state, where, item, frames or memory"}`},
		{`{`, `{"error":"unexpected end of JSON input"}`},
	} {
		require.JSONEq(t, c.answer, string(answers.About(w).Answer([]byte(c.question))), c.question)
	}
	require.True(t, w.forgotten)
	var state answers.State
	require.NoError(t, json.Unmarshal(answers.About(w).Answer([]byte(`{"ask":"state"}`)), &state))
	require.Equal(t, w.State(), state)
}

func TestASocketAnswersLineByLineOnTheScreensGoroutine(t *testing.T) {
	path := filepath.Join(t.TempDir(), "s")
	require.NoError(t, os.WriteFile(path, nil, 0o600), "one that a killed run left")
	var turns atomic.Int32
	socket, err := answers.About(&window{}).Listen(path, func(do func()) { turns.Add(1); do() })
	require.NoError(t, err)
	connection, err := net.Dial("unix", path)
	require.NoError(t, err)
	defer connection.Close()
	lines := bufio.NewScanner(connection)
	for range 2 {
		_, err = connection.Write([]byte(`{"ask":"item","name":"Save"}` + "\n"))
		require.NoError(t, err)
		require.True(t, lines.Scan())
		require.JSONEq(t, `{"x_px":0,"y_px":0,"found":true}`, lines.Text())
	}
	require.EqualValues(t, 2, turns.Load())
	require.NoError(t, socket.Close())
	_, err = net.Dial("unix", path)
	require.Error(t, err, "closed")
}

func TestASocketThatCannotBeMadeIsAnError(t *testing.T) {
	_, err := answers.About(&window{}).Listen(filepath.Join(t.TempDir(), "missing", "s"), func(do func()) { do() })
	require.ErrorIs(t, err, os.ErrNotExist)
}

// bearer is a button that says by itself what words it bears.
type bearer struct{ widget.Button }

func (*bearer) Bears(words string) bool { return words == "by itself" }

func TestFindSeesWhatBearsTheWordsAndWhatLiesOverIt(t *testing.T) {
	test.NewTempApp(t)
	entry := widget.NewEntry()
	entry.SetPlaceHolder("Filter")
	own := &bearer{}
	own.ExtendBaseWidget(own)
	hidden := widget.NewLabel("hidden")
	hidden.Hide()
	form := widget.NewForm(widget.NewFormItem("Length", widget.NewEntry()))
	w := test.NewTempWindow(t, container.NewVBox(widget.NewLabel("Stage left"), widget.NewButton("Save", nil), entry, own, hidden, form))
	for words, found := range map[string]bool{
		"Stage left": true, "Save": true, "Filter": true, "by itself": true, "Length": true, "hidden": false, "missing": false,
	} {
		require.Equal(t, found, answers.Find(w.Canvas(), words).Found, words)
	}
	above, below := answers.Find(w.Canvas(), "Stage left"), answers.Find(w.Canvas(), "Save")
	require.Less(t, above.Y, below.Y)
	widget.ShowPopUp(widget.NewButton("Over it", nil), w.Canvas())
	require.True(t, answers.Find(w.Canvas(), "Over it").Found)
	require.False(t, answers.Find(w.Canvas(), "Save").Found)
}
