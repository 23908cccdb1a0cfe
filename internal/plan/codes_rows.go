package plan

import (
	"fmt"
	"slices"
	"strconv"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// codeWires gives every wire and cable its code; numbers are settled over both. The record is what its row of the cut list says.
func codeWires(packet Packet, types []WireType, wires []Wire, cables []Cable) {
	byID := make(map[string]WireType, len(types))
	for _, wireType := range types {
		byID[wireType.ID] = wireType
	}
	var names []string
	for i := range wires {
		names = append(names, wires[i].ID)
	}
	for i := range cables {
		names = append(names, cables[i].ID)
	}
	item := items(names)
	var r recorder // one for all: its room is used again
	for i := range wires {
		w := &wires[i]
		r = r[:0].wireRecord(packet, byID[w.Type], w)
		w.Code = Code{
			Kind: KindWire, Content: ContentOf(r), Item: item[w.ID], Name: w.ID,
			Words: fmt.Sprintf("wire %s, %s, %s to %s", w.ID, w.lengthWords(), w.From, w.To),
		}
	}
	for i := range cables {
		c := &cables[i]
		r = r[:0].cableRecord(packet, byID[c.Type], c)
		c.Code = Code{
			Kind: KindWire, Content: ContentOf(r), Item: item[c.ID], Name: c.ID,
			Words: fmt.Sprintf("cable %s, %s, %s to %s", c.ID, lengthWords(c.CutUM, c.Supply, c.Status), c.A.At, c.B.At),
		}
	}
}

// lengthWords says how long a wire is cut, or why the line does not cut it: "1432 mm", "core 1 of cable C1", "existing".
func (w *Wire) lengthWords() string {
	if w.Cable != "" {
		return fmt.Sprintf("core %s of cable %s", w.Core, w.Cable)
	}
	return lengthWords(w.CutUM, w.Supply, w.Status)
}

func lengthWords(cut int64, supply, status string) string {
	switch {
	case supply != string(harness.SupplyReel):
		return supply
	case status == string(harness.LengthMeasure):
		return "to be measured"
	}
	return units.Length(cut).String()
}

// wireRecord is what the cut list and the bench lists say of a wire. Fields that only some wires have stand behind the others, each
// with its name, so that the record of a wire without them stays as it is.
func (r recorder) wireRecord(packet Packet, wireType WireType, wire *Wire) recorder {
	r = r.text(packet.Number, packet.Part, "wire", wire.ID, wire.Type, wireType.Part, wireType.Gauge, wireType.Colour, wireType.Insulation,
		wire.From, wire.To, wire.Home).figure(wire.CutUM).text(wire.Method, wire.Ink).figure(wire.HeightUM).text(wire.Legend)
	r = r.marks(wire.Marks).text(strconv.FormatBool(wire.Turned)).end(&wire.A).end(&wire.B).text(wire.Note)
	r = r.named("cable", wire.Cable).named("core", wire.Core).named("twist", wire.Laid)
	if wire.Supply != string(harness.SupplyReel) || wire.Status == string(harness.LengthMeasure) {
		r = r.text(record("apart", wire.Supply, wire.Status, figure(wire.given)))
	}
	for _, s := range wire.Substitutes {
		r = r.text(record("substitute", s.Unit, s.Type, s.Approved))
	}
	return r
}

// end adds what is said of an end.
func (r recorder) end(e *End) recorder {
	start := len(r)
	r = r.text(e.At, e.Stage).figure(e.StripUM).figure(e.TrimUM).text(e.Contact, e.Legend, e.Note)
	if e.Finish != "" {
		r = r.text("finish", e.Finish)
	}
	if e.Loose {
		r = r.text("loose")
	}
	for _, step := range e.Steps {
		r = r.text(step.Layer).figure(step.UM)
	}
	return r.closed(start)
}

// marks adds what is said of marks.
func (r recorder) marks(marks []Mark) recorder {
	start := len(r)
	for _, mark := range marks {
		at := len(r)
		r = r.text(mark.Text).figure(mark.AtUM).figure(mark.WidthUM).text(mark.End)
		if len(mark.Lines) > 0 {
			r = r.text(list(mark.Lines))
		}
		if mark.Turned {
			r = r.text("turned")
		}
		r = r.closed(at)
	}
	return r.closed(start)
}

// cableRecord is what the cut list says of a cable.
func (r recorder) cableRecord(packet Packet, cableType WireType, c *Cable) recorder {
	end := func(e CableEnd) string { return record(e.At, e.Legend, figure(e.JacketOffUM), e.Shield, e.Pigtail) }
	r = r.text(packet.Number, packet.Part, "cable", c.ID, c.Type, cableType.Part, cableType.Gauge, cableType.Colour, cableType.Insulation, c.Home,
		c.Supply).figure(c.CutUM).text(c.Status, list(c.Cores), list(c.Spare), c.Method, c.Ink).figure(c.HeightUM).text(c.Legend)
	r = r.marks(c.Marks).text(strconv.FormatBool(c.Turned), end(c.A), end(c.B), c.Note)
	if !c.onLine() && c.given > 0 {
		r = r.text(record("given", figure(c.given)))
	}
	return r
}

// line adds what a checklist says of a wire. Fields that only some wires have stand behind the others.
func (r recorder) line(l CavityLine) recorder {
	start := len(r)
	r = r.text(l.Wire, l.Gauge, l.Words, l.Tray, l.Other, l.Note)
	if l.Stage == string(harness.StageBoard) {
		r = r.text(l.Stage)
	}
	r = r.named("cable", l.Cable).named("core", l.Core).named("board", l.Board).named("finish", l.Finish).named("loose", l.Loose).named("marked", l.Marked)
	if s := l.Substitute; s != nil {
		r = r.text(record("substitute", s.Type, s.Approved))
	}
	return r.closed(start)
}

// lines adds what a checklist says of wires for a unit, by its position from 1.
func (r recorder) lines(lines []CavityLine, unit int) recorder {
	start := len(r)
	for _, l := range lines {
		r = r.line(l.Of(unit))
	}
	return r.closed(start)
}

// sidesRecord is what the joints of a unit say of the sides of one.
func sidesRecord(j Joint, unit int) []string {
	var sides []string
	for _, side := range j.Sides {
		sides = append(sides, string(recorder(nil).text(side.Words).lines(side.Lines, unit).figure(int64(side.Section))))
	}
	return sides
}

// jointCodes returns the codes of a splice or terminal, one a unit. The record is what its rows of the installer's sheets say.
func jointCodes(packet Packet, j Joint, item int) []Code {
	var wires []string
	for _, side := range j.Sides {
		for _, l := range side.Lines {
			wires = append(wires, l.Wire)
		}
	}
	landed := "no wire"
	if len(wires) > 0 {
		slices.SortFunc(wires, naturalCompare)
		landed = wireWords(slices.Compact(wires))
	}
	codes := make([]Code, len(packet.Units))
	for u, unit := range packet.Units {
		instead := ""
		for _, side := range j.Sides {
			instead += insteadOf(side.Lines, u+1)
		}
		codes[u] = Code{
			Kind: KindLanding, Unit: u + 1, Item: item, Name: j.ID,
			Content: ContentOf(recordOf(packet, "joint", j.ID, unit, j.Kind, j.Part, j.Words, j.Where, j.Stage, list(j.SlideOn), list(sidesRecord(j, u+1)), j.Note)),
			Words:   fmt.Sprintf("%s %s of unit %s, %s", j.Kind, j.ID, unit, landed) + instead,
		}
	}
	return codes
}
