package plan

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"reflect"
	"slices"
	"strings"

	"loomleaf/internal/words"
)

// contentFormat counts the ways in which the content hash was taken; it rises when a change of the program alters the paper
// of an unchanged plan.
const contentFormat = 1

// JSON returns the plan in its published form, indented.
func (p Plan) JSON() ([]byte, error) {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(p); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// contentOf returns the SHA-256 of the plan, in 64 hex digits, taken without its own content hash, problems and places.
func contentOf(p Plan) (string, error) {
	p.Packet.Content = ""
	p.Problems = nil
	hash := sha256.New()
	fmt.Fprintf(hash, `{"format":%d,"plan":`, contentFormat)
	if err := compact(hash, &p); err != nil {
		return "", err
	}
	hash.Write([]byte("}"))
	return hex.EncodeToString(hash.Sum(nil)), nil
}

// compact writes the published form of a plan without blanks, as json.Marshal does, but row by row: that of a long plan is never in
// memory as a whole.
func compact(out io.Writer, p *Plan) error {
	var row bytes.Buffer
	rows := json.NewEncoder(&row)
	write := func(before string, value any) error {
		row.Reset()
		row.WriteString(before)
		if err := rows.Encode(value); err != nil {
			return err
		}
		_, err := out.Write(bytes.TrimSuffix(row.Bytes(), []byte("\n")))
		return err
	}
	plan, mark := reflect.ValueOf(p).Elem(), "{"
	for i := range plan.NumField() {
		field := plan.Field(i)
		name, option, _ := strings.Cut(plan.Type().Field(i).Tag.Get("json"), ",")
		if option == "omitempty" && (field.Kind() == reflect.Slice && field.Len() == 0 || field.Kind() == reflect.Pointer && field.IsNil()) {
			continue
		}
		key := mark + `"` + name + `":`
		mark = ","
		if field.Kind() != reflect.Slice || field.Len() == 0 {
			if err := write(key, field.Addr().Interface()); err != nil {
				return err
			}
			continue
		}
		before := key + "["
		for k := range field.Len() {
			if err := write(before, field.Index(k).Addr().Interface()); err != nil {
				return err
			}
			before = ","
		}
		if _, err := io.WriteString(out, "]"); err != nil {
			return err
		}
	}
	_, err := io.WriteString(out, "}")
	return err
}

// wordingHash returns the SHA-256 of the texts that the shop has written, in 64 hex digits; "" where it has written none.
func wordingHash(languages []words.Words) string {
	hash, any := sha256.New(), false
	for _, language := range languages {
		own := language.Own()
		for _, key := range slices.Sorted(maps.Keys(own)) {
			fmt.Fprintf(hash, "%s %s %q\n", language.Language, key, own[key])
			any = true
		}
	}
	if !any {
		return ""
	}
	return hex.EncodeToString(hash.Sum(nil))
}

// fillLists replaces every missing list under a value by an empty one, so that the published form holds [] and never null.
func fillLists(value reflect.Value) {
	listFiller{}.fill(value)
}

// listFiller knows, by type of a struct, the fields that lists stand under.
type listFiller map[reflect.Type][]int

func (f listFiller) fill(value reflect.Value) {
	switch value.Kind() {
	case reflect.Struct:
		for _, i := range f.under(value.Type()) {
			f.fill(value.Field(i))
		}
	case reflect.Slice:
		if value.IsNil() {
			value.Set(reflect.MakeSlice(value.Type(), 0, 0))
		}
		if f.holds(value.Type().Elem()) {
			for i := range value.Len() {
				f.fill(value.Index(i))
			}
		}
	}
}

// holds reports whether a value of a type is a list, or has one under it.
func (f listFiller) holds(t reflect.Type) bool {
	return t.Kind() == reflect.Slice || t.Kind() == reflect.Struct && len(f.under(t)) > 0
}

// under returns the published fields of a struct that lists stand under.
func (f listFiller) under(t reflect.Type) []int {
	fields, known := f[t]
	if !known {
		for i := range t.NumField() {
			if field := t.Field(i); field.IsExported() && f.holds(field.Type) {
				fields = append(fields, i)
			}
		}
		f[t] = fields
	}
	return fields
}
