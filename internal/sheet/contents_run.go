package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// changes says how often the line is set up anew, and how few times would do.
func (c *contents) changes() {
	ch := c.plan.Changes
	order := c.say("changes.this_order")
	if ch.Free {
		order = c.say("changes.these_homes")
	}
	c.section(c.say("changes.head"), mm(20))
	c.put(medium(10), c.say("changes.bound", "changes", c.sayCount("changes.reel", ch.Reel), "order", order, "least", ch.Bound))
	least := c.say("changes.least", "order", order)
	if !ch.Proved {
		least = c.say("changes.floor", "order", order, "time", duration(ch.FloorMS))
	}
	c.put(regular(10), c.say("changes.cost", "time", duration(ch.CostMS), "least", least))
	c.put(regular(10), c.say("changes.others", "method", c.sayCount("changes.method", ch.Method),
		"ink", c.sayCount("changes.ink", ch.Ink), "height", c.sayCount("changes.height", ch.Height), "loads", c.sayCount("changes.loads", ch.Loads)))
	if ch.Substitutes > 0 {
		c.put(medium(10), c.sayCount("changes.substitutes", ch.Substitutes))
	}
	c.reelCount()
	if n := ch.Numbered; n.CostMS > ch.CostMS {
		c.put(regular(10), c.say("changes.saving", "numbered", c.sayCount("changes.reel", n.Reel),
			"saved", c.sayCount("changes.change", n.Reel-ch.Reel), "time", duration(n.CostMS-ch.CostMS)))
	}
	c.y += mm(2)
}

// reelCount compares the reels opened with how few would do.
func (c *contents) reelCount() {
	count := c.plan.ReelCount
	if count == nil {
		return
	}
	opened, others := c.sayCount("changes.opened", count.Opened), ""
	words := c.say("changes.reels_least", "opened", opened)
	if count.Least < count.Opened {
		words = c.say("changes.reels_more", "opened", opened, "least", count.Least)
	}
	if count.Others {
		others = c.say("changes.reels_others")
	}
	c.put(regular(10), joined(" ", words, others))
}

// put prints a paragraph below what stands there.
func (c *contents) put(s style, text string) {
	lines := page.Pt(len(c.wrap(s, live.W, text)))
	c.need(mm(2) + mm(5)*lines)
	c.y = c.paragraph(live.X, c.y+mm(5), s, live.W, mm(5), text) - mm(5)
}

// duration writes a time for a planner, rounded up to seconds: "2 h 05 min", "3 min 20 s", "45 s".
func duration(ms int64) string {
	seconds := (ms + 999) / 1000
	switch {
	case seconds >= 3600:
		minutes := (seconds + 59) / 60
		return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
	case seconds >= 60:
		return strings.TrimSuffix(fmt.Sprintf("%d min %d s", seconds/60, seconds%60), " 0 s")
	}
	return fmt.Sprintf("%d s", seconds)
}

// time says how long the line takes, and whether the person beside it keeps up.
func (c *contents) time() {
	t := c.plan.Time
	if len(t.Groups) == 0 {
		return
	}
	c.section(c.say("time.head"), mm(30))
	c.put(bold(11), c.say("time.total", "time", duration(t.Minutes*60_000)))
	var items []string
	for _, item := range []struct {
		words string
		ms    int64
	}{{"feed", t.Feed}, {"marks", t.Marks}, {"cut", t.Cut}, {"load", t.Load}, {"reel", t.Reel},
		{"method", t.Method}, {"ink", t.Ink}, {"height", t.Height}, {"tray", t.Tray}, {"wait", t.Wait}} {
		if item.ms > 0 {
			items = append(items, c.say("time.item."+item.words, "time", duration(item.ms)))
		}
	}
	c.put(regular(10), strings.Join(items, ", "))
	c.put(regular(10), c.say("time.beside", "time", duration(t.Handling)))
	c.put(medium(10), c.keepsUp())
	c.y += mm(2)
	c.timeline()
}

// keepsUp says after which groups the line waits for the person beside it.
func (c *contents) keepsUp() string {
	var waits []string
	for _, g := range c.plan.Time.Groups {
		if g.WaitMS > 0 {
			words := c.say("time.after", "time", duration(g.WaitMS), "group", g.Group)
			if batch := batchName(g.List); batch != "" {
				words = c.say("time.after_batch", "time", duration(g.WaitMS), "group", g.Group, "batch", c.metrics.batchWords(batch))
			}
			waits = append(waits, words)
		}
	}
	if len(waits) == 0 {
		return c.say("time.keeps_up")
	}
	return c.say("time.waits", "waits", strings.Join(waits, ", "))
}

