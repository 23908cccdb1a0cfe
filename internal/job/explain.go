package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"
)

// explainWidth is the width of explanations, in characters.
const explainWidth = 100

// Explain says what the registry knows: of "" the tables, of "wire" its keys, of "wire.a.trim" everything. It reports
// false for a name that a job file does not have.
func (k Keys) Explain(name string) (string, bool) {
	if name == "" {
		return k.explainTables(), true
	}
	top, _ := k.table("")
	if one, found := top.key(name); found {
		return k.explainKey(top, one), true
	}
	tableName, keyName, dotted := strings.Cut(name, ".")
	t, found := k.table(tableName)
	if !found || tableName == "" {
		return "", false
	}
	if !dotted {
		return k.explainTable(t), true
	}
	one, found := t.key(keyName)
	if !found {
		return "", false
	}
	return k.explainKey(t, one), true
}

// NearestName suggests what a mistyped name means: the near miss, or places where a bare key stands; "" where there is none.
func (k Keys) NearestName(name string) string {
	names, standing := k.names(name)
	slices.SortStableFunc(standing, func(a, b string) int { return cmp.Compare(strings.Count(a, "."), strings.Count(b, ".")) })
	if len(standing) == 0 {
		return cmp.Or(k.nearestInTable(name), nearest(name, names))
	}
	if one := strings.TrimSuffix(name, "s"); one != name {
		if _, found := k.table(one); found {
			standing = append([]string{one}, standing...)
		}
	}
	return strings.Join(standing[:min(3, len(standing))], " or ")
}

// nearestInTable suggests keys of the table that a name begins with, by the last part: "wire.trm" means "wire.a.trim".
func (k Keys) nearestInTable(name string) string {
	table, rest, _ := strings.Cut(name, ".")
	t, found := k.table(table)
	if !found || rest == "" {
		return ""
	}
	last := key{name: rest}.lastPart()
	var parts []string
	for _, one := range t.keys {
		parts = append(parts, one.lastPart())
	}
	if !contains(parts, last) {
		last = nearest(last, parts)
	}
	if _, found := t.key(strings.TrimSuffix(rest, key{name: rest}.lastPart()) + last); found {
		return table + "." + strings.TrimSuffix(rest, key{name: rest}.lastPart()) + last
	}
	var standing []string
	for _, one := range t.keys {
		if one.lastPart() == last {
			standing = append(standing, table+"."+one.name)
		}
	}
	return strings.Join(standing[:min(3, len(standing))], " or ")
}

// names lists everything that can be explained, and those keys whose last part is a name.
func (k Keys) names(last string) (all, standing []string) {
	for _, t := range k.tables {
		path := ""
		if t.name != "" {
			path, all = t.name+".", append(all, t.name)
		}
		for _, one := range t.keys {
			all = append(all, path+one.name)
			if one.lastPart() == last {
				standing = append(standing, path+one.name)
			}
		}
	}
	return all, standing
}

func (k Keys) explainTables() string {
	var b strings.Builder
	b.WriteString("The tables of a job file, and the keys above them. TABLE lists the keys of one, TABLE.KEY says all about a key.\n\n")
	columns := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	for _, t := range k.tables {
		if t.name != "" {
			fmt.Fprintf(columns, "%s\t%s\n", t.header(), firstSentence(t.text))
			continue
		}
		for _, one := range t.keys {
			fmt.Fprintf(columns, "%s\t%s\n", one.name, firstSentence(one.text))
		}
	}
	_ = columns.Flush() // a builder takes everything
	return b.String()
}

func firstSentence(text string) string {
	first, _, _ := strings.Cut(text, ". ")
	return strings.TrimSuffix(first, ".")
}

func (k Keys) explainTable(t keyTable) string {
	var b strings.Builder
	b.WriteString(wrapped(t.header()+": "+t.text, "") + "\n")
	columns := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	for _, one := range t.keys {
		fmt.Fprintf(columns, "%s\t%s\t%s\n", one.name, one.typeInWords(), one.needInWords())
	}
	_ = columns.Flush() // a builder takes everything
	return b.String()
}

