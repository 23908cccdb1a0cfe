package job

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"

	"loomleaf/internal/problem"
)

// member is one member of a JSON object.
type member struct {
	name  string
	value any
}

// object is a JSON object that keeps the order of its members.
type object []member

// MarshalJSON writes the members in their order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := jsonText(m.name, "")
		if err != nil {
			return nil, err
		}
		value, err := jsonText(m.value, "")
		if err != nil {
			return nil, err
		}
		b.Write(bytes.TrimSpace(name))
		b.WriteByte(':')
		b.Write(bytes.TrimSpace(value))
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// jsonText writes a value; < > and & stay as they are, since nobody puts them into a page of the web.
func jsonText(v any, indent string) ([]byte, error) {
	var b bytes.Buffer
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", indent)
	err := encoder.Encode(v)
	return b.Bytes(), err
}

// Schema returns a JSON Schema (draft 2020-12) of a job file, for editors that complete and check while typing. It knows
// what single values may be, not what must fit together.
func (k Keys) Schema() ([]byte, error) {
	top, _ := k.table("")
	properties := k.properties(top, "")
	for _, t := range k.tables {
		if t.name != "" {
			properties = append(properties, member{t.name, k.tableSchema(t)})
		}
	}
	return jsonText(object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"title", "loomleaf job"},
		{"description", "One work order for one harness part number."},
		{"type", "object"},
		{"properties", properties},
		{"required", []string{"job"}},
		{"additionalProperties", false},
	}, "  ")
}

func (k Keys) tableSchema(t keyTable) object {
	inside := k.inside(t, "")
	if !t.repeats {
		return append(object{{"description", t.text}}, inside...)
	}
	return object{{"description", t.text}, {"type", "array"}, {"items", inside}}
}

// inside returns the schema of a table with the keys inside a key; "" for those of the outermost table.
func (k Keys) inside(t keyTable, name string) object {
	var required []string
	var either []object
	for _, one := range t.directly(name) {
		switch {
		case one.fallback != isRequired:
		case one.or == "":
			required = append(required, one.lastPart())
		case t.position(one.name) < t.position(one.or): // once for the two of them
			other := one.or[strings.LastIndex(one.or, ".")+1:]
			either = append(either, object{{"oneOf", []object{{{"required", []string{one.lastPart()}}}, {{"required", []string{other}}}}}})
		}
	}
	schema := object{{"type", "object"}, {"properties", k.properties(t, name)}}
	if len(required) > 0 {
		schema = append(schema, member{"required", required})
	}
	if len(either) > 0 {
		schema = append(schema, member{"allOf", either})
	}
	return append(schema, member{"additionalProperties", false})
}

func (t keyTable) position(name string) int {
	return slices.IndexFunc(t.keys, func(k key) bool { return k.name == name })
}

func (k Keys) properties(t keyTable, name string) object {
	properties := object{}
	for _, one := range t.directly(name) {
		properties = append(properties, member{one.lastPart(), k.keySchema(t, one)})
	}
	return properties
}

// keySchema returns the schema of a key, with its words, its default and its example.
func (k Keys) keySchema(t keyTable, one key) object {
	description := one.text + " Type: " + k.formInWords(one) + "."
	if missing := one.absenceInWords(); missing != "" {
		description += " Missing: " + missing + "."
	}
	schema := object{{"description", description}}
	switch one.typ {
	case typeTable:
		schema = append(schema, k.inside(t, one.name)...)
	case typeTables:
		schema = append(schema, member{"type", "array"}, member{"items", k.inside(t, one.name)})
	case typeByCavity:
		schema = append(schema, member{"type", "object"}, member{"additionalProperties", k.listSchema(one)})
	case typeList:
		schema = append(schema, k.listSchema(one)...)
	default:
		schema = append(schema, k.eitherForm(t, one)...)
	}
	if one.hasDefault() {
		if v := valueIn("x = "+one.fallback, "x"); v != nil {
			schema = append(schema, member{"default", jsonValue(v)})
		}
	}
	if v := valueIn(one.example, one.name); v != nil {
		schema = append(schema, member{"examples", []any{jsonValue(v)}})
	}
	return schema
}

// eitherForm returns the schema of a single value, or of the two forms that it may have.
func (k Keys) eitherForm(t keyTable, one key) object {
	single := k.valueSchema(one, one.typ)
	switch one.also {
	case typeTables:
		return object{{"anyOf", []object{single, {{"type", "array"}, {"minItems", 1}, {"items", k.inside(t, one.name)}}}}}
	case typeList:
		return object{{"anyOf", []object{single, k.listSchema(one)}}}
	}
	return single
}

func (k Keys) listSchema(one key) object {
	schema := object{{"type", "array"}, {"items", k.valueSchema(one, one.of)}}
	if one.count > 0 {
		schema = append(schema, member{"minItems", one.count}, member{"maxItems", one.count})
	}
	if contains([]string{"choice", "id", "serial"}, one.of) {
		schema = append(schema, member{"uniqueItems", true})
	}
	return schema
}

// valueSchema returns what a single value may be.
func (k Keys) valueSchema(one key, typ string) object {
	kind := k.kind(typ)
	schema := object{{"type", kind.json}}
	if len(kind.json) == 1 {
		schema = object{{"type", kind.json[0]}}
	}
	if kind.of != "" {
		schema = append(schema, member{"items", k.valueSchema(key{}, kind.of)})
	}
	if kind.pattern != "" {
		schema = append(schema, member{"pattern", kind.pattern})
	}
	if len(one.choices) > 0 {
		schema = append(schema, member{"enum", one.choices})
	}
	from, to := one.from, one.to
	if to == 0 {
		from, to = kind.from, kind.to
	}
	if to > 0 {
		schema = append(schema, member{"minimum", from}, member{"maximum", to})
	}
	return schema
}

// valueIn returns the value of a key in a line of TOML, the first one where it stands in a list; nil where it is not there.
func valueIn(line, name string) *value {
	v, found := load("example", []byte(line), problem.Sources{})
	if found.Errors() > 0 {
		return nil
	}
	for _, part := range strings.Split(name, ".") {
		if v.kind == kindArray && len(v.items) > 0 {
			v = v.items[0]
		}
		e := v.find(part)
		if e == nil {
			return nil
		}
		v = e.value
	}
	return v
}

// jsonValue turns a value into what JSON has for it; days become texts.
func jsonValue(v *value) any {
	switch v.kind {
	case kindInteger, kindDecimal:
		return json.Number(plain(v.text))
	case kindBool:
		return v.text == "true"
	case kindArray:
		items := []any{}
		for _, item := range v.items {
			items = append(items, jsonValue(item))
		}
		return items
	case kindTable:
		members := object{}
		for _, e := range v.keys {
			members = append(members, member{e.name, jsonValue(e.value)})
		}
		return members
	default:
		return v.text
	}
}
