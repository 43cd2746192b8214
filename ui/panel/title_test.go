package panel_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/ui/panel"
	"stageloom/ui/pointer"
)

func TestATitleThatIsCutIsToldWhole(t *testing.T) {
	test.NewTempApp(t)
	var show func()
	title := panel.NewTitle()
	title.MouseOut() // without tips nothing is told
	title.Tips = pointer.NewTips(func(_ time.Duration, do func()) func() { show = do; return func() {} })
	w := test.NewTempWindow(t, container.NewStack(title, title.Tips.Layer))
	w.Resize(fyne.NewSize(120, 60))
	const whole = "A plan with a name that no line beside the overview has room for"
	title.Say(whole, whole)
	require.Less(t, title.MinSize().Width, float32(120), "it gives way to the overview")
	title.MouseIn(&desktop.MouseEvent{})
	show()
	require.Equal(t, whole, title.Tips.Words())
	title.MouseOut()
	require.Empty(t, title.Tips.Words())
}
