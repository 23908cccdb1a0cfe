package plan

import (
	"cmp"
	"slices"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// routing sorts what is laid into branches and ways.
type routing struct {
	h      *harness.Harness
	trunk  *trunk
	loom   *loom
	needs  *measurer
	types  map[string]WireType
	order  map[string]int // of homes, in build order
	nodes  map[string]string
	wires  map[string]*Wire
	cables map[string]*Cable
	given  map[string]*harness.Wire
}

// laidOn is a row with the way it lies along.
type laidOn struct {
	Laid
	home  string
	nodes []string
	key   layingKey
}

// layingKey says where a row comes in the order of laying: where its way starts, its home, and where its way ends.
type layingKey struct{ branch, step, home, unknown, endBranch, endStep int }

func (a layingKey) compare(b layingKey) int {
	return cmp.Or(cmp.Compare(a.branch, b.branch), cmp.Compare(a.step, b.step), cmp.Compare(a.home, b.home))
}

// compareEnds puts ways that end earlier along the trunk first; ways that are not known come last.
func (a layingKey) compareEnds(b layingKey) int {
	return cmp.Or(cmp.Compare(a.unknown, b.unknown), cmp.Compare(a.endBranch, b.endBranch), cmp.Compare(a.endStep, b.endStep))
}

// routingRows returns the routing table: by branch, in the order along the trunk; by home; by way. A pigtail of a shield lies in no
// branch and has no row.
func routingRows(h *harness.Harness, t *trunk, types []WireType, wires []Wire, cables []Cable) []Branch {
	r := newRouting(h, t, types, wires, cables)
	rows := r.rows()
	var branches []Branch
	last := -1
	for _, at := range r.inOrder(rows) {
		row := &rows[at]
		place, placed := r.place(row)
		if number := place.branch; len(branches) == 0 || number != last {
			last = number
			branch := Branch{}
			if placed {
				branch.Leaves, branch.Nodes = place.leaves, slices.Clone(place.nodes)
			}
			branches = append(branches, branch)
		}
		b := &branches[len(branches)-1]
		if n := len(b.Ways); n == 0 || b.Ways[n-1].Home != row.home || !slices.Equal(b.Ways[n-1].Nodes, row.nodes) {
			b.Ways = append(b.Ways, r.way(row))
		}
		way := &b.Ways[len(b.Ways)-1]
		way.Rows = append(way.Rows, row.Laid)
	}
	return branches
}

func newRouting(h *harness.Harness, t *trunk, types []WireType, wires []Wire, cables []Cable) *routing {
	r := &routing{h: h, trunk: t, loom: newLoom(h), needs: newMeasurer(h), types: map[string]WireType{}, order: map[string]int{},
		nodes: map[string]string{}, wires: wiresByID(wires), cables: map[string]*Cable{}, given: map[string]*harness.Wire{}}
	for i, b := range bodies(h) {
		r.order[b.id], r.nodes[b.id] = i, b.node
	}
	for _, row := range types {
		r.types[row.ID] = row
	}
	for i := range cables {
		r.cables[cables[i].ID] = &cables[i]
	}
	for i := range h.Wires {
		r.given[h.Wires[i].ID] = &h.Wires[i]
	}
	return r
}

// place returns where a row comes in the order of laying; rows whose home has no place on the board come after all others.
func (r *routing) place(row *laidOn) (branchPlace, bool) {
	node := r.nodes[row.home]
	if len(row.nodes) > 0 {
		node = row.nodes[0]
	}
	place, placed := r.trunk.places[node]
	if !placed {
		return branchPlace{branch: len(r.trunk.places) + len(r.trunk.nodes)}, false
	}
	return place, true
}

// keyOf returns where a row comes in the order of laying.
func (r *routing) keyOf(row *laidOn) layingKey {
	place, _ := r.place(row)
	key := layingKey{branch: place.branch, step: place.step, home: r.order[row.home]}
	if len(row.nodes) == 0 {
		key.unknown = 1
		return key
	}
	end := r.trunk.places[row.nodes[len(row.nodes)-1]]
	key.endBranch, key.endStep = end.branch, end.step
	return key
}

// inOrder returns the places of rows in the order of laying.
func (r *routing) inOrder(rows []laidOn) []int {
	order := make([]int, len(rows))
	for i := range rows {
		rows[i].key, order[i] = r.keyOf(&rows[i]), i
	}
	slices.SortFunc(order, func(i, k int) int { return cmp.Or(compareLaid(&rows[i], &rows[k]), cmp.Compare(i, k)) })
	return order
}

func compareLaid(a, b *laidOn) int {
	if order := a.key.compare(b.key); order != 0 {
		return order
	}
	if order := cmp.Or(naturalCompare(a.home, b.home), a.key.compareEnds(b.key)); order != 0 {
		return order
	}
	if !slices.Equal(a.nodes, b.nodes) {
		return slices.CompareFunc(a.nodes, b.nodes, naturalCompare)
	}
	return naturalCompare(a.ID, b.ID)
}

// way returns the way of a row, without rows.
func (r *routing) way(row *laidOn) Way {
	way := Way{Home: row.home, Nodes: row.nodes}
	if n := len(row.nodes) - 1; n > 0 {
		way.DiameterUM, way.RoomUM = make([]int64, 0, n), make([]int64, 0, n)
	}
	for i := 1; i < len(row.nodes); i++ {
		s := r.trunk.thickness[segmentName(row.nodes[i-1], row.nodes[i])]
		way.DiameterUM = append(way.DiameterUM, cmp.Or(s.OverUM, s.DiameterUM))
		way.RoomUM = append(way.RoomUM, cmp.Or(s.OverRoomUM, s.RoomUM))
	}
	return way
}

// rows returns everything that is laid: single wires, twists and cables, each once.
func (r *routing) rows() []laidOn {
	rows := make([]laidOn, 0, len(r.h.Wires))
	done := map[string]bool{}
	for _, w := range wiresInOrder(r.h) {
		row := r.wires[w.ID]
		switch {
		case w.A.Kind == harness.EndShield:
		case row.Cable != "":
			if !done["cable "+row.Cable] {
				done["cable "+row.Cable] = true
				rows = append(rows, r.cable(r.cables[row.Cable]))
			}
		case row.Twist != "":
			if !done["twist "+row.Twist] {
				done["twist "+row.Twist] = true
				rows = append(rows, r.twist(row.Twist))
			}
		default:
			rows = append(rows, r.wire(row))
		}
	}
	return rows
}

// fromHome reports whether a wire is laid from end a on: its home is there.
func fromHome(w *Wire) bool {
	body, _, _ := strings.Cut(w.From, ":")
	other, _, _ := strings.Cut(w.To, ":")
	return body == w.Home || other != w.Home
}

func (r *routing) wire(w *Wire) laidOn {
	row := laidOn{home: w.Home, nodes: w.Nodes, Laid: Laid{Kind: "wire", ID: w.ID, Words: r.words(w), From: w.From, To: w.To,
		Tray: w.trayWord(), FinishedUM: tenth(w.FinishedUM), Tolerance: w.Tolerance, Place: w.Place}}
	row.SlackUM, row.Known = r.slack(w)
	if !fromHome(w) {
		row.From, row.To = w.To, w.From
		row.nodes = slices.Clone(w.Nodes)
		slices.Reverse(row.nodes)
	}
	return row
}

func (r *routing) words(w *Wire) string {
	t := r.types[w.Type]
	return typeWords(t)
}

// typeWords names gauge and colour: "22 AWG, white".
func typeWords(t WireType) string { return strings.Trim(t.GaugeShort+", "+t.ColourWords, ", ") }

// part returns a wire of a twist or cable, in the direction of the row.
func (r *routing) part(w *Wire, ahead bool) LaidPart {
	p := LaidPart{Wire: w.ID, Words: r.words(w), From: w.From, To: w.To, FinishedUM: tenth(w.FinishedUM), Tolerance: w.Tolerance}
	if !ahead {
		p.From, p.To = w.To, w.From
	}
	return p
}

// twist returns the wires of a twist as one row, with the way of the first and the least slack of all.
func (r *routing) twist(id string) laidOn {
	var row laidOn
	for _, t := range r.h.Twists {
		if t.ID != id {
			continue
		}
		for _, wire := range slices.SortedFunc(slices.Values(t.Wires), naturalCompare) {
			w := r.wires[wire]
			if w == nil {
				continue
			}
			one := r.wire(w)
			if row.ID == "" {
				row = one
				row.Kind, row.ID, row.Words, row.Place = "twist", id, r.h.Paper.Spoken().SayCount("board.twist", len(t.Wires)), t.At
				row.FinishedUM, row.Tolerance = 0, nil
			}
			row.Parts = append(row.Parts, r.part(w, fromHome(w)))
			row.SlackUM, row.Known = min(row.SlackUM, one.SlackUM), row.Known && one.Known
		}
	}
	return row
}

// cable returns a cable with its cores. It lies along the way of its first core.
func (r *routing) cable(c *Cable) laidOn {
	t := r.types[c.Type]
	row := laidOn{home: c.Home, Laid: Laid{Kind: "cable", ID: c.ID, Words: typeWords(t), From: c.A.At, To: c.B.At,
		Tray: lineRow(c).trayWord(), FinishedUM: tenth(c.FinishedUM), Tolerance: c.Tolerance, Place: c.Place}}
	row.SlackUM, row.Known = slackOfTerms(c.Terms)
	ahead := true
	for i, core := range c.Cores {
		w := r.wires[core]
		if i == 0 {
			row.nodes = slices.Clone(w.Nodes)
			home := *w
			home.Home = c.Home
			ahead = fromHome(&home)
		}
		row.Parts = append(row.Parts, r.part(w, ahead))
	}
	if !ahead {
		row.From, row.To = row.To, row.From
		slices.Reverse(row.nodes)
	}
	return row
}

// slackOfTerms returns what a length that was worked out holds beyond the way, the tails and the ends; false where it was given.
func slackOfTerms(terms []Term) (int64, bool) {
	var slack int64
	known := false
	for _, term := range terms {
		switch term.Name {
		case "route":
			known = true
		case "retermination", "extra", "loop", "line", "rounding":
			slack += term.UM
		}
	}
	return slack, known
}

// slack returns what a wire holds beyond its way over the board, its tails, what its ends take, and what twisting takes; false where
// its cut length or its way is not known.
func (r *routing) slack(w *Wire) (int64, bool) {
	stretches := r.loom.stretches(w)
	given := r.given[w.ID]
	if w.CutUM == 0 || given == nil || len(w.Nodes) == 0 && len(stretches) == 0 {
		return 0, false
	}
	var way units.Length
	for _, part := range stretches {
		way += part.to - part.from
	}
	ends := units.Length(0)
	for _, end := range []*harness.End{&given.A, &given.B} {
		need := r.needs.need(end)
		way += need.tail
		ends += need.toBarrel + need.strip + need.trim
	}
	if lay := r.needs.lays[w.ID]; lay != nil {
		ends += lay.extra(way)
	}
	return w.CutUM - int64(way+ends), true
}

// foundRows leads from every wire to its way: wires that follow each other and lie along the same nodes share an entry.
func foundRows(branches []Branch) []Found {
	var single []Found
	for _, b := range branches {
		for _, way := range b.Ways {
			for _, row := range way.Rows {
				if row.Kind != "twist" {
					single = append(single, Found{First: row.ID, Last: row.ID, Wires: 1, Nodes: way.Nodes})
				}
				for _, p := range row.Parts {
					single = append(single, Found{First: p.Wire, Last: p.Wire, Wires: 1, Nodes: way.Nodes})
				}
			}
		}
	}
	slices.SortStableFunc(single, func(a, b Found) int { return naturalCompare(a.First, b.First) })
	var rows []Found
	for _, f := range single {
		if n := len(rows); n > 0 && slices.Equal(rows[n-1].Nodes, f.Nodes) {
			rows[n-1].Last = f.Last
			rows[n-1].Wires++
			continue
		}
		rows = append(rows, f)
	}
	return rows
}
