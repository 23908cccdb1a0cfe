package job

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"io/fs"
	"slices"
	"strings"

	"loomleaf/internal/problem"
)

// mostRows bounds a wire table; a job of ten times the largest harness fits.
const mostRows = 200_000

// loadWires reads the table of wires that the job names, and adds its rows behind the [[wire]] tables.
func loadWires(in Input, merged *value, templates fs.FS, sources problem.Sources) problem.List {
	job := merged.find("job")
	if job == nil || job.value.kind != kindTable {
		return nil
	}
	e := job.value.find("wires")
	if e == nil || e.value.kind != kindText || strings.TrimSpace(e.value.text) == "" { // reported with the table
		return nil
	}
	if in.Open == nil {
		return problem.List{about(fault(includeImpossible, e.place(), "a job from %s cannot name a wire table", in.Name), "", "name the job file instead")}
	}
	relative, faulty := includedPath(in, e.value)
	if faulty != nil {
		return problem.List{*faulty}
	}
	text, err := in.Open(relative)
	if err != nil {
		return problem.List{about(fault(includeMissing, e.place(), "wire table %s cannot be read", quoted(relative)), "",
			"check that the file stands in the job's folder and may be read")}
	}
	f, found := newFile(beside(in, relative), text)
	sources[f.name] = f.text
	if found != nil {
		return found
	}
	keys, found := LoadKeys(templates)
	if found != nil {
		return found
	}
	w := wireTable{file: f, known: keys.columns("wire")}
	rows, found := w.read()
	w.addTo(merged, rows)
	return found
}

// wireTable reads a table whose first line names the columns. Blank rows part groups and are passed over.
type wireTable struct {
	file   *file
	known  []column
	header []column // one for each cell of the first line; without a name where that cell is blank
	found  problem.List
}

// addTo puts the rows behind the wires of a job.
func (w *wireTable) addTo(merged *value, rows []*value) {
	if merged.find("wire") == nil {
		merged.add(entry{name: "wire", value: &value{file: w.file, kind: kindArray}})
	}
	if wires := merged.find("wire").value; wires.kind == kindArray { // any other kind is reported with the table
		wires.items = append(wires.items, rows...)
	}
}

// read returns a table for each row, as [[wire]] would have made it, and what is wrong with the file.
func (w *wireTable) read() ([]*value, problem.List) {
	reader := csv.NewReader(bytes.NewReader(w.file.text))
	reader.Comma, reader.FieldsPerRecord, reader.ReuseRecord = w.separator(), -1, true
	var rows []*value
	for {
		record, err := reader.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		var broken *csv.ParseError
		if errors.As(err, &broken) {
			return rows, append(w.found, w.broken(broken, reader.Comma))
		}
		cells := w.cells(reader, record)
		switch {
		case !slices.ContainsFunc(cells, cell.filled):
		case w.header == nil:
			if w.columns(cells); w.found != nil {
				return nil, w.found
			}
		case len(rows) == mostRows:
			return rows, append(w.found, about(fault(fileTooLarge, w.file.place(cells[0].at), "the table has more than %d rows", mostRows), "", "split the job"))
		default:
			if row := w.row(cells); row != nil {
				rows = append(rows, row)
			}
		}
	}
	if w.header == nil {
		return nil, problem.List{about(fault(badTable, w.file.place(0), "the wire table is empty"), "", "write the columns in the first line, such as id,type,from,to")}
	}
	return rows, w.found
}

// separator is the one of comma, semicolon and tab that parts the first line into the most columns that are known.
func (w *wireTable) separator() rune {
	first := ""
	for line := range strings.Lines(string(w.file.text)) {
		if first = line; strings.Trim(line, ",;\" \t\r\n") != "" {
			break
		}
	}
	best, most := ',', 0
	for _, separator := range []rune{',', ';', '\t'} {
		known := 0
		for _, name := range strings.Split(first, string(separator)) {
			if w.column(strings.Trim(name, " \"\r\n")) != nil {
				known++
			}
		}
		if known > most {
			best, most = separator, known
		}
	}
	return best
}

func (w *wireTable) column(name string) *column {
	at := slices.IndexFunc(w.known, func(c column) bool { return c.name == name })
	if at < 0 {
		return nil
	}
	return &w.known[at]
}

// offset turns the line and byte column of the reader into an offset.
func (w *wireTable) offset(line, column int) int {
	starts := w.file.starts
	line = max(1, min(line, len(starts)))
	return starts[line-1] + max(column, 1) - 1
}

func (w *wireTable) cells(reader *csv.Reader, record []string) []cell {
	cells := make([]cell, len(record))
	for i, text := range record {
		at := w.offset(reader.FieldPos(i))
		cells[i] = cell{text: text, at: at, quoted: at < len(w.file.text) && w.file.text[at] == '"'}
	}
	return cells
}

