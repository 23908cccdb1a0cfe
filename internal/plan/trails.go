package plan

import "slices"

// stop is one part of the pass over a group: the units of one type, or a block.
type stop struct {
	kind   string // type; "" for a block
	rows   []Wire // of a block
	turned bool   // the block is cut from its last row to its first
}

// stops returns the parts of a group in the order of a pass with the fewest reel changes between its ends.
func (g kindGraph) stops(ends span) []stop {
	if len(g.blocks) > 0 {
		return g.trail(ends)
	}
	var stops []stop
	for _, kind := range between(g.kinds, ends.first, ends.last) {
		stops = append(stops, stop{kind: kind.wireType})
	}
	return stops
}

// cost returns the fewest reel changes of a pass over the group between its ends.
//
// Blocks that follow each other without a change make a trail: a walk over lines of the graph, each once. Closed by a line from
// the last type to the first, the pass is a round of trails with a change between any two. The round needs no change where the
// closed graph hangs together and every point has an even number of line ends. Else each part that hangs together takes a change
// for every two odd points, and one where it has none (Euler's theorem on trails).
func (g kindGraph) cost(ends span) int {
	if len(g.blocks) == 0 { // the same in short: one change between any two types, and one back where the pass ends as it starts
		return len(g.kinds) - 1 + one(ends.first == ends.last && len(g.kinds) > 1)
	}
	changes := 0
	for _, b := range g.blocks {
		changes += b.changes
	}
	parts := g.parts(ends)
	if wholeRound(parts) {
		return changes
	}
	for _, p := range parts {
		changes += max(1, len(p.odd)/2)
	}
	return changes
}

// part is the points that hang together, by the lowest of them, and those with an odd number of line ends.
type part struct {
	lowest int
	odd    []int
}

// wholeRound reports whether one round takes every line without a change.
func wholeRound(parts []part) bool { return len(parts) == 1 && len(parts[0].odd) == 0 }

// parts returns the parts of the graph that is closed by a line between its ends, by their lowest points.
func (g kindGraph) parts(ends span) []part {
	root, degree := make([]int, len(g.kinds)), make([]int, len(g.kinds))
	for i := range root {
		root[i] = i
	}
	join := func(a, b int) {
		degree[a]++
		degree[b]++
		from, to := max(root[a], root[b]), min(root[a], root[b])
		for i := range root {
			if root[i] == from {
				root[i] = to
			}
		}
	}
	join(ends.first, ends.last)
	for _, b := range g.blocks {
		join(b.first, b.last)
	}
	index := map[int]int{}
	var parts []part
	for i, r := range root {
		if r == i {
			index[i] = len(parts)
			parts = append(parts, part{lowest: i})
		}
		if degree[i]%2 == 1 {
			p := &parts[index[r]]
			p.odd = append(p.odd, i)
		}
	}
	return parts
}

// line is a line of the graph on its way into a trail: a block, the units of one type from their point to itself, or a change of
// reels, which leads from one type to another and cuts nothing.
type line struct {
	from, to int
	block    *block
	alone    bool
}

// trail returns the parts of a pass: it adds the changes that make one walk possible, and takes all lines from the first type to the
// last.
func (g kindGraph) trail(ends span) []stop {
	var lines []line
	for i, kind := range g.kinds {
		if len(g.alone[kind.wireType]) > 0 {
			lines = append(lines, line{from: i, to: i, alone: true})
		}
	}
	for i := range g.blocks {
		lines = append(lines, line{from: g.blocks[i].first, to: g.blocks[i].last, block: &g.blocks[i]})
	}
	lines = append(lines, changeLines(g.parts(ends))...)
	var stops []stop
	for _, step := range walk(lines, len(g.kinds), ends.first) {
		switch l := lines[step.line]; {
		case l.alone:
			stops = append(stops, stop{kind: g.kinds[l.from].wireType})
		case l.block != nil:
			stops = append(stops, stop{rows: l.block.rows, turned: step.turned})
		}
	}
	return stops
}

// changeLines joins the parts in a ring, and the odd points of each in pairs.
func changeLines(parts []part) []line {
	if wholeRound(parts) {
		return nil
	}
	in, out := make([]int, len(parts)), make([]int, len(parts))
	var lines []line
	for i, p := range parts {
		in[i], out[i] = p.lowest, p.lowest
		if len(p.odd) == 0 {
			continue
		}
		in[i], out[i] = p.odd[0], p.odd[len(p.odd)-1]
		for pair := range slices.Chunk(p.odd[1:len(p.odd)-1], 2) {
			lines = append(lines, line{from: pair[0], to: pair[1]})
		}
	}
	for i := range parts {
		lines = append(lines, line{from: out[i], to: in[(i+1)%len(parts)]})
	}
	return lines
}

// stride is a line as walked; the last point of a walk has none.
type stride struct {
	line   int
	turned bool // from its to to its from
}

// walk takes every line once, starting at a point from which that can be done (Hierholzer's method).
func walk(lines []line, points, start int) []stride {
	at := make([][]int, points)
	for i, l := range lines {
		at[l.from] = append(at[l.from], i)
		if l.to != l.from {
			at[l.to] = append(at[l.to], i)
		}
	}
	type visit struct {
		point int
		by    stride
	}
	taken := make([]bool, len(lines))
	open := []visit{{point: start, by: stride{line: -1}}}
	var back []stride
	for len(open) > 0 {
		here := open[len(open)-1]
		for len(at[here.point]) > 0 && taken[at[here.point][0]] {
			at[here.point] = at[here.point][1:]
		}
		if len(at[here.point]) == 0 {
			back, open = append(back, here.by), open[:len(open)-1]
			continue
		}
		i := at[here.point][0]
		taken[i] = true
		next := visit{lines[i].to, stride{line: i}}
		if lines[i].from != here.point {
			next = visit{lines[i].from, stride{line: i, turned: true}}
		}
		open = append(open, next)
	}
	slices.Reverse(back)
	return back[1:] // without the start
}
