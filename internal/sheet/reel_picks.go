package sheet

import (
	"fmt"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// reelPicks writes the list by which stores bring the reels to the line.
type reelPicks struct {
	book
	plan  *plan.Plan
	stock stock
	list  string // type whose reels are listed
	rows  int    // printed of it
}

// reelSections lays the reel pick list: every type with its need, its reels in order of mounting, and what to order.
func reelSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Totals) == 0 {
		return nil
	}
	r := &reelPicks{book: *newBook(m, problems), plan: p, stock: stockOf(p, m)}
	r.draft = p.Packet.Draft
	r.y = r.paragraph(live.X, r.y+mm(5), medium(10), live.W, mm(5),
		r.say("reels.how")) - mm(2)
	for _, total := range p.Totals {
		r.wireType(total)
	}
	r.need(writePitch() + mm(4))
	r.line(live.X, r.y+mm(10), live.W, []span{{style: medium(10), text: r.say("reels.brought"), blank: mm(60)}, {style: medium(10), text: r.say("common.date"), blank: mm(34)}})
	return []section{{sheet: "reels", title: m.Say("reels.title"), pages: r.finish()}}
}

// pickColumn is where the columns of the reels stand.
func pickColumns() (lot, place, used, left, picked page.Pt) {
	return live.X + mm(38), live.X + mm(70), live.X + mm(118), live.X + mm(150), live.X + mm(156)
}

// wireType prints a type and its reels, which stay together on a page where they fit.
func (r *reelPicks) wireType(total plan.Total) {
	reels, order := r.of(total.Type)
	r.need(min(mm(19)+writePitch()*page.Pt(max(len(reels), 1)+one(order.UM > 0)), bodyBottom()-bodyTop()))
	r.y += mm(8)
	r.flow(live.X, r.y, live.W, mm(5), append([]span{{style: monoBold(12), text: total.Type}}, r.stock.typeWords(total.Type)[1:]...)...)
	r.y += mm(5)
	r.text(live.X, r.y, regular(10), live.W, r.say("reels.need", "metres", r.decimal(metres(total.UM)), "pieces", r.sayCount("common.pieces", total.Pieces), "longest", r.exact(total.LongestUM)))
	r.y += mm(2)
	r.across(live.X, live.X+live.W, r.y, rowRule)
	r.list, r.rows = total.Type, 0
	for i, reel := range reels {
		r.reel(i+1, reel)
	}
	for _, s := range r.plan.Substitutes {
		if s.For == total.Type {
			r.substitute(s)
		}
	}
	switch {
	case order.UM > 0:
		r.row(r.say("reels.order"), r.say("reels.order_words", "metres", r.decimal(metres(order.UM)), "pieces", r.sayCount("common.pieces", order.Pieces), "longest", r.exact(order.LongestUM)))
	case len(reels) == 0:
		r.row(r.say("common.reel"), "")
	}
}

// of returns the reels of a type and what to order of it.
func (r *reelPicks) of(wireType string) (reels []plan.Reel, order plan.Order) {
	for _, reel := range r.plan.Reels {
		if reel.Type == wireType {
			reels = append(reels, reel)
		}
	}
	for _, o := range r.plan.ToOrder {
		if o.Type == wireType {
			order = o
		}
	}
	return reels, order
}

// reel prints one reel with a box and room for who picked it.
func (r *reelPicks) reel(number int, reel plan.Reel) {
	lot, place, used, left, picked := pickColumns()
	places := r.lines(live.W-mm(7), r.metrics.placesSpans(bold(11), reel.Substitutes))
	r.need(writePitch() + mm(5)*page.Pt(len(places)))
	top, base := r.y, r.y+mm(6)
	r.tick(live.X, r.y+mm(2), boxSide())
	r.text(live.X+mm(7), base, monoBold(11), mm(30), fmt.Sprintf("%d. %s", number, reel.ID))
	r.text(lot, base, regular(10), mm(31), labelled(r.say("common.lot"), reel.Lot))
	r.text(place, base, regular(10), mm(23), reel.Place)
	r.right(used, base, medium(10), mm(25), r.say("reels.use", "metres", r.decimal(metres(reel.UsedUM))))
	after := r.say("reels.left", "metres", r.decimal(metresDown(reel.LeftUM)))
	if reel.Scrap {
		after = r.say("reels.scrap", "metres", r.decimal(metresDown(reel.LeftUM)))
	}
	r.right(left, base, medium(10), mm(31), after)
	by := r.say("common.by")
	r.text(picked, base, regular(9), mm(12), by)
	start := picked + max(mm(5), r.width(regular(9), by)+blankGap)
	r.blank(start, base, live.X+live.W-start)
	r.y += writePitch()
	for _, line := range places {
		r.line(live.X+mm(7), r.y+mm(3), live.W-mm(7), line)
		r.y += mm(5)
	}
	r.close(top, 1)
}

// close ends a row that starts at top, with so many boxes to tick.
func (r *reelPicks) close(top page.Pt, ticks int) {
	r.rows++
	r.mark(r.list, r.rows, top, r.y-top, ticks)
	r.across(live.X, live.X+live.W, r.y, rowRule)
}

// substitute prints what is cut from another type once the reels are used up.
func (r *reelPicks) substitute(s plan.Substitution) {
	words := r.say("reels.substitute", "pieces", r.sayCount("common.pieces", s.Pieces), "metres", r.decimal(metres(s.UM)), "longest", r.exact(s.LongestUM),
		"type", s.Type, "reels", strings.Join(s.Reels, ", "), "approved", s.Approved)
	lines := page.Pt(len(r.wrap(bold(11), live.W-mm(7), words)))
	r.need(mm(5)*lines + mm(4))
	top := r.y
	r.y = r.paragraph(live.X+mm(7), r.y+mm(6), bold(11), live.W-mm(7), mm(5), words) - mm(3)
	r.close(top, 0)
}

// row prints what no reel of the list serves, with room to write the reel and lot that came.
func (r *reelPicks) row(head, words string) {
	r.need(writePitch())
	top, base := r.y, r.y+mm(6)
	r.tick(live.X, r.y+mm(2), boxSide())
	r.text(live.X+mm(7), base, bold(11), max(mm(20), r.width(bold(11), head)), head)
	if words != "" {
		x := live.X + max(mm(24), mm(9)+r.width(bold(11), head))
		r.text(x, base, medium(10), live.X+live.W-x, words)
	} else {
		r.line(live.X+mm(24), base, live.W-mm(24), []span{{style: regular(10), text: r.say("reels.id"), blank: mm(36)},
			{style: regular(10), text: r.say("common.lot"), blank: mm(40)}, {style: regular(10), text: r.say("common.by"), blank: mm(30)}})
	}
	r.y += writePitch()
	r.close(top, 1)
}
