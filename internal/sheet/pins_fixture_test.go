package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// numbered returns the names "1" to "n".
func numbered(n int) []string {
	var names []string
	for i := range n {
		names = append(names, strconv.Itoa(i+1))
	}
	return names
}

// ringFace draws rings, outermost first, 1000 apart, as a plan does.
func ringFace(names []string, counts ...int) plan.Face {
	face := plan.Face{Kind: "rings", Round: true, PitchUM: 1000}
	at, inner := 0, 1
	if counts[len(counts)-1] == 1 {
		inner = 0
	}
	for i, count := range counts {
		radius := float64(1000 * (len(counts) - 1 - i + inner))
		if count > 1 {
			face.PitchUM = min(face.PitchUM, int64(2*radius*math.Sin(math.Pi/float64(count))))
		}
		for k := range count {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(count))
			face.Places = append(face.Places, plan.FacePlace{Cavity: names[at],
				X: int64(math.Round(-radius * sin)), Y: int64(math.Round(radius * cos))})
			at++
		}
	}
	return face
}

// rowFace draws straight rows, every second one half a pitch to the side where it is shorter.
func rowFace(names []string, counts ...int) plan.Face {
	face := plan.Face{Kind: "rows", PitchUM: 1000}
	at := 0
	for i, count := range counts {
		for k := range count {
			face.Places = append(face.Places, plan.FacePlace{Cavity: names[at],
				X: int64(1000*k) - int64(500*(count-1)), Y: int64(500*(len(counts)-1)) - int64(1000*i)})
			at++
		}
	}
	return face
}

// pinCase describes a connector of the fixture.
type pinCase struct {
	id     string
	names  []string
	face   plan.Face
	fills  string // one letter a cavity, repeated: w wire, s seal, c contact and seal, o open, 2 shared by two wires, k core, n not landed
	note   string // of every seventh wire
	wire   string // format of the wire ids, "W%03d"
	trays  []string
	slide  []string
	after  []plan.Closing
	colour string
}

func (c pinCase) connector(units int) plan.Connector {
	con := plan.Connector{ID: c.id, Part: "MOR-CN-" + c.id, Title: "main data module", Node: "N1", Gender: "socket", Key: "up",
		Order: "centre out", Seal: "sealing plug, size 22", SlideOnFirst: c.slide, After: c.after, Trays: c.trays,
		InsertTools: []string{"insertion tool 22"}, Face: c.face,
		Place: problem.Place{File: "demo.toml", Line: 10, Column: 1}}
	for u := range units {
		con.Codes = append(con.Codes, fixtureCode(plan.KindConnector, c.id, u+1))
	}
	for i, name := range c.names {
		cavity := plan.Cavity{Name: name, Contact: "S22"}
		c.fill(&cavity, i)
		for u := range units {
			cavity.Codes = append(cavity.Codes, fixtureCode(plan.KindLanding, c.id+":"+name, u+1))
		}
		con.Cavities = append(con.Cavities, cavity)
	}
	con.Counts = countFills(con.Cavities)
	for i, place := range con.Face.Places {
		for _, cavity := range con.Cavities {
			if cavity.Name == place.Cavity {
				con.Face.Places[i].Filled = wired(cavity.Fill)
			}
		}
	}
	return con
}

func (c pinCase) fill(cavity *plan.Cavity, i int) {
	switch c.fills[i%len(c.fills)] {
	case 's':
		cavity.Fill, cavity.Words = plan.FillSeal, "sealing plug, size 22"
	case 'c':
		cavity.Fill, cavity.Words = plan.FillContactAndSeal, "contact S22 and sealing plug, size 22"
	case 'o':
		cavity.Fill, cavity.Words = plan.FillOpen, "leave open"
	case '2':
		cavity.Fill, cavity.Words = plan.FillShared, "2 wires in one contact, 0.65 mm² together"
		c.lines(cavity, i, 2)
	case 'k':
		cavity.Fill = plan.FillWire
		c.lines(cavity, i, 1)
		cavity.Lines[0].Cable, cavity.Lines[0].Core = "C1", fmt.Sprint(i+1)
		cavity.Lines[0].Stage, cavity.Lines[0].Finish = "board", "tinned"
	case 'n':
		cavity.Fill, cavity.Words = plan.FillLoose, "not landed: leave loose"
		c.lines(cavity, i, 1)
		cavity.Lines[0].Loose, cavity.Lines[0].Tray = "stays loose in this job", []string{"existing", "with part"}[i%2]
	default:
		cavity.Fill = plan.FillWire
		c.lines(cavity, i, 1)
	}
}

