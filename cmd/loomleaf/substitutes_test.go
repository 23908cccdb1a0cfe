package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// substituteJob is the job whose white wire runs short, with so much left on its own reel and so many places on the rack.
func substituteJob(t *testing.T, left string, rack int) demo {
	t.Helper()
	text := string(jobText(t, "substitute"))
	require.Equal(t, 1, strings.Count(text, `left  = "12.5 m"`))
	text = strings.Replace(text, `left  = "12.5 m"`, fmt.Sprintf("left  = %q", left), 1)
	text = strings.Replace(text, "[safety]\n", fmt.Sprintf("[line]\nrack = %d\n\n[safety]\n", rack), 1)
	return made(t, "substitute", []byte(text))
}

// instead is a piece whose reel is of another type than its wire, as reels and wires of the job say.
type instead struct {
	wire                            plan.Wire
	group, unit, reel, other, paper string // other: the type that is cut; paper: what the rows of the wire say
}

// piecesInstead finds them by the job alone, not by what the plan calls a substitute.
func (d demo) piecesInstead() []instead {
	types, wires, found := map[string]string{}, map[string]plan.Wire{}, []instead(nil)
	for _, r := range d.harness.Reels {
		types[r.ID] = r.Type
	}
	for _, w := range d.plan.Wires {
		wires[w.ID] = w
	}
	for _, piece := range d.plan.Pieces {
		w := wires[piece.Wire]
		other := types[piece.Reel]
		if piece.Reel == "" || other == w.Type {
			continue
		}
		approved := "nothing"
		for _, t := range d.harness.WireTypes {
			for _, s := range t.Substitutes {
				if t.ID == w.Type && s.Type == other {
					approved = s.Approved
				}
			}
		}
		found = append(found, instead{w, w.Home, piece.Unit, piece.Reel, other,
			fmt.Sprintf("SUBSTITUTE %s in place of %s, approved by %s", other, w.Type, approved)})
	}
	return found
}

// rowsBy parts the texts of pages into rows: each starts with a text of a face and size, and holds all that is printed after it.
func rowsBy(pages []page.Page, face page.Face, size page.Pt) [][]string {
	var rows [][]string
	for _, pg := range pages {
		open := false
		for _, item := range pg.Body {
			text, is := item.(page.Text)
			if !is {
				continue
			}
			if text.Face == face && text.Size == size {
				rows, open = append(rows, nil), true
			}
			if open {
				rows[len(rows)-1] = append(rows[len(rows)-1], text.String)
			}
		}
	}
	return rows
}

// says reports whether one of the rows that hold a text says words as well.
func says(rows [][]string, of, words string) bool {
	return slices.ContainsFunc(rows, func(row []string) bool {
		return slices.Contains(row, of) && strings.Contains(strings.Join(row, " "), words)
	})
}

// sheetsOf returns the pages of a sheet whose names start so.
func (d demo) sheetsOf(prefix string) []page.Page {
	var pages []page.Page
	for _, pg := range d.packet.Pages.Pages {
		if strings.HasPrefix(pg.Name, prefix) {
			pages = append(pages, pg)
		}
	}
	return pages
}

// cutRow returns what the cut list says in the row of a piece, and in the last row before it that loads or switches to a reel, or
// above the rows of its page.
func (d demo) cutRow(piece plan.Wire, unit string) (row, load string) {
	last := ""
	for _, pg := range d.sheetsOf("cutlist/" + piece.Home + "/") {
		var part []string
		start := ""
		flush := func() {
			said := strings.Join(part, " ")
			_, only, parted := strings.Cut(said, "this row: unit ")
			only, _, _ = strings.Cut(only, " only")
			switch {
			case start == "load", start == "": // above the first row of a page: what is still on
				last = said
			case start == piece.ID && (!parted || slices.Contains(strings.Split(only, ", "), unit)):
				row, load = said, last
			}
			part, start = nil, ""
		}
		for _, item := range pg.Body {
			text, is := item.(page.Text)
			if !is {
				continue
			}
			switch {
			case text.Face == page.Bold && (text.String == "LOAD" || text.String == "SWITCH to"):
				flush()
				start = "load"
			case text.Face == page.MonoBold && text.Size == 1200 && slices.ContainsFunc(d.plan.Wires, func(w plan.Wire) bool { return w.ID == text.String }):
				flush()
				start = text.String
			}
			part = append(part, text.String)
		}
		flush()
	}
	return row, load
}

