package plan

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"slices"

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
	canonical, err := json.Marshal(struct {
		Format int  `json:"format"`
		Plan   Plan `json:"plan"`
	}{contentFormat, p})
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(canonical)
	return hex.EncodeToString(sum[:]), nil
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
	switch value.Kind() {
	case reflect.Struct:
		for i := range value.NumField() {
			fillLists(value.Field(i))
		}
	case reflect.Slice:
		if value.IsNil() && value.CanSet() {
			value.Set(reflect.MakeSlice(value.Type(), 0, 0))
		}
		for i := range value.Len() {
			fillLists(value.Index(i))
		}
	}
}
