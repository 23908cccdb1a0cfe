package plan

// MarkedPiece is one piece of the run with everything that is marked on it, for the import of a line or a label printer. Its JSON form
// is published: lengths are whole micrometres (_um).
type MarkedPiece struct {
	Number   int         `json:"no"` // in the order of the run, from 1; 0 for what the line does not cut
	Wire     string      `json:"wire"`
	Unit     string      `json:"unit"`
	Group    string      `json:"group"`
	Tray     string      `json:"tray"`
	Type     string      `json:"type"`
	Reel     string      `json:"reel"` // "" where the job knows no reels
	CutUM    int64       `json:"cut_um"`
	From     string      `json:"from"`
	To       string      `json:"to"`
	StripA   []StripStep `json:"strip_a"` // outermost layer first; none where the board strips, or nothing is stripped
	StripB   []StripStep `json:"strip_b"`
	StripBy  string      `json:"strip_by"`
	Method   string      `json:"method"`
	Ink      string      `json:"ink"`
	HeightUM int64       `json:"height_um"`
	Marks    []DataMark  `json:"marks"`
	Code     string      `json:"code"`
}

// DataMark is one text: a mark of the line, or a sleeve or tag slid or tied on.
type DataMark struct {
	Kind     string   `json:"kind"` // "mark", "sleeve", "tag"
	End      string   `json:"end"`  // "a", "b" or "" for the middle
	Text     string   `json:"text"`
	Lines    []string `json:"lines"`     // the same in two lines, upper first; none where it stands in one
	AtUM     int64    `json:"at_um"`     // start, from the cut end a; of a sleeve from the finished end that it belongs to
	LeadUM   int64    `json:"lead_um"`   // near edge, from the cut end that leaves the line first; 0 for a sleeve
	WidthUM  int64    `json:"width_um"`  // of the text, or length of the sleeve
	HeightUM int64    `json:"height_um"` // of the characters; 0 for a sleeve
	Turned   bool     `json:"turned"`    // reads from end b to end a
	Part     string   `json:"part"`      // of the sleeve
}

// MarkData returns every piece in the order of the run, then what the line does not cut and somebody still has to mark.
func (p Plan) MarkData() []MarkedPiece {
	book := newMarkBook(p)
	rows := make([]MarkedPiece, 0, len(p.Pieces))
	cut := map[string]bool{}
	for i, piece := range p.Pieces {
		cut[piece.Wire] = true
		row := book.row(piece.Wire, piece.Unit)
		row.Number, row.Tray, row.Group, row.Reel = i+1, piece.Tray, book.groups[piece.Tray], piece.Reel
		if s := piece.Substitute; s != nil {
			row.Type, row.StripBy = s.Type, book.stripBy[s.Type]
		}
		rows = append(rows, row)
	}
	for _, w := range p.Wires {
		if cut[w.ID] || len(book.sleeves[w.ID]) == 0 {
			continue
		}
		for _, unit := range p.Packet.Units {
			rows = append(rows, book.row(w.ID, unit))
		}
	}
	return rows
}

// markBook looks up what the pieces of a run name by id.
type markBook struct {
	leading string
	draft   bool
	wires   map[string]*Wire // cables among them, in the shape of wires
	groups  map[string]string
	sleeves map[string][]Sleeve
	stripBy map[string]string
}

func newMarkBook(p Plan) markBook {
	b := markBook{leading: p.Packet.Leading, draft: p.Packet.Draft, wires: wiresByID(p.Wires), groups: map[string]string{},
		sleeves: map[string][]Sleeve{}, stripBy: map[string]string{}}
	for i := range p.Cables {
		b.wires[p.Cables[i].ID] = asWire(&p.Cables[i])
	}
	for _, t := range p.Trays {
		b.groups[t.ID] = t.Group
	}
	for _, s := range p.Sleeves {
		b.sleeves[s.Wire] = append(b.sleeves[s.Wire], s)
	}
	for _, t := range p.Types {
		b.stripBy[t.ID] = t.StripBy
	}
	return b
}

// row returns what is known of a piece by its wire alone.
func (b markBook) row(id, unit string) MarkedPiece {
	w := b.wires[id]
	row := MarkedPiece{Wire: w.ID, Unit: unit, Type: w.Type, CutUM: w.CutUM, From: w.From, To: w.To, StripA: stripsOf(w.A), StripB: stripsOf(w.B),
		StripBy: b.stripBy[w.Type], Method: w.Method, Ink: w.Ink, HeightUM: w.HeightUM}
	row.Marks = append(b.marks(w), dataSleeves(b.sleeves[id])...)
	if !b.draft {
		row.Code = w.Code.String()
	}
	return row
}

// asWire is a cable as the data of the line gives it: what comes off its jacket stands for what is stripped.
func asWire(c *Cable) *Wire {
	end := func(e CableEnd) End { return End{At: e.At, StripUM: e.JacketOffUM, Legend: e.Legend} }
	row := lineRow(c)
	row.From, row.To, row.A, row.B = c.A.At, c.B.At, end(c.A), end(c.B)
	return row
}

// stripsOf returns what is stripped at an end, outermost layer first.
func stripsOf(end End) []StripStep {
	switch {
	case len(end.Steps) > 0:
		return end.Steps
	case end.StripUM > 0:
		return []StripStep{{UM: end.StripUM}}
	}
	return []StripStep{}
}

func (b markBook) marks(w *Wire) []DataMark {
	rows := make([]DataMark, 0, len(w.Marks))
	for _, mark := range w.Marks {
		row := DataMark{Kind: "mark", End: mark.End, Text: mark.Text, Lines: mark.Lines, AtUM: mark.AtUM, LeadUM: fromLeading(w, mark, b.leading),
			WidthUM: mark.WidthUM, HeightUM: w.HeightUM, Turned: mark.Turned}
		if row.Lines == nil {
			row.Lines = []string{}
		}
		rows = append(rows, row)
	}
	return rows
}

func dataSleeves(sleeves []Sleeve) []DataMark {
	var rows []DataMark
	for _, s := range sleeves {
		rows = append(rows, DataMark{Kind: s.Kind, End: s.End, Text: s.Text, Lines: []string{}, AtUM: s.FromUM, WidthUM: s.LengthUM, Part: s.Part})
	}
	return rows
}
