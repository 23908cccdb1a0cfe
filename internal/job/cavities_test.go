package job

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestRangesAreExpanded(t *testing.T) {
	for _, c := range []struct {
		text  string
		names []string
		fault string
	}{
		{"7", []string{"7"}, ""},
		{"1-3", []string{"1", "2", "3"}, ""},
		{"9-11", []string{"9", "10", "11"}, ""},
		{"08-11", []string{"08", "09", "10", "11"}, ""},
		{"0-2", []string{"0", "1", "2"}, ""},
		{"A-D", []string{"A", "B", "C", "D"}, ""},
		{"a-c", []string{"a", "b", "c"}, ""},
		{"G-K except I", []string{"G", "H", "J", "K"}, ""},
		{"1-4 except 2 3", []string{"1", "4"}, ""},
		{"1.10", []string{"1.10"}, ""},
		{"gg", []string{"gg"}, ""},
		{"A1-A4", []string{"A1-A4"}, ""}, // digits-digits and letters-letters are ranges, all else is a name
		{"-V", []string{"-V"}, ""},
		{"5-5", []string{"5"}, ""},
		{"3-1", nil, "runs backwards"},
		{"D-A", nil, "runs backwards"},
		{"1-010", nil, "has ends of different width"},
		{"a-C", nil, "is no range of single letters of one case"},
		{"AA-AF", nil, "is no range of single letters of one case"},
		{"1-2001", nil, "makes more than 2000 cavities"},
		{"0-9999999999", nil, "holds too large a number"},
		{"7 except 7", nil, "takes exceptions from no range"},
		{"1-2 except 1 2", nil, "leaves no cavity"},
		{"1-2 except 3", nil, `excepts "3", which is not in the range`},
	} {
		names, fault := expand(c.text)
		require.Equal(t, c.fault, fault, c.text)
		require.Equal(t, c.names, names, c.text)
	}
}

func TestARangeHoldsEveryNumberOnceInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.IntRange(0, 5000).Draw(t, "from")
		count := rapid.IntRange(1, mostCavities).Draw(t, "count")
		width := rapid.IntRange(0, 6).Draw(t, "width")
		first, last := fmt.Sprintf("%0*d", width, from), fmt.Sprintf("%0*d", width, from+count-1)
		names, fault := expand(first + "-" + last)
		if fault == "has ends of different width" {
			require.True(t, strings.HasPrefix(first, "0") && len(first) != len(last))
			return
		}
		require.Empty(t, fault)
		require.Len(t, names, count)
		require.Equal(t, first, names[0])
		require.Equal(t, last, names[count-1])
	})
}

func TestNearestFindsTyposOnly(t *testing.T) {
	names := []string{"type", "length", "stage", "strip", "E22W", "J1", "P10"}
	for name, want := range map[string]string{
		"lenght": "length", "typ": "type", "Stage": "stage", "e22w": "E22W", "J01": "J1", "P1O": "P10", "gasket": "", "Q9": "", "": "",
	} {
		require.Equal(t, want, nearest(name, names), name)
	}
}

func TestFormsFindWhatIsEasilyMisread(t *testing.T) {
	require.Equal(t, `"0" and "O"; "1" and "I" and "l"`, groups([]string{"0", "1", "2", "O", "I", "l", "1"}, lookForm))
	require.Equal(t, `"1.01" and "1.1"; "5vGND" and "5VGND"`, groups([]string{"1.01", "1.1", "1.10", "5vGND", "5VGND"}, plainForm))
	require.Equal(t, `"00" and "0"`, groups([]string{"00", "0", "10", "100"}, plainForm))
	require.Empty(t, groups([]string{"W1", "W1", "W2"}, plainForm))
}

func TestNamesOfDevicesAreReserved(t *testing.T) {
	for name, reserved := range map[string]bool{"CON": true, "con": true, "nul.pdf": true, "COM1": true, "lpt9": true,
		"COM0": false, "COM10": false, "CONN": false, "MOR-1": false} {
		require.Equal(t, reserved, reservedName(name), name)
	}
}
