package report

import (
	"context"
	"io"

	"stageloom/model/assess"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// Page is a page of the plan as it is laid out, before it is drawn.
type Page struct {
	Part, Denominator int
	Picture           *picture.Picture
	Tags              []geom.Box
}

// Pages opens the layout of the plan's pages to the tests, with the links left to the key list and the measure of text
// on paper.
func Pages(a *assess.Assessment, choice Choice) (pages []Page, unnamed []plan.LinkID, measure picture.Measure, err error) {
	p, err := newPrint(a, choice)
	if err != nil {
		return nil, nil, nil, err
	}
	chapter := paper.Chapter{Name: "Plan", Format: &paper.Format{Sheet: sheetOf(a.Plan, choice)}, Draw: func(b *paper.Book) error {
		if p.atlas == nil {
			p.atlas = p.chart(b)
			measure = measuring(b)
		}
		b.Paragraph("laid out")
		return nil
	}}
	_, err = paper.Write(context.Background(), io.Discard, setupOf(a.Plan, choice), chapter)
	if err != nil {
		return nil, nil, nil, err
	}
	for _, s := range p.atlas.sheets {
		pages = append(pages, Page{s.part, s.denominator, s.picture, tags(s.frames)})
	}
	return pages, p.atlas.unnamed, measure, nil
}

// RoundWithin opens the choice of the scale bar's step.
var RoundWithin = roundWithin

// Cover opens the covering of boxes by windows.
var Cover = cover

// Fullest opens the choice of the window that holds most.
var Fullest = most

// Line returns how marks of a role are drawn: false for a role without a look.
func Line(role picture.Role, grey bool) (paper.Stroke, bool) {
	_, known := looks[role]
	return lookOf(role, grey).line(), known
}

// PointMM is a point of type in millimetres.
const PointMM = pointMM

// SuppliedWatts opens to the tests what devices draw at each supply.
func SuppliedWatts(a *assess.Assessment, choice Choice) (string, error) {
	p, err := newPrint(a, choice)
	if err != nil {
		return "", err
	}
	return p.suppliedWatts(), nil
}

// Latencies opens to the tests what is said of the longest way to each console.
func Latencies(a *assess.Assessment, choice Choice) ([]string, error) {
	p, err := newPrint(a, choice)
	if err != nil {
		return nil, err
	}
	return p.latencies(), nil
}
