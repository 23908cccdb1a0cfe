package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func explained(t *testing.T, name string) string {
	t.Helper()
	return explainedOf(t, registry(t), name)
}

func explainedOf(t *testing.T, keys Keys, name string) string {
	t.Helper()
	text, found := keys.Explain(name)
	require.True(t, found, name)
	return text
}

func TestExplainsAKey(t *testing.T) {
	require.Equal(t, `[[wire]] a.stage: Where the end is stripped and crimped.

type     choice: one of the words listed, in double quotes
choices  "bench" or "board"
default  "bench"
example  a.stage = "board"
`, explained(t, "wire.a.stage"))
	require.Equal(t, `[[wire_type]] awg: The gauge of the conductor.

type     gauge: an AWG gauge from 40 to "4/0": 22 or "22"; large ones in double quotes
default  required, or section
example  awg = 22
`, explained(t, "wire_type.awg"))
	require.Equal(t, `[job] expect: Counts that must match, so that a wire lost while typing is found at once.

type     table: { ... } behind the key, or the keys dotted, such as "expect.x = ..."
default  none
example  expect = { wires = 46, ends = 92 }
keys     wires, ends
`, explained(t, "job.expect"))
	require.Contains(t, explained(t, "policy.batch"), "bounds   from 1 to 5\n")
	require.Contains(t, explained(t, "include"), "include: Files that are merged into this job")
	require.Contains(t, explained(t, "connector.places"), "table by cavity of 2 lengths")
	require.Contains(t, explained(t, "connector.rows"), "example  face = \"drawing\"\n         seen_from = \"mating side\"\n         rows = [")
	require.Contains(t, explained(t, "wire.b.trim"), `example  b.trim = "20 mm"`)
}

func TestExplainsTablesAndTheirKeys(t *testing.T) {
	registered := registry(t)
	all := explainedOf(t, registered, "")
	for _, table := range tables() {
		require.Contains(t, all, "["+table.name+"]")
		keys, _ := registered.table(table.name)
		of := explainedOf(t, registered, table.name)
		require.True(t, strings.HasPrefix(of, keys.header()+": "), of)
		for _, one := range keys.keys {
			require.Contains(t, of, "\n"+one.name+" ")
			require.Contains(t, explainedOf(t, registered, table.name+"."+one.name), one.example)
		}
	}
}

func TestExplanationsFitTheWidth(t *testing.T) {
	registered := registry(t)
	names, _ := registered.names("")
	for _, name := range append(names, "") {
		for line := range strings.Lines(explainedOf(t, registered, name)) {
			if !strings.HasPrefix(line, "example") {
				require.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 140, name)
			}
			require.Equal(t, strings.TrimRight(line, " \n"), strings.TrimSuffix(line, "\n"), name)
		}
	}
}

func TestNamesThatAreNotThereGetANearMiss(t *testing.T) {
	keys := registry(t)
	for name, near := range map[string]string{
		"wires": "wire or job.wires or tray.wires", "wire.form": "wire.from", "wire.a.trin": "wire.a.trim", "wire.trm": "wire.a.trim or wire.b.trim", "wire.trim": "wire.a.trim or wire.b.trim", "connecter": "connector",
		"trim": "wire.a.trim or wire.b.trim", "Wire": "wire", "cabel": "cable", "jacket_off": "cable.a.jacket_off or cable.b.jacket_off", "xyzzyxyzzy": "", ".": "", "wire.": "wire", "wire.a.trim.": "wire.a.trim",
	} {
		text, found := keys.Explain(name)
		require.False(t, found, name)
		require.Empty(t, text)
		require.Equal(t, near, keys.NearestName(name), name)
	}
}
