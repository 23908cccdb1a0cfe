package sheet

import (
	"math"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// Sizes around the circles of a face.
const (
	faceRing  = page.Point * 18 / 10 // a wire goes here
	facePlug  = page.Point * 8 / 10  // dashed
	faceClear = page.Point           // between the edges of two circles, and between a label and its circle
)

const (
	faceMargin page.Pt = 283  // 1 mm: from the outer circles to the outline
	faceKey    page.Pt = 794  // 2.8 mm: the key stands this far out of the outline
	faceTitle  page.Pt = 1701 // 6 mm: height of the words above it
	faceLine   page.Pt = 1701 // 6 mm: height of a line of its legend

)

// facePicture is a face at a scale where its labels can be read.
type facePicture struct {
	face          plan.Face
	label         page.Pt // type size
	radius        page.Pt // of a circle
	pitch         page.Pt // distance on paper of the two nearest places
	width, height page.Pt // of the outline
}

// fitFace returns the face at the largest type size, 14 to 7 pt, at which it fits into width and height.
// The circles are as large as the nearest two places allow.
func (l *pinList) fitFace(face plan.Face, width, height page.Pt) (facePicture, bool) {
	for size := 14 * page.Point; size >= 7*page.Point; size -= page.Point / 2 {
		picture := l.faceAt(face, size)
		if picture.width <= width && l.faceHeight(picture, width) <= height {
			return picture, true
		}
	}
	return facePicture{}, false
}

// faceAt returns the picture whose labels have the given type size.
func (p *pen) faceAt(face plan.Face, size page.Pt) facePicture {
	label := p.labelRadius(face, size)
	picture := facePicture{face: face, label: size, radius: label + faceClear + faceRing/2}
	picture.pitch = 2*picture.radius + faceRing + faceClear
	right, up, far := int64(0), int64(0), int64(0)
	for _, place := range face.Places {
		right, up = max(right, abs(place.X)), max(up, abs(place.Y))
		far = max(far, squareRoot(place.X*place.X+place.Y*place.Y))
	}
	if face.Round {
		right, up = far, far
	}
	edge := picture.radius + faceRing/2 + faceMargin
	picture.width = 2 * (picture.onPaper(right) + edge)
	picture.height = 2 * (picture.onPaper(up) + edge)
	return picture
}

// labelRadius returns the radius of the circle that holds every cavity name of the face.
func (p *pen) labelRadius(face plan.Face, size page.Pt) page.Pt {
	widest, tall := page.Pt(0), p.metrics.CapHeight(page.MonoBold, size)
	low := false
	for _, place := range face.Places {
		widest = max(widest, p.width(style{page.MonoBold, size}, place.Cavity))
		low = low || strings.ContainsAny(place.Cavity, descending)
	}
	if low {
		tall += 2 * p.metrics.Descent(page.MonoBold, size)
	}
	return page.Pt(squareRoot(int64(widest)*int64(widest)+int64(tall)*int64(tall))) / 2
}

// descending holds the characters of names that reach below the base line.
const descending = "gjpqyJQ_/,;()"

// onPaper scales a distance of the drawing. A face of one place has no pitch and needs no scale.
func (f facePicture) onPaper(distance int64) page.Pt {
	if f.face.PitchUM == 0 {
		return 0
	}
	sign := int64(1)
	if distance < 0 {
		sign, distance = -1, -distance
	}
	return page.Pt(sign * ((distance*int64(f.pitch) + f.face.PitchUM - 1) / f.face.PitchUM))
}

func abs(x int64) int64 { return max(x, -x) }

// squareRoot returns the square root, rounded up.
func squareRoot(square int64) int64 {
	root := int64(math.Sqrt(float64(square)))
	for root*root > square {
		root--
	}
	for root*root < square {
		root++
	}
	return root
}

// faceHeight returns the height of a face with its words, its key and its legend.
func (l *pinList) faceHeight(f facePicture, width page.Pt) page.Pt {
	height := faceTitle + faceKey + f.height + mm(1) + page.Pt(len(l.legendLines(l.connector.Counts, width)))*faceLine
	if l.connector.Key == "down" {
		height += faceKey
	}
	return height
}

// faceBlock prints a face with the words above and below it, and returns the y below them.
func (l *pinList) faceBlock(f facePicture, x, y, width page.Pt) page.Pt {
	middle := x + width/2
	l.centre(middle, y+mm10(36), bold(11), width, l.say("pins.wire_side"))
	top := y + faceTitle + faceKey
	l.drawFace(f, l.connector.Cavities, middle, top+f.height/2)
	l.drawKey(f, l.connector.Key, middle, top+f.height/2)
	bottom := y + l.faceHeight(f, width)
	lines := l.legendLines(l.connector.Counts, width)
	for i, line := range lines {
		l.faceLegend(middle, bottom-page.Pt(len(lines)-i)*faceLine, line)
	}
	return bottom
}

// drawFace draws the outline around a centre, and the cavities with their names.
func (p *pen) drawFace(f facePicture, cavities []plan.Cavity, x, y page.Pt) {
	if f.face.Round {
		p.items = append(p.items, page.Disc{X: x, Y: y, R: f.width / 2, Weight: groupRule * 3 / 2})
	} else {
		p.box(x-f.width/2, y-f.height/2, f.width, f.height, groupRule*3/2)
	}
	from, fills := len(p.items), map[string]plan.Fill{}
	for _, c := range cavities {
		fills[c.Name] = c.Fill
	}
	defer func() { p.drawn(from) }()
	for _, place := range f.face.Places {
		at, up := x+f.onPaper(place.X), y-f.onPaper(place.Y)
		p.faceShape(at, up, f.radius, fills[place.Cavity])
		s := style{page.Mono, f.label}
		if wired(fills[place.Cavity]) {
			s.face = page.MonoBold
		}
		p.centre(at, up+p.metrics.CapHeight(s.face, s.size)/2, s, 2*f.radius, place.Cavity)
	}
}

// faceShape draws what tells cavities apart: a heavy ring, a dashed ring, no ring.
func (p *pen) faceShape(x, y, radius page.Pt, fill plan.Fill) {
	switch {
	case wired(fill):
		p.items = append(p.items, page.Disc{X: x, Y: y, R: radius, Weight: faceRing})
	case sealed(fill):
		p.items = append(p.items, page.Disc{X: x, Y: y, R: radius, Weight: facePlug, Dash: []page.Pt{2 * page.Point, 2 * page.Point}})
	}
}

func wired(f plan.Fill) bool { return f == plan.FillWire || f == plan.FillShared }

// empty reports whether nothing goes into a cavity in this job.
func empty(f plan.Fill) bool { return f == plan.FillOpen || f == plan.FillLoose }

func sealed(f plan.Fill) bool { return f == plan.FillSeal || f == plan.FillContactAndSeal }

// drawKey marks the key on the outline. Only up and down look the same from both sides of a connector;
// every other place stands in words alone, since a mark on the wrong side misleads.
func (p *pen) drawKey(f facePicture, key string, x, y page.Pt) {
	words := p.keyWords(key)
	edge := y - f.height/2
	base := edge - mm10(14)
	switch key {
	case "":
		return
	case "up":
		edge -= faceKey - mm10(6)
	case "down":
		edge = y + f.height/2 - mm10(6)
		base = y + f.height/2 + mm10(38)
	default:
		p.centre(x, base, regular(10), faceColumn, words)
		return
	}
	p.items = append(p.items, page.Box{Rect: page.Rect{X: x - mm(3), Y: edge, W: mm(6), H: faceKey}, Filled: true})
	p.text(x+mm10(42), base, regular(10), faceColumn/2-mm10(42), words)
}

// legendEntry explains one shape.
type legendEntry struct {
	fill  plan.Fill
	words string
}

const (
	legendGap    page.Pt = 1417 // 5 mm: between two entries
	legendRadius page.Pt = 624  // 2.2 mm
)

// legendLines returns what the shapes of the face mean, those alone that it has, in lines that fit into width.
func (p *pen) legendLines(n plan.CavityCounts, width page.Pt) [][]legendEntry {
	var entries []legendEntry
	for i, count := range []int{n.Wired, n.Sealed, n.Open} {
		if count > 0 {
			entries = append(entries, []legendEntry{{plan.FillWire, p.say("pins.wire_here")}, {plan.FillSeal, p.say("pins.sealing_plug")},
				{plan.FillOpen, p.say("pins.stays_open")}}[i])
		}
	}
	var lines [][]legendEntry
	for _, e := range entries {
		if last := len(lines) - 1; last >= 0 && p.shapesWidth(append(lines[last], e)) <= width {
			lines[last] = append(lines[last], e)
			continue
		}
		lines = append(lines, []legendEntry{e})
	}
	return lines
}

func (p *pen) shapesWidth(entries []legendEntry) page.Pt {
	width := -legendGap
	for _, e := range entries {
		width += legendLead(e.fill) + p.width(medium(10), e.words) + legendGap
	}
	return width
}

// legendLead returns the room that the shape takes before its words.
func legendLead(fill plan.Fill) page.Pt {
	if fill == plan.FillOpen {
		return 0
	}
	return 2*legendRadius + mm10(18)
}

// faceLegend prints a line of the legend around middle.
func (p *pen) faceLegend(middle, y page.Pt, entries []legendEntry) {
	x := middle - p.shapesWidth(entries)/2
	for _, e := range entries {
		p.faceShape(x+legendRadius, y+mm10(30), legendRadius, e.fill)
		width := p.width(medium(10), e.words)
		p.text(x+legendLead(e.fill), y+mm10(42), medium(10), width, e.words)
		x += legendLead(e.fill) + width + legendGap
	}
}