// broken reports a quote that stands in the wrong place, or one that nothing closes on its line: the cell that it opens.
func (w *wireTable) broken(err *csv.ParseError, separator rune) problem.Problem {
	at := w.offset(err.Line, err.Column)
	if err.Line == err.StartLine && at < len(w.file.text) {
		return about(fault(badTable, w.file.place(at), "a quote stands inside a cell"), "",
			`write quotes around the whole cell, and two quotes for one inside it`)
	}
	start := w.offset(err.StartLine, 1)
	line, _, _ := bytes.Cut(w.file.text[start:], []byte("\n"))
	lazy := csv.NewReader(bytes.NewReader(line))
	lazy.Comma, lazy.LazyQuotes, lazy.FieldsPerRecord = separator, true, -1
	if record, err := lazy.Read(); err == nil {
		_, column := lazy.FieldPos(len(record) - 1)
		start += column - 1
	}
	return about(fault(badTable, w.file.place(start), "the quote that opens the cell is not closed on its line"), "", "close it where the cell ends")
}

// columns checks the first line.
func (w *wireTable) columns(cells []cell) {
	names := make([]string, len(w.known))
	for i, c := range w.known {
		names[i] = c.name
	}
	first := w.file.place(cells[0].at)
	seen := map[string]bool{}
	w.header = make([]column, len(cells))
	for i, c := range cells {
		name, at := strings.TrimSpace(c.text), w.file.place(c.at)
		known := w.column(name)
		switch {
		case name == "" || len(w.found) == mostHidden:
		case known == nil:
			hint := "the columns are " + strings.Join(names, ", ")
			if near := nearest(name, names); near != "" {
				hint = "write " + near
			}
			w.found = append(w.found, about(fault(badColumn, at, "a wire table has no column %s", quoted(name)), "", hint))
		case seen[name]:
			w.found = append(w.found, about(fault(badColumn, at, "the column %s stands twice", quoted(name)), "", "leave one of them"))
		default:
			w.header[i], seen[name] = *known, true
		}
	}
	for _, c := range w.known {
		if c.required && !seen[c.name] && (c.or == "" || !seen[c.or] && w.first(c.name, c.or)) {
			w.found = append(w.found, about(fault(badColumn, first, "the wire table has no column %s", quoted(c.name)), "", "add it to the first line"))
		}
	}
}

// first reports whether a column stands before another in the registry: one of the two is missed once.
func (w *wireTable) first(name, other string) bool {
	at := func(name string) int { return slices.IndexFunc(w.known, func(c column) bool { return c.name == name }) }
	return at(name) < at(other)
}

// row turns a row into the table that [[wire]] would have been, or nil where it cannot be one.
func (w *wireTable) row(cells []cell) *value {
	row := &value{file: w.file, kind: kindTable, at: cells[0].at}
	for i, c := range cells {
		if !c.filled() {
			continue
		}
		if p := w.misplaced(cells, i); p != nil {
			w.found = append(w.found, *p)
			return nil
		}
		into, key := row, w.header[i].name
		if end, inner, nested := strings.Cut(key, "."); nested {
			into, key = w.inner(row, end, c.at), inner
		}
		v := c.value(w.file, w.header[i])
		into.add(entry{name: key, at: v.at, written: strings.TrimSpace(c.text), value: v})
	}
	return row
}

// inner returns the table of an end.
func (w *wireTable) inner(row *value, name string, at int) *value {
	if row.find(name) == nil {
		row.add(entry{name: name, at: at, value: &value{file: w.file, kind: kindTable, at: at}})
	}
	return row.find(name).value
}

// misplaced reports a cell that no column is for, or that no text of a job could be.
func (w *wireTable) misplaced(cells []cell, i int) *problem.Problem {
	c := cells[i]
	at := w.file.place(c.at)
	refuse := func(hint, format string, args ...any) *problem.Problem {
		p := about(fault(badTable, at, format, args...), "", hint)
		return &p
	}
	switch {
	case i >= len(w.header):
		return refuse("write quotes around a cell that holds the mark between columns", "the row has %d cells, the first line %d columns", len(cells), len(w.header))
	case w.header[i].name == "":
		return refuse("name the column in the first line, or take the cell out", "the cell %s stands under no name of a column", quoted(strings.TrimSpace(c.text)))
	case strings.ContainsAny(c.text, "\r\n"):
		return refuse("write it on one line", "the cell of column %s holds a line break", w.header[i].name)
	}
	for _, r := range strings.TrimSpace(c.text) {
		if hidden(r) {
			p := hiddenFault(at, r)
			return &p
		}
	}
	return nil
}
