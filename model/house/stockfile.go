package house

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// The file of the house's stock begins with its version. In the first every line behind the rows is a taking, which names
// its show; in the second each says what it is, and takings name plans by their identities.
const (
	stockHead1 = "stageloom stock 1\n"
	stockHead  = "stageloom stock 2\n"
)

// stockLine is a line behind the rows of the stock: one of these.
type stockLine struct {
	Show    *Show    `json:"show,omitempty"`
	Taking  *Taking  `json:"taking,omitempty"`
	Learned *Learned `json:"learned,omitempty"`
}

// mostReason is how many signs of another program's reason are told: the reader of JSON quotes figures of any length.
const mostReason = 120

// decodeStock reads the head, a line with the rows, and the lines behind them.
func decodeStock(text []byte) (Stock, error) {
	s := Stock{Plan: plan.New("House stock")}
	body, found := bytes.CutPrefix(text, []byte(stockHead))
	body1, first := bytes.CutPrefix(text, []byte(stockHead1))
	if !found && !first {
		return s, errors.New("it does not hold the stock of a house that this version can read; move it away")
	}
	if first {
		body = body1
	}
	lines := bytes.Split(bytes.TrimSuffix(body, []byte("\n")), []byte("\n"))
	delta, err := planfile.DecodeDelta(lines[0], planfile.Version)
	if err != nil {
		return s, err
	}
	if s.Plan, err = plan.Apply(s.Plan, delta); err != nil {
		return s, err
	}
	for i, line := range lines[1:] {
		said, err := decodeLine(line, first)
		if err != nil {
			return s, fmt.Errorf("line %d %w: put the file back from a copy", i+3, err)
		}
		s.add(said)
	}
	return s, s.check()
}

// decodeLine reads one line behind the rows, exactly as it was written.
func decodeLine(line []byte, first bool) (said stockLine, err error) {
	var into any = &said
	if first {
		said.Taking = &Taking{}
		into = said.Taking
	}
	if err := json.Unmarshal(line, into); err != nil {
		return said, fmt.Errorf("is no taking (%s)", plan.ClippedTo(err.Error(), mostReason))
	}
	again, err := json.Marshal(into)
	if err != nil || !bytes.Equal(again, line) || said == (stockLine{}) {
		return said, errors.New("is not as it was written")
	}
	return said, nil
}

func (s *Stock) add(said stockLine) {
	if said.Show != nil {
		s.Shows = append(s.Shows, *said.Show)
	}
	if said.Taking != nil {
		s.Takings = append(s.Takings, *said.Taking)
	}
	if said.Learned != nil {
		s.Learned = append(s.Learned, *said.Learned)
	}
}

func encodeStock(s Stock) (string, error) {
	rows, err := planfile.EncodeDelta(plan.Between(plan.New("House stock"), s.Plan))
	if err != nil {
		return "", err
	}
	var b strings.Builder
	b.WriteString(stockHead)
	b.Write(rows)
	b.WriteString("\n")
	var lines []stockLine
	for i := range s.Shows {
		lines = append(lines, stockLine{Show: &s.Shows[i]})
	}
	for i := range s.Takings {
		lines = append(lines, stockLine{Taking: &s.Takings[i]})
	}
	for i := range s.Learned {
		lines = append(lines, stockLine{Learned: &s.Learned[i]})
	}
	for _, said := range lines {
		line, err := json.Marshal(said)
		if err != nil {
			return "", err
		}
		b.Write(line)
		b.WriteString("\n")
	}
	return b.String(), nil
}
