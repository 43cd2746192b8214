package panel_test

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

func TestTheStudyAsMarkup(t *testing.T) {
	start(t)
	p := demo.Weekender()
	w := show(t, panel.NewStudyView(text.StudyOf(assess.Of(p), plan.LinkID(linkNamed(p, "L02").Key), words.Units{}), nil), 1180, 640)
	test.AssertRendersToMarkup(t, "study.xml", w.Canvas())
}
