package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/problem"
)

func TestFiguresStayTogether(t *testing.T) {
	for text, want := range map[string]string{
		"cutting 2 min 50 s, feed 38 s":              "cutting|2 min 50 s,|feed|38 s",
		"crimp tool 2, red, setting 5":               "crimp|tool 2,|red,|setting 5",
		"Crimpzange 2, rot, Einstellung 3B":          "Crimpzange 2,|rot,|Einstellung 3B",
		"setting" + noBreak + "blue pair":            "setting blue|pair",
		"at least 142.4 N (32 lbf)":                  "at|least|142.4 N|(32 lbf)",
		"from 19 to 31 mm a minute":                  "from 19|to|31 mm|a|minute",
		"at most 80 %: of that":                      "at|most|80 %:|of|that",
		"about 12,5 mm, at most 14 mm":               "about|12,5 mm,|at|most|14 mm",
		"CABLE, 4 x 0.5 mm², black, 2 x PIN20":       "CABLE,|4 x 0.5 mm²,|black,|2 x|PIN20",
		"200 mm inside, 3 ties: 27 wires of 30 here": "200 mm|inside,|3 ties:|27 wires|of 30|here",
		"rows 3, 10, 12":                             "rows 3,|10,|12",
		"the unit 0041 and s":                        "the|unit 0041|and|s",
		"0.65 mm² together, counts as 18 AWG":        "0.65 mm²|together,|counts|as|18 AWG",
		"":                                           "",
		"  -0 / +3 mm  of  the drawing; (5) h\n7":    "-0|/|+3 mm|of|the|drawing;|(5)|h 7",
	} {
		require.Equal(t, want, strings.Join(figures(medium(10), text), "|"), text)
	}
	require.Equal(t, []string{"J1", "7", "m", "12", "s"}, figures(mono(10), "J1 7 m 12 s"), "ids are no figures")
}

// TestLinesEndBetweenFigures wraps random words: all stand in their order, lines fit where words do, and a figure is parted only where
// it is wider than the room.
func TestLinesEndBetweenFigures(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.SampledFrom([]string{"2", "min", "50", "s,", "setting", "5", "about", "31.5", "mm", "of", "the", "drawing,", "12,", "(32", "lbf)"}), 0, 30).Draw(t, "words")
		p, s, room := pen{metrics: m, problems: &problem.List{}}, medium(11), mm(rapid.IntRange(3, 90).Draw(t, "room"))
		text := strings.Join(words, " ")
		lines := p.wrap(s, room, text)
		require.Equal(t, text, strings.Join(lines, " "))
		whole := strings.Join(figures(s, text), "|")
		for at, line := range lines {
			if strings.Contains(line, " ") {
				require.LessOrEqual(t, p.width(s, line), room)
			}
			if at == 0 {
				continue
			}
			before := strings.Join(lines[:at], " ")
			if parted := whole[len(before)] == '|'; !parted { // within a figure
				start, end := strings.LastIndex(whole[:len(before)], "|")+1, len(whole)
				if next := strings.Index(whole[len(before):], "|"); next >= 0 {
					end = len(before) + next
				}
				require.Greater(t, p.width(s, whole[start:end]), room, whole[start:end])
			}
		}
	})
}
