package main

import (
	"bytes"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
	"loomleaf/internal/pdf"
)

// files returns the two PDFs of a job.
func (d demo) files(t *testing.T) (packet, labels []byte) {
	t.Helper()
	write := func(document page.Document) []byte {
		var file bytes.Buffer
		require.NoError(t, pdf.Write(&file, document, fonts.Files))
		return file.Bytes()
	}
	return write(d.packet.Pages), write(d.packet.Labels)
}

// wireTable matches one [[wire]] table with its keys.
var wireTable = regexp.MustCompile(`(?m)^\[\[wire\]\]\n(?:[a-z]+ *=.*\n)+`)

// shuffled returns a job with its wire tables in another order.
func shuffled(text []byte, seed uint64) []byte {
	tables := wireTable.FindAll(text, -1)
	random := rand.New(rand.NewPCG(seed, 0))
	random.Shuffle(len(tables), func(i, j int) { tables[i], tables[j] = tables[j], tables[i] })
	next := -1
	return wireTable.ReplaceAllFunc(text, func([]byte) []byte { next++; return tables[next] })
}

// TestSameJobSameBytes makes each demo twice, and again with its wires in other orders: not a byte may differ.
func TestSameJobSameBytes(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"sled-small", "sled"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if name == "sled" {
				skipUnderRace(t)
			}
			text := jobText(t, name)
			packet, labels := made(t, name, text).files(t)
			for seed := range uint64(4) {
				other := text
				if seed > 0 {
					other = shuffled(text, seed)
					require.NotEqual(t, string(text), string(other))
				}
				again, moreLabels := made(t, name, other).files(t)
				require.True(t, bytes.Equal(packet, again), "packet, order %d", seed)
				require.True(t, bytes.Equal(labels, moreLabels), "labels, order %d", seed)
			}
		})
	}
}

// addedWire goes into the small demo as a later revision adds one: between two connectors that are there already.
const addedWire = `
[[wire]]
id   = "K04"
type = "E24W"
from = "P2:J"
to   = "P3:8"
`

func withWire(t *testing.T, text []byte) []byte {
	t.Helper()
	tables := wireTable.FindAllIndex(text, -1)
	end := tables[len(tables)-1][1]
	added := string(text[:end]) + addedWire + string(text[end:])
	grown := strings.Replace(added, "wires = 11, ends = 22", "wires = 12, ends = 24", 1)
	require.NotEqual(t, added, grown)
	return []byte(grown)
}

// compared parts the keys by whether their values stayed or changed; those that are new count as changed, and none may
// be lost.
func compared(t *testing.T, before, after map[string]string) (stayed, changed []string) {
	t.Helper()
	for _, key := range sortedKeys(after) {
		if before[key] == after[key] {
			stayed = append(stayed, key)
		} else {
			changed = append(changed, key)
		}
	}
	for key := range before {
		require.Contains(t, after, key)
	}
	return stayed, changed
}

func (d demo) codesByName() map[string]string {
	byName := map[string]string{}
	for _, row := range d.codes() {
		byName[strings.TrimSpace(row.Kind+" "+row.Name+" "+row.Unit)] = row.Code
	}
	return byName
}

func (d demo) hashes() map[string]string {
	byName := map[string]string{}
	for _, document := range []page.Document{d.packet.Pages, d.packet.Labels} {
		for _, p := range document.Pages {
			byName[p.Name] = p.Hash
		}
	}
	return byName
}

// TestAddedWireLeavesOtherPaperValid adds a wire: codes and pages of everything that it does not touch stay as they were.
func TestAddedWireLeavesOtherPaperValid(t *testing.T) {
	text := jobText(t, "sled-small")
	before, after := made(t, "sled-small", text), made(t, "sled-small", withWire(t, text))
	_, codes := compared(t, before.codesByName(), after.codesByName())
	require.Equal(t, []string{
		"landing P2:J 0040", "landing P2:J 0041", "landing P3:8 0040", "landing P3:8 0041",
		"page continuity/2", "page continuity/faces/1", "page crimp/1", "page cutlist/P2/1",
		"page firstpiece/3", "page kit/1", "page lengths/1", "page map/1", "page map/2", "page map/3",
		"page pins/P2/0040/1 0040", "page pins/P2/0041/1 0041",
		"page pins/P3/0040/1 0040", "page pins/P3/0041/1 0041", "page reels/1",
		"page routing/0040/1 0040", "page routing/0040/2 0040", "page routing/0041/1 0041", "page routing/0041/2 0041", // the bundles grow
		"page safety/1", "page spares/1", "page strip/P2/1", "tray P2/0040 0040", "tray P2/0041 0041", "wire K04",
	}, withoutFront(codes))
	stayed, hashes := compared(t, before.hashes(), after.hashes())
	require.Equal(t, []string{
		"continuity/2", "continuity/faces/1", "crimp/1", "cutlist/P2/1", "firstpiece/3", "kit/1", "labels/1", "lengths/1", "map/1", "map/2", "map/3", "pins/P2/0040/1", "pins/P2/0041/1",
		"pins/P3/0040/1", "pins/P3/0041/1", "reels/1", "routing/0040/1", "routing/0040/2", "routing/0041/1", "routing/0041/2", "safety/1",
		"spares/1", "strip/P2/1",
	}, withoutFront(hashes))
	require.Equal(t, []string{
		"continuity/1", "crimp/2", "cutlist/J1/1", "firstpiece/1", "firstpiece/2", "handover/1", "pins/J1/0040/1", "pins/J1/0041/1", "redline/1",
		"rework/1", "safety/2", "setup/1", "setup/2", "setup/log/1", "setup/shift/1", "sleeves/labels/1",
		"strip/J1/1", "tags/1", "tags/2",
	}, withoutFront(stayed))
}

// withoutFront leaves out cover and contents, which are new in every packet.
func withoutFront(names []string) []string {
	return slices.DeleteFunc(slices.Clone(names), func(name string) bool {
		name = strings.TrimPrefix(name, "page ")
		return strings.HasPrefix(name, "contents/") || strings.HasPrefix(name, "cover/")
	})
}
