package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// Modules of the label symbols are whole dots of a 300 dpi printer: 0.4233 mm for the bars, 0.508 mm for the matrix.
const (
	labelBarModule    = page.Point * 120 / 100
	labelMatrixModule = page.Point * 144 / 100
	labelMatrixSide   = 16 * labelMatrixModule
)

const (
	labelInset  page.Pt = 850  // 3 mm: nothing is printed nearer to the die cut: sheets shift in the printer
	labelBars   page.Pt = 3203 // 11.3 mm: height of the bars, 15 % of their length
	labelBottom page.Pt = 198  // 0.7 mm: below the base line of the last words
	labelKey    page.Pt = 879  // 3.1 mm: from the foot of the bars to the base line under them
	labelFirst  page.Pt = 1304 // 4.6 mm: from the rule to the base line of the count, with room to write
	labelSecond page.Pt = 1247 // 4.4 mm: from the count to the next base line, clear of the line written on
	labelPitch  page.Pt = 1049 // 3.7 mm: line pitch of the words after that
	labelAir    page.Pt = 454  // 1.6 mm: from the last base line to the bars
	labelSpread page.Pt = 454  // 1.6 mm: what each of these distances may grow where there is room
	labelQuiet          = page.Pt(code128Quiet) * labelBarModule
)

// label prints one tray label.
type label struct {
	pen
	tray   plan.Tray
	packet plan.Packet
	goods  stock
	whole  page.Rect // the die cut
	area   page.Rect // what may be printed on
	stock  string
	named  problem.Place // where the stock was named
}

// labelDocument lays the tray labels on their stock, one for each tray.
func labelDocument(p plan.Plan, m composer, problems *problem.List) page.Document {
	stock, printer := p.Paper.Labels, p.Paper.Print
	name := p.Packet.Number + "-" + p.Packet.Revision
	doc := page.Document{Name: name + ".labels.pdf", Title: m.Say("labels.title") + " " + name, Subject: p.Packet.Title, Language: m.Language}
	doc.Width, doc.Height = stockPaper(stock)
	goods, trays := stockOf(&p, m), trayPlaces(p)
	places, live, scale := labelPlaces(stock, printer, len(p.Trays)), stockArea(stock, printer), labelScale(stock, printer, m)
	if len(scale) > 0 {
		live.H = scale[0].(page.Rule).Y1 + scaleFoot - live.Y
	}
	for i, tray := range p.Trays {
		if last := len(doc.Pages); places[i].sheet == last {
			doc.Pages = append(doc.Pages, page.Page{Name: fmt.Sprintf("labels/%d", last+1), Sheet: "labels", Number: last + 1,
				Of: places[len(places)-1].sheet + 1, Live: live, Body: slices.Clone(scale)})
		}
		l := label{pen: pen{metrics: m, problems: problems, at: trays[tray.Group]}, tray: tray, packet: p.Packet, goods: goods,
			stock: stock.ID, named: p.Paper.LabelsPlace}
		l.whole = labelRect(stock, printer, places[i].label)
		l.area = inset(l.whole, labelInset)
		l.print()
		pg := &doc.Pages[places[i].sheet]
		pg.Body = append(pg.Body, l.items...)
		pg.Hash = page.Hash(pg.Body)
	}
	return doc
}

func trayPlaces(p plan.Plan) map[string]problem.Place {
	places := map[string]problem.Place{}
	for _, c := range p.Connectors {
		places[c.ID] = c.Place
	}
	for _, j := range p.Joints {
		places[j.ID] = j.Place
	}
	return places
}

// print fits the huge names into what the words and the symbols leave, and prints the label.
func (l *label) print() {
	bars := l.area.Y + l.area.H - labelBottom - labelKey - labelBars
	room := func(lines []string) page.Pt { return bars - wordsHeight(lines) - mm10(5) - l.area.Y }
	lines := l.said(l.coilLines())
	if room(lines) < l.stackHeight() {
		lines = l.said(l.coilCounted())
	}
	if !l.namesFit(room(lines)) {
		lines = l.said(l.coilCounted())
	}
	tall := room(lines)
	if tall < l.stackHeight() || l.area.W < 178*labelBarModule+labelQuiet+labelMatrixSide+mm10(15) {
		l.at = l.named
		l.refuse("label-too-small", fmt.Sprintf("label stock %q has labels of %.1f mm by %.1f mm, which hold no tray label",
			l.stock, millimetres(l.whole.W), millimetres(l.whole.H)), "choose a label stock of 99 mm by 50 mm or more")
		return
	}
	rule := l.names(tall)
	l.across(l.area.X, l.area.X+l.area.W, rule, groupRule)
	l.words(lines, rule, bars-rule)
	l.symbols(bars)
}

