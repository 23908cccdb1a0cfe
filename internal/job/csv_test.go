package job

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/templates"
)

// tabled returns the small demo job with its wires in a table, and the table with commas.
func tabled(t testing.TB) (job, table string) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/jobs/sled-small/job.toml")
	require.NoError(t, err)
	start := strings.Index(string(text), "[[wire]]")
	end := strings.Index(string(text), "# ---------------------------------------------------------------- board")
	var rows strings.Builder
	rows.WriteString("id,type,from,to,b.stage,b.trim,b.note,note\n")
	value := regexp.MustCompile(`(?m)^(\w+)\s*= "([^"]*)"`)
	for _, wire := range strings.Split(string(text)[start:end], "[[wire]]")[1:] {
		cells := map[string]string{}
		for _, found := range value.FindAllStringSubmatch(wire, -1) {
			cells[found[1]] = found[2]
		}
		if strings.Contains(wire, "stage") {
			cells["b.stage"], cells["b.trim"], cells["b.note"] = "board", "20 mm", "cut here"
		}
		row := []string{cells["id"], cells["type"], cells["from"], cells["to"], cells["b.stage"], cells["b.trim"], cells["b.note"]}
		rows.WriteString(strings.Join(row, ",") + ",\"" + cells["note"] + "\"\n")
	}
	job = string(text)[:start] + string(text)[end:]
	return strings.Replace(job, "[job]\n", "[job]\nwires = \"wires.csv\"\n", 1), rows.String()
}

func readTabled(job, table string) (*harness.Harness, problem.List, problem.Sources) {
	in := Input{Name: "job.toml", Text: []byte(job), Open: func(path string) ([]byte, error) {
		if path == "wires.csv" {
			return []byte(table), nil
		}
		return nil, os.ErrNotExist
	}}
	return Read(in, templates.Files)
}

// placeless drops where things were written.
func placeless(wires []harness.Wire) []harness.Wire {
	wires = slices.Clone(wires)
	for i := range wires {
		wires[i].Origin = harness.Origin{}
	}
	return wires
}

func TestATableOfWiresSaysWhatTheTablesSay(t *testing.T) {
	text, err := os.ReadFile("../../testdata/jobs/sled-small/job.toml")
	require.NoError(t, err)
	written, found, _ := Read(Input{Name: "job.toml", Text: text}, templates.Files)
	require.Zero(t, found.Errors())
	job, table := tabled(t)
	blank := strings.Replace(table, "\nS01", "\n,,,,,,,\n\nS01", 1)
	require.NotEqual(t, table, blank)
	for name, one := range map[string]string{
		"comma": table, "semicolon": strings.ReplaceAll(table, ",", ";"), "tab": strings.ReplaceAll(table, ",", "\t"),
		"byte order mark": "\xef\xbb\xbf" + table, "carriage returns": strings.ReplaceAll(table, "\n", "\r\n"), "blank rows": blank,
	} {
		one = strings.ReplaceAll(strings.ReplaceAll(one, "enable; active", "enable, active"), "enable\t active", "enable, active")
		h, found, sources := readTabled(job, one)
		require.Zero(t, found.Errors(), "%s: %s", name, printed(t, found, sources))
		require.Equal(t, placeless(written.Wires), placeless(h.Wires), name)
		require.Equal(t, "wires.csv", h.Wires[0].Of("from").File)
		require.Equal(t, 2, h.Wires[0].Of("from").Line)
	}
}

// rowsOf reads a table of wires alone.
func rowsOf(t testing.TB, text string) ([]*value, problem.List, problem.Sources) {
	t.Helper()
	f, found := newFile("wires.csv", []byte(text))
	sources := problem.Sources{"wires.csv": f.text}
	if found != nil {
		return nil, found, sources
	}
	w := wireTable{file: f, known: registry(t).columns("wire")}
	rows, found := w.read()
	return rows, found, sources
}

