package job

import (
	"loomleaf/internal/harness"
)

func readBoard(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "size")
	h.Board.ID = id
	if size := t.lengths("size", 2, positive); size != nil {
		h.Board.Width, h.Board.Height = size[0], size[1]
	}
	h.Board.Origin = t.done()
}

func readNode(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "at")
	n := harness.Node{ID: id}
	if at := t.lengths("at", 2, anySign); at != nil {
		n.X, n.Y = at[0], at[1]
	}
	if t.has("fixing") {
		n.Fixing = harness.FixingNone
		if t.truth("fixing") {
			n.Fixing = harness.FixingHere
		}
	}
	n.Origin = t.done()
	h.Board.Nodes = append(h.Board.Nodes, n)
}

func readSegment(h *harness.Harness, t *table) {
	t.require("between")
	var s harness.Segment
	s.From, s.To = readBetween(t)
	s.Length = t.length("length", positive)
	for _, cover := range t.list("cover") {
		s.Covers = append(s.Covers, readCover(cover))
	}
	s.Origin = t.done()
	h.Board.Segments = append(h.Board.Segments, s)
}

func readCover(t *table) harness.Cover {
	t.require("part", "from", "to")
	c := harness.Cover{Part: t.part("part"), From: t.length("from", notNegative), To: t.length("to", positive),
		Wall: t.length("wall", positive)}
	if t.has("from") && c.To > 0 && c.To <= c.From {
		t.fault(reversedRange, "to", t.get("to").place(), "write from and to as they count from the first node of the segment",
			"the cover ends at %s and starts at %s", c.To, c.From)
	}
	t.done()
	return c
}

func readBetween(t *table) (from, to string) {
	items := t.array("between")
	nodes := t.texts("between", items)
	if t.has("between") && len(items) != 2 {
		t.fault(badEnd, "between", t.get("between").place(), `write the two nodes, such as ["N1", "N2"]`, "a segment has two nodes, not %d", len(items))
	}
	if len(items) != 2 || len(nodes) != 2 {
		return "", ""
	}
	return nodes[0], nodes[1]
}