func (k Keys) explainKey(t keyTable, one key) string {
	name := one.name
	if t.name != "" {
		name = t.header() + " " + name
	}
	var b strings.Builder
	b.WriteString(wrapped(name+": "+one.text, "") + "\n")
	row := func(label, text string) {
		if text != "" {
			b.WriteString(wrapped(text, fmt.Sprintf("%-9s", label)))
		}
	}
	row("type", k.formInWords(one))
	if len(one.choices) > 0 {
		row("choices", alternatives(one.choices))
	}
	row("bounds", one.bounds())
	row("default", one.defaultInWords())
	row("missing", one.absenceInWords())
	fmt.Fprintf(&b, "%-9s%s\n", "example", strings.Join(one.lines(), "\n"+strings.Repeat(" ", 9))) // never wrapped: it may be copied
	var inside []string
	for _, inner := range t.directly(one.name) {
		inside = append(inside, inner.lastPart())
	}
	row("keys", strings.Join(inside, ", "))
	return b.String()
}

// typeInWords names the type: "list of 2 lengths".
func (k key) typeInWords() string {
	count := ""
	if k.count > 0 {
		count = fmt.Sprintf("%d ", k.count)
	}
	switch {
	case k.typ == typeList:
		return "list of " + count + plural(k.of)
	case k.typ == typeByCavity:
		return "table by cavity of " + count + plural(k.of)
	case k.also == typeList:
		return k.typ + ", or list of " + plural(k.of)
	case k.also != "":
		return k.typ + ", or " + k.also
	}
	return k.typ
}

// plural returns the name of several values of a type.
func plural(typ string) string {
	switch typ {
	case "mass":
		return "masses"
	case "true or false":
		return typ
	}
	return typ + "s"
}

// formInWords says how the value of a key is written.
func (k Keys) formInWords(one key) string {
	switch one.also {
	case typeTables:
		return one.typeInWords() + ": " + k.kind(one.typ).form + "; or [{ ... }, { ... }]"
	case typeList:
		return one.typeInWords() + ": " + k.kind(one.typ).form + "; or [..., ...]"
	}
	switch one.typ {
	case typeTable:
		return `table: { ... } behind the key, or the keys dotted, such as "` + one.name + `.x = ..."`
	case typeTables:
		return "list of tables: [{ ... }, { ... }]"
	case typeByCavity:
		return one.typeInWords() + ": { A = [..., ...], B = [..., ...] }; each " + k.kind(one.of).form
	case typeList:
		return one.typeInWords() + ": [..., ...]; each " + k.kind(one.of).form
	}
	return one.typ + ": " + k.kind(one.typ).form
}

func (k key) defaultInWords() string {
	switch {
	case k.fallback == isInside:
		return "those of its keys"
	case k.or != "":
		return k.fallback + ", or " + k.or
	}
	return k.fallback
}

// absenceInWords says what a missing key leads to, where it is not required anyhow.
func (k key) absenceInWords() string {
	what := map[string]string{"error": "an error", "release": "no packet but a draft", "warning": "a warning"}[k.absent]
	if what == "" || k.where == "always" {
		return what
	}
	return what + " where " + k.where
}

// needInWords says in a list of keys whether the key must be there.
func (k key) needInWords() string {
	if k.absent == "" {
		return k.defaultInWords()
	}
	if k.where == "always" {
		return "required for release"
	}
	return "required at times"
}

// wrapped breaks a text into lines behind a label; lines after the first one are indented as far.
func wrapped(text, label string) string {
	indent := strings.Repeat(" ", len(label))
	var b strings.Builder
	line := label
	for i, word := range strings.Fields(text) {
		switch {
		case i == 0:
			line += word
		case len([]rune(line))+1+len([]rune(word)) > explainWidth:
			b.WriteString(line + "\n")
			line = indent + word
		default:
			line += " " + word
		}
	}
	return b.String() + line + "\n"
}
