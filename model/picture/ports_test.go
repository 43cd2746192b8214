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
