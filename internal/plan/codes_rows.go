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
	for i := range wires {
		w := &wires[i]
		w.Code = Code{
			Kind: KindWire, Content: ContentOf(wireRecord(packet, byID[w.Type], w)), Item: item[w.ID], Name: w.ID,
			Words: fmt.Sprintf("wire %s, %s, %s to %s", w.ID, w.lengthWords(), w.From, w.To),
		}
	}
	for i := range cables {
		c := &cables[i]
		c.Code = Code{
			Kind: KindWire, Content: ContentOf(cableRecord(packet, byID[c.Type], *c)), Item: item[c.ID], Name: c.ID,
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
func wireRecord(packet Packet, wireType WireType, wire *Wire) string {
	end := func(e End) string {
		fields := []string{e.At, e.Stage, figure(e.StripUM), figure(e.TrimUM), e.Contact, e.Legend, e.Note}
		if e.Finish != "" {
			fields = append(fields, "finish", e.Finish)
		}
		if e.Loose {
			fields = append(fields, "loose")
		}
		for _, step := range e.Steps {
			fields = append(fields, step.Layer, figure(step.UM))
		}
		return record(fields...)
	}
	fields := []string{"wire", wire.ID, wire.Type, wireType.Part, wireType.Gauge, wireType.Colour, wireType.Insulation,
		wire.From, wire.To, wire.Home, figure(wire.CutUM), wire.Method, wire.Ink, figure(wire.HeightUM), wire.Legend, marksRecord(wire.Marks),
		strconv.FormatBool(wire.Turned), end(wire.A), end(wire.B), wire.Note}
	for _, extra := range [][2]string{{"cable", wire.Cable}, {"core", wire.Core}, {"twist", wire.Laid}} {
		if extra[1] != "" {
			fields = append(fields, record(extra[0], extra[1]))
		}
	}
	if wire.Supply != string(harness.SupplyReel) || wire.Status == string(harness.LengthMeasure) {
		fields = append(fields, record("apart", wire.Supply, wire.Status, figure(wire.given)))
	}
	for _, s := range wire.Substitutes {
		fields = append(fields, record("substitute", s.Unit, s.Type, s.Approved))
	}
	return recordOf(packet, fields...)
}

func marksRecord(marks []Mark) string {
	var records []string
	for _, mark := range marks {
		fields := []string{mark.Text, figure(mark.AtUM), figure(mark.WidthUM), mark.End}
		if len(mark.Lines) > 0 {
			fields = append(fields, record(mark.Lines...))
		}
		if mark.Turned {
			fields = append(fields, "turned")
		}
		records = append(records, record(fields...))
	}
	return list(records)
}

// cableRecord is what the cut list says of a cable.
func cableRecord(packet Packet, cableType WireType, c Cable) string {
	end := func(e CableEnd) string { return record(e.At, e.Legend, figure(e.JacketOffUM), e.Shield, e.Pigtail) }
	fields := []string{"cable", c.ID, c.Type, cableType.Part, cableType.Gauge, cableType.Colour, cableType.Insulation, c.Home,
		c.Supply, figure(c.CutUM), c.Status, list(c.Cores), list(c.Spare), c.Method, c.Ink, figure(c.HeightUM), c.Legend,
		marksRecord(c.Marks), strconv.FormatBool(c.Turned), end(c.A), end(c.B), c.Note}
	if !c.onLine() && c.given > 0 {
		fields = append(fields, record("given", figure(c.given)))
	}
	return recordOf(packet, fields...)
}

// lineRecord is what a checklist says of a wire. Fields that only some wires have stand behind the others.
func lineRecord(l CavityLine) string {
	fields := []string{l.Wire, l.Gauge, l.Words, l.Tray, l.Other, l.Note}
	if l.Stage == string(harness.StageBoard) {
		fields = append(fields, l.Stage)
	}
	for _, extra := range [][2]string{{"cable", l.Cable}, {"core", l.Core}, {"board", l.Board}, {"finish", l.Finish}, {"loose", l.Loose}, {"marked", l.Marked}} {
		if extra[1] != "" {
			fields = append(fields, record(extra[0], extra[1]))
		}
	}
	if s := l.Substitute; s != nil {
		fields = append(fields, record("substitute", s.Type, s.Approved))
	}
	return record(fields...)
}

// linesRecord is what a checklist says of wires for a unit, by its position from 1.
func linesRecord(lines []CavityLine, unit int) string {
	var records []string
	for _, l := range lines {
		records = append(records, lineRecord(l.Of(unit)))
	}
	return list(records)
}

// sidesRecord is what the joints of a unit say of the sides of one.
func sidesRecord(j Joint, unit int) []string {
	var sides []string
	for _, side := range j.Sides {
		sides = append(sides, record(side.Words, linesRecord(side.Lines, unit), figure(side.Section)))
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
