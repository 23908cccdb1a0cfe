package job

import (
	"slices"

	"loomleaf/internal/problem"
)

// merge joins the trees key by key: the job wins over the included files, they over the default shop file. Tables that
// repeat, such as [[wire]], are put behind one another. A key that two included files set is an error.
func merge(root *value, included []*value, shop *value) (*value, problem.List) {
	var m merger
	shared := &value{file: root.file, kind: kindTable}
	for _, tree := range included {
		m.join(shared, tree, "", false)
	}
	m.join(root, shared, "", true)
	refused := m.found
	m.join(root, shop, "", true) // a header written in the wrong way is reported when its table is read
	m.found = refused
	return root, m.found
}

type merger struct{ found problem.List }

// join adds to a table what it lacks of another. Where both set a key the first one wins, or neither may.
func (m *merger) join(into, from *value, path string, wins bool) {
	for _, e := range from.keys {
		mine := into.find(e.name)
		name := path + e.name
		switch {
		case mine == nil:
			e.value = copied(e.value)
			into.add(e)
		case mine.value.kind == kindTable && e.value.kind == kindTable:
			m.join(mine.value, e.value, name+".", wins)
		case path == "" && mine.value.kind == kindArray && e.value.kind == kindArray:
			mine.value.items = append(mine.value.items, e.value.items...)
		case path == "" && mine.value.kind != e.value.kind && (repeats(mine.value) || repeats(e.value)):
			m.found = append(m.found, with(about(fault(singleTable, e.value.place(), "[%s] and [[%s]] cannot be joined", name, name),
				"", "write the header in the same way in all files"), mine.value.place(), "the other one stands here"))
		case !wins:
			m.found = append(m.found, with(about(fault(doubledKey, e.place(), "two included files set %s", name),
				"", "leave it in one of them, or set it in the job, and take it out of both"), mine.place(), "it is set here already"))
		}
	}
}

// repeats reports whether a value is an array of tables.
func repeats(v *value) bool {
	return v.kind == kindArray && len(v.items) > 0 && v.items[0].kind == kindTable
}

// copied returns a table or list that may grow without changing the tree it came from. Scalars stay the same values.
func copied(v *value) *value {
	if v.kind != kindTable && v.kind != kindArray {
		return v
	}
	c := *v
	c.items = slices.Clone(v.items)
	c.keys, c.index = nil, nil
	for _, e := range v.keys {
		e.value = copied(e.value)
		c.add(e)
	}
	return &c
}
