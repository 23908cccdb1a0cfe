package sheet

import (
	"fmt"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// mapTile is the part of the board on one page, with its labels once they are placed.
type mapTile struct {
	name        string // "B2": column and row from the lower left; "" where one page holds all
	column, row int
	scale       int64      // in tenths
	left, low   int64      // of the part of the board, in micrometres
	width, high int64      // of the part of the board
	last        [2]bool    // no tile stands to the right, above
	labels      []mapLabel // in the order of placing
	spots       []spot
}

// tilesAt cuts the board into tiles, from the lower left on, row by row from the top.
func (b *boardMap) tilesAt(scale int64) []mapTile {
	board, window := b.plan.Board, mapWindow()
	wide, high := boardUM(window.W, scale), boardUM(window.H, scale)
	right, top := board.WidthUM, board.HeightUM
	for _, n := range board.Nodes { // a board whose size is not given is as large as its nodes ask for
		right, top = max(right, n.XUM), max(top, n.YUM)
	}
	columns, rows := (right+wide-1)/wide, (top+high-1)/high
	columns, rows = max(columns, 1), max(rows, 1)
	if columns*rows > mostTiles {
		return make([]mapTile, mostTiles+1)
	}
	wide, high = (right+columns-1)/columns, (top+rows-1)/rows // share the board evenly
	var tiles []mapTile
	for row := rows - 1; row >= 0; row-- {
		for column := range columns {
			t := mapTile{column: int(column), row: int(row), scale: scale, left: column * wide, low: row * high, width: max(wide, 1), high: max(high, 1),
				last: [2]bool{column == columns-1, row == rows-1}}
			if columns*rows > 1 {
				t.name = tileName(t.column, t.row)
			}
			tiles = append(tiles, t)
		}
	}
	return tiles
}

// tileName names a tile by a letter for its column and a number for its row, from the lower left: "B2".
func tileName(column, row int) string {
	letters := string(rune('A' + column%26))
	if column >= 26 {
		letters = string(rune('A'+column/26-1)) + letters
	}
	return fmt.Sprintf("%s%d", letters, row+1)
}

// boardUM returns what a distance on paper is on the board; the scale is in tenths.
func boardUM(p page.Pt, scale int64) int64 { return int64(p) * 25400 * scale / 72000 }

// paper returns what a distance on the board is on paper.
func (t *mapTile) paper(um int64) page.Pt { return page.Pt((um*72000/t.scale + 12700) / 25400) }

// corner is the upper left corner of the tile's part of the board on the page: in the middle of the drawing.
func (t *mapTile) corner() point {
	area := mapArea()
	return point{area.X + (area.W-t.paper(t.width))/2, area.Y + (area.H-t.paper(t.high))/2}
}

// at returns where a place of the board stands on the page.
func (t *mapTile) at(x, y int64) point {
	c := t.corner()
	return point{c.x + t.paper(x-t.left), c.y + t.paper(t.low+t.high-y)}
}

// holds reports whether a place of the board belongs to the tile: on an edge between two, to the one right of it and above.
func (t *mapTile) holds(x, y int64) bool {
	return x >= t.left && y >= t.low && (x < t.left+t.width || t.last[0]) && (y < t.low+t.high || t.last[1])
}

// clip returns the part of a line on the board that lies in the tile, and which of its ends are cut off; false where it lies outside.
func (t *mapTile) clip(a, b plan.BoardNode) (line [4]int64, cut [2]bool, inside bool) {
	if a.XUM == b.XUM && a.XUM == t.left+t.width && !t.last[0] || a.YUM == b.YUM && a.YUM == t.low+t.high && !t.last[1] {
		return line, cut, false // along the edge: the next tile holds it
	}
	from, to := float64(0), float64(1)
	dx, dy := float64(b.XUM-a.XUM), float64(b.YUM-a.YUM)
	for _, edge := range [4][2]float64{{-dx, float64(a.XUM - t.left)}, {dx, float64(t.left + t.width - a.XUM)},
		{-dy, float64(a.YUM - t.low)}, {dy, float64(t.low + t.high - a.YUM)}} {
		switch {
		case edge[0] == 0 && edge[1] < 0:
			return line, cut, false
		case edge[0] < 0:
			from = max(from, edge[1]/edge[0])
		case edge[0] > 0:
			to = min(to, edge[1]/edge[0])
		}
	}
	if from >= to && (dx != 0 || dy != 0) {
		return line, cut, false
	}
	x, y := float64(a.XUM), float64(a.YUM)
	line = [4]int64{int64(x + float64(dx*from)), int64(y + float64(dy*from)), int64(x + float64(dx*to)), int64(y + float64(dy*to))}
	return line, [2]bool{from > 0, to < 1}, true
}

// placeAll finds room for the labels of all tiles; false where one finds none.
func (b *boardMap) placeAll(tiles []mapTile) bool {
	for i := range tiles {
		t := &tiles[i]
		var tags []tag
		t.labels = b.labelsOf(t)
		for _, l := range t.labels {
			tags = append(tags, l.tag)
		}
		t.spots = placeTags(tags, b.strokesOf(t), b.signsOf(t), nil, mapArea())
		for _, s := range t.spots {
			if !s.placed {
				return false
			}
		}
	}
	return true
}
