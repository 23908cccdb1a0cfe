package plan

import (
	"math"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// facePitch is the unit of drawn faces: the pitch of rows, and the distance between rings. It is even, so that no place
// on a ring falls on half a unit: of the sines of whole fractions of a turn only 0, 1/2 and 1 are fractions themselves.
const facePitch = 10_000

// faceRow returns the picture of an insert from the wire side, without a word on what is filled.
func faceRow(c *harness.Connector) Face {
	face := Face{Kind: string(c.Face.Kind), Places: []FacePlace{}}
	switch c.Face.Kind {
	case harness.FaceRows:
		face.Places = rowPlaces(c.Face.Rows)
	case harness.FaceRings:
		face.Round = true
		face.Places = ringPlaces(c)
	case harness.FacePlaces:
		face.Places = givenPlaces(c.Face.Places)
	default:
		return face
	}
	if c.Face.MatingSide {
		for i := range face.Places {
			face.Places[i].X = -face.Places[i].X
		}
	}
	face.PitchUM = smallestDistance(face.Places)
	face.WidthUM, face.HeightUM = faceSize(face.Places, face.PitchUM)
	return face
}

// rowPlaces centres rows on each other: where counts differ by one they stand half a pitch apart.
func rowPlaces(rows [][]string) []FacePlace {
	places := []FacePlace{}
	for r, row := range rows {
		for i, cavity := range row {
			places = append(places, FacePlace{
				Cavity: cavity,
				X:      int64(2*i-(len(row)-1)) * facePitch / 2,
				Y:      int64(len(rows)-1-2*r) * facePitch / 2,
			})
		}
	}
	return places
}

// ringPlaces puts the cavities on evenly spaced circles, outermost first; an innermost ring of one is the centre.
func ringPlaces(c *harness.Connector) []FacePlace {
	places := []FacePlace{}
	rings := c.Face.Rings
	innermost := 1
	if len(rings) > 0 && rings[len(rings)-1] == 1 {
		innermost = 0
	}
	next := 0
	for ring, count := range rings {
		radius := float64((len(rings) - 1 - ring + innermost) * facePitch)
		for i := 0; i < count && next < len(c.Cavities); i++ {
			x, y := onCircle(radius, int64(c.Face.Start), i, count)
			if !c.Face.Clockwise {
				x = -x
			}
			places = append(places, FacePlace{Cavity: c.Cavities[next].Name, X: x, Y: y})
			next++
		}
	}
	return places
}

// onCircle returns place i of count on a circle, clockwise from straight up after a start angle in millidegrees. Every
// product is rounded on its own, so that a processor which fuses multiply and add gets the same whole units.
func onCircle(radius float64, start int64, i, count int) (x, y int64) {
	turned := float64((start*int64(count) + int64(i)*360_000) % (int64(count) * 360_000))
	sin, cos := math.Sincos(float64(turned*math.Pi) / float64(count*180_000))
	return int64(math.Round(float64(radius * sin))), int64(math.Round(float64(radius * cos)))
}

// givenPlaces takes places as given and moves the middle of the box round them to the centre.
func givenPlaces(given []harness.FacePlace) []FacePlace {
	places := []FacePlace{}
	if len(given) == 0 {
		return places
	}
	left, right, low, high := given[0].X, given[0].X, given[0].Y, given[0].Y
	for _, place := range given {
		left, right = min(left, place.X), max(right, place.X)
		low, high = min(low, place.Y), max(high, place.Y)
	}
	for _, place := range given {
		places = append(places, FacePlace{
			Cavity: place.Cavity, X: int64(place.X - (left+right)/2), Y: int64(place.Y - (low+high)/2),
		})
	}
	return places
}

// smallestDistance returns the distance of the nearest two places; facePitch for a single one.
func smallestDistance(places []FacePlace) int64 {
	smallest := units.Length(math.MaxInt64)
	for i, from := range places {
		for _, to := range places[:i] {
			dx, dy := units.Length(from.X-to.X), units.Length(from.Y-to.Y)
			if max(dx, -dx, dy, -dy) < smallest { // else the distance cannot be smaller
				smallest = min(smallest, units.Distance(dx, dy))
			}
		}
	}
	if smallest == math.MaxInt64 {
		return facePitch
	}
	return int64(smallest)
}

// faceSize returns width and height of the box that is centred on the face and leaves half a pitch round every place.
func faceSize(places []FacePlace, pitch int64) (width, height int64) {
	for _, place := range places {
		width = max(width, 2*max(place.X, -place.X))
		height = max(height, 2*max(place.Y, -place.Y))
	}
	return width + pitch, height + pitch
}
