package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// lookMaps returns a map in force and an older one: W101 unchanged, W102 made longer, W103 gone.
func lookMaps() (now, older []CodeRow) {
	row := func(code Code, revision, unit, name, words string) CodeRow {
		return CodeRow{Code: code.String(), Job: "MOR-0412", Revision: revision, Unit: unit, Kind: kindWord(code.Kind), Name: name, Words: words}
	}
	w101 := Code{Kind: KindWire, Content: 11, Item: 483920}
	w102 := Code{Kind: KindWire, Content: 12, Item: 483921}
	w103 := Code{Kind: KindWire, Content: 13, Item: 483922}
	pin := Code{Kind: KindLanding, Content: 14, Item: 483920, Unit: 2}
	longer := w102
	longer.Content = 99
	now = []CodeRow{
		row(w101, "B", "", "W101", "wire W101, 1432 mm, J1:1 to P2:7"), row(longer, "B", "", "W102", "wire W102, 900 mm, J1:2 to P2:8"),
		row(pin, "B", "0042", "J1:1", "J1:1 of unit 0042, wire W101"),
		{Code: ScanTest, Job: "MOR-0412", Revision: "B", Kind: "scanner test", Name: "scanner test", Words: "scanner test"},
	}
	older = []CodeRow{
		row(w101, "A", "", "W101", "wire W101, 1432 mm, J1:1 to P2:7"), row(w102, "A", "", "W102", "wire W102, 850 mm, J1:2 to P2:8"),
		row(w103, "A", "", "W103", "wire W103, 700 mm, J1:3 to P2:9"),
	}
	return now, older
}

func TestLook(t *testing.T) {
	now, older := lookMaps()
	whole, pin, was, gone := now[0].Code, now[2].Code, older[1].Code, older[2].Code
	key := func(text string) string { code, err := ParseCode(text); require.NoError(t, err); return code.KeyIn() }
	unknown := Code{Kind: KindWire, Content: 7, Item: 111111}
	tests := []struct {
		text    string
		verdict Verdict
		words   string
	}{
		{whole, VerdictFound, "Valid now: wire W101, 1432 mm, J1:1 to P2:7 (job MOR-0412, revision B)."},
		{" " + strings.ToLower(whole) + "\r\n", VerdictFound, "wire W101"},
		{key(whole), VerdictFound, "wire W101"},
		{strings.ToLower(key(pin)) + " ", VerdictFound, "J1:1 of unit 0042"},
		{strings.Replace(key(pin), "-", " - ", 1), VerdictFound, "J1:1 of unit 0042"},
		{was, VerdictSuperseded, "Superseded: wire W102, 850 mm, J1:2 to P2:8 of job MOR-0412 is from revision A. Revision B has it changed: wire W102, 900 mm"},
		{key(was), VerdictSuperseded, "from revision A"},
		{gone, VerdictSuperseded, "Revision B does not have it."},
		{unknown.String(), VerdictUnknown, "no map at hand lists it"},
		{unknown.KeyIn(), VerdictUnknown, "No map at hand lists C111111"},
		{strings.TrimSuffix(key(pin), "/2"), VerdictUnknown, "type the unit after a stroke"},
		{strings.TrimSuffix(key(pin), "/2") + "/3", VerdictUnknown, "not for this unit"},
		{"C483920-00", VerdictWrongCheck, "The check digits 00 do not fit wire W101"},
		{whole[:10] + string('0'+(whole[10]-'0'+1)%10) + whole[11:], VerdictWrongCheck, "the check digits do not fit"},
		{"W101", VerdictNotACode, "starts with one of the letters"},
		{"", VerdictNotACode, "nothing was read"},
		{"C483920-57/", VerdictNotACode, "is not a valid code"},
		{"C483920-57/1234", VerdictNotACode, "is not a valid code"},
		{ScanTest, VerdictScannerRight, "The scanner test was read right."},
		{"X0123456789012345678918", VerdictScannerWrong, "was read wrong"},
	}
	for _, test := range tests {
		answer := Look(test.text, now, older)
		require.Equal(t, test.verdict, answer.Verdict, "%q: %s", test.text, answer.Text)
		require.Contains(t, answer.Text, test.words, "%q", test.text)
		require.Empty(t, answer.Layout, "%q", test.text)
		found := test.verdict == VerdictFound || test.verdict == VerdictSuperseded
		require.Equal(t, found, answer.Row != CodeRow{}, "%q", test.text)
	}
}

func TestLookNamesEveryRevisionThatHadIt(t *testing.T) {
	now, older := lookMaps()
	twin := older[2]
	twin.Revision = "A1"
	require.Contains(t, Look(twin.Code, now, append(older, twin)).Text, "from revision A and A1.")
	require.Equal(t, "Superseded: wire W103, 700 mm, J1:3 to P2:9 of job MOR-0412 is from revision A.", Look(twin.Code, nil, older).Text)
}

// garbled writes a code as it arrives through a layout.
func garbled(text string, l layout) string {
	arrive := []rune(l.digits)
	out := text[:1]
	for _, r := range text[1:] {
		out += string(arrive[r-'0'])
	}
	return out
}

func TestLookUndoesKeyboardLayouts(t *testing.T) {
	now, older := lookMaps()
	for _, l := range layouts {
		for _, text := range []string{now[0].Code, ScanTest} {
			scan := garbled(text, l)
			require.NotEqual(t, text, scan)
			answer := Look(scan+"\r", now, older)
			require.Contains(t, answer.Layout, l.name)
			require.Contains(t, answer.Text, "It came through a ")
			require.Equal(t, Look(text, now, older).Verdict, answer.Verdict)
		}
		require.Equal(t, l.name, Look(garbled(ScanTest, l), nil, nil).Layout, "the scanner test tells the layouts apart")
	}
	short := Look(garbled("C48213077115", layouts[2]), now, older)
	require.Equal(t, VerdictNotACode, short.Verdict)
	require.Empty(t, short.Layout, "a part of a code is not taken for one")
	require.Equal(t, VerdictWrongCheck, Look(garbled("C4821307711500300015797", layouts[0]), now, older).Verdict)
}

func FuzzLook(f *testing.F) {
	now, older := lookMaps()
	for _, row := range append(now, older...) {
		f.Add(row.Code)
		f.Add(garbled(row.Code, layouts[2]))
	}
	f.Add("P483920-57/2")
	f.Add("\xff")
	f.Fuzz(func(t *testing.T, text string) {
		answer := Look(text, now, older)
		require.NotEmpty(t, answer.Text)
		require.Contains(t, []Verdict{VerdictFound, VerdictSuperseded, VerdictWrongCheck, VerdictUnknown, VerdictNotACode,
			VerdictScannerRight, VerdictScannerWrong}, answer.Verdict)
		require.Equal(t, answer, Look(" "+text+"\n", now, older), "blanks around a text do not count")
	})
}