// TestSubstitutesAreNeverSilent finds every piece whose reel is of another type than its wire, and asks that each place says so which
// speaks of it; and that no row says so of any other piece.
func TestSubstitutesAreNeverSilent(t *testing.T) {
	t.Parallel()
	all := 0
	for _, left := range []string{"1 m", "7 m", "12.5 m", "21 m", "30 m"} {
		for _, rack := range []int{1, 2, 6} {
			d := substituteJob(t, left, rack)
			found := d.piecesInstead()
			all += len(found)
			d.checkInstead(t, found)
			d.checkOthers(t, found)
		}
	}
	require.Greater(t, all, 50)
}

func (d demo) checkInstead(t *testing.T, found []instead) {
	t.Helper()
	contents := strings.Join(textsOn(d.sheetsOf("contents/")), " ")
	reels, bench := d.sheetsOf("reels/"), rowsBy(d.sheetsOf("strip/"), page.MonoBold, 1200)
	for _, f := range found {
		name := fmt.Sprintf("%s of unit %s from %s", f.wire.ID, f.unit, f.reel)
		load := fmt.Sprintf("SUBSTITUTE for %s, approved by %s", f.wire.Type, strings.SplitN(f.paper, "approved by ", 2)[1])
		row, before := d.cutRow(f.wire, f.unit)
		require.Contains(t, row, f.paper, "cut list, row of %s", name)
		require.Contains(t, before, load, "cut list, load before %s", name)
		require.Contains(t, before, f.reel, "cut list, load before %s", name)
		require.True(t, says(rowsBy(reels, page.MonoBold, 1100), reelOnList(reels, f.reel), load), "pick list: %s", name)
		require.True(t, says(rowsBy(d.sheetsOf("setup/"), page.MonoBold, 1600), f.reel, load), "set-up: %s", name)
		require.True(t, slices.ContainsFunc(bench, func(row []string) bool {
			words := strings.Join(row, " ")
			before, _, said := strings.Cut(words, ": "+f.paper)
			return row[0] == f.wire.ID && said && strings.Contains(before[strings.LastIndex(before, "unit "):], f.unit)
		}), "strip and crimp: %s", name)
		require.Contains(t, contents, fmt.Sprintf("of wire type %q", f.wire.Type))
		require.Contains(t, contents, fmt.Sprintf("come from its substitute %q", f.other))
		require.Contains(t, contents, f.wire.ID+" of ", "contents: %s", name)
		require.True(t, d.jsonSays(f), "plan as data: %s", name)
		d.checkLandings(t, f, name)
		d.checkCodes(t, f, name)
	}
}

// checkCodes asks that what a scan of a row tells names the substitute.
func (d demo) checkCodes(t *testing.T, f instead, name string) {
	t.Helper()
	words := fmt.Sprintf("from SUBSTITUTE %s in place of %s", f.other, f.wire.Type)
	said := 0
	for _, row := range d.codes() {
		switch {
		case row.Kind == "wire" && row.Name == f.wire.ID:
			require.Contains(t, row.Words, "unit "+f.unit+" "+words, name)
			said++
		case row.Kind == "landing" && row.Unit == f.unit && (row.Name == f.wire.From || row.Name == f.wire.To):
			require.Contains(t, row.Words, f.wire.ID+" "+words, name)
			said++
		}
	}
	require.Equal(t, 3, said, name)
}

// reelOnList is a reel as the pick list writes it: "1. R261".
func reelOnList(pages []page.Page, reel string) string {
	for _, text := range textsOn(pages) {
		if strings.HasSuffix(text, ". "+reel) {
			return text
		}
	}
	return ""
}

func textsOn(pages []page.Page) []string {
	var texts []string
	for _, pg := range pages {
		for _, item := range pg.Body {
			if text, is := item.(page.Text); is {
				texts = append(texts, text.String)
			}
		}
	}
	return texts
}

// jsonSays reports whether pieces, wires and reels of the plan name the substitute.
func (d demo) jsonSays(f instead) bool {
	piece := slices.ContainsFunc(d.plan.Pieces, func(p plan.Piece) bool {
		return p.Wire == f.wire.ID && p.Unit == f.unit && p.Substitute != nil && p.Substitute.Type == f.other
	})
	wire := slices.ContainsFunc(f.wire.Substitutes, func(u plan.UnitInPlace) bool { return u.Unit == f.unit && u.Type == f.other })
	reel := slices.ContainsFunc(d.plan.Reels, func(r plan.Reel) bool {
		return r.ID == f.reel && slices.ContainsFunc(r.Substitutes, func(p plan.InPlace) bool { return p.For == f.wire.Type })
	})
	return piece && wire && reel
}

