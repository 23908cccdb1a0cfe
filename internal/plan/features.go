package plan

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
	"loomleaf/internal/words"
)

// features collects the characteristics of the first piece.
type features struct {
	plan   *Plan
	h      *harness.Harness
	spoken words.Words
	rows   []Feature
}

// featuresOf returns what the first piece is measured for: every set-up of the line at its first wire, every setting of the
// crimp bench, every connector and joint, every branch of the board, and the whole. Each wire in its cavity and each net has a
// record of its own.
func featuresOf(p *Plan, h *harness.Harness) []Feature {
	f := &features{plan: p, h: h, spoken: h.Paper.Spoken()}
	f.line()
	f.crimps()
	f.connectors()
	f.joints()
	f.branches()
	f.whole()
	return f.rows
}

func (f *features) say(key string, pairs ...any) string { return f.spoken.Say(key, pairs...) }

// tenths writes millimetres to a tenth.
func (f *features) tenths(um int64) string {
	return f.spoken.Decimal(units.Length(um).MillimetresTenths())
}

func joinBlank(words ...string) string { return strings.TrimSpace(strings.Join(words, " ")) }

func (f *features) add(group, what, requirement, instrument, write string, source ...string) {
	f.rows = append(f.rows, Feature{Number: len(f.rows) + 1, Group: group, What: what, Requirement: requirement, Instrument: instrument,
		Write: write, Source: strings.Join(source, "")})
}

// setUp is what the line is set to: two wires of one set-up need one first piece.
type setUp struct {
	wireType, method, ink string
	height                int64
}

// line takes the first wire or cable of each set-up in the order of the run.
func (f *features) line() {
	seen := map[setUp]bool{}
	rows := map[string]*Wire{}
	for _, w := range lineRows(f.plan.Wires, f.plan.Cables) {
		rows[w.ID] = w
	}
	for _, g := range f.plan.Groups {
		for _, id := range g.Wires {
			w := rows[id]
			key := setUp{w.Type, w.Method, w.Ink, w.HeightUM}
			if seen[key] {
				continue
			}
			seen[key] = true
			f.cut(w)
		}
	}
}

// cut asks for what the line makes of a wire.
func (f *features) cut(w *Wire) {
	const group = "line"
	length := units.Length(w.CutUM)
	f.add(group, f.say("features.cut_length", "wire", w.ID), f.say("features.range", "length", length.Millimetres(), "longer", f.tenths(int64(f.h.Line.Step))), f.say("features.rule"), "mm")
	how := f.say("features.mark." + strings.ReplaceAll(joinBlank(w.Method, w.Ink), " ", "_"))
	if w.HeightUM > 0 {
		how += f.say("features.high", "height", f.tenths(w.HeightUM))
	}
	if w.Method != string(harness.MethodNone) {
		f.add(group, f.say("features.mark_of", "wire", w.ID), how+f.say("features.legible"), f.say("features.eye"), "")
	}
	for _, mark := range w.Marks {
		if mark.End == "a" || len(w.Marks) == 1 {
			f.add(group, f.say("features.legend", "wire", w.ID, "text", mark.Text), f.say("features.starts", "at", f.tenths(mark.AtUM)), f.say("features.rule"), "mm")
			break
		}
	}
	if w.B.Legend != "" && len(w.Marks) > 1 {
		f.add(group, f.say("features.legend", "wire", w.ID, "text", w.B.Legend), f.say("features.as_written"), f.say("features.eye"), "")
	}
}

// crimps asks for strip length, gap and form of each setting.
func (f *features) crimps() {
	const group = "crimp bench"
	for _, c := range f.plan.Crimps {
		name := strings.Join(slices.DeleteFunc([]string{c.Contact, c.Part, c.Size}, func(s string) bool { return s == "" }), ", ")
		if len(c.Steps) > 0 {
			for _, step := range c.Steps {
				f.add(group, f.say("features.strip_layer", "contact", name, "layer", step.Layer), f.tenths(step.UM)+" mm", f.say("features.rule"), "mm")
			}
		} else {
			f.add(group, f.say("features.strip", "contact", name), f.tenths(c.StripUM)+" mm", f.say("features.rule"), "mm")
		}
		if c.GapMostUM > 0 {
			_, _, source, _ := handbook.InsulationGap("22") // one paragraph for all gauges
			f.add(group, f.say("features.gap", "contact", name), f.say("features.from_to", "from", f.spoken.Decimal(hundredths(c.GapLeastUM)), "to", f.spoken.Decimal(hundredths(c.GapMostUM))), f.say("features.gauge"), "mm",
				sourceWords(f.spoken, source))
		}
	}
}

// hundredths writes millimetres to a hundredth; the figures of the handbook have no more.
func hundredths(um int64) string { return fmt.Sprintf("%d.%02d", um/1000, um%1000/10) }

func (f *features) connectors() {
	for _, c := range f.plan.Connectors {
		said := []string{joinWords(c.Part, c.Gender)}
		if c.Key != "" {
			said = append(said, f.say("common.key", "key", c.Key))
		}
		f.add("connectors", f.say("features.part_key", "connector", c.ID), strings.Join(said, ", "), f.say("features.eye"), "")
		counts := []string{f.spoken.SayCount("features.wired", c.Counts.Wired)}
		if c.Counts.Sealed > 0 {
			counts = append(counts, f.spoken.SayCount("features.plugs", c.Counts.Sealed))
		}
		if c.Counts.Open+c.Counts.Loose > 0 {
			counts = append(counts, f.say("features.empty", "n", c.Counts.Open+c.Counts.Loose))
		}
		f.add("connectors", f.say("features.cavity_map", "connector", c.ID), f.say("features.as_checklist", "counts", strings.Join(counts, ", ")), f.say("features.eye"), "")
	}
}

func joinWords(words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(word string) bool { return word == "" }), ", ")
}

func (f *features) joints() {
	for _, j := range f.plan.Joints {
		f.add("joints", f.say("features.joint_"+j.Kind, "joint", j.ID), joinWords(j.Part, j.Words, j.Where), f.say("features.eye"), "")
	}
}

// branches asks for the length of every segment that holds something, and for its bundle.
func (f *features) branches() {
	for _, s := range f.plan.Segments {
		if s.DiameterUM == 0 {
			continue
		}
		name := f.say("features.between", "from", s.Between[0], "to", s.Between[1])
		longer, source := handbook.LengthTolerance(units.Length(s.LengthUM))
		f.add("branches", f.say("features.branch_length", "branch", name), f.say("features.range", "length", units.Length(s.LengthUM).Millimetres(), "longer", f.tenths(int64(longer))),
			f.say("features.tape"), "mm", sourceWords(f.spoken, source))
		f.add("branches", f.say("features.bundle", "branch", name), f.say("features.diameter", "about", f.tenths(s.DiameterUM), "most", f.tenths(s.RoomUM)),
			f.say("features.calliper"), "mm", f.say("features.computed", "factor", f.spoken.Decimal(f.plan.Bundles.Room)))
	}
}

func (f *features) whole() {
	f.add("whole", f.say("features.identification"), f.say("features.part_serial", "part", f.plan.Packet.Part), f.say("features.eye"), "")
	f.add("whole", f.say("features.continuity"), f.say("features.complete"), f.say("features.test_record"), "")
	f.add("whole", f.say("features.caps"), f.say("features.fitted"), f.say("features.eye"), "")
}
