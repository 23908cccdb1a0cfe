package internal

import (
	"go/ast"
	"go/token"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/job"
	"loomleaf/internal/words"
	"loomleaf/templates"
)

// languages returns the words of each language that comes with the program, English first.
func languages(t *testing.T) []words.Words {
	t.Helper()
	english, err := job.Words(templates.Files, "en")
	require.NoError(t, err)
	all := []words.Words{english}
	files, err := fs.Glob(templates.Files, "words/*.toml")
	require.NoError(t, err)
	for _, file := range files {
		name := strings.TrimSuffix(strings.TrimPrefix(file, "words/"), ".toml")
		if name != "en" {
			other, err := job.Words(templates.Files, name)
			require.NoError(t, err)
			all = append(all, other)
		}
	}
	require.Greater(t, len(all), 1)
	return all
}

func TestWordsOfAllLanguagesHaveTheSameKeysAndFields(t *testing.T) {
	all := languages(t)
	for _, other := range all[1:] {
		require.Equal(t, all[0].Keys(), other.Keys(), other.Language)
		for _, key := range all[0].Keys() {
			english, _ := all[0].Text(key)
			text, _ := other.Text(key)
			require.NotEmpty(t, strings.TrimSpace(text), key)
			require.Equal(t, words.Fields(english), words.Fields(text), "fields of %s in %s", key, other.Language)
		}
	}
}

// asked is a call that asks for words.
type asked struct {
	at     string
	key    string // whole, or what it starts with
	prefix bool
	fields []string
}

// callsForWords returns every call of Say, SayCount, say and sayCount with words in it.
func callsForWords(t *testing.T) []asked {
	t.Helper()
	var calls []asked
	for _, s := range sources(t) {
		if s.test || s.folder == "internal/words" {
			continue
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			call, is := n.(*ast.CallExpr)
			if !is || len(call.Args) == 0 {
				return true
			}
			selector, is := call.Fun.(*ast.SelectorExpr)
			if !is || !slices.Contains([]string{"Say", "SayCount", "say", "sayCount"}, selector.Sel.Name) {
				return true
			}
			key, prefix, found := keyOf(call.Args[0])
			if !found {
				return true
			}
			one := asked{at: s.set.Position(call.Pos()).String(), key: key, prefix: prefix}
			start := 1
			if strings.HasSuffix(strings.ToLower(selector.Sel.Name), "count") {
				start, one.fields = 2, []string{"n"}
				if !prefix {
					one.key += ".other"
				}
			}
			for i := start; i < len(call.Args); i += 2 {
				if name, is := literal(call.Args[i]); is {
					one.fields = append(one.fields, name)
				}
			}
			calls = append(calls, one)
			return true
		})
	}
	require.NotEmpty(t, calls)
	return calls
}

// keyOf returns the key that an argument holds: "table.key", or "table." with something added to it.
func keyOf(arg ast.Expr) (key string, prefix, found bool) {
	if sum, is := arg.(*ast.BinaryExpr); is && sum.Op == token.ADD {
		key, _, found = keyOf(sum.X)
		return key, true, found
	}
	text, is := literal(arg)
	return text, false, is && strings.Contains(text, ".")
}

func literal(arg ast.Expr) (string, bool) {
	lit, is := arg.(*ast.BasicLit)
	if !is || lit.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(lit.Value)
	return text, err == nil
}

func TestEveryKeyOfWordsIsAskedForAndEveryKeyAskedForExists(t *testing.T) {
	english := languages(t)[0]
	keys := english.Keys()
	used := map[string]bool{"number.decimal": true}
	for _, call := range callsForWords(t) {
		met := false
		for _, key := range keys {
			if key != call.key && !(call.prefix && strings.HasPrefix(key, call.key)) {
				continue
			}
			met, used[key] = true, true
			text, _ := english.Text(key)
			for _, field := range words.Fields(text) {
				require.Contains(t, call.fields, field, "%s leaves the field of %s empty", call.at, key)
			}
		}
		require.True(t, met, "%s asks for %s, which no language has", call.at, call.key)
		if counted, is := strings.CutSuffix(call.key, ".other"); is {
			used[counted+".one"] = true
		}
	}
	for _, key := range keys {
		require.True(t, used[key], "nothing asks for the words %s", key)
	}
}
