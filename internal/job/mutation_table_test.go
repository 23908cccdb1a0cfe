package job

import (
	"encoding/csv"
	"maps"
	"slices"
	"strings"

	"loomleaf/templates"
)

// tables lists the wire tables of a job.
func (s *specimen) tables() []string {
	return slices.DeleteFunc(slices.Sorted(maps.Keys(s.files)), func(name string) bool { return !strings.HasSuffix(name, ".csv") })
}

// tableFaults lists faults of a cell, by the column; "" is any column. Each returns what takes the place of the cell.
func tableFaults(mark string) []struct{ name, columns, cell string } {
	return []struct{ name, columns, cell string }{
		{"required cell empty", "id type from to", ""},
		{"cell with a quote too many", "id from note", `"L01`},
		{"quote inside a cell", "id from", `L"1`},
		{"cell with a line break", "id type from a.stage b.stage", "\"L\n1\""},
		{"unknown type in a cell", "type", "E99Z"},
		{"cell that names no connector", "from to", "Z9:1"},
		{"cell that names no cavity", "from to", "P2:99Z"},
		{"cell that names no end", "from to", "P2"},
		{"id in a cell that nothing can name", "id", "L 01"},
		{"placeholder in a cell", "id", "TBD"},
		{"unknown word in a cell", "a.stage b.stage mark", "Bench"},
		{"wrong unit in a cell", "length a.trim b.trim", "20 kg"},
		{"no unit in a cell", "length a.trim b.trim", "20"},
		{"comma for a point in a cell", "length a.trim b.trim", `"1,5 mm"`},
		{"negative figure in a cell", "length a.trim b.trim", "-20 mm"},
		{"figure that is none in a cell", "length a.trim b.trim", "nan mm"},
		{"huge figure in a cell", "length a.trim b.trim", "99999999999999999999 mm"},
		{"cell too many", "note", "x" + strings.Repeat(mark, 3) + "y"},
		{"control character in a cell", "id type note", "L\x07"},
	}
}

// tableMutants puts the faults into every row of a wire table, and faults of the columns into its first line.
func (s *specimen) tableMutants(table string) []mutant {
	f, _ := newFile(table, s.files[table])
	keys, _ := LoadKeys(templates.Files)
	reading := wireTable{file: f, known: keys.columns("wire")}
	mark := string(reading.separator())
	rows := strings.SplitAfter(strings.TrimSuffix(string(f.text), "\n")+"\n", "\n")
	rows = rows[:len(rows)-1]
	columns := strings.Split(strings.TrimSpace(rows[0]), mark)
	var all []mutant
	add := func(name string, at int, row string, also ...int) {
		text := strings.Join(slices.Replace(slices.Clone(rows), at, at+1, row), "")
		all = append(all, mutant{fault: name, file: table, end: len(s.files[table]), written: text, lines: append([]int{at + 1}, also...), of: site{path: strings.TrimSpace(row)}})
	}
	for i, column := range columns {
		add("misspelled column", 0, strings.Replace(rows[0], column, column+"x", 1))
		add("column in upper case", 0, strings.Replace(rows[0], column, strings.ToUpper(column), 1))
		add("column twice", 0, strings.Replace(rows[0], column, columns[(i+1)%len(columns)], 1))
	}
	for at := 1; at < len(rows); at++ {
		cells := cellsOf(rows[at], mark)
		for _, f := range tableFaults(mark) {
			for i, column := range columns {
				if slices.Contains(strings.Fields(f.columns), column) && cells[i] != f.cell && s.counts(f.name) {
					add(f.name, at, strings.Join(slices.Replace(slices.Clone(cells), i, i+1, f.cell), mark)+"\n")
				}
			}
		}
		add("row twice", at, rows[at]+rows[at], at+2)
	}
	return all
}

// counts reports whether a fault is one: a job with a unit of lengths takes bare numbers.
func (s *specimen) counts(fault string) bool {
	_, unit := s.unit()
	return fault != "no unit in a cell" || !unit
}

// cellsOf returns the cells of a row as written, with quotes where they need them.
func cellsOf(row, mark string) []string {
	reader := csv.NewReader(strings.NewReader(row))
	reader.Comma = rune(mark[0])
	cells, err := reader.Read()
	if err != nil {
		panic(err)
	}
	for i, cell := range cells {
		if strings.ContainsAny(cell, mark+`"`) {
			cells[i] = `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
		}
	}
	return cells
}
