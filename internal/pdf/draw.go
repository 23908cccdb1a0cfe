package pdf

import (
	"errors"
	"fmt"

	"github.com/signintech/gopdf"

	"loomleaf/internal/page"
)

// canvas draws the items of one page in their order. Texts go through the library; everything else is collected as path
// operators, which go out together before the next text.
type canvas struct {
	file    *gopdf.GoPdf
	metrics page.Metrics
	height  page.Pt // of the paper: PDF counts from the lower edge
	shapes  operators
}

// drawPage adds a page to the file.
func drawPage(file *gopdf.GoPdf, height page.Pt, p page.Page, metrics page.Metrics) error {
	items := p.Items()
	if len(items) == 0 {
		return errors.New("there is nothing on it")
	}
	file.AddPage()
	// Every page starts with a state of its own and the library repeats none of it. Texts take the fill colour.
	file.SetGrayFill(0)
	file.SetGrayStroke(0)
	c := canvas{file: file, metrics: metrics, height: height}
	for _, item := range items {
		if err := c.draw(item); err != nil {
			return err
		}
	}
	return c.flush()
}

func (c *canvas) draw(item page.Item) error {
	switch i := item.(type) {
	case page.Text:
		return c.text(i)
	case page.Rule:
		c.rule(i)
	case page.Box:
		c.box(i)
	case page.Disc:
		c.disc(i)
	case page.Path:
		return c.path(i)
	case page.Symbol:
		return c.symbol(i)
	default:
		return fmt.Errorf("an item of no known kind, %T", item)
	}
	return nil
}

func (c *canvas) text(t page.Text) error {
	if t.Size <= 0 {
		return fmt.Errorf("the text %q has no size", t.String)
	}
	if r, missing := c.metrics.Missing(t.Face, t.String); missing {
		return fmt.Errorf("the character %q (U+%04X) of %q cannot be printed in %s", r, r, t.String, t.Face)
	}
	if err := c.flush(); err != nil {
		return err
	}
	if err := c.file.SetFont(string(t.Face), "", points(t.Size)); err != nil {
		return fmt.Errorf("face %s of %q: %w", t.Face, t.String, err)
	}
	// The library joins texts on one line unless the place is set before each.
	c.file.SetXY(points(t.Start(c.metrics)), points(t.Y))
	return c.file.Text(t.String)
}

// flush sends the collected operators. The library has no call for paths, but writes the paint style of a rectangle as it
// is; "n" drops the rectangle itself, so that only the operators behind it paint. It sets q before and Q after them.
func (c *canvas) flush() error {
	if len(c.shapes) == 0 {
		return nil
	}
	style := gopdf.PaintStyle("n\n" + string(c.shapes))
	c.shapes = c.shapes[:0]
	return c.file.RectFromUpperLeftWithOpts(gopdf.DrawableRectOptions{PaintStyle: style})
}

// up turns a distance from the upper edge into one from the lower edge.
func (c *canvas) up(y page.Pt) page.Pt { return c.height - y }

func (c *canvas) rule(r page.Rule) {
	c.shapes.pen(r.Weight, r.Dash)
	c.shapes.op("m", r.X1, c.up(r.Y1))
	c.shapes.op("l", r.X2, c.up(r.Y2))
	c.shapes.op("S")
}

func (c *canvas) box(b page.Box) {
	if !b.Filled {
		c.shapes.pen(b.Weight, nil)
	}
	c.shapes.op("re", b.X, c.up(b.Y+b.H), b.W, b.H)
	c.shapes.op(paint(b.Filled))
}

// disc draws a circle as four curves.
func (c *canvas) disc(d page.Disc) {
	// Control points at 0.5523 of the radius keep the curve within 0.03 % of a circle (derived: 4/3 (sqrt 2 - 1)).
	reach := d.R * 5523 / 10000
	x, y := d.X, c.up(d.Y)
	c.shapes.pen(d.Weight, d.Dash)
	c.shapes.op("m", x+d.R, y)
	c.shapes.op("c", x+d.R, y+reach, x+reach, y+d.R, x, y+d.R)
	c.shapes.op("c", x-reach, y+d.R, x-d.R, y+reach, x-d.R, y)
	c.shapes.op("c", x-d.R, y-reach, x-reach, y-d.R, x, y-d.R)
	c.shapes.op("c", x+reach, y-d.R, x+d.R, y-reach, x+d.R, y)
	c.shapes.op("s")
}

func (c *canvas) path(p page.Path) error {
	if len(p.Points) < 3 {
		return fmt.Errorf("a polygon of %d points", len(p.Points))
	}
	if !p.Filled {
		c.shapes.pen(p.Weight, nil)
	}
	operator := "m"
	for _, point := range p.Points {
		c.shapes.op(operator, point[0], c.up(point[1]))
		operator = "l"
	}
	c.shapes.op("h")
	c.shapes.op(paint(p.Filled))
	return nil
}

// symbol draws a symbol as one path. Its rectangles are whole hundredths of a point from its upper left corner: one
// matrix moves, scales and turns them over, so that no edge is rounded.
func (c *canvas) symbol(s page.Symbol) error {
	rects, err := s.Rects()
	if err != nil {
		return err
	}
	c.shapes.op("q")
	c.shapes = append(c.shapes, "0.01 0 0 -0.01 "...)
	c.shapes.op("cm", s.X, c.up(s.Y))
	for _, r := range rects {
		c.shapes.whole("re", r.X, r.Y, r.W, r.H)
	}
	c.shapes.op("f")
	c.shapes.op("Q")
	return nil
}

// paint returns the operator that fills or outlines a path.
func paint(filled bool) string {
	if filled {
		return "f"
	}
	return "S"
}
