package plan

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// features collects the characteristics of the first piece.
type features struct {
	plan *Plan
	h    *harness.Harness
	rows []Feature
}

// featuresOf returns what the first piece is measured for: every set-up of the line at its first wire, every setting of the
// crimp bench, every connector and joint, every branch of the board, and the whole. Each wire in its cavity and each net has a
// record of its own.
func featuresOf(p *Plan, h *harness.Harness) []Feature {
	f := &features{plan: p, h: h}
	f.line()
	f.crimps()
	f.connectors()
	f.joints()
	f.branches()
	f.whole()
	return f.rows
}

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
	rows := map[string]Wire{}
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
func (f *features) cut(w Wire) {
	const group = "line"
	length := units.Length(w.CutUM)
	f.add(group, w.ID+" cut length", fmt.Sprintf("%s mm, -0 / +%s mm", length.Millimetres(), units.Length(f.h.Line.Step).MillimetresTenths()),
		"rule", "mm")
	how := map[string]string{"laser": "UV laser", "ink": w.Ink + " ink", "sleeve": "sleeve", "test first": "as proved", "none": "no mark"}[w.Method]
	if w.HeightUM > 0 {
		how += ", " + units.Length(w.HeightUM).MillimetresTenths() + " mm high"
	}
	if w.Method != string(harness.MethodNone) {
		f.add(group, w.ID+" mark", how+", legible, contrast, no damage", "eye", "")
	}
	for _, mark := range w.Marks {
		if mark.End == "a" || len(w.Marks) == 1 {
			f.add(group, fmt.Sprintf("%s legend %s", w.ID, mark.Text), fmt.Sprintf("starts %s mm from cut END A",
				units.Length(mark.AtUM).MillimetresTenths()), "rule", "mm")
			break
		}
	}
	if w.B.Legend != "" && len(w.Marks) > 1 {
		f.add(group, fmt.Sprintf("%s legend %s", w.ID, w.B.Legend), "as written, at END B", "eye", "")
	}
}

// crimps asks for strip length, gap and form of each setting.
func (f *features) crimps() {
	const group = "crimp bench"
	for _, c := range f.plan.Crimps {
		name := strings.Join(slices.DeleteFunc([]string{c.Contact, c.Part, c.Size}, func(s string) bool { return s == "" }), ", ")
		if len(c.Steps) > 0 {
			for _, step := range c.Steps {
				f.add(group, name+": strip "+step.Layer, units.Length(step.UM).MillimetresTenths()+" mm", "rule", "mm")
			}
		} else {
			f.add(group, name+": strip", units.Length(c.StripUM).MillimetresTenths()+" mm", "rule", "mm")
		}
		if c.GapMostUM > 0 {
			_, _, source, _ := handbook.InsulationGap("22") // one paragraph for all gauges
			f.add(group, name+": insulation gap", fmt.Sprintf("%s to %s mm", hundredths(c.GapLeastUM), hundredths(c.GapMostUM)), "gauge", "mm",
				source.String())
		}
	}
}

// hundredths writes millimetres to a hundredth; the figures of the handbook have no more.
func hundredths(um int64) string { return fmt.Sprintf("%d.%02d", um/1000, um%1000/10) }

func (f *features) connectors() {
	for _, c := range f.plan.Connectors {
		words := []string{joinWords(c.Part, c.Gender)}
		if c.Key != "" {
			words = append(words, "key "+c.Key)
		}
		f.add("connectors", c.ID+" part, key", strings.Join(words, ", "), "eye", "")
		counts := []string{counted(c.Counts.Wired, "wired cavity")}
		counts[0] = strings.Replace(counts[0], "cavitys", "cavities", 1)
		if c.Counts.Sealed > 0 {
			counts = append(counts, counted(c.Counts.Sealed, "sealing plug"))
		}
		if c.Counts.Open+c.Counts.Loose > 0 {
			counts = append(counts, fmt.Sprintf("%d empty", c.Counts.Open+c.Counts.Loose))
		}
		f.add("connectors", c.ID+" cavity map", "as its pin checklist: "+strings.Join(counts, ", "), "eye", "")
	}
}

func joinWords(words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(word string) bool { return word == "" }), ", ")
}

func (f *features) joints() {
	for _, j := range f.plan.Joints {
		f.add("joints", j.ID+" "+j.Kind, joinWords(j.Part, j.Words, j.Where), "eye", "")
	}
}

// branches asks for the length of every segment that holds something, and for its bundle.
func (f *features) branches() {
	for _, s := range f.plan.Segments {
		if s.DiameterUM == 0 {
			continue
		}
		name := s.Between[0] + " to " + s.Between[1]
		longer, source := handbook.LengthTolerance(units.Length(s.LengthUM))
		f.add("branches", name+" length", fmt.Sprintf("%s mm, -0 / +%s mm", units.Length(s.LengthUM).Millimetres(), longer.MillimetresTenths()),
			"tape", "mm", source.String())
		f.add("branches", name+" bundle", "about "+units.Length(s.DiameterUM).MillimetresTenths()+" mm, at most "+
			units.Length(s.RoomUM).MillimetresTenths()+" mm, before covers", "calliper", "mm", "computed for this job, factor "+f.plan.Bundles.Room)
	}
}

func (f *features) whole() {
	f.add("whole", "harness identification", f.plan.Packet.Part+" and serial, as the drawing says", "eye", "")
	f.add("whole", "continuity and isolation", "record complete, no open tag", "test record", "")
	f.add("whole", "caps on unmated connectors", "all fitted", "eye", "")
}
