package job

import (
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

func readSplice(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "sides")
	s := harness.Splice{ID: id, Part: t.part("part"), Node: t.name("node"), Stage: harness.StageBench}
	s.Offset, s.Towards = readOffset(t)
	s.Sides = readSides(t)
	if t.has("stage") {
		s.Stage = harness.Stage(t.word("stage", string(harness.StageBench), string(harness.StageBoard)))
	}
	s.AWGFrom, s.AWGTo = t.gaugeRange("awg")
	s.Section[0], s.Section[1] = t.areaRange("section")
	s.Strip, s.Barrel = t.length("strip", notNegative), t.length("barrel", notNegative)
	s.SlideOn = t.texts("slide_on_first", t.array("slide_on_first"))
	s.Pull, s.Crimps = t.word("pull", handbook.PullColumns()...), readCrimps(t)
	s.Origin = t.done()
	h.Splices = append(h.Splices, s)
}

const offsetHint = `write how far from the node it is, and towards which neighbour, such as "40 mm to N5"`

// readOffset reads "40 mm to N5".
func readOffset(t *table) (units.Length, string) {
	text := t.name("offset")
	if text == "" {
		return 0, ""
	}
	at := t.origin.Of("offset")
	length, towards, both := strings.Cut(text, " to ")
	if towards = strings.TrimSpace(towards); !both || towards == "" || strings.ContainsAny(towards, ":@>, ") {
		t.fault(badOffset, "offset", at, offsetHint, "%s is no offset", quoted(text))
		return 0, ""
	}
	offset, fine := quantity(t, "offset", length, at, units.ParseLength)
	if fine && offset <= 0 {
		t.fault(outOfRange, "offset", at, "write a length above zero, or take the offset out", "%s is not above zero", quoted(length))
		return 0, ""
	}
	if !t.has("node") {
		t.fault(badOffset, "offset", at, `write node = "..." beside it`, "the splice has no node to count from")
	}
	return offset, towards
}

// readSides reads the wires on each of the two sides of a splice.
func readSides(t *table) [][]string {
	before := len(t.found)
	var sides [][]string
	for i, item := range t.array("sides") {
		key := elementKey("sides", i)
		t.origin.Keys[key] = item.place()
		if item.kind != kindArray {
			t.fault(wrongKind, "sides", item.place(), `write a list of wires for each side, such as [["W1"], ["W2", "W3"]]`, "%s is no list", written(item))
			continue
		}
		sides = append(sides, t.ids(key, item.items))
		if len(item.items) == 0 {
			t.fault(badSides, "sides", item.place(), "name the wires that enter there", "no wire enters on side %d", i+1)
		}
	}
	if e := t.get("sides"); e != nil && e.value.kind == kindArray && len(e.value.items) != 2 {
		t.fault(badSides, "sides", e.place(), `name the wires of both sides, such as [["W1"], ["W2", "W3"]]`, "a splice has two sides, not %d", len(e.value.items))
	}
	if len(t.found) > before {
		t.unread["splice.sides"] = true
	}
	return sides
}

func readTerminal(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "kind")
	e := harness.Terminal{ID: id, Part: t.part("part"), Kind: t.text("kind"), Node: t.name("node"), Tail: t.length("tail", notNegative)}
	e.AWGFrom, e.AWGTo = t.gaugeRange("awg")
	e.Insulation[0], e.Insulation[1] = t.lengthRange("insulation")
	e.Barrel, e.Strip = t.length("barrel", notNegative), t.length("strip", notNegative)
	e.Pull, e.Crimps = t.word("pull", handbook.PullColumns()...), readCrimps(t)
	e.SlideOnFirst = t.texts("slide_on_first", t.array("slide_on_first"))
	e.Note = t.text("note")
	e.Origin = t.done()
	h.Terminals = append(h.Terminals, e)
}

func readStud(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "stack")
	s := harness.Stud{ID: id, Stack: t.texts("stack", t.filled("stack")), Torque: t.text("torque")}
	s.Origin = t.done()
	h.Studs = append(h.Studs, s)
}

func readTwist(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "wires", "lay", "untwist")
	w := harness.Twist{ID: id, Wires: t.ids("wires", t.array("wires")), Lay: t.length("lay", positive), Pitch: t.length("pitch", positive)}
	if untwist := t.lengths("untwist", 2, notNegative); untwist != nil {
		w.Untwist = [2]units.Length{untwist[0], untwist[1]}
	}
	w.Origin = t.done()
	h.Twists = append(h.Twists, w)
}

func readSleeve(h *harness.Harness, t *table) {
	t.require("part", "fits")
	s := harness.SleeveSize{Part: t.part("part")}
	s.From, s.To = t.lengthRange("fits")
	s.Length = t.length("length", positive)
	s.Origin = t.done()
	h.Sleeves = append(h.Sleeves, s)
}
