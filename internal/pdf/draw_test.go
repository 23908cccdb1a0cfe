package pdf

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/page"
)

// drawn returns the content stream of a page on A4 paper, without the state every page starts with.
func drawn(t *testing.T, items ...page.Item) string {
	streams := contents(t, written(t, document(items)))
	require.Len(t, streams, 1)
	body, found := strings.CutPrefix(streams[0], "0.00 g\n0.00 G\n")
	require.True(t, found)
	return body
}

// around puts the operators of a path between what the library writes before and after them.
func around(operators string) string { return "q\n0.00 841.89 0.00 0.00 re n\n" + operators + "\nQ\n" }

func TestExactOperators(t *testing.T) {
	for name, c := range map[string]struct {
		item page.Item
		want string
	}{
		"rule":        {page.Rule{X1: 6000, Y1: 9001, X2: 53010, Y2: 9001, Weight: 50}, "0.5 w\n[] 0 d\n60 751.88 m\n530.1 751.88 l\nS\n"},
		"dashed rule": {page.Rule{X1: 0, Y1: 84189, X2: 5, Y2: 0, Weight: 100, Dash: []page.Pt{200, 155}}, "1 w\n[2 1.55] 0 d\n0 0 m\n0.05 841.89 l\nS\n"},
		"box":         {page.Box{Rect: page.Rect{X: 100, Y: 200, W: 300, H: 400}, Weight: 75}, "0.75 w\n[] 0 d\n1 835.89 3 4 re\nS\n"},
		"black box":   {page.Box{Rect: page.Rect{X: -150, Y: 200, W: 300, H: 400}, Filled: true}, "-1.5 835.89 3 4 re\nf\n"},
		"disc": {page.Disc{X: 10000, Y: 10000, R: 1000, Weight: 50, Dash: []page.Pt{100}}, "0.5 w\n[1] 0 d\n110 741.89 m\n" +
			"110 747.41 105.52 751.89 100 751.89 c\n94.48 751.89 90 747.41 90 741.89 c\n" +
			"90 736.37 94.48 731.89 100 731.89 c\n105.52 731.89 110 736.37 110 741.89 c\ns\n"},
		"path":       {page.Path{Points: [][2]page.Pt{{0, 0}, {100, 0}, {50, 89}}, Weight: 50}, "0.5 w\n[] 0 d\n0 841.89 m\n1 841.89 l\n0.5 841 l\nh\nS\n"},
		"black path": {page.Path{Points: [][2]page.Pt{{0, 0}, {100, 0}, {50, 89}}, Filled: true}, "0 841.89 m\n1 841.89 l\n0.5 841 l\nh\nf\n"},
	} {
		t.Run(name, func(t *testing.T) { require.Equal(t, around(c.want), drawn(t, c.item)) })
	}
}

// TestExactSymbols: every symbol is one path of whole numbers under one matrix.
func TestExactSymbols(t *testing.T) {
	for _, s := range []page.Symbol{
		{X: 6001, Y: 15000, Symbology: page.DataMatrix, Module: 120, String: scanTest},
		{X: 6001, Y: 15000, Symbology: page.Code128, Module: 72, Height: 1560, String: scanTest},
	} {
		rects, err := s.Rects()
		require.NoError(t, err)
		want := "q\n0.01 0 0 -0.01 60.01 691.89 cm\n"
		for _, r := range rects {
			want += fmt.Sprintf("%d %d %d %d re\n", r.X, r.Y, r.W, r.H)
		}
		require.Equal(t, around(want+"f\nQ\n"), drawn(t, s))
	}
	bars := drawn(t, page.Symbol{X: 6001, Y: 15000, Symbology: page.Code128, Module: 72, Height: 1560, String: scanTest})
	// Start B is 2 1 1 2 1 4 modules wide (ISO/IEC 15417, by a secondary source): bars at 0, 3 and 6.
	require.Contains(t, bars, "cm\n6 0 132 1560 re\n222 0 60 1560 re\n438 0 60 1560 re\n")
}

func TestExactText(t *testing.T) {
	left := page.Text{X: 6001, Y: 15000, Face: page.Mono, Size: 925, Room: 9999, String: "W1"}
	right, centre := left, left
	right.Align, centre.Align = page.Right, page.Centre
	// Two characters of 600 thousandths at 9.25 pt are 11.10 pt. Glyphs 58 and 20 are W and 1 in the cmap of the face.
	for x, item := range map[string]page.Item{"60.01": left, "48.91": right, "54.46": centre} {
		require.Equal(t, "BT\n"+x+" 691.89 TD\n/F1 9.25 Tf 0 Tc\n[<003A0014>] TJ\nET\n", drawn(t, item))
	}
}

// TestOrderOfDrawing: items stand in the stream as on the page, shapes between two texts in one piece.
func TestOrderOfDrawing(t *testing.T) {
	text := page.Text{X: 6000, Y: 15000, Face: page.Mono, Size: 900, Room: 9999, String: "W"}
	box := page.Box{Rect: page.Rect{X: 100, Y: 200, W: 300, H: 400}, Filled: true}
	stream := drawn(t, box, text, text, box, box, text, box)
	marks := regexp.MustCompile(`BT|re\nf|Q`).FindAllString(stream, -1)
	require.Equal(t, strings.Fields("f Q BT BT f f Q BT f Q"), strings.Fields(strings.ReplaceAll(strings.Join(marks, " "), "re\n", "")))
}

// TestStateIsSentOnEveryPage: no page leans on the one before, and nothing but black is ever set.
func TestStateIsSentOnEveryPage(t *testing.T) {
	streams := contents(t, written(t, document(everyItem(), everyItem())))
	require.Len(t, streams, 2)
	require.Equal(t, streams[0], streams[1])
	colours := regexp.MustCompile(`(?m)^.* (?:g|G|rg|RG|k|K|cs|CS|sc|SC|scn|SCN|gs)$`).FindAllString(streams[0], -1)
	require.Equal(t, []string{"0.00 g", "0.00 G"}, colours)
}

func TestPointsAreWritten(t *testing.T) {
	for p, want := range map[page.Pt]string{0: "0", 5: "0.05", -5: "-0.05", 10: "0.1", 100: "1", 5670: "56.7", -84189: "-841.89", 100001: "1000.01"} {
		require.Equal(t, want, string(appendPoints(nil, p)))
	}
}
