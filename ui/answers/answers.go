package answers

import (
	"encoding/json"
	"fmt"
)

// Window is what answers are taken from, on the goroutine of the user interface only.
type Window interface {
	// State tells everything at once.
	State() State
	// Row is where the mark of a row lies, by its name on screen, or of a port of a device; a blank port is the row itself.
	Row(table, name, port string) Place
	// Item is where the topmost widget lies that bears these words.
	Item(words string) Place
	// Frames tells by cause how long frames took, and then forgets them where that is wanted.
	Frames(forget bool) map[string]Frames
	// Memory collects what is unused before it tells.
	Memory() Memory
}

// State is the answer to "state": the window, the plan in it, and what is shown of it.
type State struct {
	Title     string          `json:"title"`
	Path      string          `json:"path"`
	Unsaved   bool            `json:"unsaved"`
	ReadOnly  string          `json:"read_only"`
	Notice    string          `json:"notice"`
	Selection []string        `json:"selection"`
	History   []string        `json:"history"`
	Step      int             `json:"step"`
	Links     map[string]Link `json:"links"`
	Scale     float64         `json:"scale"` // pixels a metre
	Dragging  bool            `json:"dragging"`
	Overlays  int             `json:"overlays"`
	Focus     string          `json:"focus"`
	Tip       string          `json:"tip"`
	Unplaced  int             `json:"unplaced_labels"`
	Frames    int             `json:"frames"`
	Table     Table           `json:"table"`
	Day       Day             `json:"day"`
	Lists     []List          `json:"lists"`
}

// List is a list of the dialog on top: its lines as they read, and which of them are selected.
type List struct {
	Name     string   `json:"name"`
	Lines    []string `json:"lines"`
	Selected []int    `json:"selected"`
}

// Link is a link as it stands, or as a drag that goes on would leave it.
type Link struct {
	Grade   string  `json:"grade"`
	Label   string  `json:"label"`
	Run     float64 `json:"run_m"`
	Margin  float64 `json:"margin_dB"`
	Missing float64 `json:"missing_m"`
	Cables  int     `json:"cables"`
}

// Table is the table that is open, blank where none is.
type Table struct {
	Name     string   `json:"name"`
	Rows     int      `json:"rows"`
	Row      string   `json:"row"`
	Column   string   `json:"column"`
	Text     string   `json:"text"`
	Filter   string   `json:"filter"`
	Trouble  string   `json:"trouble"`
	Selected int      `json:"selected"`
	Line     []string `json:"line"`
}

// Day is what the day view shows, blank while it is hidden.
type Day struct {
	Link  string `json:"link"`
	Done  string `json:"done"`
	Said  string `json:"said"`
	Cable int    `json:"cable"`
}

// Place is the answer to "where" and "item": the middle of a mark or a widget in pixels of the window.
type Place struct {
	X     float64 `json:"x_px"`
	Y     float64 `json:"y_px"`
	Found bool    `json:"found"`
}

// Frames is the answer to "frames" for one cause of painting.
type Frames struct {
	Count   int     `json:"count"`
	Median  float64 `json:"p50_ms"`
	Share95 float64 `json:"p95_ms"`
	Slowest float64 `json:"max_ms"`
}

// Memory is the answer to "memory": the Heap after a collection in megabytes, and the time from the start of the program to the first
// frame of the plan.
type Memory struct {
	Heap  float64 `json:"heap_MB"`
	Start float64 `json:"start_ms"`
}

// Questions answers questions about one window.
type Questions struct{ window Window }

// About returns the questions about a window.
func About(window Window) *Questions { return &Questions{window} }

// question is one line asked.
type question struct {
	// Ask is "state", "where", "item", "frames" or "memory".
	Ask string `json:"ask"`
	// Table and Name say which row "where" is about, by its name on screen.
	Table string `json:"table"`
	Name  string `json:"name"`
	// Port is a port of the device that "where" is about; blank is the device itself.
	Port string `json:"port"`
	// Forget makes "frames" begin anew after the answer.
	Forget bool `json:"forget"`
}

// Answer answers one line. A question that is none gets an object whose "error" says so.
func (q *Questions) Answer(line []byte) []byte {
	var asked question
	if err := json.Unmarshal(line, &asked); err != nil {
		return refusal(err)
	}
	answer, err := q.answer(asked)
	if err != nil {
		return refusal(err)
	}
	text, err := json.Marshal(answer)
	if err != nil {
		return refusal(err)
	}
	return text
}

func (q *Questions) answer(asked question) (any, error) {
	switch asked.Ask {
	case "state":
		return q.window.State(), nil
	case "where":
		return q.window.Row(asked.Table, asked.Name, asked.Port), nil
	case "item":
		return q.window.Item(asked.Name), nil
	case "memory":
		return q.window.Memory(), nil
	case "frames":
		return q.window.Frames(asked.Forget), nil
	}
	return nil, fmt.Errorf("there is no question %q; ask state, where, item, frames or memory", asked.Ask)
}

func refusal(err error) []byte {
	text, _ := json.Marshal(map[string]string{"error": err.Error()})
	return text
}