func TestEveryExampleOfAWireCanStandInACell(t *testing.T) {
	wire, _ := registry(t).table("wire")
	var names []string
	for _, c := range registry(t).columns("wire") {
		names = append(names, c.name)
		one, found := wire.key(c.name)
		require.True(t, found)
		v := valueIn(one.example, c.name)
		text := v.text
		if v.kind == kindArray {
			text = v.items[0].text
		}
		header, cells := "id,type,from,to", "W1,E22W,J1:1,P1:1"
		if !strings.Contains(","+header+",", ","+c.name+",") {
			header, cells = header+","+c.name, cells+","+text
		}
		rows, faults, sources := rowsOf(t, header+"\n"+cells+"\n")
		require.Empty(t, printed(t, faults, sources))
		at := rows[0]
		for _, part := range strings.Split(c.name, ".") {
			at = at.find(part).value
		}
		require.Equal(t, v.kind, at.kind, c.name)
	}
	require.Subset(t, names, []string{"id", "type", "from", "to", "via", "length", "a.trim", "b.stage"})
	for _, one := range wire.keys {
		require.Equal(t, !one.holdsKeys(), contains(names, one.name), one.name)
	}
}

func TestCellsBecomeWhatTheirColumnHolds(t *testing.T) {
	rows, found, sources := rowsOf(t, "\n;;;\nid;type;from;to;via;length;a.retermination;a.trim;;\n"+
		"1.10; E22W ;J1:001;P1:a; N1  N2;\"1432\";0; 12.5 ;;\n;;;\n\"007\";E22W;J1:2;P1:b;\"N3 N4\";\"12 in\";02;;;\n")
	require.Empty(t, printed(t, found, sources))
	require.Len(t, rows, 2)
	first := rows[0]
	require.Equal(t, kindText, first.find("id").value.kind)
	require.Equal(t, "1.10", first.find("id").value.text)
	require.Equal(t, "E22W", first.find("type").value.text)
	require.Equal(t, problem.Place{File: "wires.csv", Line: 4, Column: 7}, first.find("type").place())
	require.Equal(t, "J1:001", first.find("from").value.text)
	require.Equal(t, kindInteger, first.find("length").value.kind)
	require.Equal(t, kindInteger, first.find("a").value.find("retermination").value.kind)
	require.Equal(t, kindDecimal, first.find("a").value.find("trim").value.kind)
	via := first.find("via").value
	require.Equal(t, []string{"N1", "N2"}, []string{via.items[0].text, via.items[1].text})
	require.Equal(t, problem.Place{File: "wires.csv", Line: 4, Column: 30}, via.items[1].place())
	second := rows[1]
	require.Equal(t, "007", second.find("id").value.text)
	require.Equal(t, kindText, second.find("a").value.find("retermination").value.kind) // no whole number of TOML
	require.Nil(t, second.find("a").value.find("trim"))
	require.Equal(t, problem.Place{File: "wires.csv", Line: 6, Column: 26}, second.find("via").value.items[1].place())
}

func TestTruthIsReadAsSpreadsheetsWriteIt(t *testing.T) {
	f, _ := newFile("wires.csv", []byte("TRUE"))
	truth := column{name: "x", json: []string{"boolean"}}
	for text, kind := range map[string]kind{"true": kindBool, "TRUE": kindBool, "FALSE": kindBool, "yes": kindText, "1": kindText} {
		v := cell{text: text}.value(f, truth)
		require.Equal(t, kind, v.kind, text)
		require.Equal(t, kind == kindBool, v.text == "true" || v.text == "false", text)
	}
}

