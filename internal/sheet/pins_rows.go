package sheet

import (
	"slices"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// Heights of a row: one line of it, words in two lines, a note below, and the whole where nothing needs more.
const (
	pinPitch page.Pt = 2835 // 10 mm
	pinWire  page.Pt = 1814 // 6.4 mm
	pinWords page.Pt = 1247 // 4.4 mm
	pinNote  page.Pt = 1191 // 4.2 mm
	pinGap   page.Pt = 510  // 1.8 mm
	pinCount page.Pt = 1984 // 7 mm

)

// rows returns a block for every cavity, in insertion order. The first three stay with the head, the last two with what follows.
func (l *pinList) rows() []pinBlock {
	cavities := l.connector.Cavities
	var blocks []pinBlock
	for i, c := range cavities {
		row := pinRow{pinList: l, cavity: c, number: i + 1}
		row.prepare()
		gap := page.Pt(0)
		if i%10 == 5 { // after every tenth the count stands between
			gap = pinGap
		}
		height := row.height
		if row.number%10 == 0 && row.number < len(cavities) {
			height += pinCount
		}
		blocks = append(blocks, pinBlock{height: height, gap: gap, row: row.number, draw: row.draw,
			keep: i < 2 || i >= len(cavities)-2})
	}
	return blocks
}

// mixedContacts reports whether the cavities take contacts of more than one kind: then every row names its own.
func (l *pinList) mixedContacts() bool {
	first := ""
	for _, c := range l.connector.Cavities {
		if first == "" {
			first = c.Contact
		}
		if c.Contact != "" && c.Contact != first {
			return true
		}
	}
	return false
}

// pinRow prints one cavity.
type pinRow struct {
	*pinList
	cavity plan.Cavity
	number int
	words  [][]string // gauge and colour of each wire, by line; of an unwired cavity, what fills it
	notes  []pinRemark
	tops   []page.Pt // of each wire below the top of the row, and the bottom of the last
	height page.Pt
}

// pinRemark is a line below the wires of a row.
type pinRemark struct {
	style style
	text  string
}

// prepare breaks the words of the row into lines and measures it.
func (r *pinRow) prepare() {
	room := r.columns.wordsRoom()
	if len(r.cavity.Lines) == 0 {
		r.words = [][]string{r.wrap(medium(11), r.columns.code-r.columns.words-mm(2), r.cavity.Words)}
	} else if r.cavity.Fill == plan.FillShared {
		r.remark(bold(10), r.say("pins.one_crimp"), r.cavity.Words)
	}
	for _, line := range r.cavity.Lines {
		r.words = append(r.words, r.gaugeWords(line, room))
		r.notesOf(line)
	}
	total := page.Pt(0)
	for _, words := range r.words {
		r.tops = append(r.tops, total)
		total += r.lineHeight(len(words))
	}
	content := max(pinPitch, total+mm10(12))
	for i := range r.tops {
		r.tops[i] += (content - total) / 2
	}
	r.height = content + page.Pt(len(r.notes))*pinNote
}

// gaugeWords returns gauge and colour in one line, or each on its own where one does not hold both or the contact stands
// beside the gauge.
func (r *pinRow) gaugeWords(line plan.CavityLine, room page.Pt) []string {
	s, core := medium(11), r.coreWords(line)
	if r.columns.mixed {
		return slices.Concat(r.wrap(s, room, core), r.wrap(s, room, joined(", ", line.Gauge, r.cavity.Contact)), r.wrap(s, room, line.Words))
	}
	if whole := joined(", ", core, joined(" ", line.Gauge, line.Words)); r.width(s, whole) <= room {
		return []string{whole}
	}
	if core != "" {
		return append(r.wrap(s, room, core), r.wrap(s, room, joined(" ", line.Gauge, line.Words))...)
	}
	return append(r.wrap(s, room, line.Gauge), r.wrap(s, room, line.Words)...)
}

// coreWords names the core of a cable: "C1 core 1"; "" for a single wire.
func (p *pen) coreWords(line plan.CavityLine) string {
	if line.Cable == "" {
		return ""
	}
	return p.say("ends.core", "cable", line.Cable, "core", line.Core)
}

func (r *pinRow) lineHeight(words int) page.Pt {
	if r.columns.deep {
		return pinWire + page.Pt(words)*pinWords
	}
	return max(pinWire, page.Pt(words)*pinWords)
}

// notesOf adds what is special about a wire: that it stays loose, that the board terminates it, its finish, its note.
func (r *pinRow) notesOf(line plan.CavityLine) {
	wire := ""
	if len(r.cavity.Lines) > 1 {
		wire = line.Wire
	}
	if line.Substitute != nil {
		r.remark(bold(11), wire, r.metrics.substituteWords(line.Substitute))
	}
	if line.Loose != "" {
		r.remark(bold(11), wire, r.say("ends.not_landed"))
	}
	if notes := r.lineNotes(line); notes != "" {
		r.remark(medium(10), wire, notes)
	}
}

// lineNotes says how an end is finished where that is not the bench's work, and what was noted.
func (p *pen) lineNotes(line plan.CavityLine) string {
	board, finish := "", ""
	switch {
	case line.Stage != "board" || line.Loose != "":
	case line.Board == "":
		board = p.say("ends.at_board_cut_back")
	default:
		board = p.say("ends.at_board", "work", line.Board)
	}
	if line.Finish != "" {
		finish = p.say("ends.finish", "finish", line.Finish)
	}
	return joined("; ", line.Marked, board, finish, line.Note)
}

// remark adds lines below the wires of the row.
func (r *pinRow) remark(s style, lead, text string) {
	for _, line := range r.wrap(s, r.columns.code-r.columns.wire-mm(2), joined(": ", lead, text)) {
		r.notes = append(r.notes, pinRemark{s, line})
	}
}

func (r *pinRow) draw(y page.Pt) {
	c := r.columns
	r.mark("", r.number, y, r.height, r.ticks())
	content := r.height - page.Pt(len(r.notes))*pinNote
	first := y + r.tops[0]
	r.text(live.X, r.wireBase(first, len(r.words[0])), monoBold(14), c.wire-live.X-mm(1), r.cavity.Name)
	if len(r.cavity.Lines) == 0 {
		r.unwired(first)
	}
	for i, line := range r.cavity.Lines {
		r.wireWords(y+r.tops[i], line, r.words[i])
	}
	for i, note := range r.notes {
		r.text(c.wire, y+content+mm10(24)+page.Pt(i)*pinNote, note.style, c.code-c.wire-mm(2), note.text)
	}
	r.symbol(y)
	r.boxes(y)
	r.foot(y + r.height)
}

// wireBase returns the base line of the wire id in a line of the row that starts at top.
func (r *pinRow) wireBase(top page.Pt, words int) page.Pt {
	if r.columns.deep {
		return top + mm10(50)
	}
	return top + r.lineHeight(words)/2 + mm10(18)
}

func (r *pinRow) wireWords(top page.Pt, line plan.CavityLine, words []string) {
	c := r.columns
	base := r.wireBase(top, len(words))
	r.text(c.wire, base, monoBold(13), c.wireRoom(), line.Wire)
	r.text(c.other, base, mono(12), c.otherRoom(), r.metrics.placeWords(line.Other))
	if c.deep {
		r.text(c.tray, base+pinWords+mm10(4), mono(11), c.trayRoom(), r.deepTray(line.Tray))
	} else {
		r.text(c.tray, base, mono(11), c.trayRoom(), r.metrics.trayWords(line.Tray))
	}
	r.wordLines(top, words, c.wordsRoom())
}

func (r *pinRow) wordLines(top page.Pt, words []string, room page.Pt) {
	base := top + r.lineHeight(len(words))/2 + mm10(18)
	if len(words) > 1 {
		base -= page.Pt(len(words)-1)*pinWords/2 + mm10(4)
	}
	if r.columns.deep {
		base = top + pinWire + mm10(34)
	}
	for i, word := range words {
		r.text(r.columns.words, base+page.Pt(i)*pinWords, medium(11), room, word)
	}
}

// unwired names in words what the cavity gets in place of a wire.
func (r *pinRow) unwired(top page.Pt) {
	r.text(r.columns.wire, r.wireBase(top, len(r.words[0])), bold(13), r.columns.wireRoom(), r.unwiredWord(r.cavity.Fill))
	r.wordLines(top, r.words[0], r.columns.code-r.columns.words-mm(2))
}

func (p *pen) unwiredWord(fill plan.Fill) string {
	if fill == plan.FillOpen {
		return p.say("pins.open")
	}
	return p.say("pins.seal")
}

// symbol prints the code of the cavity; neighbours stand left and right, 20 mm apart and more.
func (r *pinRow) symbol(y page.Pt) {
	c, code := r.columns, r.cavity.Codes[r.unit-1]
	x, key := c.code+symbolQuiet, c.code+matrixSide+symbolQuiet+keyClear
	if r.number%2 == 0 {
		x, key = c.code+c.key+keyClear, c.code
	}
	r.matrix(x, y+(pinPitch-matrixSide)/2, code)
	r.text(key, y+pinPitch/2+mm10(12), mono(9), c.key, keyIn(code))
}

// ticks counts the boxes of a row.
func (r *pinRow) ticks() int { return one(!empty(r.cavity.Fill)) + one(wired(r.cavity.Fill)) + 1 }

// boxes prints what is ticked: a sealing plug is not pulled, a cavity that stays empty is only looked at.
func (r *pinRow) boxes(y page.Pt) {
	top := y + (pinPitch-gloveTick)/2
	if !empty(r.cavity.Fill) {
		r.tick(r.columns.inserted, top, gloveTick)
	}
	if wired(r.cavity.Fill) {
		r.tick(r.columns.pulled, top, gloveTick)
	}
	r.tick(r.columns.checked, top, gloveTick)
	r.blank(r.columns.slip, y+mm10(80), live.X+live.W-r.columns.slip)
}

// foot closes the row, heavier after every fifth, with a count after every tenth.
func (r *pinRow) foot(y page.Pt) {
	weight := rowRule
	if r.number%5 == 0 || r.number == len(r.connector.Cavities) {
		weight = groupRule * 3 / 2
	}
	r.across(live.X, live.X+live.W, y, weight)
	if r.number%10 == 0 && r.number < len(r.connector.Cavities) {
		r.count(y+mm10(50), r.say("pins.rows", "from", r.number-9, "to", r.number, "of", len(r.connector.Cavities)),
			r.connector.Cavities[r.number-10:r.number])
	}
}

// count prints how many boxes of the cavities must be ticked, with room to write how many were.
func (p *pen) count(y page.Pt, lead string, cavities []plan.Cavity) {
	inserted, pulled := 0, 0
	for _, c := range cavities {
		if !empty(c.Fill) {
			inserted++
		}
		if wired(c.Fill) {
			pulled++
		}
	}
	s, blank, whole := bold(10), mm(12), p.width(bold(10), lead)+mm(3)
	counts := [3][2]string{{p.say("pins.inserted"), p.say("common.of", "n", inserted)}, {p.say("pins.pulled"), p.say("common.of", "n", pulled)},
		{p.say("pins.checked"), p.say("common.of", "n", len(cavities))}}
	for i, c := range counts {
		whole += p.width(s, c[0]) + blank + mm(3) + p.width(s, c[1]) + mm(5)*page.Pt(min(i, 1))
	}
	if over := whole - live.W; over > 0 { // longer words leave less to write on
		blank = max(blank-(over+2)/3, mm(8))
	}
	x := p.fillIn(live.X, y, s, lead, 0, "") + mm(3)
	for _, c := range counts {
		x = p.fillIn(x, y, s, c[0], blank, c[1]) + mm(5)
	}
}

// fillIn prints words, a line to write on, and words after it; it returns where they end.
func (p *pen) fillIn(x, y page.Pt, s style, before string, blank page.Pt, after string) page.Pt {
	end := live.X + live.W
	p.text(x, y, s, end-x, before)
	x += p.width(s, before)
	if blank == 0 {
		return x
	}
	p.blank(x+mm10(15), y, blank)
	x += blank + mm(3)
	p.text(x, y, s, end-x, after)
	return x + p.width(s, after)
}
