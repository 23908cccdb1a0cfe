package sheet

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// drawWord draws an id as long as real jobs have them.
func drawWord(t *rapid.T) string {
	return rapid.SampledFrom([]string{"J1:1", "W101", "SLED-P2:1.10", "E1", "leaves@N9 of W101", "C1-PA"}).Draw(t, "word")
}

func drawWords(t *rapid.T, most int) []string {
	var words []string
	for range rapid.IntRange(0, most).Draw(t, "words") {
		words = append(words, drawWord(t))
	}
	return words
}

// drawInspected adds what bench, tester and inspector work from.
func drawInspected(t *rapid.T, p *plan.Plan) {
	note := rapid.SampledFrom([]string{"", "tie to the frame, and keep it clear of the edge of the battery box, 40 mm apart"}).Draw(t, "note")
	for g := range rapid.IntRange(1, 3).Draw(t, "groups") {
		group, strips := plan.ContinuityGroup{Connector: fmt.Sprintf("J%d", g+1), Title: "module", Open: strings.Fields(strings.Repeat("1.10 ", rapid.IntRange(0, 130).Draw(t, "open")))}, plan.StripGroup{Group: fmt.Sprintf("J%d", g+1)}
		for range rapid.IntRange(0, 30).Draw(t, "rows") {
			row := plan.ContinuityRow{From: rapid.SampledFrom([]string{"J1:1", "SLED-P2:1.10", "E1"}).Draw(t, "from"), To: drawWords(t, 9), Wires: drawWords(t, 9), Isolated: "all other cavities of J1, P2", Note: note}
			if rapid.IntRange(0, 20).Draw(t, "a ground") == 0 {
				row.To = strings.Fields(strings.Repeat("J1:1.10 ", rapid.IntRange(1, 400).Draw(t, "ends")))
				row.Wires = strings.Fields(strings.Repeat("W101 ", len(row.To)))
			}
			group.Rows = append(group.Rows, row)
			p.Nets = append(p.Nets, plan.Net{})
			strips.Rows = append(strips.Rows, drawStrip(t, note))
		}
		group.Before = []plan.Before{{Connector: "J9", Cavities: strings.Fields(strings.Repeat("1.10 ", rapid.IntRange(1, 90).Draw(t, "before")))}}
		p.Continuity.Groups, p.Strips = append(p.Continuity.Groups, group), append(p.Strips, strips)
	}
	p.Nets = append(p.Nets, plan.Net{})
	p.Continuity.Exclusions = []plan.Exclusion{{At: []string{"J5", "J6"}, Why: "heater inside"}}
	for i := range rapid.IntRange(0, 12).Draw(t, "crimps") {
		p.Crimps = append(p.Crimps, plan.CrimpRow{Kind: "contact", Contact: fmt.Sprintf("S%d", i), Part: "MOR-CT-22S", Tool: "crimp tool 4", Locator: "blue", Setting: "3",
			Size: "2 wires, 0.65 mm² together, counts as 18 AWG", Types: []string{"E22W", "E24W"}, Samples: rapid.IntRange(1, 9).Draw(t, "samples"),
			Minimum: "142.4 N (32 lbf)", Seating: "42.7 N (9.6 lbf)", Source: fmt.Sprintf("a table %d (read)", i%3), GapLeastUM: 250, GapMostUM: 750})
	}
	p.CrimpRules = []string{"Pull along the wire at 19 to 31 mm a minute until it parts: EIA-364-08, 25 mm/min, 6 mm/min either way (second-hand)."}
	for i := range rapid.IntRange(1, 60).Draw(t, "features") {
		p.FirstPiece = append(p.FirstPiece, plan.Feature{Number: i + 1, Group: []string{"line", "whole"}[i/30], What: "W101 legend W101 J1:1>P2:7",
			Requirement: "UV laser, 1.3 mm high, legible, contrast, no damage", Source: fmt.Sprintf("a table %d (read)", i%3), Write: "mm"})
	}
	for i := range rapid.IntRange(0, 6).Draw(t, "samplings") {
		p.Sampling = append(p.Sampling, plan.Sample{What: "mark", Lot: 500, Level: "II", AQL: "0.65", Letter: "H", Used: "J", Count: 80, Accept: 1, Reject: 2,
			All: i%2 == 1, Source: "MIL-STD-105E, 10 May 1989, tables I and II-A (second-hand)"})
	}
	p.Spares = append(p.Spares, plan.Spare{Connector: "J1", Cavities: strings.Fields(strings.Repeat("1.10 ", rapid.IntRange(1, 90).Draw(t, "unwired"))), Rule: "contact and seal", Seal: "sealing plug, size 22", Plugs: 3,
		Contacts: []string{"S22", "S20", "S22"}, Advised: 4, Source: "a circular (read)"})
	p.Tags = sledTags(8)
	p.Rework = plan.Rework{Times: 2, TrimBackUM: 3000, Others: drawWords(t, 20)}
}

