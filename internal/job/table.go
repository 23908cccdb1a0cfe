package job

import (
	"slices"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// reader collects what reading finds.
type reader struct {
	found  problem.List
	unit   string          // of bare lengths; empty where the job sets none
	unread map[string]bool // keys with a fault, "wire.from": checks that rest on them are left out

	suggested int // near misses looked for; only the first ones are worth the time
}

// nearest suggests a name as long as there are few problems.
func (r *reader) nearest(name string, names []string) string {
	if r.suggested++; r.suggested > mostSuggested {
		return ""
	}
	return nearest(name, names)
}

// table is a table being read. What it is not asked for is an unknown key.
type table struct {
	*reader
	root   string // name of the outermost table: "wire"
	prefix string // of the keys in the origin: "", or "a." in an inline table
	label  string // in messages: `wire "W101"`
	value  *value
	origin *harness.Origin
	asked  []string
}

// open starts reading a table at the outermost level.
func (r *reader) open(root string, v *value) *table {
	origin := &harness.Origin{At: v.place(), Keys: map[string]problem.Place{}}
	return &table{reader: r, root: root, label: strings.ReplaceAll(root, "_", " "), value: v, origin: origin}
}

// named gives the table an id, read before anything else so that all messages can name it.
func (t *table) named(key string) string {
	id := t.id(key)
	if id != "" {
		t.label += " " + quoted(id)
	}
	return id
}

// fault adds an error about a key of the table.
func (t *table) fault(check, key string, at problem.Place, hint, format string, args ...any) {
	p := about(fault(check, at, t.label+", "+t.prefix+key+": "+format, args...), "", hint)
	t.add(p, key)
}

func (t *table) add(p problem.Problem, key string) {
	t.found = append(t.found, p)
	t.unread[t.root+"."+strings.TrimSuffix(t.prefix+key, ".")] = true
}

// get returns the entry of a key, or nil, and notes its place.
func (t *table) get(key string) *entry {
	if !slices.Contains(t.asked, key) {
		t.asked = append(t.asked, key)
	}
	e := t.value.find(key)
	if e != nil {
		t.origin.Keys[t.prefix+key] = e.place()
	}
	return e
}

// has reports whether a key is set.
func (t *table) has(key string) bool { return t.get(key) != nil }

// require reports the keys that are missing, all of them.
func (t *table) require(keys ...string) {
	for _, key := range keys {
		if t.get(key) == nil {
			p := about(fault(missingKey, t.value.place(), "%s has no %s", t.label, t.prefix+key), "", "write "+key+" = ...")
			t.add(p, key)
		}
	}
}

// either reports a table that has both or none of two keys.
func (t *table) either(one, other, hint string) bool {
	first, second := t.has(one), t.has(other)
	switch {
	case first && second:
		p := about(fault(oneOf, t.origin.Of(t.prefix+other), "%s has both %s and %s", t.label, one, other), "", "leave one of them")
		t.add(with(p, t.origin.Of(t.prefix+one), "the other one stands here"), one)
	case !first && !second:
		t.add(about(fault(oneOf, t.value.place(), "%s has neither %s nor %s", t.label, one, other), "", hint), one)
	}
	return first != second
}

// done reports the keys that the table was not asked for. It is the last call on a table.
func (t *table) done() harness.Origin {
	for i := range t.value.keys {
		e := &t.value.keys[i]
		if slices.Contains(t.asked, e.name) {
			continue
		}
		hint, near := "the keys here are "+strings.Join(t.asked, ", "), t.nearest(e.name, t.asked)
		if near != "" {
			hint = "write " + near
		}
		t.found = append(t.found, about(fault(unknownKey, e.value.file.place(e.at), "%s has no key %s%s", t.label,
			quoted(t.prefix+e.name), capitals(e.name, near)), "", hint))
	}
	return *t.origin
}

// capitals says, behind a name that is not known, that only its capital letters keep it from being a known one.
func capitals(name, near string) string {
	if near == "" || !strings.EqualFold(name, near) {
		return ""
	}
	return ", which differs from " + quoted(near) + " in its capital letters alone"
}

// inner opens a table inside the table, or nil.
func (t *table) inner(key string) *table {
	e := t.get(key)
	if e == nil {
		return nil
	}
	if e.value.kind != kindTable {
		t.fault(wrongKind, key, e.place(), "write "+key+" = { ... }", "%s is no table", written(e.value))
		return nil
	}
	return t.within(e.value, key+".")
}

func (t *table) within(v *value, prefix string) *table {
	return &table{reader: t.reader, root: t.root, prefix: t.prefix + prefix, label: t.label, value: v, origin: t.origin}
}

// list opens the tables of an array inside the table; they share its origin under key.
func (t *table) list(key string) []*table {
	var tables []*table
	for _, item := range t.array(key) {
		if item.kind != kindTable {
			t.fault(wrongKind, key, item.place(), "write "+key+" = [{ ... }]", "%s is no table", written(item))
			continue
		}
		tables = append(tables, t.within(item, key+"."))
	}
	return tables
}

// separate gives an inner table an origin of its own.
func (t *table) separate() *table {
	t.origin = &harness.Origin{At: t.value.place(), Keys: map[string]problem.Place{}}
	return t
}

// array returns the elements of an array, or nil.
func (t *table) array(key string) []*value {
	e := t.get(key)
	if e == nil {
		return nil
	}
	if e.value.kind != kindArray {
		t.fault(wrongKind, key, e.place(), "write "+key+" = [...]", "%s is no list", written(e.value))
		return nil
	}
	return e.value.items
}

// filled is array for lists that may not be empty.
func (t *table) filled(key string) []*value {
	items := t.array(key)
	if e := t.get(key); e != nil && e.value.kind == kindArray && len(items) == 0 {
		t.fault(emptyValue, key, e.place(), "", "the list is empty")
	}
	return items
}
