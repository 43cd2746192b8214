package picture_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

func TestPortsKeepOffTheWordsOfTheirDeviceAndOffItsNeighbours(t *testing.T) {
	device := plan.Ref{Table: "devices", Key: "d-22222"}
	for name, scale := range map[string]float64{"boxes": 8, "dots": 0.2} {
		t.Run(name, func(t *testing.T) {
			p := draw(twoBoxes(), scale, picture.Options{Selected: map[plan.Ref]bool{device: true}})
			var box geom.Box
			first, last, ports := -1, 0, 0
			for i, m := range p.Marks {
				switch {
				case m.Ref == device && m.Shape == picture.Panel:
					box = geom.BoxOf(m.Points...)
				case m.Role == picture.RolePortFree || m.Role == picture.RolePortUsed:
					if first < 0 {
						first = i
					}
					ports++
				}
				if m.Shape == picture.Panel && (m.Role == picture.RoleDeviceFill || m.Role == picture.RoleDeviceDot) {
					last = i
				}
			}
			require.Positive(t, ports)
			require.Greater(t, first, last, "no box hides a port")
			for _, m := range p.Marks[first : first+ports] {
				for _, each := range append(boxesOf(p, picture.RoleDeviceFill, picture.RoleDeviceDot), box) {
					require.False(t, covers(geom.BoxOf(m.Points...), each), "on no box")
				}
			}
			hit, found := p.Pick(box.Centre())
			require.True(t, found)
			require.Equal(t, device, hit, "the box is hit, however small")
		})
	}
}

func TestTheScaleBarLiesOnNoDevice(t *testing.T) {
	v := picture.View{Scale: 8, Width: 900, Height: 500, Origin: geom.Point{X: -5, Y: 55}}
	barOf := func(devices ...geom.Point) []picture.Mark {
		s := twoBoxes()
		s.Devices, s.Links = nil, nil
		for i, at := range devices {
			s.Devices = append(s.Devices, picture.DeviceFigure{ID: plan.DeviceID(rune('a' + i)), Name: "Stage box", At: v.Metres(at)})
		}
		p := picture.Letter(picture.Arrange(s, v.Scale, 1, wide), v, picture.Options{})
		marks := p.ScaleBar(v, 1, "m")
		if len(marks) > 0 {
			for _, box := range boxesOf(p, picture.RoleDeviceFill) {
				require.False(t, covers(geom.BoxOf(marks[0].Points...).Inset(-1), box))
			}
		}
		return marks
	}
	require.Equal(t, picture.ScaleBar(v, 1, "m"), barOf(geom.Pt(400, 200)), "in its corner")
	require.NotEqual(t, picture.ScaleBar(v, 1, "m"), barOf(geom.Pt(60, 478)), "beside what stands there")
	require.NotEmpty(t, barOf(geom.Pt(60, 478), geom.Pt(240, 478), geom.Pt(400, 478), geom.Pt(560, 478), geom.Pt(720, 478), geom.Pt(860, 478)), "or at the top")
}
