package paper

import (
	"bufio"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
)

// errForm tells that the library wrote a document of another form than is known here.
var errForm = errors.New("the PDF library wrote its document in another form")

// bind writes the document that the library made of empty pages, with contents in their place: the library keeps every page
// plain until the end, a gigabyte of them for a plan of ten thousand links. Filter is how contents are packed; blank is not
// at all.
func bind(w io.Writer, document []byte, contents [][]byte, filter string) error {
	offsets, table, err := crossReferences(document)
	if err != nil {
		return err
	}
	inOrder := make([]int, 0, len(offsets))
	for id := range offsets {
		if id > 0 {
			inOrder = append(inOrder, id)
		}
	}
	slices.SortFunc(inOrder, func(a, b int) int { return cmp.Compare(offsets[a], offsets[b]) })
	out := &bound{to: bufio.NewWriterSize(w, 1<<16)}
	out.write(document[:offsets[inOrder[0]]])
	moved := make([]int, len(offsets))
	for i, id := range inOrder {
		end := table
		if i+1 < len(inOrder) {
			end = offsets[inOrder[i+1]]
		}
		object := document[offsets[id]:end]
		moved[id] = out.length
		page, isContent := pageOf(id, len(contents))
		if !isContent {
			out.write(object)
			continue
		}
		if !bytes.HasPrefix(object, fmt.Appendf(nil, "%d 0 obj\n<</Length ", id)) {
			return errForm
		}
		out.write(fmt.Appendf(nil, "%d 0 obj\n<<%s/Length %d>>\nstream\n", id, filter, len(contents[page])))
		out.write(contents[page])
		out.write([]byte("\nendstream\nendobj\n"))
	}
	return out.end(document[table:], moved)
}

// pageOf tells which page's content an object is: the library writes a page and its content one after the other, from
// object 3 on.
func pageOf(id, pages int) (page int, isContent bool) {
	page = id/2 - 2
	return page, id%2 == 0 && page >= 0 && page < pages
}

// crossReferences reads where the objects of a document begin, and where its table of them does (ISO 32000-1, 7.5.4).
func crossReferences(document []byte) (offsets []int, table int, err error) {
	at := bytes.LastIndex(document, []byte("startxref\n"))
	if at < 0 {
		return nil, 0, errForm
	}
	var count int
	if _, err := fmt.Sscanf(string(document[at:]), "startxref\n%d\n", &table); err != nil || table > at {
		return nil, 0, errForm
	}
	if _, err := fmt.Sscanf(string(document[table:min(table+40, at)]), "xref\n0 %d\n", &count); err != nil || count < 2 {
		return nil, 0, errForm
	}
	rows := document[table:at]
	rows = rows[bytes.Index(rows, []byte("0000000000 65535 f")):]
	offsets = make([]int, count)
	const row = len("0000000000 65535 f \n")
	for id := 1; id < count; id++ {
		if len(rows) < (id+1)*row {
			return nil, 0, errForm
		}
		if offsets[id], err = strconv.Atoi(string(rows[id*row : id*row+10])); err != nil || offsets[id] <= 0 || offsets[id] >= table {
			return nil, 0, errForm
		}
	}
	return offsets, table, nil
}

// bound counts what was written.
type bound struct {
	to     *bufio.Writer
	length int
	err    error
}

func (b *bound) write(text []byte) {
	if b.err == nil {
		_, b.err = b.to.Write(text)
		b.length += len(text)
	}
}

// end writes the table of objects anew, and what stands behind it in the library's document.
func (b *bound) end(tail []byte, offsets []int) error {
	table := b.length
	b.write(fmt.Appendf(nil, "xref\n0 %d\n0000000000 65535 f \n", len(offsets)))
	for _, offset := range offsets[1:] {
		b.write(fmt.Appendf(nil, "%010d 00000 n \n", offset))
	}
	from, to := bytes.Index(tail, []byte("trailer\n")), bytes.LastIndex(tail, []byte("startxref\n"))
	if from < 0 || to < from {
		return errForm
	}
	b.write(tail[from:to])
	b.write(fmt.Appendf(nil, "startxref\n%d\n%%%%EOF\n", table))
	if b.err == nil {
		b.err = b.to.Flush()
	}
	if b.err != nil {
		return fmt.Errorf("write the PDF: %w", b.err)
	}
	return nil
}