// leastName is the smallest size of connector and unit beside each other: read from more than a metre.
const leastName = 24

// namesFit reports whether connector and unit fit beside each other in some size.
func (l *label) namesFit(tall page.Pt) bool {
	least := bold(leastName)
	high := l.metrics.CapHeight(least.face, least.size) + l.metrics.Descent(least.face, least.size)
	return high <= tall && l.width(least, l.tray.Group)+mm(5)+l.width(monoBold(leastName), l.tray.Unit) <= l.area.W-l.stackWidth()-mm(4)
}

// names prints connector and unit as large as the label allows, 48 to 24 pt, with job, revision and unit beside them.
// It returns where the rule under them stands.
func (l *label) names(tall page.Pt) page.Pt {
	beside := l.stack()
	for size := 48; size >= leastName; size -= 2 {
		capital, below := l.metrics.CapHeight(page.Bold, page.Pt(size)*page.Point), l.metrics.Descent(page.Bold, page.Pt(size)*page.Point)
		width := l.width(bold(size), l.tray.Group)
		if capital+below > tall || width+mm(5)+l.width(monoBold(size), l.tray.Unit) > l.area.W-beside-mm(4) {
			continue
		}
		l.text(l.area.X, l.area.Y+capital, bold(size), width, l.tray.Group)
		l.text(l.area.X+width+mm(5), l.area.Y+capital, monoBold(size), l.area.W-width-mm(5), l.tray.Unit)
		return l.area.Y + max(capital+below, l.stackHeight()) + mm10(5)
	}
	if rule, fits := l.stacked(tall, l.area.W-beside-mm(4)); fits {
		return rule
	}
	l.refuse("too-long", fmt.Sprintf("%q and unit %q do not fit on a tray label in 20 pt, beside or below each other", l.tray.Group, l.tray.Unit),
		"shorten the id or the serial, or choose a wider label stock")
	return l.area.Y + l.stackHeight() + mm10(5)
}

// stacked prints the unit below the connector, where they do not fit beside each other, 36 to 20 pt.
func (l *label) stacked(tall, room page.Pt) (rule page.Pt, fits bool) {
	for size := 36; size >= 20; size -= 2 {
		capital, below := l.metrics.CapHeight(page.Bold, page.Pt(size)*page.Point), l.metrics.Descent(page.Bold, page.Pt(size)*page.Point)
		if 2*(capital+below) > tall || max(l.width(bold(size), l.tray.Group), l.width(monoBold(size), l.tray.Unit)) > room {
			continue
		}
		l.text(l.area.X, l.area.Y+capital, bold(size), room, l.tray.Group)
		l.text(l.area.X, l.area.Y+2*capital+below, monoBold(size), room, l.tray.Unit)
		return l.area.Y + max(2*(capital+below), l.stackHeight()) + mm10(5), true
	}
	return 0, false
}

// stackLine is one of the lines over each other at the right of the names.
type stackLine struct {
	style style
	text  string
}

func (l *label) stackLines() []stackLine {
	third := l.say("common.unit_of", "unit", l.tray.Unit)
	if l.tray.Of > 1 {
		third = l.say("labels.tray_of", "part", l.tray.Part, "of", l.tray.Of)
	}
	return []stackLine{{monoBold(13), l.packet.Number}, {bold(10), l.say("frame.revision", "revision", l.packet.Revision)}, {bold(10), third}}
}

// stackHeight returns the height of the stack: every line from capitals to descenders.
func (l *label) stackHeight() page.Pt {
	height := page.Pt(0)
	for _, line := range l.stackLines() {
		height += l.metrics.CapHeight(line.style.face, line.style.size) + l.metrics.Descent(line.style.face, line.style.size)
	}
	return height
}

func (l *label) stackWidth() page.Pt {
	width := page.Pt(0)
	for _, line := range l.stackLines() {
		width = max(width, l.width(line.style, line.text))
	}
	return width
}

// stack prints job, revision and unit, and returns their width.
func (l *label) stack() page.Pt {
	y := l.area.Y
	for _, line := range l.stackLines() {
		y += l.metrics.CapHeight(line.style.face, line.style.size)
		l.right(l.area.X+l.area.W, y, line.style, l.area.W, line.text)
		y += l.metrics.Descent(line.style.face, line.style.size)
	}
	return l.stackWidth()
}

// wordsHeight returns the least height of the count and the lines after it.
func wordsHeight(lines []string) page.Pt {
	return labelFirst + labelSecond + page.Pt(len(lines)-1)*labelPitch + labelAir
}

