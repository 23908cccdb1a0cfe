package plan

import (
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// Time is how long the line takes, an estimate from the shop's own figures, in milliseconds.
type Time struct {
	Feed     int64 `json:"feed"`  // wire through the line, marks made on the fly included
	Marks    int64 `json:"marks"` // what marks take beyond the feed
	Cut      int64 `json:"cut"`
	Load     int64 `json:"load"` // a stop counts where its dearest change belongs
	Reel     int64 `json:"reel"`
	Method   int64 `json:"method"`
	Ink      int64 `json:"ink"`
	Height   int64 `json:"height"`
	Tray     int64 `json:"tray"`
	Wait     int64 `json:"wait"` // for the person who coils and ties
	Total    int64 `json:"total"`
	Minutes  int64 `json:"minutes"`  // Total, rounded up
	Handling int64 `json:"handling"` // of that person, beside the line

	Groups   []GroupTime `json:"groups"`   // in the order of the run
	Timeline []ReelRun   `json:"timeline"` // which reel runs when, in the order of the run
}

// GroupTime is one group of one cut list on the line, and with the person beside it. The person takes a group over when it is
// complete and the one before it is done; the line goes on then, and waits until then.
type GroupTime struct {
	Group   string `json:"group"`
	List    int    `json:"list"` // index of the cut list
	StartMS int64  `json:"start_ms"`
	EndMS   int64  `json:"end_ms"`
	TakenMS int64  `json:"taken_ms"` // when the person takes it over
	DoneMS  int64  `json:"done_ms"`  // when it is coiled and tied
	WaitMS  int64  `json:"wait_ms"`  // what the line waits after it
}

// ReelRun is a reel on the line without a break.
type ReelRun struct {
	Reel    string `json:"reel"` // its type where the job knows no reels
	Type    string `json:"type"`
	StartMS int64  `json:"start_ms"`
	EndMS   int64  `json:"end_ms"`
}

// clock runs the cuts of a job through the line.
type clock struct {
	line  *harness.Line
	time  Time
	now   int64
	free  int64 // when the person beside the line is free
	trays func(group, list int) int
}

// timeOf works out how long the line takes for cuts in their order. Trays counts the trays of a group and list.
func timeOf(h *harness.Harness, groups []ownWires, cuts []cut, trays func(group, list int) int) Time {
	c := clock{line: &h.Line, trays: trays}
	for start := 0; start < len(cuts); {
		end := start
		for end < len(cuts) && cuts[end].group == cuts[start].group && cuts[end].list == cuts[start].list {
			end++
		}
		c.group(groups[cuts[start].group].connector, cuts, start, end)
		start = end
	}
	t := &c.time
	t.Total = t.Feed + t.Marks + t.Cut + t.Load + t.Reel + t.Method + t.Ink + t.Height + t.Tray + t.Wait
	t.Minutes = (t.Total + 59_999) / 60_000
	return c.time
}

// group runs one group of one list, and hands it over.
func (c *clock) group(connector string, cuts []cut, start, end int) {
	g := GroupTime{Group: connector, List: cuts[start].list, StartMS: c.now}
	for i := start; i < end; i++ {
		c.stop(cuts, i)
		c.piece(&cuts[i])
	}
	tray := int64(c.line.ChangeTime.Tray) * int64(c.trays(cuts[start].group, cuts[start].list))
	c.time.Tray += tray
	c.now += tray
	handling := int64(c.line.HandlingTime) * int64(end-start)
	c.time.Handling += handling
	g.EndMS, g.TakenMS = c.now, max(c.now, c.free)
	g.DoneMS = g.TakenMS + handling
	if end < len(cuts) {
		g.WaitMS = g.TakenMS - g.EndMS
	}
	c.time.Wait += g.WaitMS
	c.now, c.free = c.now+g.WaitMS, g.DoneMS
	c.time.Groups = append(c.time.Groups, g)
}

// stop counts the changes before a cut at the price of the dearest.
func (c *clock) stop(cuts []cut, i int) {
	times, t := c.line.ChangeTime, &c.time
	kinds := []struct {
		changed bool
		price   units.Time
		sum     *int64
	}{{cuts[i].load, times.Load, &t.Load}, {}, {}, {}, {}}
	if i > 0 {
		a, b := cuts[i-1].state(), cuts[i].state()
		kinds[1].changed, kinds[1].price, kinds[1].sum = a.wireType != b.wireType, times.Reel, &t.Reel
		kinds[2].changed, kinds[2].price, kinds[2].sum = a.method != b.method, times.Method, &t.Method
		kinds[3].changed, kinds[3].price, kinds[3].sum = a.ink != b.ink, times.Ink, &t.Ink
		kinds[4].changed, kinds[4].price, kinds[4].sum = a.height != b.height, times.Height, &t.Height
	}
	dearest := -1
	for k := range kinds {
		if kinds[k].changed && (dearest < 0 || kinds[k].price > kinds[dearest].price) {
			dearest = k
		}
	}
	if dearest >= 0 {
		*kinds[dearest].sum += int64(kinds[dearest].price)
		c.now += int64(kinds[dearest].price)
	}
}

// piece feeds, marks and cuts one piece.
func (c *clock) piece(cut *cut) {
	t := &c.time
	feed := int64(0)
	if c.line.Feed > 0 {
		feed = (cut.wire.CutUM*1000 + int64(c.line.Feed) - 1) / int64(c.line.Feed)
	}
	marks := int64(c.line.MarkTime) * int64(len(cut.wire.Marks))
	if c.line.OnTheFly {
		marks = max(0, marks-feed)
	}
	t.Feed, t.Marks, t.Cut = t.Feed+feed, t.Marks+marks, t.Cut+int64(c.line.CutTime)
	start := c.now
	c.now += feed + marks + int64(c.line.CutTime)
	if last := len(t.Timeline) - 1; last >= 0 && t.Timeline[last].Reel == cut.running() && t.Timeline[last].Type == cut.wireType() {
		t.Timeline[last].EndMS = c.now
		return
	}
	t.Timeline = append(t.Timeline, ReelRun{Reel: cut.running(), Type: cut.wireType(), StartMS: start, EndMS: c.now})
}

// Price is what a policy for homes costs.
type Price struct {
	Policy  string `json:"policy"`
	Chosen  bool   `json:"chosen"`
	Reel    int    `json:"reel"` // reel changes of one pass
	Minutes int64  `json:"minutes"`
	Ahead   int    `json:"ahead"` // wires that the first connector to be built takes from the tray of a later one
}

// homePolicies lists the policies in the order of the paper.
func homePolicies() []string { return []string{"end-a", "board-order", "fewest-changes"} }

// pricesOf prices every policy for homes; that of the plan costs what its own run does.
func (p *Plan) pricesOf(h *harness.Harness, build []string, rows []*Wire) []Price {
	var prices []Price
	for _, policy := range homePolicies() {
		other := *h
		other.Policy.Home = policy
		if policy != h.Policy.Home {
			other.Policy.Kept = nil
		}
		home, _ := homes(&other, build) // locks are the same under every policy
		price := Price{Policy: policy, Chosen: policy == h.Policy.Home, Ahead: takenAhead(h, build, home)}
		if price.Chosen {
			price.Reel, price.Minutes = p.Changes.Reel, p.Time.Minutes
		} else {
			price.Reel, price.Minutes = runAt(&other, home, build, rows)
		}
		prices = append(prices, price)
	}
	return prices
}

// runAt returns the reel changes of one pass and the minutes of the whole run with other homes.
func runAt(h *harness.Harness, home map[string]string, build []string, rows []*Wire) (reel int, minutes int64) {
	groups := groupWires(rows, home, build)
	groups, _ = cheapestPass(h, groups, tableOf(groups))
	cuts, _ := supplied(h, groups)
	packed := pack(h, cuts, groups)
	return countChanges(groups).Reel, timeOf(h, groups, cuts, packed.count(h)).Minutes
}

// count returns how many trays a group fills on a list, for all of its units.
func (packed trayPacking) count(h *harness.Harness) func(group, list int) int {
	lists := unitLists(h)
	return func(group, list int) int { return len(packed[group][list]) * len(lists[list]) }
}

// takenAhead counts the wires whose home is not the first of their ends in build order.
func takenAhead(h *harness.Harness, build []string, home map[string]string) int {
	ranks, count := rankOf(h, build), 0
	for i := range h.Wires {
		w := &h.Wires[i]
		if at := home[w.ID]; cutAlone(w) && at != "" {
			first := slices.ContainsFunc(bodiesOf([]*harness.Wire{w}), func(id string) bool {
				return ranks[id].class == 0 && ranks[id].position < ranks[at].position
			})
			count += one(first)
		}
	}
	return count
}

// Numbered is the changes of the same groups with their wires in the order of their numbers, for comparison.
type Numbered struct {
	Reel   int   `json:"reel"`
	CostMS int64 `json:"cost_ms"`
}

// numberedOf counts what the wires in the order of their numbers would cost.
func numberedOf(h *harness.Harness, groups []ownWires) Numbered {
	costs := ladderOfLine(&h.Line)
	var n Numbered
	var before *Wire
	for _, group := range groups {
		rows := slices.Clone(group.wires)
		slices.SortFunc(rows, func(a, b *Wire) int { return naturalCompare(a.ID, b.ID) })
		for _, row := range rows {
			if before != nil {
				n.Reel += one(before.Type != row.Type)
				n.CostMS += costs.between(stateOf(before), stateOf(row))
			}
			before = row
		}
	}
	return n
}
