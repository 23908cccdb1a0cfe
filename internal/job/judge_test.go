package job

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestWhatIsMistypedMostOftenHasAHint asks the library itself for its messages: one that words them anew is found here.
func TestWhatIsMistypedMostOftenHasAHint(t *testing.T) {
	for text, want := range map[string]string{
		"title = sled":                  "write a value: texts and quantities in double quotes; numbers, days, true and false without",
		"title = \"sled":                "close the text with a double quote on the same line",
		"title \"sled\"":                "write an equals sign between the key and its value",
		"= \"sled\"":                    "write the key before the equals sign",
		"[job":                          "close the name of the table with ]",
		"[[wire]":                       "close the name of the table with ]]",
		"via = [\"N1\" \"N2\"]":         "part what the list holds with commas, and close it with ]",
		"a = { trim = 1 free = 2 }":     "part the keys with commas, and close the braces with }",
		"title = \"a \"quoted\" word\"": `write one key a line; a double quote within a text is written \"`,
		"title = \"a\\d\"":              `write \\ for a backslash`,
		"due = 2026-02-30":              dayHint,
		"[job]\nclass = 3\nclass = 3":   "take one of the two out",
	} {
		f, refused := newFile("job.toml", []byte(text+"\n"))
		require.Empty(t, refused)
		found := f.judge()
		require.Len(t, found, 1, text)
		require.Equal(t, want, found[0].Hint, "%s: %s", text, found[0].Text)
	}
}
