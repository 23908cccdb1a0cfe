package job

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"regexp"
	"strings"

	"loomleaf/internal/problem"
)

// mostRows bounds a wire table; a job of ten times the largest harness fits.
const mostRows = 200_000

// loadWires reads the table of wires that the job names, and adds its rows behind the [[wire]] tables.
func loadWires(in Input, merged *value, sources problem.Sources) problem.List {
	job := merged.find("job")
	if job == nil || job.value.kind != kindTable {
		return nil
	}
	e := job.value.find("wires")
	if e == nil || e.value.kind != kindText {
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
		return problem.List{about(fault(includeMissing, e.place(), "wire table %q cannot be read", relative), "",
			"check that the file stands in the job's folder and may be read")}
	}
	name := beside(in, relative)
	f, found := newFile(name, text)
	sources[name] = f.text
	if found != nil {
		return found
	}
	rows, found := f.wireRows()
	wires := merged.find("wire")
	if wires == nil {
		merged.add(entry{name: "wire", value: &value{file: f, kind: kindArray}})
		wires = merged.find("wire")
	}
	if wires.value.kind == kindArray {
		wires.value.items = append(wires.value.items, rows...)
	}
	return found
}

// wireRows reads a table whose first line names the columns: the keys of [[wire]]. Blank rows part groups and are passed over.
func (f *file) wireRows() ([]*value, problem.List) {
	reader := csv.NewReader(bytes.NewReader(f.text))
	reader.Comma, reader.FieldsPerRecord = f.separator(), -1
	var columns []string
	var rows []*value
	var found problem.List
	for {
		record, err := reader.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		var broken *csv.ParseError
		if errors.As(err, &broken) {
			at := f.offset(broken.Line, broken.Column)
			if f.place(at).Line != broken.StartLine { // of a quote that nobody closes, the row it began in
				at = f.offset(broken.StartLine, 1)
			}
			return rows, append(found, about(fault(badTable, f.place(at), "the row cannot be read: %s", quoteFault(broken.Err)), "",
				`write quotes around the whole cell, and two quotes for one inside it`))
		}
		cell := func(i int) int { return f.offset(reader.FieldPos(i)) }
		switch {
		case columns == nil:
			columns, found = f.columns(record, cell)
			if found != nil {
				return nil, found
			}
		case len(rows) == mostRows:
			return rows, append(found, fault(fileTooLarge, f.place(cell(0)), "the table has more than %d rows", mostRows))
		default:
			row, faults := f.wireRow(columns, record, cell)
			if found = append(found, faults...); row != nil {
				rows = append(rows, row)
			}
		}
	}
	if columns == nil {
		return nil, problem.List{about(fault(badTable, f.place(0), "the wire table is empty"), "", "write the columns in the first line, such as id,type,from,to")}
	}
	return rows, found
}

func quoteFault(err error) string {
	if errors.Is(err, csv.ErrQuote) || errors.Is(err, csv.ErrBareQuote) {
		return "a quote stands where none belongs, or one is missing"
	}
	return err.Error()
}

// offset turns the line and byte column of the reader into an offset.
func (f *file) offset(line, column int) int {
	line = max(1, min(line, len(f.starts)))
	return f.starts[line-1] + max(column, 1) - 1
}

// separator is the one of comma, semicolon and tab that parts the first line into the most columns that are known.
func (f *file) separator() rune {
	first, _, _ := bytes.Cut(f.text, []byte("\n"))
	best, most := ',', 0
	for _, separator := range []rune{',', ';', '\t'} {
		known := 0
		for _, column := range strings.Split(string(first), string(separator)) {
			if contains(wireColumns(), strings.Trim(column, " \"\r")) {
				known++
			}
		}
		if known > most {
			best, most = separator, known
		}
	}
	return best
}