// prices compares the policies for homes.
func (c *contents) prices() {
	if len(c.plan.Prices) == 0 {
		return
	}
	c.section(c.say("prices.head"), mm(26))
	heads := []ledgerColumn{{c.say("prices.policy"), mm(44)}, {c.say("prices.changes"), mm(28)}, {c.say("prices.minutes"), mm(38)}, {c.say("prices.ahead"), mm(70)}}
	x := live.X
	c.y += mm(5)
	for i, head := range heads {
		if i == 0 {
			c.text(x, c.y, bold(9), head.width, head.title)
		} else {
			c.right(x+head.width-mm(4), c.y, bold(9), head.width+mm(4), head.title)
		}
		x += head.width
	}
	for _, p := range c.plan.Prices {
		c.need(mm(6))
		c.y += mm(5)
		s, name := regular(10), p.Policy
		if p.Chosen {
			s, name = bold(10), c.say("prices.in_force", "policy", p.Policy)
			if c.plan.Kept != nil {
				name = c.say("prices.kept", "policy", p.Policy)
			}
		}
		c.text(live.X, c.y, s, heads[0].width, name)
		x = live.X + heads[0].width
		for i, figure := range []int64{int64(p.Reel), p.Minutes, int64(p.Ahead)} {
			c.right(x+heads[i+1].width-mm(4), c.y, s, heads[i+1].width, fmt.Sprint(figure))
			x += heads[i+1].width
		}
	}
	c.y += mm(2)
}

// mostRuns is the number of reels that the timeline draws.
const mostRuns = 24

// Places of the timeline: names on the left, bars on the right.
func runsAt() page.Pt      { return mm(36) }
func runPitch() page.Pt    { return mm10(46) }
func runsWidth() page.Pt   { return live.W - runsAt() - mm(5) }
func runHeight() page.Pt   { return mm10(26) }
func shortestRun() page.Pt { return mm10(4) }

// timeline draws which reel runs when, and when the person beside the line is busy.
func (c *contents) timeline() {
	rows, left := c.reelRows()
	height := runPitch()*page.Pt(len(rows)+1) + mm(14)
	c.need(height)
	top := c.y + mm(5)
	c.axis(top, runPitch()*page.Pt(len(rows)+1))
	y := top + mm(1)
	for _, row := range rows {
		c.text(live.X, y+mm10(28), mono(9), runsAt()-mm(2), row.reel)
		for _, run := range row.runs {
			x := c.runX(run.StartMS)
			c.items = append(c.items, page.Box{Rect: page.Rect{X: x, Y: y + mm10(4), W: max(c.runX(run.EndMS)-x, shortestRun()), H: runHeight()}, Filled: true})
		}
		y += runPitch()
	}
	c.text(live.X, y+mm10(28), regular(9), runsAt()-mm(2), c.say("time.coil_tie"))
	for _, g := range c.plan.Time.Groups {
		if x := c.runX(g.TakenMS); g.DoneMS > g.TakenMS {
			c.box(x, y+mm10(6), max(c.runX(min(g.DoneMS, c.span()))-x, shortestRun()), mm10(22), rowRule)
		}
	}
	c.y = y + runPitch()
	if left > 0 {
		c.put(regular(9), c.sayCount("time.not_drawn", left))
	}
	c.y += mm(2)
}

// reelLine is one row of the timeline.
type reelLine struct {
	reel  string
	total int64
	runs  []plan.ReelRun
}

// reelRows returns the reels that run longest, in the order in which they first run, and how many are left out.
func (c *contents) reelRows() (rows []reelLine, left int) {
	at := map[string]int{}
	for _, run := range c.plan.Time.Timeline {
		i, known := at[run.Reel]
		if !known {
			i, at[run.Reel] = len(rows), len(rows)
			rows = append(rows, reelLine{reel: run.Reel})
		}
		rows[i].total += run.EndMS - run.StartMS
		rows[i].runs = append(rows[i].runs, run)
	}
	if len(rows) <= mostRuns {
		return rows, 0
	}
	left = len(rows) - mostRuns
	slices.SortStableFunc(rows, func(a, b reelLine) int { return cmp.Compare(b.total, a.total) })
	rows = rows[:mostRuns]
	slices.SortStableFunc(rows, func(a, b reelLine) int { return cmp.Compare(a.runs[0].StartMS, b.runs[0].StartMS) })
	return rows, left
}

// span is the time that the width of the timeline stands for: until the last group is coiled.
func (c *contents) span() int64 {
	groups := c.plan.Time.Groups
	return max(groups[len(groups)-1].DoneMS, 1)
}

func (c *contents) runX(ms int64) page.Pt {
	return live.X + runsAt() + page.Pt(int64(runsWidth())*ms/c.span())
}

// axis rules the timeline by minutes.
func (c *contents) axis(top, height page.Pt) {
	const most = 9
	steps := []int64{1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 1440}
	step := steps[len(steps)-1]
	for _, minutes := range slices.Backward(steps) {
		if c.span()/(minutes*60_000) <= most {
			step = minutes
		}
	}
	for ms := int64(0); ms <= c.span(); ms += step * 60_000 {
		x := c.runX(ms)
		c.items = append(c.items, page.Rule{X1: x, Y1: top - mm10(8), X2: x, Y2: top + height, Weight: rowRule, Dash: []page.Pt{mm10(6), mm10(9)}})
		words := fmt.Sprint(ms / 60_000)
		if ms == 0 {
			words = "0 min"
		}
		c.centre(x, top-mm10(12), regular(9), mm(20), words)
	}
}
