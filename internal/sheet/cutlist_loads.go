package sheet

import (
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// loadSide is the box that is ticked when a reel is on: larger than that of a wire.
func loadSide() page.Pt { return mm(7) }

// loadSpans is what a load or a switch says first, in reading order. A switch says less: the
// reel is on already.
func (c *cutList) loadSpans(step plan.Step) []span {
	name, described := step.Reel, c.stock.typeWords(step.Type)
	if name == "" || step.Kind == plan.StepSwitch {
		described = described[1:]
	}
	if step.Kind == plan.StepSwitch {
		described[1].text = c.stock.types[step.Type].GaugeShort
	}
	if name == "" {
		name = step.Type
	}
	spans := []span{{style: bold(12), text: c.say("cutlist.load")}, {style: monoBold(16), text: name}}
	if step.Kind == plan.StepSwitch {
		spans = []span{{style: bold(12), text: c.say("cutlist.switch")}, {style: monoBold(14), text: name}}
	}
	spans = append(append(spans, described...), c.metrics.methodWords(step.Method, step.Ink))
	return c.present(append(spans, span{style: bold(12), text: c.metrics.substituteFor(step.Substitute)}))
}

// loadDetails is the second part of a load: how high the marks are, where the reel is, which lot.
func (c *cutList) loadDetails(step plan.Step) []span {
	s := regular(10)
	spans := []span{{style: s, text: c.metrics.heightWords(step.HeightUM)}, {style: medium(10), text: c.metrics.rackWords(step.Rack)},
		{style: medium(10), text: labelled(c.say("common.strip_by"), c.metrics.stripBy(c.stock.types[step.Type].StripBy))}}
	if step.Kind == plan.StepLoad {
		spans = append(spans, span{style: s, text: labelled(c.say("common.from_place"), step.Place)}, span{style: s, text: labelled(c.say("common.planned_lot"), step.Lot)},
			span{style: medium(10), text: c.say("common.loaded_lot"), blank: mm(30)})
		if step.Reel == "" {
			spans = append(spans, span{style: medium(10), text: c.say("common.reel"), blank: mm(22)})
		}
	}
	return c.present(spans)
}

// labelled returns a label and its value; nothing where there is no value.
func labelled(label, value string) string {
	if value == "" {
		return ""
	}
	return label + " " + value
}

func (c *cutList) loadRoom() page.Pt { return live.W - loadSide() - mm(9) }

// loadParts returns what a load or a switch says, each part from the left edge. A switch is one part: little happens.
func (c *cutList) loadParts(step plan.Step) [][]span {
	if step.Kind == plan.StepTray {
		return [][]span{{{style: bold(12), text: c.say("cutlist.tray", "part", step.Part, "of", step.Of)},
			{style: medium(11), text: c.say("cutlist.tray_under")}}}
	}
	if step.Kind == plan.StepSwitch {
		return [][]span{append(c.loadSpans(step), c.loadDetails(step)...)}
	}
	return [][]span{c.loadSpans(step), c.loadDetails(step)}
}

func (c *cutList) loadHeight(step plan.Step) page.Pt {
	lines := 0
	for _, part := range c.loadParts(step) {
		lines += len(c.lines(c.loadRoom(), part))
	}
	return page.Pt(lines)*loadPitch() + mm(5)
}

// load prints the row that puts a reel on, in a heavy frame; or that goes on with a mounted one, in a light frame.
func (c *cutList) load(row cutRow) {
	weight, side := 2*groupRule, loadSide()
	if row.step.Kind != plan.StepLoad {
		weight, side = rowRule, boxSide()
	}
	y, height := c.y+mm10(15), row.height-mm(3)
	c.box(live.X+mm10(5), y, live.W-mm(1), height, weight)
	c.tick(live.X+mm10(65)-side/2, y+(height-side)/2, side)
	line := y + mm(6)
	for _, part := range c.loadParts(row.step) {
		line = c.flow(live.X+loadSide()+mm(7), line, c.loadRoom(), loadPitch(), part...)
	}
	if row.step.Kind == plan.StepTray {
		return
	}
	c.still, c.setting, c.place = row.step.Reel, c.settingWords(row.step), c.metrics.substituteFor(row.step.Substitute)
	if c.still == "" {
		c.still = row.step.Type
	}
}

// stillOn says what the line runs when the page starts.
func (c *cutList) stillOn() []span {
	spans := []span{{style: bold(11), text: c.say("cutlist.still_on")}}
	if c.still == "" {
		return append(spans, span{style: bold(11), text: c.say("cutlist.nothing")})
	}
	if reel, known := c.stock.reels[c.still]; known {
		spans = append(spans, span{style: monoBold(12), text: c.still})
		spans = append(spans, c.stock.typeWords(reel.Type)...)
	} else {
		spans = append(spans, c.stock.typeWords(c.still)...)
	}
	return c.present(append(spans, span{style: bold(11), text: c.setting}, span{style: bold(11), text: c.place}))
}

// settingWords says how the line marks while a step runs on.
func (c *cutList) settingWords(step plan.Step) string {
	if step.Method == "test first" {
		return c.say("mark.as_proved")
	}
	return c.metrics.methodWords(step.Method, step.Ink).text
}

// ending prints what closes a group: lines for changes nobody planned, and the count of every unit.
func (c *cutList) ending() {
	c.need(c.endingHeight())
	c.y += mm(3)
	for range 2 {
		c.line(live.X, c.y+mm(6), live.W, c.changeSpans())
		c.y += writePitch()
	}
	c.y = c.flow(live.X, c.y+mm(6), live.W, writePitch(), c.countSpans()...)
}

func (c *cutList) endingHeight() page.Pt {
	return mm(3) + writePitch()*page.Pt(2+len(c.lines(live.W, c.countSpans())))
}

// writePitch is the line pitch of everything written by hand.
func writePitch() page.Pt { return mm10(85) }

func (c *cutList) changeSpans() []span {
	s := regular(10)
	return []span{{style: s, text: c.say("cutlist.change_here"), blank: mm(14)}, {style: s, text: c.say("common.reel"), blank: mm(24)},
		{style: s, text: c.say("common.lot"), blank: mm(30)}, {style: s, text: c.say("common.initials"), blank: mm(15)}}
}

func (c *cutList) countSpans() []span {
	spans := []span{{style: bold(11), text: c.say("cutlist.end_of", "connector", c.group.Connector)}}
	for _, unit := range c.units {
		spans = append(spans, span{style: monoBold(10), text: c.say("common.counted", "unit", unit), blank: mm(12),
			after: c.say("common.of", "n", len(c.group.Wires))})
	}
	return append(spans, span{style: medium(10), text: c.say("common.operator"), blank: mm(35)}, span{style: medium(10), text: c.say("common.date_time"), blank: mm(30)})
}