// wireColumns lists the columns: the keys of [[wire]], those of its ends with the end in front.
func wireColumns() []string {
	columns := []string{"id", "type", "cable", "core", "from", "to", "via", "length", "mark", "separation", "home", "supply", "note"}
	for _, side := range []string{"a", "b"} {
		for _, key := range []string{"stage", "trim", "covered", "strip", "contact", "tail_extra", "retermination", "free", "lands", "finish", "note"} {
			columns = append(columns, side+"."+key)
		}
	}
	return columns
}

// columns checks the first line.
func (f *file) columns(record []string, cell func(int) int) ([]string, problem.List) {
	var found problem.List
	names := make([]string, len(record))
	for i, name := range record {
		names[i] = strings.TrimSpace(name)
		at := f.place(cell(i))
		switch {
		case !contains(wireColumns(), names[i]):
			hint := "the columns are " + strings.Join(wireColumns(), ", ")
			if near := nearest(names[i], wireColumns()); near != "" {
				hint = "write " + near
			}
			found = append(found, about(fault(badColumn, at, "a wire table has no column %s", quoted(names[i])), "", hint))
		case contains(names[:i], names[i]):
			found = append(found, about(fault(badColumn, at, "the column %s stands twice", quoted(names[i])), "", "leave one of them"))
		}
	}
	for _, needed := range []string{"id", "type", "from", "to"} {
		if !contains(names, needed) && (needed != "type" || !contains(names, "cable")) {
			found = append(found, about(fault(badColumn, f.place(0), "the wire table has no column %s", quoted(needed)), "", "add it to the first line"))
		}
	}
	return names, found
}

// wireRow turns a row into the table that [[wire]] would have been, or nil where it is blank.
func (f *file) wireRow(columns, record []string, cell func(int) int) (*value, problem.List) {
	if strings.TrimSpace(strings.Join(record, "")) == "" {
		return nil, nil
	}
	if len(record) > len(columns) {
		return nil, problem.List{about(fault(badTable, f.place(cell(len(columns))), "the row has %d cells, the first line %d columns",
			len(record), len(columns)), "", "write quotes around a cell that holds the mark between columns")}
	}
	row := &value{file: f, kind: kindTable, at: cell(0)}
	for i, text := range record {
		if text = strings.TrimSpace(text); text == "" {
			continue
		}
		if strings.ContainsAny(text, "\r\n") {
			return nil, problem.List{about(fault(badTable, f.place(cell(i)), "the cell of column %s holds a line break", columns[i]), "", "write it on one line")}
		}
		into, key := row, columns[i]
		if side, inner, nested := strings.Cut(key, "."); nested {
			into, key = f.end(row, side, cell(i)), inner
		}
		into.add(entry{name: key, at: cell(i), written: text, value: f.cell(key, text, cell(i))})
	}
	return row, nil
}

// end returns the inner table of an end.
func (f *file) end(row *value, side string, at int) *value {
	if row.find(side) == nil {
		row.add(entry{name: side, at: at, value: &value{file: f, kind: kindTable, at: at}})
	}
	return row.find(side).value
}

var (
	wholeCell   = regexp.MustCompile(`^[+-]?\d+$`)
	decimalCell = regexp.MustCompile(`^[+-]?\d+\.\d+$`)
)

// cell turns a text into the value that TOML would hold: a bare number where the key takes one, a list of nodes parted by
// blanks, else the text. Ids and cavities stay texts: 1.10 is no number.
func (f *file) cell(key, text string, at int) *value {
	v := &value{file: f, kind: kindText, at: at, text: text}
	switch key {
	case "via":
		v.kind, v.text = kindArray, ""
		for _, node := range strings.Fields(text) {
			v.items = append(v.items, &value{file: f, kind: kindText, at: at, text: node})
		}
	case "lands":
		if text == "true" || text == "false" {
			v.kind = kindBool
		}
	case "length", "trim", "covered", "strip", "tail_extra", "free", "retermination":
		if wholeCell.MatchString(text) {
			v.kind = kindInteger
		} else if decimalCell.MatchString(text) {
			v.kind = kindDecimal
		}
	}
	return v
}
