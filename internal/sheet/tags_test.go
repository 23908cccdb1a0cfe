package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/page"
)

// drawTags draws a scatter of signs joined by strokes, with a label for each sign and each stroke.
func drawTags(t *rapid.T, most int) ([]tag, []stroke, []page.Rect) {
	place := rapid.Custom(func(t *rapid.T) point {
		return point{page.Pt(rapid.IntRange(3000, 45000).Draw(t, "x")), page.Pt(rapid.IntRange(3000, 45000).Draw(t, "y"))}
	})
	points := rapid.SliceOfN(place, 1, most).Draw(t, "points")
	var tags []tag
	var strokes []stroke
	var signs []page.Rect
	size := func() (w, h page.Pt) {
		return page.Pt(rapid.IntRange(800, 6000).Draw(t, "w")), page.Pt(rapid.IntRange(700, 2400).Draw(t, "h"))
	}
	for i, at := range points {
		w, h := size()
		tags, signs = append(tags, tag{w: w, h: h, at: at, reach: 400}), append(signs, page.Rect{X: at.x - 300, Y: at.y - 300, W: 600, H: 600})
		if i > 0 {
			s := stroke{points[rapid.IntRange(0, i-1).Draw(t, "joined to")], at}
			strokes = append(strokes, s)
			w, h = size()
			tags = append(tags, tag{w: w, h: h, at: point{(s.a.x + s.b.x) / 2, (s.a.y + s.b.y) / 2}})
		}
	}
	return tags, strokes, signs
}

// TestLabelsStandOnNothing compares every placed label with everything else on the page, pair by pair.
func TestLabelsStandOnNothing(t *testing.T) {
	area := page.Rect{W: 51000, H: 51000}
	rapid.Check(t, func(t *rapid.T) {
		tags, strokes, signs := drawTags(t, 16)
		var words []page.Rect
		for range rapid.IntRange(0, 4).Draw(t, "words") {
			words = append(words, page.Rect{X: page.Pt(rapid.IntRange(0, 45000).Draw(t, "x")), Y: page.Pt(rapid.IntRange(0, 45000).Draw(t, "y")), W: 1500, H: 1400})
		}
		spots := placeTags(tags, strokes, signs, words, area)
		require.Len(t, spots, len(tags))
		for i, s := range spots {
			if !s.placed {
				continue
			}
			require.True(t, s.X >= 0 && s.Y >= 0 && s.X+s.W <= area.W && s.Y+s.H <= area.H)
			require.Equal(t, [2]page.Pt{tags[i].w, tags[i].h}, [2]page.Pt{s.W, s.H})
			for _, sign := range signs {
				require.False(t, rectsOverlap(s.Rect, sign), "label %d on a sign", i)
			}
			for _, line := range strokes {
				require.False(t, strokeHits(line, s.Rect), "label %d on a stroke", i)
			}
			for _, word := range words {
				require.False(t, rectsOverlap(s.Rect, word), "label %d on a word", i)
				require.False(t, s.led && strokeHits(s.leader, word), "the leader of label %d through a word", i)
			}
			for k, other := range spots {
				if k != i && other.placed {
					require.False(t, rectsOverlap(s.Rect, other.Rect), "labels %d and %d", i, k)
					require.False(t, other.led && strokeHits(other.leader, s.Rect), "the leader of label %d through label %d", k, i)
				}
			}
		}
		require.Equal(t, spots, placeTags(tags, strokes, signs, words, area), "the same again")
	})
}

func TestALabelAloneStandsBesideItsSign(t *testing.T) {
	spots := placeTags([]tag{{w: 2000, h: 900, at: point{10000, 10000}, reach: 400}}, nil, []page.Rect{{X: 9700, Y: 9700, W: 600, H: 600}}, nil, page.Rect{W: 30000, H: 30000})
	require.True(t, spots[0].placed)
	require.False(t, spots[0].led)
	require.Equal(t, page.Rect{X: 10000 + 400 + tagClear*3/2, Y: 9550, W: 2000, H: 900}, spots[0].Rect)
}

func TestALabelWithoutRoomIsNotPlaced(t *testing.T) {
	spots := placeTags([]tag{{w: 2000, h: 900, at: point{500, 500}}}, nil, nil, nil, page.Rect{W: 1900, H: 5000})
	require.False(t, spots[0].placed)
}

func TestStrokesAndRectangles(t *testing.T) {
	r := page.Rect{X: 100, Y: 100, W: 200, H: 100}
	for _, one := range []struct {
		s    stroke
		hits bool
	}{{stroke{point{0, 0}, point{400, 300}}, true}, {stroke{point{150, 150}, point{160, 160}}, true}, {stroke{point{0, 250}, point{400, 250}}, false},
		{stroke{point{0, 190}, point{90, 400}}, false}, {stroke{point{0, 0}, point{50, 400}}, false}, {stroke{point{200, 0}, point{200, 400}}, true}} {
		require.Equal(t, one.hits, strokeHits(one.s, r), one.s)
	}
	require.True(t, strokesCross(stroke{point{0, 0}, point{10, 10}}, stroke{point{0, 10}, point{10, 0}}))
	require.False(t, strokesCross(stroke{point{0, 0}, point{10, 10}}, stroke{point{20, 0}, point{30, 5}}))
	require.False(t, strokesCross(stroke{point{0, 0}, point{10, 0}}, stroke{point{0, 5}, point{10, 5}}))
}

func BenchmarkTags(b *testing.B) {
	var tags []tag
	var strokes []stroke
	var signs []page.Rect
	for i := range page.Pt(60) {
		at := point{5000 + i*7919%40000, 5000 + i*104729%40000}
		tags, signs = append(tags, tag{w: 3000, h: 900, at: at, reach: 400}), append(signs, page.Rect{X: at.x - 300, Y: at.y - 300, W: 600, H: 600})
		strokes = append(strokes, stroke{at, point{at.x + 3000, at.y + 1500}})
	}
	for b.Loop() {
		placeTags(tags, strokes, signs, nil, page.Rect{W: 51000, H: 51000})
	}
}
