package picture

import (
	"math"

	"stageloom/model/geom"
)

// Badge returns the outline of a grade's badge about a point: its SHAPE carries the grade, so that it is told
// without colour. Ample is a disc, enough a square, tight a triangle, over a cross, uncabled a bar.
func Badge(grade string, at geom.Point, size float64) []geom.Point {
	half := size / 2
	switch grade {
	case "ample":
		return ring(at, half, 16, 0)
	case "enough":
		return ring(at, half*1.2, 4, math.Pi/4)
	case "tight":
		return ring(at.Add(geom.Point{Y: half * 0.2}), half*1.25, 3, -math.Pi/2)
	case "over":
		return cross(at, half*1.1)
	case "uncabled":
		return []geom.Point{
			{X: at.X - half, Y: at.Y - half*0.35},
			{X: at.X + half, Y: at.Y - half*0.35},
			{X: at.X + half, Y: at.Y + half*0.35},
			{X: at.X - half, Y: at.Y + half*0.35},
		}
	}
	return nil
}

func ring(at geom.Point, radius float64, corners int, start float64) []geom.Point {
	points := make([]geom.Point, corners)
	for i := range points {
		points[i] = at.Add(geom.Polar(radius, start+2*math.Pi*float64(i)/float64(corners)))
	}
	return points
}

func cross(at geom.Point, half float64) []geom.Point {
	arm := half * 0.42
	outline := []geom.Point{
		{X: 0, Y: -arm},
		{X: half - arm, Y: -half},
		{X: half, Y: -half + arm},
		{X: arm, Y: 0},
		{X: half, Y: half - arm},
		{X: half - arm, Y: half},
		{X: 0, Y: arm},
		{X: -half + arm, Y: half},
		{X: -half, Y: half - arm},
		{X: -arm, Y: 0},
		{X: -half, Y: -half + arm},
		{X: -half + arm, Y: -half},
	}
	for i := range outline {
		outline[i] = outline[i].Add(at)
	}
	return outline
}