func TestBrokenTablesAreRefusedWithTheirPlace(t *testing.T) {
	const head = "id,type,from,to,note\n"
	for name, c := range map[string]struct {
		text, check, says string
		line, column      int
	}{
		"no UTF-8":             {head + "W1,\xff", notUTF8, "byte 0xFF", 2, 4},
		"UTF-16":               {"\xff\xfei\x00d\x00", notUTF8, "byte 0xFF", 1, 1},
		"turned direction":     {head + "W1,E22W,J1:1,P1:1,a\u202eb", controlCharacter, "U+202E", 2, 20},
		"escape":               {head + "W1,E22W,J1:1,P1:1,\x1b[2J", controlCharacter, "U+001B", 2, 19},
		"tab in a cell":        {head + "W1,E22W,J1:1,P1:1,a\tb", controlCharacter, "U+0009", 2, 19},
		"carriage return":      {head + "W1,E22W,J1:1,P1:1,a\rb", controlCharacter, "U+000D", 2, 20},
		"quote never closed":   {head + "W1,\"E22W,J1:1,P1:1\nW2,E22W,J1:2,P1:2,\n", badTable, "not closed on its line", 2, 4},
		"closed rows later":    {head + "W1,\"E22W,J1:1,P1:1,\nW2,E22W,J1:2,P1:2,\"x\"\n", badTable, "not closed on its line", 2, 4},
		"quote inside":         {head + "W1,E22W,J1:1,P1:1,3\" clamp\n", badTable, "a quote stands inside a cell", 2, 20},
		"text behind a quote":  {head + "W1,E22W,J1:1,P1:1,\"a\"b\n", badTable, "a quote stands inside a cell", 2, 21},
		"line break":           {head + "W1,E22W,J1:1,P1:1,\"a\nb\"\n", badTable, "line break", 2, 19},
		"too many cells":       {head + "W1,E22W,J1:1,P1:1,a,b\n", badTable, "6 cells", 2, 21},
		"no name":              {"id,type,from,to,\nW1,E22W,J1:1,P1:1,2.45\n", badTable, "no name of a column", 2, 19},
		"nothing":              {"", badTable, "empty", 1, 1},
		"nothing but marks":    {"\n,,,\n", badTable, "empty", 1, 1},
		"unknown column":       {"id,type,from,to,lenth\n", badColumn, `no column "lenth"`, 1, 17},
		"column of an end":     {"id,type,from,to,a\n", badColumn, `no column "a"`, 1, 17},
		"doubled column":       {"id,type,from,to,to\n", badColumn, "stands twice", 1, 17},
		"another separator":    {"id|type|from|to\n", badColumn, "no column", 1, 1},
		"a semicolon too many": {"id;type;from;to\nW1;E22W;J1:1;P1:1;x\n", badTable, "5 cells", 2, 19},
		"rows without end":     {head + strings.Repeat("W,E,J,P,\n", mostRows+1), fileTooLarge, "more than 200000 rows", mostRows + 2, 1},
		"a file without end":   {strings.Repeat(" ", sizeLimit+1), fileTooLarge, "holds more than", 1, 1},
	} {
		_, found, sources := rowsOf(t, c.text)
		require.NotEmpty(t, found, name)
		require.Equal(t, c.check, found[0].Check, name)
		require.Contains(t, found[0].Text, c.says, name)
		require.Equal(t, problem.Place{File: "wires.csv", Line: c.line, Column: c.column}, found[0].Place, name)
		if c.check != fileTooLarge {
			requirePlace(t, found[0].Place, sources)
		}
	}
}

func TestUnknownColumnsAreReportedUpToALimit(t *testing.T) {
	_, found, _ := rowsOf(t, "id,type,from,to"+strings.Repeat(",unknown", 1000)+"\n")
	require.Len(t, found, mostHidden)
}

func TestAMissingColumnIsReportedOnceNotForEveryRow(t *testing.T) {
	_, found, _ := rowsOf(t, "type,from,to\nE22W,J1:1,P1:1\nE22W,J1:2,P1:2\n")
	require.Len(t, found, 1)
	require.Contains(t, found[0].Text, `no column "id"`)
}

func TestATableOfWiresFollowsTheWrittenOnes(t *testing.T) {
	text := strings.Replace(goodText, "[job]\n", "[job]\nwires = \"wires.csv\"\n", 1)
	h := good(t, including(text, map[string]string{"wires.csv": "id,type,from,to\nW3,E22W,J1:3,P1:C\n"}))
	require.Len(t, h.Wires, 3)
	require.Equal(t, []string{"W1", "W2", "W3"}, []string{h.Wires[0].ID, h.Wires[1].ID, h.Wires[2].ID})
	require.Equal(t, "wires.csv", h.Wires[2].At.File)
}

func TestPathsOfWireTablesStayInsideTheFolder(t *testing.T) {
	for path, check := range map[string]string{
		"../wires.csv": includePath, "/wires.csv": includePath, `a\\wires.csv`: includePath, "job.toml": includeLoop, "gone.csv": includeMissing, "": emptyValue,
	} {
		text := strings.Replace(goodText, "[job]\n", "[job]\nwires = \""+path+"\"\n", 1)
		_, found, sources := Read(including(text, nil), templates.Files)
		require.Len(t, found, 1, "%s: %s", path, printed(t, found, sources))
		require.Equal(t, check, found[0].Check, path)
		require.Equal(t, problem.Place{File: "job.toml", Line: 2, Column: 9}, found[0].Place, path)
	}
	in := input(strings.Replace(goodText, "[job]\n", "[job]\nwires = \"wires.csv\"\n", 1))
	in.Open = nil
	_, found, _ := Read(in, templates.Files)
	require.Equal(t, includeImpossible, found[0].Check)
}
