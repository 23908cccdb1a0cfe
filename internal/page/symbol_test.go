package page

import (
	"slices"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix/decoder"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// scanTest holds every digit.
const scanTest = "X0123456789012345678919"

// symbolString draws a string that symbols hold.
func symbolString(t *rapid.T) string {
	return rapid.StringMatching(`[CPTHKRXG][0-9]{22}`).Draw(t, "string")
}

func TestModulesRefuseOtherText(t *testing.T) {
	for _, text := range []string{
		"", "X", scanTest[:22], scanTest + "0", strings.ToLower(scanTest), "A" + scanTest[1:], " " + scanTest[1:], scanTest + "\n",
		"C12345678901234567890-2", "Cñ234567890123456789012", "C٠234567890123456789012",
	} {
		for _, s := range []Symbology{DataMatrix, Code128} {
			_, err := Modules(s, text)
			require.ErrorContains(t, err, "a symbol holds one letter of CPTHKRXG and 22 digits", "%q", text)
		}
	}
	_, err := Modules("maxi", scanTest)
	require.EqualError(t, err, `there is no symbology "maxi"`)
}

// TestModulesReadBack reads the grids with a decoder of another project.
func TestModulesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := symbolString(t)

		matrix, err := Modules(DataMatrix, text)
		require.NoError(t, err)
		require.Len(t, matrix, 16)
		read, err := decoder.NewDecoder().Decode(bitMatrix(t, matrix, 0, 1))
		require.NoError(t, err)
		require.Equal(t, text, read.GetText())

		bars, err := Modules(Code128, text)
		require.NoError(t, err)
		require.Len(t, bars, 1)
		require.Len(t, bars[0], 178)
		bits := bitMatrix(t, bars, 10, 20)
		row := bits.GetRow(10, gozxing.NewBitArray(bits.GetWidth()))
		line, err := oned.NewCode128Reader().(oned.RowDecoder).DecodeRow(10, row, nil)
		require.NoError(t, err)
		require.Equal(t, text, line.GetText())
	})
}

// bitMatrix gives a grid to the decoder, with white on both sides and every row repeated.
func bitMatrix(t require.TestingT, grid Grid, quiet, rows int) *gozxing.BitMatrix {
	bits, err := gozxing.NewBitMatrix(len(grid[0])+2*quiet, len(grid)*rows)
	require.NoError(t, err)
	for y := range len(grid) * rows {
		for x, dark := range grid[y/rows] {
			if dark {
				bits.Set(x+quiet, y)
			}
		}
	}
	return bits
}

// cover marks, cell by cell of a hundredth of a point, which rectangles paint it.
type cover struct {
	width, height int
	cells         [][]int // rectangles by cell
}

func paintRects(rects []Rect, width, height Pt) cover {
	c := cover{int(width), int(height), make([][]int, width*height)}
	for i, r := range rects {
		for y := r.Y; y < r.bottom(); y++ {
			for x := r.X; x < r.right(); x++ {
				c.cells[y*width+x] = append(c.cells[y*width+x], i)
			}
		}
	}
	return c
}

func (c cover) at(x, y int) []int { return c.cells[y*c.width+x] }

// eroded reports whether a cell belongs to the dark modules less the inset, by the definition: everything within the
// inset around it is dark.
func eroded(grid Grid, module, x, y int) bool {
	d := int(inset)
	for _, cy := range []int{y - d, y + d} {
		for _, cx := range []int{x - d, x + d} {
			if cx < 0 || cy < 0 || cy/module >= len(grid) || cx/module >= len(grid[0]) || !grid[cy/module][cx/module] {
				return false
			}
		}
	}
	return true
}

// TestMatrixRectsAreTheErodedSymbol paints the rectangles of any grid and compares cell by cell. The module here is
// larger than two insets, so the four corners of the surrounding square decide for the whole of it.
func TestMatrixRectsAreTheErodedSymbol(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.IntRange(1, 6).Draw(t, "side")
		module := rapid.IntRange(14, 21).Draw(t, "module")
		grid := make(Grid, side)
		for y := range grid {
			grid[y] = rapid.SliceOfN(rapid.Bool(), side, side).Draw(t, "row")
		}
		rects := append(rowRects(grid, Pt(module)), joints(grid, Pt(module))...)
		painted := paintRects(rects, Pt(side*module), Pt(side*module))
		for y := range painted.height {
			for x := range painted.width {
				require.Equal(t, eroded(grid, module, x, y), len(painted.at(x, y)) > 0, "cell %d, %d", x, y)
			}
		}
		requireNoSeams(t, painted)
	})
}

