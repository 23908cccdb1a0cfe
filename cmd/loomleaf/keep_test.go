package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/sheet"
)

// earlierPlan is the name of the plan that a revision keeps to.
const earlierPlan = "earlier.plan.json"

// keptTo makes the sled demo with an earlier plan beside it.
func keptTo(t *testing.T, text, policy string, earlier []byte) demo {
	t.Helper()
	open := opener(filepath.Join(jobFolder, "sled"))
	return madeWith(t, []byte(text+"\n[policy]\n"+policy), func(path string) ([]byte, error) {
		if path == earlierPlan {
			return earlier, nil
		}
		return open(path)
	})
}

// revisedSled is the sled at its next revision: a wire goes by another id, and one is new.
func revisedSled(t *testing.T) string {
	t.Helper()
	text := string(jobText(t, "sled"))
	for _, change := range [][2]string{
		{`revision    = "B"`, `revision    = "C"`}, {`supersedes  = "A"`, `supersedes  = "B"`}, {"id   = \"L19\"", "id   = \"L91\""},
		{"wires = 182, ends = 364", "wires = 183, ends = 366"}, {`"T123"]`, `"T123", "L19"]`},
	} {
		require.Equal(t, 1, strings.Count(text, change[0]), change[0])
		text = strings.Replace(text, change[0], change[1], 1)
	}
	return text + "\n[[wire]]\nid = \"F91\"\ntype = \"E22W\"\nfrom = \"J1:60\"\nto = \"P4:37\"\n"
}

// kindHashes returns the hashes of the pages of one sheet.
func (d demo) kindHashes(sheet string) map[string]string {
	all := d.hashes()
	for name := range all {
		if !strings.HasPrefix(name, sheet+"/") {
			delete(all, name)
		}
	}
	return all
}

func TestSmallRevisionKeepsThePaperOfItsOrder(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	const free = "home = \"fewest-changes\"\norder = \"free\"\n"
	before := keptTo(t, string(jobText(t, "sled")), free, nil)
	earlier, err := before.plan.JSON()
	require.NoError(t, err)
	text := revisedSled(t)
	afresh := keptTo(t, text, free, nil)
	kept := keptTo(t, text, free+"keep = \""+earlierPlan+"\"\n", earlier)
	again := keptTo(t, text, free+"keep = \""+earlierPlan+"\"\n", earlier)
	require.Equal(t, kept.hashes(), again.hashes())
	k := kept.plan.Kept
	require.Equal(t, []string{"F91", "L91"}, k.Added)
	require.Equal(t, []string{"L19"}, k.Removed)
	require.Empty(t, k.Moved)
	require.Equal(t, 181, k.SameRows)
	require.Equal(t, afresh.plan.Changes.Reel, k.Afresh.Reel)
	require.Equal(t, afresh.plan.Time.Minutes, k.Afresh.Minutes)
	require.Greater(t, k.Afresh.Moved, 50, "the demo shows what keeping is for")

	valid := func(after demo) (count int) {
		was := before.kindHashes("cutlist")
		for name, hash := range after.kindHashes("cutlist") {
			count += one(was[name] == hash)
		}
		return count
	}
	require.Greater(t, valid(kept), 2*valid(afresh))
	was, is := before.kindHashes("cutlist"), kept.kindHashes("cutlist")
	require.Greater(t, len(k.SameGroups), k.Groups/2)
	same := map[string]bool{}
	for _, group := range k.SameGroups {
		same[group] = true
	}
	for name, hash := range is {
		if same[strings.Split(name, "/")[1]] {
			require.Equal(t, was[name], hash, "%s is said to stay as it is", name)
		}
	}
}

// one counts a condition.
func one(condition bool) int {
	if condition {
		return 1
	}
	return 0
}

// TestWhatMovedFitsThePage prints the longest ids in great numbers, moved for every reason, in both languages.
func TestWhatMovedFitsThePage(t *testing.T) {
	t.Parallel()
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	for _, language := range []string{"en", "de"} {
		for _, order := range []string{"board", "listed", "free"} {
			p := madeWith(t, append(jobText(t, "sled-small"), "\n[policy]\nhome = \"fewest-changes\"\n[paper]\nlanguage = [\""+language+"\"]\n"...), opener(filepath.Join(jobFolder, "sled-small"))).plan
			k := &plan.Kept{Number: p.Packet.Number, Revision: p.Packet.Revision, Rows: 100_000, SameRows: 99_999, Groups: 10_000, Order: order, Reel: 99_999, Minutes: 99_999}
			for i := range 400 {
				id := fmt.Sprintf("W%039d", i)
				why := []string{plan.MovedLocked, plan.MovedEnd, plan.MovedTogether, plan.MovedSetting, plan.MovedGroup}[i%5]
				k.Moved = append(k.Moved, plan.Moved{ID: id, Was: "J" + id[1:], Is: "P" + id[1:], Why: why})
				k.Added, k.Removed, k.SameGroups = append(k.Added, id), append(k.Removed, id), append(k.SameGroups, id)
			}
			k.Afresh = plan.Afresh{Reel: 88_888, Minutes: 88_888, Moved: 88_888, SameGroups: 8888}
			p.Kept = k
			packet, found := sheet.Lay(p, metrics)
			requireNoErrors(t, found)
			requireNoErrors(t, faults(packet, metrics))
			packet.Pages.Pages = slices.DeleteFunc(packet.Pages.Pages, func(one page.Page) bool { return one.Sheet != "contents" })
			var dump bytes.Buffer
			require.NoError(t, page.Dump(&dump, packet.Pages))
			text := dump.String()
			for _, m := range k.Moved {
				require.GreaterOrEqual(t, strings.Count(text, m.ID), 3)
				if m.Why == plan.MovedGroup {
					require.Contains(t, text, m.Is)
				}
			}
		}
	}
}
