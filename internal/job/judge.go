package job

import (
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"loomleaf/internal/problem"
)

// judge says what is wrong with the syntax of a file. Only this library refuses doubled keys, days that no month has
// and integers out of range; its values are not used, since it names wrong lines for faults in repeated tables.
func (f *file) judge() problem.List {
	var ignored map[string]any
	_, err := toml.Decode(string(f.text), &ignored)
	if err == nil {
		return nil
	}
	var parse toml.ParseError
	if !errors.As(err, &parse) {
		return problem.List{fault(syntaxFault, f.place(0), "%s", sentence(err.Error()))}
	}
	text := sentence(parse.Message)
	if p, known := f.doubled(parse.Position.Start, text); known {
		return problem.List{p}
	}
	return problem.List{about(fault(syntaxFault, f.place(parse.Position.Start), "%s", text), "", syntaxHint(text))}
}

// syntaxHint says what to do about the faults that are typed most often.
func syntaxHint(text string) string {
	for _, known := range []struct{ part, hint string }{
		{"expected value", "write a value: texts and quantities in double quotes; numbers, days, true and false without"},
		{"already been defined", "take one of the two out"},
		{"invalid datetime", dayHint},
		{"strings cannot contain newlines", "close the text with a double quote on the same line"},
		{"expected '.' or '='", "write an equals sign between the key and its value"},
		{"key name appears blank", "write the key before the equals sign"},
		{"table array name delimiter", "close the name of the table with ]]"},
		{"to end table name", "close the name of the table with ]"},
		{"array terminator", "part what the list holds with commas, and close it with ]"},
		{"inline table terminator", "part the keys with commas, and close the braces with }"},
		{"expected a top-level item to end", `write one key a line; a double quote within a text is written \"`},
		{"invalid escape", `write \\ for a backslash`},
	} {
		if strings.Contains(text, known.part) {
			return known.hint
		}
	}
	return ""
}

// sentence turns a message of a library into one of ours: one line, no capital, no full stop.
func sentence(message string) string {
	if len(message) > 2*longestShown { // it may repeat what was typed
		message = shown(message)
	}
	message = strings.TrimSuffix(strings.Join(strings.Fields(message), " "), ".")
	first, size := utf8.DecodeRuneInString(message)
	second, _ := utf8.DecodeRuneInString(message[size:])
	if unicode.IsUpper(first) && !unicode.IsUpper(second) {
		return string(unicode.ToLower(first)) + message[size:]
	}
	return message
}
