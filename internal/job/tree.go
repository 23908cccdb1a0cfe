package job

import (
	"errors"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"loomleaf/internal/problem"
)

// kind tells the values of a tree apart.
type kind uint8

const (
	kindText kind = iota
	kindInteger
	kindDecimal
	kindBool
	kindDay
	kindTime // a time, or a day with a time: no value of a job
	kindArray
	kindTable
)

// value is a node of the tree of a file.
type value struct {
	file *file
	kind kind
	at   int    // offset; of an array the offset of its bracket, of a table that of its header or brace
	text string // of a text, without quotes; of all other scalars as written

	items []*value // of an array

	keys  []entry // of a table, in the order of the file
	index map[string]int
}

// entry is a key of a table.
type entry struct {
	name    string
	at      int
	written string // the value as written; empty for tables with a header
	value   *value
}

// place returns where the value stands.
func (v *value) place() problem.Place { return v.file.place(v.at) }

// place returns where a fault of the entry is shown: at its value, for an array at its key.
func (e *entry) place() problem.Place {
	if e.value.kind == kindArray {
		return e.value.file.place(e.at)
	}
	return e.value.place()
}

// find returns the entry of a key, or nil.
func (v *value) find(name string) *entry {
	if at, found := v.index[name]; found {
		return &v.keys[at]
	}
	return nil
}

// add appends a key that the table lacks.
func (v *value) add(e entry) {
	if v.index == nil {
		v.index = make(map[string]int)
	}
	v.index[e.name] = len(v.keys)
	v.keys = append(v.keys, e)
}

// tree returns the values of a file that the judge has passed.
func (f *file) tree() (*value, problem.List) {
	root := &value{file: f, kind: kindTable}
	g := grower{file: f, table: root, root: root}
	var parser unstable.Parser
	parser.Reset(f.text)
	for parser.NextExpression() && !g.torn {
		g.expression(parser.Expression())
	}
	var fault *unstable.ParserError
	if errors.As(parser.Error(), &fault) {
		at := int(parser.Range(fault.Highlight).Offset)
		return nil, problem.List{about(faultAt(f, at, sentence(fault.Message)), "", "write the line in a plainer form")}
	}
	if g.torn {
		return nil, problem.List{about(faultAt(f, g.tornAt, "a key stands both for a value and for a table"), "", "")}
	}
	return root, g.found
}

func faultAt(f *file, offset int, text string) problem.Problem {
	return fault(syntaxFault, f.place(offset), "%s", text)
}

// grower builds a tree from the expressions of a file.
type grower struct {
	file        *file
	root, table *value // table: the one whose header stands above
	torn        bool   // a key was used in two ways: the judge let through what it should not
	tornAt      int
	found       problem.List
}

func (g *grower) expression(n *unstable.Node) {
	switch n.Kind {
	case unstable.Table, unstable.ArrayTable:
		g.header(n)
	case unstable.KeyValue:
		g.pair(g.table, n)
	}
}

// header opens the table of a [header] or [[header]].
func (g *grower) header(n *unstable.Node) {
	at := g.root
	for keys := n.Key(); keys.Next(); {
		key := keys.Node()
		offset := int(key.Raw.Offset)
		last := keys.IsLast()
		if last {
			offset = headerStart(g.file.text, offset)
		}
		if last && n.Kind == unstable.ArrayTable {
			at = g.element(at, string(key.Data), offset)
		} else {
			at = g.open(at, string(key.Data), offset)
		}
		if at == nil {
			return
		}
	}
	g.table = at
}

// headerStart returns the offset of the bracket in front of a key of a header.
func headerStart(text []byte, key int) int {
	start := key
	for at := key - 1; at >= 0 && strings.IndexByte(" \t[", text[at]) >= 0; at-- {
		if text[at] == '[' {
			start = at
		}
	}
	return start
}

// open returns the table of a key, the last one where the key stands for an array of tables.
func (g *grower) open(in *value, name string, at int) *value {
	e := in.find(name)
	if e == nil {
		opened := &value{file: g.file, kind: kindTable, at: at}
		in.add(entry{name: name, at: at, value: opened})
		return opened
	}
	found := e.value
	if found.kind == kindArray && len(found.items) > 0 {
		found = found.items[len(found.items)-1]
	}
	if found.kind != kindTable {
		g.torn, g.tornAt = true, at
		return nil
	}
	return found
}

// element appends a table to the array of a key.
func (g *grower) element(in *value, name string, at int) *value {
	added := &value{file: g.file, kind: kindTable, at: at}
	e := in.find(name)
	switch {
	case e == nil:
		in.add(entry{name: name, at: at, value: &value{file: g.file, kind: kindArray, at: at, items: []*value{added}}})
	case e.value.kind == kindArray:
		e.value.items = append(e.value.items, added)
	default:
		g.torn, g.tornAt = true, at
		return nil
	}
	return added
}

// pair adds a key with its value; all parts of a dotted key but the last open tables.
func (g *grower) pair(in *value, n *unstable.Node) {
	keys := n.Key()
	for keys.Next() {
		key := keys.Node()
		name, at := string(key.Data), int(key.Raw.Offset)
		if !keys.IsLast() {
			if in = g.open(in, name, at); in == nil {
				return
			}
			continue
		}
		if in.find(name) != nil {
			g.torn, g.tornAt = true, at
			return
		}
		start, end := g.extent(key, n)
		in.add(entry{name: name, at: at, written: string(g.file.text[start:end]), value: g.value(n.Value(), start)})
	}
}

// extent returns where the value of a pair starts and ends.
func (g *grower) extent(key, pair *unstable.Node) (start, end int) {
	start, end = int(key.Raw.Offset+key.Raw.Length), int(pair.Raw.Offset+pair.Raw.Length)
	for start < end && strings.IndexByte(" \t=", g.file.text[start]) >= 0 {
		start++
	}
	return start, end
}

// value returns the tree of a value. The parser gives arrays no place, so it comes from outside.
func (g *grower) value(n *unstable.Node, at int) *value {
	v := &value{file: g.file, at: at, text: string(n.Data)}
	switch n.Kind {
	case unstable.Array:
		v.kind, v.text = kindArray, ""
		for children := n.Children(); children.Next(); {
			child := children.Node()
			if child.Raw.Length > 0 {
				at = int(child.Raw.Offset)
			}
			v.items = append(v.items, g.value(child, at))
		}
	case unstable.InlineTable:
		v.kind, v.text = kindTable, ""
		for children := n.Children(); children.Next(); {
			g.pair(v, children.Node())
		}
	default:
		v.kind = scalar(n.Kind)
		g.characters(v)
	}
	return v
}

// characters refuses what an escape or a text over several lines can bring in.
func (g *grower) characters(v *value) {
	for _, r := range v.text {
		if v.kind == kindText && hidden(r) {
			g.found = append(g.found, hiddenFault(v.place(), r))
			return
		}
	}
}

func scalar(k unstable.Kind) kind {
	switch k {
	case unstable.String:
		return kindText
	case unstable.Integer:
		return kindInteger
	case unstable.Float:
		return kindDecimal
	case unstable.Bool:
		return kindBool
	case unstable.LocalDate:
		return kindDay
	default:
		return kindTime
	}
}
