package job

import (
	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// Bounds of the counts in the shop tables; far beyond any shop, they keep products of them within 64 bits.
const (
	mostRetermination = 100
	mostTrayWires     = 100_000
	mostBend          = 1000
	mostBatch         = 5 // columns of a cut list
)

func readPolicy(h *harness.Harness, t *table) {
	t.require("home", "order", "units", "batch", "reels", "remnant", "given_beyond")
	p := &h.Policy
	p.Home = t.word("home", "end-a", "board-order", "fewest-changes")
	p.Order = t.word("order", "board", "listed", "free")
	p.Chains = readChains(t)
	p.Reels = t.word("reels", "fullest first", "emptiest first", "listed")
	p.Remnant = t.length("remnant", notNegative)
	p.GivenBeyond = t.length("given_beyond", notNegative)
	p.Units = t.word("units", "together", "one by one")
	p.Batch, _ = t.whole("batch", 1, mostBatch)
	p.Keep = t.name("keep")
	p.Origin = t.done()
}

// readChains reads lists of homes that keep their order where the order is free.
func readChains(t *table) [][]string {
	var chains [][]string
	for i, item := range t.array("chains") {
		if item.kind != kindArray {
			t.fault(wrongKind, "chains", item.place(), `write lists of homes, such as [["J1", "J3"], ["P1", "P2"]]`, "%s is no list", written(item))
			continue
		}
		chains = append(chains, t.ids(elementKey("chains", i), item.items))
	}
	return chains
}

func readAllowance(h *harness.Harness, t *table) {
	t.require("retermination", "trim_back", "loop", "attrition")
	a := &h.Allowance
	a.Retermination, _ = t.whole("retermination", 0, mostRetermination)
	a.TrimBack, a.Loop = t.length("trim_back", notNegative), t.length("loop", notNegative)
	a.Attrition = measure(t, "attrition", units.ParseShare, notNegative)
	a.Origin = t.done()
}

func readTray(h *harness.Harness, t *table) {
	t.require("wires", "section", "mass", "length", "bend", "coil", "tie")
	r := &h.Tray
	r.Wires, _ = t.whole("wires", 1, mostTrayWires)
	r.Section = measure(t, "section", units.ParseArea, positive)
	r.Mass = measure(t, "mass", units.ParseMass, positive)
	r.Length = t.length("length", positive)
	r.Bend, _ = t.whole("bend", 1, mostBend)
	r.Coil, r.Tie = t.length("coil", positive), t.length("tie", positive)
	r.Origin = t.done()
}

func readBundle(h *harness.Harness, t *table) {
	t.require("bend", "bend_coax", "bend_over")
	b := &h.Bundle
	b.Bend = t.word("bend", handbook.BendRules(handbook.BendWire)...)
	b.BendCoax = t.word("bend_coax", handbook.BendRules(handbook.BendCoax)...)
	b.BendOver = t.word("bend_over", "member", "bundle")
	b.Origin = t.done()
}

// sheetsToLeaveOut names the sheets that a shop may do without; nobody works without the others.
func sheetsToLeaveOut() []string {
	return []string{"reels", "kit", "setup", "apart", "sleeves", "strip", "crimp", "map", "routing", "lengths", "joints", "spares", "continuity",
		"firstpiece", "sampling", "tags", "rework", "handover", "redline", "glossary", "labels"}
}

func readPaper(h *harness.Harness, t *table) {
	t.require("size", "symbol", "language")
	p := &h.Paper
	p.Size = t.word("size", "a4", "letter")
	p.Labels = t.id("labels")
	p.Symbol = t.word("symbol", "matrix")
	p.Languages = t.words("language", "en", "de")
	if p.Sides = t.word("sides", "one", "two"); p.Sides == "one" {
		p.Sides = ""
	}
	p.LeaveOut = t.words("leave_out", sheetsToLeaveOut()...)
	p.Origin = t.done()
}
