package words

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestFieldsAreFilled(t *testing.T) {
	w := New("en", map[string]string{"a": "page {page} of {of}", "b": "{ {page} {page", "c": "{page}{page}}", "d": "no field", "e": "{unknown} {of}"})
	for _, c := range []struct{ key, want string }{
		{"a", "page 3 of {page}"}, {"b", "{ 3 {page"}, {"c", "33}"}, {"d", "no field"}, {"e", "{unknown} {page}"}, {"f", "{f}"},
	} {
		require.Equal(t, c.want, w.Say(c.key, "page", 3, "of", "{page}"), c.key)
	}
}

// TestFillingAgreesWithAReplacer compares with the replacer of the standard library.
func TestFillingAgreesWithAReplacer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOf(rapid.SampledFrom([]string{"{", "}", "a", "bc", "ä", " "})).Draw(t, "text"), "")
		value := rapid.SampledFrom([]string{"", "x", "{a}", "}"}).Draw(t, "value")
		want := strings.NewReplacer("{a}", value, "{bc}", "y").Replace(text)
		require.Equal(t, want, New("en", map[string]string{"k": text}).Say("k", "a", value, "bc", "y"))
	})
}