func (c pinCase) lines(cavity *plan.Cavity, i, count int) {
	format, colour := c.wire, c.colour
	if format == "" {
		format = "W%03d"
	}
	if colour == "" {
		colour = "white"
	}
	for k := range count {
		line := plan.CavityLine{Wire: fmt.Sprintf(format, 100+i*2+k), Gauge: "22 AWG", Words: colour, Tray: c.id,
			Other: fmt.Sprintf("P%d:%d", 2+i%4, i+1)}
		if len(c.trays) > 0 {
			line.Tray = c.trays[i%len(c.trays)]
		}
		if i%7 == 3 {
			line.Note = c.note
		}
		cavity.Wires = append(cavity.Wires, line.Wire)
		cavity.Lines = append(cavity.Lines, line)
	}
}

func countFills(cavities []plan.Cavity) plan.CavityCounts {
	n := plan.CavityCounts{Cavities: len(cavities)}
	for _, c := range cavities {
		switch {
		case wired(c.Fill):
			n.Wired++
		case sealed(c.Fill):
			n.Sealed++
		case c.Fill == plan.FillLoose:
			n.Loose++
		default:
			n.Open++
		}
	}
	return n
}

func fixtureCode(kind byte, name string, unit int) plan.Code {
	return plan.Code{Kind: kind, Content: plan.ContentOf(name + "content"), Unit: unit,
		Item: 100000 + int(plan.ContentOf(name)%900000), Name: name, Words: "what the codes map says of " + name}
}

var (
	a4Stock = plan.Stock{ID: "a4-2x5", Paper: "a4", Columns: 2, Rows: 5, WidthUM: 99100, HeightUM: 57000,
		LeftUM: 5000, TopUM: 6000, PitchXUM: 102100, PitchYUM: 57000}
	letterStock = plan.Stock{ID: "letter-2x5", Paper: "letter", Columns: 2, Rows: 5, WidthUM: 101600, HeightUM: 50800,
		LeftUM: 4130, TopUM: 12700, PitchXUM: 106360, PitchYUM: 50800}
)

// sledCases are connectors of every shape: rings of 37 and 61, letters, a rectangle of 5 and 4, one without a face.
func sledCases() []pinCase {
	centre := append([]string{"37"}, append(strings.Fields("29 30 31 32 33 34 35 36 28 27 26 25 24 23 22 21 20 19 18 17"), numbered(16)...)...)
	after := []plan.Closing{{Step: "tighten backshell", Value: "per drawing"}, {Step: "fit dust cap"}}
	return []pinCase{
		{id: "J1", names: centre, face: ringFace(numbered(37), 16, 12, 8, 1), fills: "wwsw2sswww", note: "keep clear of heater",
			trays: []string{"J1", "P4"}, slide: []string{"backshell BS-12", "boot BT-3"}, after: after},
		{id: "J61", names: numbered(61), face: ringFace(numbered(61), 24, 18, 12, 6, 1), fills: "wwws", trays: []string{"J61"}, after: after},
		{id: "P2", names: strings.Fields("A B C D E F G H J K L M N P R S T U V W X Y Z a b c d e f g h j"),
			face:  ringFace(strings.Fields("A B C D E F G H J K L M N P R S T U V W X Y Z a b c d e f g h j"), 14, 10, 6, 2),
			fills: "wos", trays: []string{"J1", "P4", "P5", "P6"}, colour: "white, blue stripe", after: after},
		{id: "P3", names: numbered(9), face: rowFace(numbered(9), 5, 4), fills: "wwcw", trays: []string{"P3"}},
		{id: "P7", names: numbered(24), fills: "w2wo", trays: []string{"P7"}, wire: "SLED-NAV-%03d-22", note: "tie to the frame"},
		{id: "PL-LONG-NAME", names: numbered(128), face: ringFace(numbered(128), 37, 31, 25, 18, 12, 5), fills: "wwwwwwws", trays: []string{"J1"}},
	}
}

