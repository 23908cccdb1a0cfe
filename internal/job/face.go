package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// mostRings bounds the rings of a face.
const mostRings = 100

// readFace reads how the cavities stand on the insert: one of rows, rings and places, or nothing but an order.
func readFace(t *table) harness.Face {
	face := harness.Face{Origin: *t.origin}
	kind := t.word("face", "drawing", "schematic")
	given := 0
	for _, layout := range []string{"rows", "rings", "places"} {
		if t.has(layout) {
			given++
			face.At = t.origin.Of(layout)
		}
	}
	at := t.origin.Of("face")
	switch {
	case kind == "" && t.has("face"): // reported already
	case given > 1:
		t.fault(badFace, "face", face.At, "leave one of rows, rings and places", "the face is described in %d ways", given)
	case kind == "drawing" && given == 0:
		t.fault(badFace, "face", at, "add rows, rings or places as the drawing of the insert shows them", "a drawing has no rows, rings or places")
	case kind == "schematic" && given > 0:
		t.fault(badFace, "face", at, `write "drawing" where they are those of the insert, or take them out`, "a schematic face shows an order only")
	case kind == "" && given > 0:
		t.fault(badFace, "face", face.At, `write face = "drawing" if this is how the insert looks`, "the job does not say that this is a drawing")
	}
	readLayout(t, &face)
	if face.Kind == harness.FaceRings && t.has("seen_from") {
		t.fault(badFace, "seen_from", t.origin.Of("seen_from"), "write it into rings = { ... }", "it stands outside the rings")
	}
	return face
}

func readLayout(t *table, face *harness.Face) {
	switch {
	case t.has("rings"):
		face.Kind = harness.FaceRings
		readRings(t.inner("rings"), face)
	case t.has("rows"):
		face.Kind = harness.FaceRows
		face.Rows = readRows(t)
	case t.has("places"):
		face.Kind = harness.FacePlaces
		face.Places = readPlaces(t.inner("places"))
	}
	if face.Kind == harness.FaceRows || face.Kind == harness.FacePlaces {
		t.require("seen_from")
	}
	if face.Kind != harness.FaceRings {
		face.MatingSide = seenFromMatingSide(t)
	}
}

func seenFromMatingSide(t *table) bool {
	return t.word("seen_from", "mating side", "wire side") == "mating side"
}

func readRings(t *table, face *harness.Face) {
	if t == nil {
		return
	}
	t.require("counts", "start", "direction", "seen_from")
	items := t.filled("counts")
	if len(items) > mostRings {
		t.fault(outOfRange, "counts", t.get("counts").place(), "", "%d rings are more than %d", len(items), mostRings)
		items = nil
	}
	for _, item := range items {
		if item.kind != kindInteger {
			t.fault(wrongKind, "counts", item.place(), "write whole numbers without quotes", "%s is no whole number", written(item))
			continue
		}
		count, _ := t.between("counts", item, 1, mostCavities)
		face.Rings = append(face.Rings, count)
	}
	face.Start = measure(t, "start", units.ParseAngle, anySign)
	face.Clockwise = t.word("direction", "clockwise", "anticlockwise") == "clockwise"
	face.MatingSide = seenFromMatingSide(t)
	t.done()
}

func readRows(t *table) [][]string {
	var rows [][]string
	for _, item := range t.filled("rows") {
		row := []*value{item}
		if item.kind == kindArray {
			row = item.items
		}
		var names []string
		for _, cavity := range t.cavities("rows", row) {
			names = append(names, cavity.name)
		}
		rows = append(rows, names)
	}
	return rows
}

func readPlaces(t *table) []harness.FacePlace {
	if t == nil {
		return nil
	}
	var places []harness.FacePlace
	for _, e := range t.value.keys {
		at := t.lengths(e.name, 2, anySign)
		if len(at) == 2 {
			places = append(places, harness.FacePlace{Cavity: e.name, X: at[0], Y: at[1]})
		}
	}
	t.done()
	return places
}
