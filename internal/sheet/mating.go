package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// matingBook draws the faces of connectors as the tester sees them.
type matingBook struct {
	book
	filled plan.CavityCounts // what cavities hold that are drawn
	worded bool              // a key stands in words alone
}

// matingFace is the face of a connector, from the mating side.
type matingFace struct {
	connector plan.Connector
	picture   facePicture
	width     page.Pt
}

// Sizes of the faces for the tester: two stand beside each other where their names can be read.
const (
	matingGap  page.Pt = 2268 // 8 mm: between two faces
	matingName page.Pt = 1417 // 5 mm: line pitch of what names a connector
	matingLead page.Pt = 425  // 1.5 mm: from its name to the words above its face
)

// matingSections draws the face of every connector that has a picture from the mating side, where the tester probes.
func matingSections(p *plan.Plan, m composer, problems *problem.List) []section {
	b := &matingBook{book: *newBook(m, problems)}
	b.draft = p.Packet.Draft
	drawn, others := b.pictured(p.Connectors)
	if len(drawn) == 0 {
		return nil
	}
	b.open = b.heads
	b.turn()
	var faces []matingFace
	for _, c := range drawn {
		faces = append(faces, b.fitted(c, b.left()))
	}
	for len(faces) > 0 {
		row := faces[:1]
		if len(faces) > 1 && faces[0].width < live.W && faces[1].width < live.W {
			row = faces[:2]
		}
		b.row(row)
		faces = faces[len(row):]
	}
	if words := b.say("continuity.no_face", "connectors", strings.Join(others, ", ")); len(others) > 0 {
		b.need(mm10(48) * page.Pt(len(b.wrap(medium(11), live.W, words))))
		b.paragraph(live.X, b.y+mm(4), medium(11), live.W, mm10(48), words)
	}
	return []section{{sheet: "continuity", title: m.Say("continuity.title"), name: "faces", said: m.Say("continuity.faces_section"), pages: b.finish()}}
}

// pictured returns the connectors whose faces are drawn, and the ids of the others; it takes note of what the drawn ones hold.
func (b *matingBook) pictured(connectors []plan.Connector) (drawn []plan.Connector, others []string) {
	for _, c := range connectors {
		if c.Face.Kind == "" {
			others = append(others, c.ID)
			continue
		}
		drawn = append(drawn, c)
		b.worded = b.worded || !slices.Contains([]string{"", "up", "down"}, c.Key)
		b.filled.Wired, b.filled.Sealed, b.filled.Open = b.filled.Wired+c.Counts.Wired, b.filled.Sealed+c.Counts.Sealed, b.filled.Open+c.Counts.Open
	}
	return drawn, others
}

// heads opens a page: what is seen, and what the rings mean.
func (b *matingBook) heads() {
	b.y = b.paragraph(live.X, b.y+mm(5), bold(14), live.W, mm(6), b.say("continuity.faces"))
	b.y = b.paragraph(live.X, b.y, medium(11), live.W, mm10(48), b.say("continuity.faces_how"))
	if b.worded {
		b.y = b.paragraph(live.X, b.y, medium(11), live.W, mm10(48), b.say("continuity.faces_key"))
	}
	b.y -= mm(3)
	for _, line := range b.legendLines(b.filled, live.W) {
		b.faceLegend(live.X+live.W/2, b.y, line)
		b.y += faceLine
	}
	b.y += mm(2)
}

// matingSide turns a face about its upright axis: what stands left on the wire side stands right on the mating side.
func matingSide(face plan.Face) plan.Face {
	face.Places = slices.Clone(face.Places)
	for i := range face.Places {
		face.Places[i].X = -face.Places[i].X
	}
	return face
}

// fitted finds the size of a face: half as wide as the page where its names are 9 pt there, else across the page, then in smaller type.
// Left is the height of a page under its heads.
func (b *matingBook) fitted(c plan.Connector, left page.Pt) matingFace {
	half, face := (live.W-matingGap)/2, matingSide(c.Face)
	whole := left - b.faceHeight(matingFace{connector: c, width: live.W})
	for _, room := range []struct {
		width, height page.Pt
		size          page.Pt
	}{{half, mm(80), 10}, {half, mm(80), 9}, {live.W, mm(110), 9}, {live.W, whole, 9}, {half, mm(80), 8}, {half, mm(80), 7}, {live.W, whole, 8}, {live.W, whole, 7}} {
		if picture := b.faceAt(face, room.size*page.Point); picture.width <= room.width && picture.height <= room.height {
			return matingFace{c, picture, room.width}
		}
	}
	b.at = c.Place
	b.refuse("face-too-large", fmt.Sprintf("the face of connector %q cannot be drawn with cavity names of 7 pt on a sheet", c.ID),
		`set face = "schematic": the checklist then says ORDER ONLY`)
	return matingFace{c, b.faceAt(face, 7*page.Point), live.W}
}

// row prints faces beside each other.
func (b *matingBook) row(faces []matingFace) {
	tallest := page.Pt(0)
	for _, f := range faces {
		tallest = max(tallest, b.faceHeight(f))
	}
	b.need(tallest)
	for i, f := range faces {
		b.face(f, live.X+page.Pt(i)*(f.width+matingGap), b.y)
	}
	b.y += tallest + mm(6)
}

func (b *matingBook) names(f matingFace) []span {
	return []span{{style: monoBold(14), text: f.connector.ID}, {style: medium(11), text: f.connector.Title}}
}

// faceHeight is the height of a face with its name, the words above it and its key.
func (b *matingBook) faceHeight(f matingFace) page.Pt {
	height := matingName*page.Pt(len(b.lines(f.width, b.names(f)))) + matingLead + faceTitle + faceKey + f.picture.height
	if f.connector.Key == "down" {
		height += faceKey
	}
	return height
}

// face prints a face under the name of its connector.
func (b *matingBook) face(f matingFace, x, y page.Pt) {
	b.at = f.connector.Place
	y = b.flow(x, y+mm10(42), f.width, matingName, b.names(f)...) - mm10(42) + matingLead
	middle := x + f.width/2
	b.centre(middle, y+mm10(36), bold(11), f.width, b.say("continuity.mating_side"))
	centre := y + faceTitle + faceKey + f.picture.height/2
	b.drawFace(f.picture, f.connector.Cavities, middle, centre)
	b.drawKey(f.picture, f.connector.Key, middle, centre)
	b.at = problem.Place{}
}