func drawStrip(t *rapid.T, note string) plan.StripRow {
	row := plan.StripRow{Wire: rapid.SampledFrom([]string{"W102", "SLED-NAV-101"}).Draw(t, "wire"), End: rapid.SampledFrom([]string{"a", "b"}).Draw(t, "end"), At: "P2:1.10",
		Do:      rapid.SampledFrom([]string{plan.DoCrimp, plan.DoSolder, plan.DoLeave, plan.DoStrip, plan.DoCap, plan.DoJacket, plan.DoShield, plan.DoNone}).Draw(t, "do"),
		StripUM: 5800, Contact: "SKT20", Part: "MOR-CT-20S", Tool: "crimp tool 2", Locator: "red", Setting: "5", Note: note}
	switch rapid.IntRange(0, 4).Draw(t, "more") {
	case 0:
		row.SlideOn = []string{"marker sleeve W101 J1:1>P2:7", "sleeve HS-4, 25 mm", "boot BT-3 of the long kind"}
	case 1:
		row.Steps = []plan.StripStep{{Layer: "jacket", UM: 12_000}, {Layer: "braid", UM: 8000}}
	case 2:
		row.With, row.TrimUM = []string{"W111 of tray P3"}, 20_000
	}
	return row
}

// TestInspectionSheetsAreFitToPrint draws rows of every length: nothing overlaps, leaves the body, or is printed twice or never.
func TestInspectionSheetsAreFitToPrint(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		units := []string{"0041", "S-0042", "43", "44", "45"}[:rapid.IntRange(1, 5).Draw(t, "units")]
		p := plan.Plan{Packet: plan.Packet{Number: "MOR-0412", Part: "MOR-LM-210", Lists: [][]string{units}}}
		drawInspected(t, &p)
		var problems problem.List
		document := sheetDocument(slices.Concat(stripSections(&p, m, &problems), crimpSections(&p, m, &problems), spareSections(&p, m, &problems),
			continuitySections(&p, m, &problems), firstPieceSections(&p, m, &problems), samplingSections(&p, m, &problems), recordSections(&p, m, &problems)))
		require.Empty(t, problems)
		require.Empty(t, page.Check(document, m.Metrics))
		count := map[string]int{}
		for _, pg := range document.Pages {
			requireBetween(t, pg, mm(37), mm(257), m)
			for _, item := range pg.Body {
				text, is := item.(page.Text)
				if is && text.Face == page.MonoBold && slices.Contains([]string{"J1:1", "SLED-P2:1.10", "E1", "open", "W102", "SLED-NAV-101"}, text.String) && (pg.Sheet == "strip" || pg.Sheet == "continuity") {
					count[pg.Sheet]++
				}
			}
		}
		strips, nets := 0, 0
		for g := range p.Strips {
			strips += len(p.Strips[g].Rows)
			for _, row := range p.Continuity.Groups[g].Rows {
				nets += max(1, (max(len(row.To), len(row.Wires))+mostEnds-1)/mostEnds)
			}
			if len(p.Continuity.Groups[g].Open) > 0 {
				nets++
			}
		}
		require.Equal(t, strips*len(p.Packet.Lists), count["strip"])
		require.Equal(t, nets*len(p.Packet.Lists), count["continuity"])
	})
}

func TestNothingIsSampledUnlessTheJobAsksForIt(t *testing.T) {
	m := loadFonts(t)
	p := sledJob().plan()
	has := func(sheet string) bool {
		return slices.ContainsFunc(layJob(t, m, p).Pages.Pages, func(pg page.Page) bool { return pg.Sheet == sheet })
	}
	require.False(t, has("sampling"))
	p.Sampling = []plan.Sample{{What: "mark", Lot: 500, Level: "II", AQL: "1.0", Letter: "H", Used: "H", Count: 50, Accept: 1, Reject: 2, Source: "a table (read)"}}
	require.True(t, has("sampling"))
}

// TestPlacesToWriteAreLargeEnough looks at every line and cell to write in of the records: 8.5 mm from one to the next.
func TestPlacesToWriteAreLargeEnough(t *testing.T) {
	p := sledJob().plan()
	p.Rework.Times = 2
	for _, pg := range layJob(t, loadFonts(t), p).Pages.Pages {
		if !slices.Contains([]string{"tags", "rework", "handover", "redline"}, pg.Sheet) {
			continue
		}
		var lines []page.Pt
		for _, item := range pg.Body {
			if rule, is := item.(page.Rule); is && rule.Y1 == rule.Y2 && rule.Weight == groupRule*3/4 {
				lines = append(lines, rule.Y1)
			}
		}
		slices.Sort(lines)
		lines = slices.Compact(lines)
		for i := 1; i < len(lines); i++ {
			require.GreaterOrEqual(t, lines[i]-lines[i-1], writePitch(), "%s", pg.Name)
		}
	}
}
