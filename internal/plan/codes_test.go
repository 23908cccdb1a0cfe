package plan

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestCheckDigitsPublished(t *testing.T) {
	for _, row := range csvRows(t, "mod97.csv") {
		require.Equal(t, row["check"], fmt.Sprintf("%02d", checkDigits(row["body"])))
	}
}

func TestCodesReadBack(t *testing.T) {
	for _, row := range csvRows(t, "codes.csv") {
		text := row["string"]
		code, err := ParseCode("  " + strings.ToLower(text) + "\r\n")
		require.NoError(t, err, text)
		require.Equal(t, text, code.String())
		require.Equal(t, text[0], code.Kind)
		require.Equal(t, text[15:21], fmt.Sprintf("%06d", code.Item))
	}
}

func TestEverySingleFaultIsFound(t *testing.T) {
	const characters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	for _, row := range csvRows(t, "codes.csv") {
		text := row["string"]
		for i := range text {
			for _, r := range characters {
				if changed := text[:i] + string(r) + text[i+1:]; changed != text {
					_, err := ParseCode(changed)
					require.Error(t, err, changed)
				}
			}
			if i == 0 || text[i] == text[i-1] {
				continue
			}
			swapped := text[:i-1] + string(text[i]) + string(text[i-1]) + text[i+1:]
			_, err := ParseCode(swapped)
			require.Error(t, err, swapped)
		}
	}
}

func TestFaultsAreFoundInAnyCode(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		code := drawCode(t)
		text := []byte(code.String())
		require.Len(t, text, codeLength)
		read, err := ParseCode(string(text))
		require.NoError(t, err)
		require.Equal(t, code, read)
		i := rapid.IntRange(1, codeLength-1).Draw(t, "at")
		shift := rapid.IntRange(1, 9).Draw(t, "shift")
		changed := slices.Clone(text)
		changed[i] = '0' + (changed[i]-'0'+byte(shift))%10
		_, err = ParseCode(string(changed))
		require.Error(t, err, string(changed))
		if i > 1 && text[i] != text[i-1] {
			text[i], text[i-1] = text[i-1], text[i]
			_, err = ParseCode(string(text))
			require.Error(t, err, string(text))
		}
	})
}

func drawCode(t *rapid.T) Code {
	return Code{
		Kind:    kindLetters[rapid.IntRange(0, len(kindLetters)-1).Draw(t, "kind")],
		Content: rapid.Uint64Range(0, contentRange-1).Draw(t, "content"),
		Unit:    rapid.IntRange(0, 999).Draw(t, "unit"),
		Item:    rapid.IntRange(itemFloor, itemFloor+itemRange-1).Draw(t, "item"),
	}
}

func TestWhatIsWrongWithACode(t *testing.T) {
	tests := []struct{ text, want string }{
		{"", "nothing was read"},
		{" \n", "nothing was read"},
		{"Q4821307711500300015796", "starts with one of the letters CPTHKRXG"},
		{"C48213O7711500300015796", "digits only after its letter"},
		{"C482130771150030001579", "has 23 characters, this has 22"},
		{"C4821307711500300015797", "the check digits do not fit"},
		{"\xff", "starts with one of the letters"},
	}
	for _, test := range tests {
		_, err := ParseCode(test.text)
		require.ErrorContains(t, err, test.want, "%q", test.text)
	}
}

func TestOnlyOneWritingOfTheCheckDigits(t *testing.T) {
	// 98 and 01 leave the same remainder, as do 97 and 00, and 02 and 99: only the first of each pair is ever written.
	for item := itemFloor; item < itemFloor+400; item++ {
		code := Code{Kind: KindWire, Item: item}
		text := code.String()
		check, err := strconv.Atoi(text[codeLength-2:])
		require.NoError(t, err)
		for _, twin := range []int{check - 97, check + 97} {
			if twin >= 0 && twin <= 99 {
				_, err := ParseCode(fmt.Sprintf("%s%02d", text[:codeLength-2], twin))
				require.ErrorContains(t, err, "the check digits do not fit")
			}
		}
	}
}

func TestItemsAreDistinctAndFreeOfOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfN(rapid.String(), 0, 50).Draw(t, "names")
		numbers := items(names)
		reversed := slices.Clone(names)
		slices.Reverse(reversed)
		require.Equal(t, numbers, items(reversed))
		taken := map[int]string{}
		for _, name := range names {
			number := numbers[name]
			require.GreaterOrEqual(t, number, itemFloor)
			require.Less(t, number, itemFloor+itemRange)
			if other, found := taken[number]; found {
				require.Equal(t, other, name)
			}
			taken[number] = name
		}
	})
}

func TestClashingItemsTakeTheNextFreeNumber(t *testing.T) {
	names := make([]string, 20_000) // among so many names about 200 numbers clash
	for i := range names {
		names[i] = "W" + strconv.Itoa(i)
	}
	numbers := items(names)
	taken := map[int]bool{}
	moved := 0
	for _, name := range names {
		require.False(t, taken[numbers[name]], name)
		taken[numbers[name]] = true
		moved += one(numbers[name] != items([]string{name})[name])
	}
	require.Positive(t, moved, "no clash was met")
}

func TestRecordsAreUnambiguous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		field := rapid.StringMatching(`[0-9:,a]{0,5}`)
		a, b := rapid.SliceOfN(field, 0, 4).Draw(t, "a"), rapid.SliceOfN(field, 0, 4).Draw(t, "b")
		require.Equal(t, slices.Equal(a, b), record(a...) == record(b...))
	})
}

func TestPageCodesFollowTheBody(t *testing.T) {
	packet := Packet{Number: "MOR-0412", Part: "MOR-LM-210", Revision: "A", Units: []string{"0041", "0042"}}
	pages := []PageIdentity{
		{Name: "pins/J1/1", Unit: 1, Hash: "aa", Words: "pin checklist J1, page 1"}, {Name: "pins/J1/1", Unit: 2, Hash: "aa"},
		{Name: "cutlist/J1/1", Hash: "bb"},
	}
	codes := PageCodes(packet, pages)
	require.Equal(t, codes[0].Item, codes[1].Item)
	require.NotEqual(t, codes[0].Content, codes[1].Content)
	require.NotEqual(t, codes[0].Item, codes[2].Item)
	packet.Revision, packet.Supersedes = "B", "A"
	require.Equal(t, codes, PageCodes(packet, pages), "an unchanged page keeps its code over revisions")
	pages[0].Hash = "ab"
	require.NotEqual(t, codes[0].String(), PageCodes(packet, pages)[0].String())
	rows := PageRows(packet, codes)
	require.Equal(t, "page", rows[0].Kind)
	require.Equal(t, []string{"", "0041", "0042"}, []string{rows[0].Unit, rows[1].Unit, rows[2].Unit})
}

func TestCodesReadBackFromJSON(t *testing.T) {
	var code Code
	require.NoError(t, json.Unmarshal([]byte(`"C4821307711500300015796"`), &code))
	require.Equal(t, "C4821307711500300015796", code.String())
	require.NoError(t, json.Unmarshal([]byte(`""`), &code))
	require.Zero(t, code)
	require.ErrorContains(t, json.Unmarshal([]byte(`"C4821307711500300015797"`), &code), "check digits")
	require.Error(t, json.Unmarshal([]byte(`7`), &code))
}
