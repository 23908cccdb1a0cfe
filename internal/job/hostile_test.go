package job

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/templates"
)

// numberedLines repeats a line with its number in it.
func numberedLines(count int, line string) string {
	var b strings.Builder
	for i := range count {
		fmt.Fprintf(&b, line, i)
	}
	return b.String()
}

// hostile is a job that was made to take long, of any size.
type hostile struct {
	name  string
	files func(size int) fuzzedFiles
	check string // of the first problem; "" where the job is sound
}

func inJob(text func(size int) string) func(int) fuzzedFiles {
	job, tables, _ := largeJob(1)
	return func(size int) fuzzedFiles { return fuzzedFiles{job: []byte(job + tables + text(size))} }
}

func inTable(text func(size int, columns, row string) string) func(int) fuzzedFiles {
	job, _, rows := largeJob(1)
	columns, row, _ := strings.Cut(rows, "\n")
	job = strings.Replace(job, "[job]\n", "[job]\nwires = \"wires.csv\"\n", 1)
	return func(size int) fuzzedFiles {
		return fuzzedFiles{job: []byte(job), wires: []byte(text(size, columns+"\n", row))}
	}
}

func hostileJobs() []hostile {
	lines := func(line string) func(int) fuzzedFiles {
		return inJob(func(size int) string { return numberedLines(size, line) })
	}
	repeated := func(text string) func(int) fuzzedFiles {
		return inJob(func(size int) string { return strings.Repeat(text, size) })
	}
	return []hostile{
		{"a remark of megabytes", repeated("# no end to it. "), ""},
		{"blank lines", repeated("\n"), ""},
		{"a key of megabytes", inJob(func(size int) string { return strings.Repeat("long", size) + " = 1" }), unknownKey},
		{"a text of megabytes", inJob(func(size int) string { return "mark = \"" + strings.Repeat("full", size) + "\"" }), badWord},
		{"a number of megabytes", inJob(func(size int) string { return "length = " + strings.Repeat("9999", size) }), syntaxFault},
		{"a list in one line", inJob(func(size int) string { return "via = [" + strings.Repeat("1, ", size) + "]" }), wrongKind},
		{"nested lists", inJob(func(size int) string { return "via = " + strings.Repeat("[", size) + strings.Repeat("]", size) }), nestedTooDeep},
		{"nested tables", inJob(func(size int) string { return strings.Repeat("a = { ", size) + strings.Repeat("}", size) }), nestedTooDeep},
		{"a dotted key", inJob(func(size int) string { return strings.Repeat("a.", size) + "a = 1" }), nestedTooDeep},
		{"empty tables", repeated("[[wire]]\n"), missingKey},
		{"unknown tables", lines("[zebra%d]\n"), unknownTable},
		{"unknown keys", lines("zebra%d = 1\n"), unknownKey},
		{"faulty wires", lines("[[wire]]\nid = \"X%d\"\ntype = \"NO\"\nfrom = \"Q:1\"\nto = 5\n"), unknownType},
		{"one id for all", repeated("[[wire]]\nid = \"X\"\ntype = \"E22W\"\nfrom = \"J0:1\"\nto = \"J1:1\"\n"), cavityTaken},
		{"all wires in one cavity", lines("[[wire]]\nid = \"X%06d\"\ntype = \"E22W\"\nfrom = \"J0:1\"\nto = \"J1:1\"\n"), cavityTaken},
		{"unknown nodes", lines("[[segment]]\nbetween = [\"Z%d\", \"N1\"]\n"), unknownNode},
		{"control characters", repeated("\x07"), controlCharacter},
		{"NUL", repeated("\x00"), controlCharacter},
		{"turned writing", lines("zebra%d = \"\\u202e\"\n"), controlCharacter},
		{"bytes that are no text", repeated("\xff\xfe"), notUTF8},
		{"bytes inside characters", repeated("\x80"), notUTF8},
		{"a cell of megabytes", inTable(func(size int, columns, row string) string {
			return columns + strings.Replace(row, "W0", strings.Repeat("long", size), 1)
		}), badID},
		{"a cell of many lines", inTable(func(size int, columns, row string) string {
			return columns + strings.Replace(row, "bay 0", "\""+strings.Repeat("x\n", size)+"\"", 1)
		}), badTable},
		{"a quote that nobody closes", inTable(func(size int, columns, row string) string {
			return columns + strings.Replace(row, "bay 0", "\""+strings.Repeat("x\n", size), 1)
		}), badTable},
		{"blank rows", inTable(func(size int, columns, row string) string { return columns + row + strings.Repeat(",,,,,,\n", size) }), ""},
		{"no end of columns", inTable(func(size int, _, _ string) string { return strings.Repeat("id,", size) + "\n" }), badColumn},
		{"rows too long", inTable(func(size int, columns, _ string) string { return columns + strings.Repeat("W,Q,R,S,T,U,V,W,X\n", size) }), badTable},
		{"faulty rows", inTable(func(size int, columns, _ string) string { return columns + strings.Repeat("W,Q,R,S,T,U,V\n", size) }), unknownType},
	}
}

// TestHostileJobsCostWhatTheirSizeSays reads jobs made to take long, in two sizes: four times the size may take little more than four
// times the memory, every place lies in its file, and no message repeats megabytes.
func TestHostileJobsCostWhatTheirSizeSays(t *testing.T) {
	const size = 2000
	for _, one := range hostileJobs() {
		t.Run(one.name, func(t *testing.T) {
			small, large := hostileCost(t, one, size), hostileCost(t, one, 4*size)
			require.LessOrEqual(t, large, 6*small)
		})
	}
}

// hostileCost reads a hostile job and returns how many bytes that took.
func hostileCost(t *testing.T, one hostile, size int) uint64 {
	in := one.files(size).input()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, found, sources := Read(in, templates.Files)
	runtime.ReadMemStats(&after)
	checks := map[string]bool{}
	for i, p := range found {
		checks[p.Check] = true
		require.Less(t, len(p.Text)+len(p.Hint), 4000, p.Check)
		if i < 50 {
			requirePlace(t, p.Place, sources)
		}
	}
	require.Equal(t, one.check != "", found.Errors() > 0)
	require.True(t, one.check == "" || checks[one.check], "%v", checks)
	return after.TotalAlloc - before.TotalAlloc
}