// requireNoSeams asks that neighbouring painted cells are painted by one rectangle in common: then no two rectangles
// merely meet anywhere.
func requireNoSeams(t require.TestingT, c cover) {
	shared := func(a, b []int) bool {
		return slices.ContainsFunc(a, func(i int) bool { return slices.Contains(b, i) })
	}
	for y := range c.height {
		for x := range c.width {
			here := c.at(x, y)
			if x+1 < c.width && len(here) > 0 && len(c.at(x+1, y)) > 0 {
				require.True(t, shared(here, c.at(x+1, y)), "seam right of cell %d, %d", x, y)
			}
			if y+1 < c.height && len(here) > 0 && len(c.at(x, y+1)) > 0 {
				require.True(t, shared(here, c.at(x, y+1)), "seam below cell %d, %d", x, y)
			}
		}
	}
}

// TestSymbolRectsGiveTheGridBack reads whole symbols back from their rectangles, at the module sizes in use.
func TestSymbolRectsGiveTheGridBack(t *testing.T) {
	for _, module := range []Pt{96, 120, 106} {
		s := Symbol{Symbology: DataMatrix, Module: module, String: scanTest}
		rects, err := s.Rects()
		require.NoError(t, err)
		grid, err := Modules(DataMatrix, scanTest)
		require.NoError(t, err)
		require.Equal(t, grid, sampled(rects, module, 16, 16))
	}
	for _, module := range []Pt{72, 96, 120} {
		s := Symbol{Symbology: Code128, Module: module, Height: 1560, String: scanTest}
		rects, err := s.Rects()
		require.NoError(t, err)
		grid, err := Modules(Code128, scanTest)
		require.NoError(t, err)
		require.Equal(t, grid, sampled(rects, module, 178, 1))
		for _, r := range rects {
			require.Equal(t, Pt(0), r.Y)
			require.Equal(t, Pt(1560), r.H)
			require.Equal(t, inset, r.X%module)
			require.Equal(t, module-inset, r.right()%module)
		}
	}
}

// sampled returns what rectangles paint in the middle of every module.
func sampled(rects []Rect, module Pt, columns, rows int) Grid {
	grid := make(Grid, rows)
	for y := range grid {
		for x := range columns {
			middle := Rect{Pt(x)*module + module/2, Pt(y)*module + module/2, 1, 1}
			grid[y] = append(grid[y], slices.ContainsFunc(rects, middle.overlaps))
		}
	}
	return grid
}

// TestMatrixRectsAreFew: some 70 rectangles, against 256 modules.
func TestMatrixRectsAreFew(t *testing.T) {
	rects, err := Symbol{Symbology: DataMatrix, Module: 120, String: scanTest}.Rects()
	require.NoError(t, err)
	require.Less(t, len(rects), 120)
}

func TestRectsRefuseImpossibleSizes(t *testing.T) {
	for _, s := range []Symbol{
		{Symbology: DataMatrix, Module: 13, String: scanTest},
		{Symbology: Code128, Module: 72, String: scanTest},
		{Symbology: Code128, Module: -72, Height: 100, String: scanTest},
	} {
		_, err := s.Rects()
		require.ErrorContains(t, err, "cannot be drawn")
	}
	_, err := Symbol{Symbology: DataMatrix, Module: 120, String: "J1:1"}.Rects()
	require.ErrorContains(t, err, `not "J1:1"`)
}

func TestQuietZones(t *testing.T) {
	matrix := Symbol{X: 1000, Y: 2000, Symbology: DataMatrix, Module: 120, Height: 77, String: scanTest}
	require.Equal(t, Rect{1000, 2000, 1920, 1920}, matrix.Area())
	require.Equal(t, Rect{880, 1880, 2160, 2160}, matrix.Quiet())
	bars := Symbol{X: 1000, Y: 2000, Symbology: Code128, Module: 72, Height: 1600, String: scanTest}
	require.Equal(t, Rect{1000, 2000, 178 * 72, 1600}, bars.Area())
	require.Equal(t, Rect{280, 1928, 198 * 72, 1744}, bars.Quiet())
}

func BenchmarkRects(b *testing.B) {
	for _, s := range []Symbol{
		{Symbology: DataMatrix, Module: 120, String: scanTest},
		{Symbology: Code128, Module: 72, Height: 1600, String: scanTest},
	} {
		b.Run(string(s.Symbology), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, err := s.Rects()
				require.NoError(b, err)
			}
		})
	}
}
