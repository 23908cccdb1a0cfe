package page

// Extent returns the rectangle that an item takes on the page, line weights included: a symbol with its quiet zone, a
// text from the height of its capitals to the descent of its face.
func Extent(item Item, m Metrics) Rect {
	switch i := item.(type) {
	case Text:
		return textExtent(i, m)
	case Rule:
		return span([][2]Pt{{i.X1, i.Y1}, {i.X2, i.Y2}}).thicken(i.Weight)
	case Box:
		if i.Filled {
			return i.Rect
		}
		return i.Rect.thicken(i.Weight)
	case Disc:
		return Rect{X: i.X, Y: i.Y}.grow(i.R, i.R).thicken(i.Weight)
	case Path:
		if i.Filled {
			return span(i.Points)
		}
		return span(i.Points).thicken(i.Weight)
	case Symbol:
		return i.Quiet()
	}
	return Rect{}
}

// Start returns the left edge of a text.
func (t Text) Start(m Metrics) Pt {
	switch width := m.Width(t.Face, t.Size, t.String); t.Align {
	case Right:
		return t.X - width
	case Centre:
		return t.X - width/2
	default:
		return t.X
	}
}

func textExtent(t Text, m Metrics) Rect {
	height := m.CapHeight(t.Face, t.Size)
	return Rect{X: t.Start(m), Y: t.Y - height, W: m.Width(t.Face, t.Size, t.String), H: height + m.Descent(t.Face, t.Size)}
}

// span returns the smallest rectangle around points.
func span(points [][2]Pt) Rect {
	if len(points) == 0 {
		return Rect{}
	}
	left, top := points[0][0], points[0][1]
	right, bottom := left, top
	for _, p := range points[1:] {
		left, right = min(left, p[0]), max(right, p[0])
		top, bottom = min(top, p[1]), max(bottom, p[1])
	}
	return Rect{left, top, right - left, bottom - top}
}

func (r Rect) right() Pt  { return r.X + r.W }
func (r Rect) bottom() Pt { return r.Y + r.H }

// grow returns the rectangle with dx more on the left and right, and dy more above and below.
func (r Rect) grow(dx, dy Pt) Rect { return Rect{r.X - dx, r.Y - dy, r.W + 2*dx, r.H + 2*dy} }

// thicken returns what a line of a weight covers that runs along the rectangle.
func (r Rect) thicken(weight Pt) Rect {
	half := (weight + 1) / 2
	return r.grow(half, half)
}

// overlaps reports whether the rectangles share more than an edge.
func (r Rect) overlaps(o Rect) bool {
	return r.X < o.right() && o.X < r.right() && r.Y < o.bottom() && o.Y < r.bottom()
}

// holds reports whether o lies inside the rectangle.
func (r Rect) holds(o Rect) bool {
	return r.X <= o.X && r.Y <= o.Y && o.right() <= r.right() && o.bottom() <= r.bottom()
}

// corners returns the corners in order around the rectangle.
func (r Rect) corners() [][2]Pt {
	return [][2]Pt{{r.X, r.Y}, {r.right(), r.Y}, {r.right(), r.bottom()}, {r.X, r.bottom()}}
}

// blackens reports whether an item whose extent overlaps the rectangle puts ink inside it.
func blackens(item Item, r Rect) bool {
	switch i := item.(type) {
	case Rule:
		return crosses([2]Pt{i.X1, i.Y1}, [2]Pt{i.X2, i.Y2}, r.thicken(i.Weight))
	case Box:
		return i.Filled || outlineCrosses(i.Rect.corners(), r.thicken(i.Weight))
	case Path:
		return i.Filled || outlineCrosses(i.Points, r.thicken(i.Weight))
	case Disc:
		return ringCrosses(i, r)
	case Symbol:
		return i.Area().overlaps(r)
	}
	return true
}

// outlineCrosses reports whether an edge of a closed polygon passes through the rectangle.
func outlineCrosses(points [][2]Pt, r Rect) bool {
	for i, p := range points {
		if crosses(p, points[(i+1)%len(points)], r) {
			return true
		}
	}
	return false
}

// crosses reports whether the line from a to b passes through the inside of the rectangle.
func crosses(a, b [2]Pt, r Rect) bool {
	if max(a[0], b[0]) <= r.X || min(a[0], b[0]) >= r.right() || max(a[1], b[1]) <= r.Y || min(a[1], b[1]) >= r.bottom() {
		return false
	}
	left, right := false, false
	for _, c := range r.corners() {
		side := (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
		left = left || side < 0
		right = right || side > 0
	}
	return left && right || a == b
}

// ringCrosses reports whether the line of a circle passes through the rectangle.
func ringCrosses(d Disc, r Rect) bool {
	half := (d.Weight + 1) / 2
	nearX, nearY := max(r.X-d.X, 0, d.X-r.right()), max(r.Y-d.Y, 0, d.Y-r.bottom())
	farX, farY := max(d.X-r.X, r.right()-d.X), max(d.Y-r.Y, r.bottom()-d.Y)
	outer, inner := d.R+half, max(d.R-half, 0)
	return nearX*nearX+nearY*nearY < outer*outer && farX*farX+farY*farY > inner*inner
}