// words prints the count and the lines after it below top, spread over the height there is.
func (l *label) words(lines []string, top, height page.Pt) {
	spread := min((height-wordsHeight(lines))/page.Pt(len(lines)+2), labelSpread)
	y := top + labelFirst + spread
	l.countLine(y)
	y += labelSecond - labelPitch
	for _, line := range lines {
		y += labelPitch + spread
		l.text(l.area.X, y, medium(10), l.area.W, line)
	}
}

func (l *label) countLine(y page.Pt) {
	n, lead := len(l.tray.Wires), l.goods.piecesWords(l.tray.Wires)
	if len(l.cables()) > 0 {
		lead = l.sayCount("common.pieces", n)
	}
	l.text(l.area.X, y, bold(12), l.area.W, lead)
	x := l.area.X + l.width(bold(12), lead) + mm(5)
	x = l.fillIn(x, y, medium(11), l.say("labels.counted"), mm(11), l.say("labels.of_by", "n", n)) + mm10(15)
	l.blank(x, y, min(l.area.X+l.area.W-x, mm(26)))
}

// cables returns the cables in the tray: each is one piece.
func (l *label) cables() []string {
	return slices.DeleteFunc(slices.Clone(l.tray.Wires), func(id string) bool { _, is := l.goods.cables[id]; return !is })
}

// cableLines names the cables in the tray, or counts them where one line does not hold their ids.
func (l *label) cableLines() []string {
	cables := l.cables()
	if len(cables) == 0 {
		return nil
	}
	words := l.goods.piecesWords(l.tray.Wires)
	if named := words + ": " + strings.Join(cables, " "); l.width(medium(10), named) <= l.area.W {
		return []string{named}
	}
	return []string{words}
}

// said returns what stands between the count and the bars.
func (l *label) said(coil []string) []string {
	return append(append(l.cableLines(), coil...), l.say("labels.next", "next", l.tray.Next))
}

// coilLines says what is coiled: by wire id where that takes two lines at most, else by length.
func (l *label) coilLines() []string {
	if len(l.tray.Coil) == 0 {
		return l.coilCounted()
	}
	lines := l.wrap(medium(10), l.area.W, l.say("labels.coil_these", "wires", strings.Join(l.tray.Coil, " ")))
	if last := lines[len(lines)-1] + " " + l.coilTies(); l.width(medium(10), last) <= l.area.W {
		lines[len(lines)-1] = last
	} else {
		lines = append(lines, l.coilTies())
	}
	if len(lines) <= 2 {
		return lines
	}
	return l.coilCounted()
}

// coilTies says how wide a coil is inside, and in how many places it is tied.
func (l *label) coilTies() string {
	ties := max(l.tray.Ties, 3)
	if l.tray.CoilUM == 0 {
		return l.say("labels.ties", "n", ties)
	}
	return l.say("labels.inside", "diameter", (l.tray.CoilUM+int64(units.Millimetre)-1)/int64(units.Millimetre), "ties", ties)
}

// coilCounted is the count of what is coiled, in as many lines as it takes.
func (l *label) coilCounted() []string { return l.wrap(medium(10), l.area.W, l.coilCount()) }

// coilCount says what is coiled.
func (l *label) coilCount() string {
	cables := len(l.cables()) > 0
	switch coiled := len(l.tray.Coil); {
	case coiled == 0:
		return l.say("labels.straight")
	case l.tray.StraightUM > 0 && cables:
		return l.say("labels.coil_over", "pieces", l.sayCount("common.pieces", coiled), "length", l.tray.StraightUM/int64(units.Millimetre), "ties", l.coilTies())
	case l.tray.StraightUM > 0:
		return l.say("labels.coil_over", "pieces", l.sayCount("common.wires", coiled), "length", l.tray.StraightUM/int64(units.Millimetre), "ties", l.coilTies())
	case cables:
		return l.sayCount("labels.coil_longest_pieces", coiled, "ties", l.coilTies())
	default:
		return l.sayCount("labels.coil_longest_wires", coiled, "ties", l.coilTies())
	}
}

// symbols prints the bars and the matrix of the tray with what to read and key in under them.
// The left quiet zone of the bars may take the margin of the label, which holds no ink.
func (l *label) symbols(y page.Pt) {
	text, edge := l.tray.Code.String(), l.area.X+l.area.W
	x := l.area.X + labelQuiet - labelInset
	l.bars(x, y, labelBarModule, labelBars, text, l.tray.Code.Words)
	l.text(x, y+labelBars+labelKey, mono(9), l.area.W, spaced(text))
	l.items = append(l.items, page.Symbol{X: edge - labelMatrixSide, Y: y + (labelBars-labelMatrixSide)/2,
		Symbology: page.DataMatrix, Module: labelMatrixModule, String: text, Says: l.tray.Code.Words})
	l.right(edge, y+labelBars+labelKey, monoBold(9), l.area.W/3, l.tray.Code.KeyIn())
}
