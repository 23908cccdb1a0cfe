package page

import (
	"fmt"
	"image/color"
	"regexp"
	"slices"

	"github.com/boombuler/barcode"
	"github.com/boombuler/barcode/code128"
	"github.com/boombuler/barcode/datamatrix"
)

// Grid is a symbol as modules, rows from the top, true for dark. A linear symbol has one row.
type Grid [][]bool

const (
	matrixModules = 16  // side of the Data Matrix that holds 12 codewords (ISO/IEC 16022, by a secondary source)
	barModules    = 178 // a letter and 22 digits in Code 128: 11 modules a character, 13 for the stop

	// inset is taken off every dark edge, so that a printer which blackens every dot it touches does not close the gaps.
	inset Pt = 6

	matrixQuiet   = 1  // modules around a Data Matrix (ISO/IEC 16022, by a secondary source)
	barQuiet      = 10 // modules left and right of a Code 128 (ISO/IEC 15417, by a secondary source)
	barQuietAbove = 1  // modules above and below a Code 128: common practice, so that no rule grows onto the bars
)

// symbolText is the one form of string that symbols hold. The library would draw other text too, some of it wrongly.
var symbolText = regexp.MustCompile(`^[CPTHKRXG][0-9]{22}$`)

// Modules returns the modules of a symbol: 16 x 16 for a Data Matrix, one row of 178 for a Code 128. The text must be a
// letter of CPTHKRXG and 22 digits.
func Modules(s Symbology, text string) (Grid, error) {
	if !symbolText.MatchString(text) {
		return nil, fmt.Errorf("a symbol holds one letter of CPTHKRXG and 22 digits, not %q", text)
	}
	var code barcode.Barcode
	var err error
	width, height := matrixModules, matrixModules
	switch s {
	case DataMatrix:
		code, err = datamatrix.Encode(text)
	case Code128:
		code, err = code128.Encode(text)
		width, height = barModules, 1
	default:
		return nil, fmt.Errorf("there is no symbology %q", s)
	}
	if err != nil {
		return nil, fmt.Errorf("%s of %q: %w", s, text, err)
	}
	if size := code.Bounds().Size(); size.X != width || size.Y != height {
		return nil, fmt.Errorf("%s of %q has %d x %d modules, not %d x %d", s, text, size.X, size.Y, width, height)
	}
	return readGrid(code), nil
}

func readGrid(code barcode.Barcode) Grid {
	size := code.Bounds().Size()
	grid := make(Grid, size.Y)
	for y := range grid {
		grid[y] = make([]bool, size.X)
		for x := range grid[y] {
			grid[y][x] = code.At(x, y) == color.Black
		}
	}
	return grid
}

// Area returns the symbol without its quiet zone. It is empty for an unknown symbology.
func (s Symbol) Area() Rect {
	switch s.Symbology {
	case DataMatrix:
		return Rect{s.X, s.Y, matrixModules * s.Module, matrixModules * s.Module}
	case Code128:
		return Rect{s.X, s.Y, barModules * s.Module, s.Height}
	}
	return Rect{X: s.X, Y: s.Y}
}

// Quiet returns the symbol with the quiet zone that must stay white around it.
func (s Symbol) Quiet() Rect {
	if s.Symbology == Code128 {
		return s.Area().grow(barQuiet*s.Module, barQuietAbove*s.Module)
	}
	return s.Area().grow(matrixQuiet*s.Module, matrixQuiet*s.Module)
}

// Rects returns the black rectangles of the symbol, relative to its upper left corner. Together they are the dark
// modules less the inset on every edge. Touching modules are joined by rectangles that overlap, never by ones that
// merely meet: those would show a white seam.
func (s Symbol) Rects() ([]Rect, error) {
	grid, err := s.grid()
	if err != nil {
		return nil, err
	}
	if s.Symbology == Code128 {
		return bars(grid[0], s.Module, s.Height), nil
	}
	return append(rowRects(grid, s.Module), joints(grid, s.Module)...), nil
}

// grid returns the modules of a symbol that can be drawn.
func (s Symbol) grid() (Grid, error) {
	// Less would leave nothing of a module for a joint to overlap.
	if s.Module/2 <= inset || s.Symbology == Code128 && s.Height <= 0 {
		return nil, fmt.Errorf("%s of %q with modules of %v pt and bars of %v pt cannot be drawn", s.Symbology, s.String, s.Module, s.Height)
	}
	return Modules(s.Symbology, s.String)
}

// bars returns one rectangle a bar, inset left and right.
func bars(row []bool, module, height Pt) []Rect {
	var rects []Rect
	for _, r := range darkRuns(row) {
		rects = append(rects, Rect{X: r.from(module), W: r.width(module), H: height})
	}
	return rects
}

// rowRects returns one rectangle a dark run of a row, inset on all four sides.
func rowRects(grid Grid, module Pt) []Rect {
	var rects []Rect
	for y, row := range grid {
		for _, r := range darkRuns(row) {
			rects = append(rects, Rect{r.from(module), Pt(y)*module + inset, r.width(module), module - 2*inset})
		}
	}
	return rects
}

// joints returns the rectangles that join neighbouring rows, from mid row to mid row, where both are dark. A run that
// goes on unchanged over several rows is one rectangle.
func joints(grid Grid, module Pt) []Rect {
	var rects []Rect
	for y := 1; y < len(grid); y++ {
		open := len(rects) // joints from here on belong to this pair of rows
		for _, r := range darkRuns(both(grid[y-1], grid[y])) {
			joint := Rect{r.from(module), Pt(y-1)*module + module/2, r.width(module), module}
			above := slices.IndexFunc(rects[:open], func(o Rect) bool {
				return o.X == joint.X && o.W == joint.W && o.bottom() == joint.Y
			})
			if above < 0 {
				rects = append(rects, joint)
				continue
			}
			rects[above].H += module
		}
	}
	return rects
}

// run is a stretch of dark modules in a row, from start up to but without end.
type run struct{ start, end int }

func (r run) from(module Pt) Pt  { return Pt(r.start)*module + inset }
func (r run) width(module Pt) Pt { return Pt(r.end-r.start)*module - 2*inset }

func darkRuns(row []bool) []run {
	var runs []run
	for x, dark := range row {
		switch {
		case !dark:
		case x > 0 && row[x-1]:
			runs[len(runs)-1].end = x + 1
		default:
			runs = append(runs, run{x, x + 1})
		}
	}
	return runs
}

func both(a, b []bool) []bool {
	row := make([]bool, len(a))
	for i := range row {
		row[i] = a[i] && b[i]
	}
	return row
}