// checkLandings reads the rows of both ends of a piece: in the checklist of its connector, or at its joint.
func (d demo) checkLandings(t *testing.T, f instead, name string) {
	t.Helper()
	for _, at := range []string{f.wire.From, f.wire.To} {
		connector, _, cavity := strings.Cut(at, ":")
		rows := rowsBy(d.sheetsOf("pins/"+connector+"/"+f.unit+"/"), page.MonoBold, 1400)
		if !cavity {
			rows = rowsBy(d.sheetsOf("joints/"+f.unit+"/"), page.MonoBold, 1300)
		}
		require.True(t, says(rows, f.wire.ID, f.paper), "%s at %s", name, at)
	}
}

// checkOthers asks that rows of other pieces speak of no substitute.
func (d demo) checkOthers(t *testing.T, found []instead) {
	t.Helper()
	is := map[string]bool{}
	for _, f := range found {
		is[f.wire.ID+" "+f.unit] = true
	}
	for _, w := range d.plan.Wires {
		for _, unit := range d.plan.Packet.Units {
			if is[w.ID+" "+unit] {
				continue
			}
			row, load := d.cutRow(w, unit)
			require.NotEmpty(t, row, "%s of unit %s", w.ID, unit)
			require.NotContains(t, row+load, "SUBSTITUTE", "%s of unit %s", w.ID, unit)
			connector, _, _ := strings.Cut(w.From, ":")
			require.False(t, says(rowsBy(d.sheetsOf("pins/"+connector+"/"+unit+"/"), page.MonoBold, 1400), w.ID, "SUBSTITUTE"), "%s of unit %s", w.ID, unit)
		}
	}
}

// TestASubstituteGivesItsRowsAnotherCode compares a job with one whose own reel holds all: rows that speak of a substitute have other codes.
func TestASubstituteGivesItsRowsAnotherCode(t *testing.T) {
	short, enough := substituteJob(t, "12.5 m", 6), substituteJob(t, "60 m", 6)
	require.Empty(t, enough.piecesInstead())
	is := map[string]bool{}
	for _, f := range short.piecesInstead() {
		is[f.wire.ID+" "+f.unit], is[f.wire.ID] = true, true
	}
	codes := map[string]plan.Code{}
	for _, w := range enough.plan.Wires {
		codes[w.ID] = w.Code
	}
	for _, w := range short.plan.Wires {
		require.Equal(t, is[w.ID], codes[w.ID] != w.Code, w.ID)
	}
	for i, c := range short.plan.Connectors {
		for k, cavity := range c.Cavities {
			for u, unit := range short.plan.Packet.Units {
				changed := slices.ContainsFunc(cavity.Wires, func(id string) bool { return is[id+" "+unit] })
				require.Equal(t, changed, cavity.Codes[u] != enough.plan.Connectors[i].Cavities[k].Codes[u], "%s:%s of unit %s", c.ID, cavity.Name, unit)
			}
		}
	}
}

// TestPacketsWithSubstitutesKeepTheRulesOfPaper holds other cuts of the job to them: a rack of one place, a long approval, units one by one,
// in both languages.
func TestPacketsWithSubstitutesKeepTheRulesOfPaper(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	long := "deviation MOR-DV-7 of 2026-11-02, material review board, as the customer agreed in writing on the white wire of the beacon branch"
	for _, policy := range []string{"", "[policy]\nunits = \"one by one\"\n", "[policy]\nbatch = 1\nreels = \"emptiest first\"\n"} {
		for _, left := range []string{"2 m", "12.5 m", "20 m"} {
			text := strings.Replace(string(jobText(t, "substitute")), `left  = "12.5 m"`, fmt.Sprintf("left  = %q", left), 1)
			text = strings.Replace(text, "deviation MOR-DV-7", long, 1)
			text = strings.Replace(text, "[safety]\n", policy+"\n[line]\nrack = 1\n\n[safety]\n", 1)
			for _, one := range [][]byte{[]byte(text), inGerman([]byte(text))} {
				d := made(t, "substitute", one)
				require.NotEmpty(t, d.piecesInstead())
				require.Empty(t, brokenRules(d.plan, d.packet, metrics), "%s, %s left", policy, left)
			}
		}
	}
}
