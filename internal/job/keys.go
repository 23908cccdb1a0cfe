package job

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"loomleaf/internal/problem"
)

// Keys is the registry of a job file: every table and every key, with what it may hold.
type Keys struct {
	types  []keyType
	tables []keyTable
}

// keyType is a kind of value.
type keyType struct {
	name     string
	json     []string // the types of JSON that it is written as
	of       string   // type of what a list of it holds
	pattern  string   // of texts, "" for any
	from, to int      // bounds of numbers, where they are written as such
	form     string   // how to write it
}

// keyTable is a table of a job; the one without a name holds the keys above all tables.
type keyTable struct {
	name    string
	repeats bool
	text    string
	keys    []key
}

// key is a key of a table.
type key struct {
	name     string // dotted inside inner tables: "a.trim"
	typ      string // one of the types, or one of those that hold others
	also     string // a second form of the value: a list of tables, or a list; "" for none
	of       string // type of what a list or a table by cavity holds
	count    int    // how many it holds; 0 for any number
	choices  []string
	from, to int      // bounds of whole numbers
	fallback string   // the default as written in TOML, or one of the words below
	absent   string   // how bad it is to be missing under some circumstances: "error", "release", "warning"; "" for not at all
	where    string   // those circumstances, "always" for all
	checks   []string // the checks that report that it is missing, where that is not missing-key
	or       string   // key that may stand in its place
	like     string   // key of a table whose inner keys this one has too
	example  string   // a line of TOML
	beside   []string // lines that the example needs beside it
	text     string
}

// Types that hold others.
const (
	typeTable    = "table"
	typeTables   = "list of tables"
	typeByCavity = "table by cavity"
	typeList     = "list"
)

// Words that stand in place of a default.
const (
	isRequired = "required"
	isNone     = "none"
	isInside   = "its keys" // the defaults of the keys inside hold
)

// LoadKeys reads keys.toml.
func LoadKeys(templates fs.FS) (Keys, problem.List) {
	const name = "keys.toml"
	at := name + " (built in)"
	text, err := fs.ReadFile(templates, name)
	if err != nil {
		return Keys{}, problem.List{fault(includeMissing, problem.Place{File: at}, "the file cannot be read")}
	}
	tree, found := load(at, text, problem.Sources{})
	if found.Errors() > 0 {
		return Keys{}, found
	}
	var k Keys
	r := &reader{unread: map[string]bool{}}
	r.each(tree, tableReader{name: "type", repeats: true}, func(t *table) { k.types = append(k.types, readKeyType(t)) })
	r.each(tree, tableReader{name: "table", repeats: true}, func(t *table) { k.tables = append(k.tables, readKeyTable(t)) })
	return k, r.found
}

func readKeyType(t *table) keyType {
	t.require("name", "json", "form")
	typ := keyType{name: t.text("name"), json: t.words("json", "string", "integer", "number", "boolean", "array"),
		of: t.text("of"), pattern: t.text("pattern"), form: t.text("form")}
	typ.from, _ = t.whole("from", 0, mostLot)
	typ.to, _ = t.whole("to", 1, mostLot)
	t.done()
	return typ
}

func readKeyTable(t *table) keyTable {
	t.require("name", "repeats", "text", "key")
	one := keyTable{name: t.blankText("name"), repeats: t.truth("repeats"), text: t.text("text")}
	for _, inner := range t.list("key") {
		one.keys = append(one.keys, readKey(inner))
	}
	t.done()
	for _, k := range slices.Clone(one.keys) {
		if k.like != "" {
			one.keys = append(one.keys, one.alike(k)...)
		}
	}
	return one
}

func readKey(t *table) key {
	t.require("key", "type", "default", "example", "text")
	k := key{name: t.text("key"), typ: t.text("type"), also: t.word("also", typeTables, typeList), of: t.text("of"), choices: t.texts("choices", t.array("choices")),
		fallback: t.text("default"), or: t.text("or"), like: t.text("like"), example: t.text("example"), text: t.text("text"),
		beside: t.texts("beside", t.array("beside")), absent: t.word("absent", "error", "release", "warning"), where: t.text("where"), checks: t.texts("check", t.array("check"))}
	k.count, _ = t.whole("count", 1, mostCavities)
	k.from, _ = t.whole("from", 0, mostLot)
	k.to, _ = t.whole("to", 1, mostLot)
	t.done()
	return k
}

// alike copies the keys inside a table for another one that has the same.
func (t keyTable) alike(k key) []key {
	var copies []key
	for _, inner := range t.within(k.like) {
		inner.name = k.name + strings.TrimPrefix(inner.name, k.like)
		inner.example = k.name + strings.TrimPrefix(inner.example, k.like)
		copies = append(copies, inner)
	}
	return copies
}

// within returns the keys inside a key, at any depth; "" returns all.
func (t keyTable) within(name string) []key {
	var inside []key
	for _, k := range t.keys {
		if name == "" || strings.HasPrefix(k.name, name+".") {
			inside = append(inside, k)
		}
	}
	return inside
}

// directly returns the keys inside a key, without those inside them.
func (t keyTable) directly(name string) []key {
	depth := strings.Count(name, ".") + 1
	if name == "" {
		depth = 0
	}
	return slices.DeleteFunc(t.within(name), func(k key) bool { return strings.Count(k.name, ".") != depth })
}

func (t keyTable) key(name string) (key, bool) {
	at := slices.IndexFunc(t.keys, func(k key) bool { return k.name == name })
	if at < 0 {
		return key{}, false
	}
	return t.keys[at], true
}

// header returns the table as it is written: [job], [[wire]].
func (t keyTable) header() string {
	if t.repeats {
		return "[[" + t.name + "]]"
	}
	return "[" + t.name + "]"
}

func (k Keys) table(name string) (keyTable, bool) {
	at := slices.IndexFunc(k.tables, func(t keyTable) bool { return t.name == name })
	if at < 0 {
		return keyTable{}, false
	}
	return k.tables[at], true
}

// kind returns the type of a name. The registry names none that it does not hold: a test says so.
func (k Keys) kind(name string) keyType {
	at := slices.IndexFunc(k.types, func(t keyType) bool { return t.name == name })
	if at < 0 {
		return keyType{name: name}
	}
	return k.types[at]
}

// hasDefault reports a default that is written as a value.
func (k key) hasDefault() bool { return !contains([]string{isRequired, isNone, isInside}, k.fallback) }

// lines returns the example with the lines that it needs.
func (k key) lines() []string { return append(slices.Clone(k.beside), k.example) }

// lastPart returns the name without those of the tables around it.
func (k key) lastPart() string { return k.name[strings.LastIndex(k.name, ".")+1:] }

// bounds says what a whole number may be, or "".
func (k key) bounds() string {
	if k.to == 0 {
		return ""
	}
	return fmt.Sprintf("from %d to %d", k.from, k.to)
}
