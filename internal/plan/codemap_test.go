package plan

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const mapHead = "string,job,revision,unit,kind,name,words\n"

func TestCodesMapReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rows []CodeRow
		seen := map[string]bool{}
		for range rapid.IntRange(0, 8).Draw(t, "rows") {
			code := drawCode(t)
			row := CodeRow{
				Code: code.String(), Job: "MOR-0412", Revision: rapid.StringMatching(`[A-Z]?`).Draw(t, "revision"),
				Unit: rapid.StringMatching(`[0-9]{0,3}`).Draw(t, "unit"), Kind: kindWord(code.Kind),
				Name: rapid.StringMatching(`[A-Z]{1,2}[0-9]{1,3}`).Draw(t, "name"), Words: rapid.StringMatching(`[ -~äµ]{0,9}`).Draw(t, "words"),
			}
			if !seen[row.Code] {
				rows = append(rows, row)
			}
			seen[row.Code] = true
		}
		var out bytes.Buffer
		require.NoError(t, WriteCodes(&out, rows))
		read, err := ReadCodes(&out)
		require.NoError(t, err)
		require.ElementsMatch(t, rows, read)
	})
}

func TestCodesMapIsSortedByKindNameAndUnit(t *testing.T) {
	row := func(code Code, unit, name string) CodeRow {
		return CodeRow{Code: code.String(), Job: "MOR-0412", Revision: "B", Unit: unit, Kind: kindWord(code.Kind), Name: name}
	}
	rows := []CodeRow{
		row(Code{Kind: KindWire, Item: 100001}, "", "W10"), row(Code{Kind: KindWire, Item: 100002}, "", "W9"),
		row(Code{Kind: KindLanding, Item: 100003, Unit: 10}, "10", "J1:1"), row(Code{Kind: KindLanding, Item: 100003, Unit: 9}, "9", "J1:1"),
	}
	var out bytes.Buffer
	require.NoError(t, WriteCodes(&out, rows))
	require.Equal(t, mapHead+
		rows[3].Code+",MOR-0412,B,9,landing,J1:1,\n"+rows[2].Code+",MOR-0412,B,10,landing,J1:1,\n"+
		rows[1].Code+",MOR-0412,B,,wire,W9,\n"+rows[0].Code+",MOR-0412,B,,wire,W10,\n", out.String())
}

func TestCodesMapRefused(t *testing.T) {
	const good = "C4821307711500300015796,MOR-0412,B,,wire,W157,wire W157\n"
	tests := []struct{ text, want string }{
		{"", "the file is empty"},
		{"a,b\n", `line 1: the first line must read "string,job,revision,unit,kind,name,words"`},
		{mapHead + good + good, "line 3: string C4821307711500300015796 stands twice"},
		{mapHead + "C4821307711500300015796,MOR-0412\n", "line 2: 2 fields in place of 7"},
		{mapHead + strings.Replace(good, "796,", "797,", 1), "line 2: string \"C4821307711500300015797\": the check digits do not fit"},
		{mapHead + strings.ToLower(good), "not written as a code is"},
		{mapHead + strings.Replace(good, ",wire,", ",tray,", 1), `is of kind "wire", not "tray"`},
		{mapHead + strings.Replace(good, ",W157,", ",,", 1), "job or name is missing"},
		{mapHead + strings.Replace(good, "wire W157", "wire\tW157", 1), "holds a character that is no text"},
		{mapHead + strings.Replace(good, "wire W157", "wire \xff", 1), "holds a character that is no text"},
		{mapHead + `"C48`, "codes map: "},
	}
	for _, test := range tests {
		_, err := ReadCodes(strings.NewReader(test.text))
		require.ErrorContains(t, err, test.want, "%q", test.text)
	}
	rows, err := ReadCodes(strings.NewReader("\ufeff" + mapHead + good))
	require.NoError(t, err)
	require.Len(t, rows, 1)
	var out bytes.Buffer
	require.ErrorContains(t, WriteCodes(&out, append(rows, rows[0])), "stands twice")
	require.Empty(t, out.String(), "nothing is written of a map that cannot be read")
}

func FuzzReadCodes(f *testing.F) {
	f.Add(mapHead + "C4821307711500300015796,MOR-0412,B,,wire,W157,\"wire W157, \"\"red\"\"\"\n")
	f.Add("\ufeff" + mapHead)
	f.Add(mapHead + "X0123456789012345678919,MOR-0412,B,,scanner test,scanner test,scanner test\r\n")
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := ReadCodes(strings.NewReader(text))
		if err != nil {
			require.Empty(t, rows)
			return
		}
		var out bytes.Buffer
		require.NoError(t, WriteCodes(&out, rows))
		again, err := ReadCodes(&out)
		require.NoError(t, err)
		require.ElementsMatch(t, rows, again)
	})
}
