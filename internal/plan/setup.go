package plan

import (
	"cmp"
	"slices"
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// Marking is what the set-up sheet says of every reel, and of the start of a shift.
type Marking struct {
	FirstUM     int64        `json:"first_um"`    // outer edge of an end mark to its finished end, at most
	IntervalUM  int64        `json:"interval_um"` // start of a mark to the start of the next, at most
	HeightRule  string       `json:"height_rule"` // where the character heights come from
	HotStamp    string       `json:"hot_stamp"`   // why nobody stamps a wire hot
	RubCheck    bool         `json:"rub_check"`
	Inks        []string     `json:"inks"`         // heads fitted
	TestLengths []TestLength `json:"test_lengths"` // cut and measured at the start of a shift
}

// TestLength is a piece that is cut to see whether the line still cuts as the plan counts on.
type TestLength struct {
	UM      int64 `json:"um"`
	LeastUM int64 `json:"least_um"` // a shorter one makes wires too short
}

// Setup is how the line is set up for a reel, or for a type where the job knows no reels.
type Setup struct {
	Reel        string        `json:"reel"` // "" where the job knows no reels
	Type        string        `json:"type"`
	Lot         string        `json:"lot"`
	Place       string        `json:"place"`
	Rack        int           `json:"rack"`   // where it is mounted first, from 1; 0 where the line has one place
	Method      string        `json:"method"` // of its marked pieces; "sleeve" or "none" where the line marks none
	Ink         string        `json:"ink"`
	StripBy     string        `json:"strip_by"`
	Substitutes []InPlace     `json:"substitutes,omitempty"` // types in whose place it is cut
	Pieces      int           `json:"pieces"`
	Heights     []SetupHeight `json:"heights"`  // largest first
	Sleeved     []string      `json:"sleeved"`  // wires whose texts stand on sleeves
	Unmarked    []string      `json:"unmarked"` // wires without a text
	First       FirstOff      `json:"first_off"`
	Lengths     []SetupLength `json:"lengths"` // first, shortest and longest piece; fewer where they are of one length
}

// SetupHeight is a character height and what it is for.
type SetupHeight struct {
	HeightUM int64    `json:"height_um"`
	Wires    []string `json:"wires"`
}

// SetupLength is a cut length of the reel with the first wire that has it.
type SetupLength struct {
	Wire  string `json:"wire"`
	CutUM int64  `json:"cut_um"`
}

// FirstOff is the first piece of a reel that carries marks, or its first piece where none does.
type FirstOff struct {
	Wire     string      `json:"wire"`
	Unit     string      `json:"unit"`
	CutUM    int64       `json:"cut_um"`
	HeightUM int64       `json:"height_um"`
	StripA   []StripStep `json:"strip_a"` // jacket off of a cable
	StripB   []StripStep `json:"strip_b"`
	From     string      `json:"from"`      // "a" or "b": the end that leaves first, from which the starts are measured
	StartsUM []int64     `json:"starts_um"` // near edge of each mark from that cut end
	StepUM   int64       `json:"step_um"`   // widest step from start to start; 0 with fewer than two marks
	Texts    []FirstText `json:"texts"`     // each text once, in the order in which they leave the line
}

// FirstText is a text of the first-off piece as it looks.
type FirstText struct {
	End     string   `json:"end"`
	Lines   []string `json:"lines"` // one or two
	WidthUM int64    `json:"width_um"`
}

// MarkSample is a type that is marked on a sample before the run, since nobody has proved how it takes a mark.
type MarkSample struct {
	Type     string   `json:"type"`
	Reels    []string `json:"reels"`
	Pieces   int      `json:"pieces"`
	HeightUM int64    `json:"height_um"`
	Text     string   `json:"text"`
	Laser    bool     `json:"laser"` // the line has a laser
	Inks     []string `json:"inks"`  // and these ink heads
}

// markingOfJob fills in what all reels share.
func markingOfJob(h *harness.Harness) Marking {
	wall, source := handbook.HotStampWall()
	spoken := h.Paper.Spoken()
	m := Marking{FirstUM: int64(h.Marks.First), IntervalUM: int64(h.Marks.Interval), RubCheck: h.Marks.RubCheck, Inks: slices.Clone(h.Line.Inks),
		HeightRule: spoken.Say("marking.height_rule", "factor", spoken.Decimal(h.Line.HeightToDiameter.String())),
		HotStamp:   spoken.Say("marking.hot_stamp", "wall", spoken.Decimal(wall.String()), "source", sourceWords(spoken, source))}
	if !slices.Contains(h.Line.Methods, harness.MethodInk) {
		m.Inks = nil
	}
	for _, length := range h.Line.TestLengths {
		short := h.Line.ShortFixed + units.Length(int64(length)*int64(h.Line.ShortShare)/int64(wholeShare))
		m.TestLengths = append(m.TestLengths, TestLength{UM: int64(length), LeastUM: int64(max(length-short, 0))})
	}
	return m
}

// setupRows returns one row for each reel in the order in which the run comes to them.
func setupRows(cuts []cut, types []WireType, leading string, rack int) []Setup {
	stripBy := map[string]string{}
	for _, t := range types {
		stripBy[t.ID] = t.StripBy
	}
	index := map[string]int{}
	var of [][]*cut
	for i := range cuts {
		running := cuts[i].running()
		at, known := index[running]
		if !known {
			at = len(of)
			index[running] = at
			of = append(of, nil)
		}
		of[at] = append(of[at], &cuts[i])
	}
	rows := make([]Setup, 0, len(of))
	for _, pieces := range of {
		row := setupOf(pieces, leading)
		row.StripBy = stripBy[row.Type]
		if rack > 1 {
			row.Rack = pieces[0].position
		}
		rows = append(rows, row)
	}
	return rows
}

// setupOf sums up the pieces of one reel.
func setupOf(pieces []*cut, leading string) Setup {
	first := pieces[0]
	row := Setup{Type: first.wireType(), Substitutes: placesTaken(pieces), Method: first.wire.Method, Pieces: len(pieces)}
	if first.spool != nil {
		row.Reel, row.Lot, row.Place = first.spool.reel.ID, first.spool.reel.Lot, first.spool.reel.Place
	}
	heights := map[int64][]string{}
	seen := map[string]bool{}
	for _, c := range pieces {
		if len(c.wire.Marks) > 0 && len(first.wire.Marks) == 0 {
			first = c
		}
		if seen[c.wire.ID] {
			continue
		}
		seen[c.wire.ID] = true
		switch {
		case len(c.wire.Marks) > 0:
			heights[c.wire.HeightUM] = append(heights[c.wire.HeightUM], c.wire.ID)
		case c.wire.Method == string(harness.MethodSleeve):
			row.Sleeved = append(row.Sleeved, c.wire.ID)
		default:
			row.Unmarked = append(row.Unmarked, c.wire.ID)
		}
	}
	for height, wires := range heights {
		row.Heights = append(row.Heights, SetupHeight{height, wires})
	}
	slices.SortFunc(row.Heights, func(a, b SetupHeight) int { return cmp.Compare(b.HeightUM, a.HeightUM) })
	row.Method, row.Ink = first.wire.Method, first.wire.Ink
	row.First, row.Lengths = firstOff(first, leading), setupLengths(first, pieces)
	return row
}

// firstOff returns the first piece with its marks as they leave the line.
func firstOff(c *cut, leading string) FirstOff {
	w := c.wire
	row := FirstOff{Wire: w.ID, Unit: c.unit, CutUM: w.CutUM, HeightUM: w.HeightUM, From: cmp.Or(leading, "a")}
	marks := slices.Clone(w.Marks)
	if row.From == "b" {
		slices.Reverse(marks)
	}
	shown := map[string]bool{}
	for i, mark := range marks {
		row.StartsUM = append(row.StartsUM, fromLeading(w, mark, row.From))
		if i > 0 {
			row.StepUM = max(row.StepUM, row.StartsUM[i]-row.StartsUM[i-1])
		}
		if shown[mark.End] {
			continue
		}
		shown[mark.End] = true
		lines := mark.Lines
		if len(lines) == 0 {
			lines = []string{mark.Text}
		}
		row.Texts = append(row.Texts, FirstText{End: mark.End, Lines: lines, WidthUM: mark.WidthUM})
	}
	return row
}

// fillFirstStrips says how the first pieces are stripped, once all wires and cables are listed.
func (p *Plan) fillFirstStrips() {
	book := newMarkBook(*p)
	for i := range p.Setups {
		first := &p.Setups[i].First
		row := book.row(first.Wire, first.Unit)
		first.StripA, first.StripB = row.StripA, row.StripB
	}
}

// fromLeading returns where a mark begins, measured from the cut end that leaves the line first.
func fromLeading(w *Wire, mark Mark, leading string) int64 {
	if leading == "b" {
		return w.CutUM - mark.AtUM - mark.WidthUM
	}
	return mark.AtUM
}

// setupLengths picks the first piece, the shortest and the longest: a wire that a revision adds in between leaves them as they are.
func setupLengths(first *cut, pieces []*cut) []SetupLength {
	shortest, longest := first, first
	for _, c := range pieces {
		if c.wire.CutUM < shortest.wire.CutUM {
			shortest = c
		}
		if c.wire.CutUM > longest.wire.CutUM {
			longest = c
		}
	}
	var lengths []SetupLength
	for _, c := range []*cut{first, shortest, longest} {
		if !slices.ContainsFunc(lengths, func(l SetupLength) bool { return l.CutUM == c.wire.CutUM }) {
			lengths = append(lengths, SetupLength{c.wire.ID, c.wire.CutUM})
		}
	}
	return lengths
}

// toProve returns the types to be tested first, each with the reels that wait for it.
func toProve(h *harness.Harness, setups []Setup) []MarkSample {
	var rows []MarkSample
	for _, s := range setups {
		if s.Method != string(harness.MethodTestFirst) {
			continue
		}
		at := slices.IndexFunc(rows, func(row MarkSample) bool { return row.Type == s.Type })
		if at < 0 {
			at = len(rows)
			row := MarkSample{Type: s.Type, HeightUM: s.First.HeightUM, Laser: slices.Contains(h.Line.Methods, harness.MethodLaser)}
			if slices.Contains(h.Line.Methods, harness.MethodInk) {
				row.Inks = slices.Clone(h.Line.Inks)
			}
			for _, text := range s.First.Texts[:1] {
				row.Text = strings.Join(text.Lines, " ")
			}
			rows = append(rows, row)
		}
		rows[at].Pieces += s.Pieces
		if s.Reel != "" {
			rows[at].Reels = append(rows[at].Reels, s.Reel)
		}
	}
	slices.SortFunc(rows, func(a, b MarkSample) int { return naturalCompare(a.Type, b.Type) })
	return rows
}