// sledPlan is a plan of these connectors with units, trays and wires to match.
func sledPlan(cases []pinCase, units ...string) *plan.Plan {
	p := &plan.Plan{Packet: plan.Packet{Number: "MOR-0412", Title: "Ice-survey sled, instrument loom", Part: "MOR-LM-210",
		Revision: "B", Issued: "2026-11-20", Units: units, Serials: true, Board: "FB-210"}}
	p.Paper = plan.Paper{Size: "a4", Labels: a4Stock}
	for _, c := range cases {
		con := c.connector(len(units))
		p.Connectors = append(p.Connectors, con)
		for u, unit := range units {
			p.Trays = append(p.Trays, sledTray(con, unit, u+1))
		}
		for _, cavity := range con.Cavities {
			for i, w := range cavity.Wires {
				p.Wires = append(p.Wires, plan.Wire{ID: w, Method: []string{"laser", "ink"}[i%2]})
			}
		}
	}
	p.Safety, p.Operations, p.Tags = []plan.Safety{sledSafety()}, sledRoute(11), sledTags(8)
	return p
}

func sledTray(c plan.Connector, unit string, number int) plan.Tray {
	t := plan.Tray{ID: c.ID + "/" + unit, Unit: unit, Group: c.ID, Next: "crimp bench, then board FB-210 at N1",
		Code: fixtureCode(plan.KindTray, c.ID+"/", number), StraightUM: 2000000}
	for i, cavity := range c.Cavities {
		t.Wires = append(t.Wires, cavity.Wires...)
		if i%3 == 1 {
			t.Coil = append(t.Coil, cavity.Wires...)
		}
	}
	return t
}

func sledSafety() plan.Safety {
	return plan.Safety{Language: "en", Title: "Safety", Heading: "For the qualified person", Ask: "to be filled in by the qualified person",
		Copied: "Values copied and checked by", Read: "Read and understood", Name: "name, date", Short: "Local law comes before this sheet.",
		Blanks: []plan.SafetyBlank{{Label: "officer", Value: "named on the shift board"}, {Label: "laser class", Value: "1", Source: "maker's manual, page 4"},
			{Label: "emergency number"}, {Label: "gloves"}, {Label: "first aid at"}},
		Deference: []string{
			"Local law and the rules of the site come first.",
			"Next comes the laser or UV safety officer, or another qualified person.",
			"Next come the equipment maker's instructions and labels, then the data sheet of the ink or material.",
			"If anything differs from this page, stop work until it is resolved."},
		Blocks: []plan.SafetyBlock{
			{Signal: "WARNING", Alert: true, Signs: []plan.SafetySign{{Number: "W004", Shape: "warning", Title: "Laser beam"}, {Number: "P075", Shape: "prohibition", Title: "Do not stare at light source"}}, Title: "Marking laser", Count: "37 of the 182 wires of a unit are laser marked.", Lines: []string{"The beam of the marking laser can injure eyes and skin, even by reflection.",
				"Never open, bypass or defeat a cover, a shutter or an interlock.",
				"After a possible eye injury: stop, isolate the laser, get medical help, tell the officer, take this page."}},
			{Signal: "CAUTION", Alert: true, Signs: []plan.SafetySign{{Number: "M009", Shape: "mandatory", Title: "Wear protective gloves"}, {Number: "E011", Shape: "rescue", Title: "Eyewash station"}}, Title: "Uncured ink", Lines: []string{"Uncured acrylate ink irritates skin and eyes and can cause an allergy that stays for life.",
				"Wear the gloves named in the data sheet and change them as it says."}},
			{Signal: "NOTICE", Title: "Wire ends", Lines: []string{"Put cut ends into the bin that the site names."}}}}
}

// sheetDocument puts sections into a document as pages without header and footer.
func sheetDocument(sections []section) page.Document {
	doc := page.Document{Name: "sections.pdf", Title: "sections"}
	doc.Width, doc.Height = page.A4()
	for _, s := range sections {
		for i, items := range s.pages {
			body, rows := page.Parted(items)
			doc.Pages = append(doc.Pages, page.Page{Name: fmt.Sprintf("%s/%s/%d/%d", s.sheet, s.name, s.unit, i+1), Sheet: s.sheet,
				Section: s.name, Number: i + 1, Of: len(s.pages), Unit: s.unit, Body: body, Rows: rows, Live: live, Hash: page.Hash(body)})
		}
	}
	return doc
}
