package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// setupPlan is a plan with a reel for each way to mark, short and long texts, sleeves and labels.
func setupPlan() plan.Plan {
	p := sledJob().plan()
	p.Connectors = nil
	for i := range p.Types {
		p.Types[i].DiameterUM = []int64{1270, 1270, 1470, 7000}[i]
	}
	p.Marking = plan.Marking{FirstUM: 76_000, IntervalUM: 381_000, HeightRule: "largest height: shop rule", HotStamp: "No hot stamping.", RubCheck: true,
		Inks: []string{"black", "white"}, TestLengths: []plan.TestLength{{UM: 300_000, LeastUM: 298_700}, {UM: 1_000_000, LeastUM: 998_000}}}
	first := func(texts ...plan.FirstText) plan.FirstOff {
		return plan.FirstOff{Wire: "W101", Unit: "0041", CutUM: 1_432_000, HeightUM: 1000, From: "a", StartsUM: []int64{30_000, 388_000}[:len(texts)],
			Texts: texts, StripA: []plan.StripStep{{UM: 4000}}}
	}
	long := strings.Repeat("W101 J1:1>P2:7 ", 4)
	lengths := []plan.SetupLength{{Wire: "W101", CutUM: 1_432_000}, {Wire: "W102", CutUM: 502_000}, {Wire: "W109", CutUM: 60_000_000}}
	p.Setups = []plan.Setup{
		{Reel: "R118", Type: "E22W", Lot: "A7731", Place: "rack 3", Rack: 1, Method: "laser", Lengths: lengths, StripBy: "thermal",
			Heights:  []plan.SetupHeight{{HeightUM: 1000, Wires: []string{"W101"}}, {HeightUM: 800, Wires: []string{"W7", "W8"}}},
			Unmarked: []string{"W9"}, Sleeved: make([]string, 40), First: first(plan.FirstText{End: "a", Lines: []string{"W101 J1:1>P2:7"}, WidthUM: 10_500})},
		{Type: "E12VT", Method: "ink", Ink: "white", Lengths: lengths[:1],
			First: first(plan.FirstText{End: "a", Lines: []string{strings.TrimSpace(long)}, WidthUM: 110_000}, plan.FirstText{End: "b", Lines: []string{"W101", "P2:7>J1:1"}, WidthUM: 9000})},
		{Type: "E20RD", Method: "test first", Lengths: lengths[:2], First: first(plan.FirstText{Lines: []string{"W102"}, WidthUM: 3000})},
		{Reel: "R131", Type: "E22K", Method: "none", Lengths: lengths[:1], First: first()},
	}
	p.ToProve = []plan.MarkSample{{Type: "E20RD", Pieces: 3, HeightUM: 1000, Text: "W101", Laser: true, Inks: []string{"black"}}}
	for i := range 40 {
		p.Sleeves = append(p.Sleeves, plan.Sleeve{Wire: fmt.Sprintf("W%d", i), Kind: "sleeve", End: []string{"a", "b", ""}[i%3], At: "J1:1", Part: "MOR-SL-1",
			Text: []string{"W101", "W101 J1:1>P2:7 and a text that takes a line of its own"}[i/20], FromUM: 25_000, LengthUM: 15_000, Diameter: 1270,
			Group: fmt.Sprintf("J%d", 1+i/15), Count: 2})
	}
	p.Sleeves = append(p.Sleeves, plan.Sleeve{Wire: "W99", Kind: "tag", Text: "W99", Count: 2})
	p.SleeveSums = []plan.SleeveSum{{Part: "", Count: 2}, {Part: "MOR-SL-1", Count: 80}}
	p.Labels = []plan.Label{{Kind: "connector", At: "J1", Text: "J1", Count: 2}, {Kind: "harness", Text: "MOR-LM-210 0041", Unit: "0041", Count: 1}}
	return p
}

// saidOn joins the texts of the pages of a sheet.
func saidOn(packet Packet, sheet string) string {
	var said []string
	for _, pg := range packet.Pages.Pages {
		for _, item := range pg.Body {
			if text, is := item.(page.Text); is && pg.Sheet == sheet && !text.Picture {
				said = append(said, text.String)
			}
		}
	}
	return strings.Join(said, " ")
}

func TestSetupAndSleevesAreFitToPrint(t *testing.T) {
	m := loadFonts(t)
	packet := layJob(t, m, setupPlan())
	require.Empty(t, page.Check(packet.Pages, m.Metrics))
	said := saidOn(packet, "setup")
	for _, words := range []string{"UV laser", "WHITE ink", "TEST FIRST: as proved", "NO MARK", "strip by thermal", "0.8 mm high: W7, W8", "no mark: W9",
		"on sleeves: 40 wires, see the cut list", "rubbed, still there", "STRIP mm: A 4, B none", "not on this line", "No hot stamping.", "298.7",
		"2 marks; from the cut END A they start at 30, 388 mm", "1 mark; from the cut END A it starts at 30 mm"} {
		require.Contains(t, said, words)
	}
	said = saidOn(packet, "sleeves")
	for _, words := range []string{"tray J1", "tray J3", "in no tray", "TAG to tie on", "80 pieces", "no size that fits", "MOR-LM-210 0041"} {
		require.Contains(t, said, words)
	}
}

// TestPicturesHaveTheirTrueLength compares the drawn text with the width that the line marks.
func TestPicturesHaveTheirTrueLength(t *testing.T) {
	m, drawn := loadFonts(t), 0
	p := setupPlan()
	widths := map[string]int64{}
	for _, s := range p.Setups {
		for _, text := range s.First.Texts {
			widths[text.Lines[len(text.Lines)-1]] = text.WidthUM
		}
	}
	for _, pg := range layJob(t, m, p).Pages.Pages {
		for _, item := range pg.Body {
			if text, is := item.(page.Text); is && text.Picture && widths[text.String] > 0 {
				drawn++
				want := float64(page.MM(int(widths[text.String])))
				require.InEpsilon(t, want, float64(m.Width(text.Face, text.Size, text.String)), 0.02, text.String)
			}
		}
	}
	require.Equal(t, len(widths), drawn)
}

// TestNineChecksAtMost counts what is done at the start of a shift on every kind of line.
func TestNineChecksAtMost(t *testing.T) {
	for _, methods := range [][]string{{"laser", "ink"}, {"laser"}, {"ink"}, nil} {
		p := setupPlan()
		p.Line.Methods = methods
		checks := loadFonts(t).shiftChecks(&p)
		require.LessOrEqual(t, len(checks), 9, methods)
		require.GreaterOrEqual(t, len(checks), 5, methods)
		all := fmt.Sprint(checks)
		require.Equal(t, len(methods) > 0 && methods[len(methods)-1] == "ink", strings.Contains(all, "cleaned today"), "ink heads are cleaned once a day: common practice")
		require.Equal(t, len(methods) > 0, strings.Contains(all, "Contrast strip"))
		layJob(t, loadFonts(t), p)
	}
}

func TestAJobWithoutSleevesAndLabelsHasNoSuchSheet(t *testing.T) {
	p := setupPlan()
	p.Sleeves, p.SleeveSums, p.Labels = nil, nil, nil
	packet := layJob(t, loadFonts(t), p)
	require.Empty(t, saidOn(packet, "sleeves"))
}
