package job

import (
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// tableReader reads the table or tables of one name into a harness.
type tableReader struct {
	name    string
	repeats bool
	read    func(h *harness.Harness, t *table)
}

// tables lists the tables of a job in the order in which they are read.
func tables() []tableReader {
	return []tableReader{
		{"job", false, readJob}, {"marks", false, readMarks}, {"line", false, readLine}, {"policy", false, readPolicy},
		{"allowance", false, readAllowance}, {"tray", false, readTray}, {"bundle", false, readBundle}, {"paper", false, readPaper},
		{"inspection", false, readInspection}, {"safety", false, readSafety},
		{"label_printer", false, readLabelPrinter}, {"label_stock", true, readLabelStock},
		{"sleeve", true, readSleeve},
		{"wire_type", true, readWireType}, {"cable_type", true, readCableType}, {"reel", true, readReel}, {"contact", true, readContact},
		{"connector", true, readConnector}, {"splice", true, readSplice}, {"terminal", true, readTerminal}, {"stud", true, readStud},
		{"wire", true, readWire}, {"cable", true, readCable}, {"twist", true, readTwist},
		{"board", false, readBoard}, {"node", true, readNode}, {"segment", true, readSegment},
	}
}

// read reads the merged tree, fills in what is in force, and runs the checks.
func read(merged *value, built templateTrees, own []*value) (*harness.Harness, problem.List) {
	r := &reader{unread: map[string]bool{}}
	h := &harness.Harness{}
	r.knownTables(merged)
	for _, reader := range tables() {
		r.each(merged, reader, func(t *table) { reader.read(h, t) })
	}
	r.stocks(h, built.labels)
	r.wordings(h, built.safety, own)
	r.missingTables(merged)
	resolve(h)
	putInForce(h)
	return h, append(r.found, runChecks(h, r.unread)...)
}

// each opens the tables of a name.
func (r *reader) each(merged *value, of tableReader, read func(*table)) {
	e := merged.find(of.name)
	if e == nil {
		return
	}
	switch {
	case !of.repeats && e.value.kind == kindTable:
		read(r.open(of.name, e.value))
	case of.repeats && e.value.kind == kindArray:
		for _, item := range e.value.items {
			if item.kind == kindTable {
				read(r.open(of.name, item))
				continue
			}
			r.wrongTable(of, item.place())
		}
	default:
		r.wrongTable(of, e.place())
	}
}

func (r *reader) wrongTable(of tableReader, at problem.Place) {
	r.unread[of.name] = true
	if of.repeats {
		r.found = append(r.found, about(fault(wrongKind, at, "%s is no list of tables", of.name), "", "write the header [["+of.name+"]]"))
		return
	}
	r.found = append(r.found, about(fault(singleTable, at, "%s is one table, not a list of them or a value", of.name), "",
		"write one header ["+of.name+"]"))
}

// knownTables reports what no table reader asks for.
func (r *reader) knownTables(merged *value) {
	names := []string{"include"}
	for _, reader := range tables() {
		names = append(names, reader.name)
	}
	for _, e := range merged.keys {
		if contains(names, e.name) {
			continue
		}
		hint, near := "the tables of a job are "+strings.Join(names[1:], ", "), r.nearest(e.name, names)
		if near != "" {
			hint = "write " + near
			r.unread[near] = true
		}
		what, check := "table", unknownTable
		if e.value.kind != kindTable && !repeats(e.value) {
			what, check = "key", unknownKey
		}
		r.found = append(r.found, about(fault(check, e.value.file.place(e.at), "a job has no %s %s%s", what, quoted(e.name), capitals(e.name, near)), "", hint))
	}
}

// missingTables reports tables that the job needs.
func (r *reader) missingTables(merged *value) {
	start := merged.file.place(0)
	if merged.find("job") == nil && !r.unread["job"] {
		r.unread["job"] = true
		r.found = append(r.found, about(fault(missingTable, start, "the job has no table [job]"), "", "write [job] with its number, title, part, revision and issued"))
	}
	if merged.find("board") != nil || r.unread["board"] {
		return
	}
	for _, name := range []string{"node", "segment"} {
		if e := merged.find(name); e != nil && repeats(e.value) {
			r.found = append(r.found, about(fault(missingTable, e.value.items[0].place(), "the job has a [[%s]] and no table [board]", name),
				"", "write [board] with its id and size"))
			return
		}
	}
}
