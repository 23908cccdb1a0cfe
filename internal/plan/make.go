package plan

import (
	"fmt"
	"reflect"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// Make plans the work of a checked harness. The list holds the problems of the plan alone; earlier holds those found when the
// job was read, and both stand in the plan. The plan is valid only where the list has no errors.
func Make(checked *harness.Harness, earlier problem.List) (Plan, problem.List) {
	h := withPigtails(checked)
	w, problems := workOf(h)
	problems = append(problems, substituteProblems(h, w.wires)...)
	paper, faults := PaperOf(h)
	problems = append(append(problems, faults...), codeProblems(h)...)
	if problems.Errors() > 0 {
		return Plan{}, problems
	}
	p := Plan{Loomleaf: 1, Paper: paper}
	problems = append(problems, p.decide(h, w)...)
	p.list(h, w)
	p.inspect(h)
	p.listSleeves()
	p.fillFirstStrips()
	p.Labels = labelRows(h, p.Connectors)
	p.Kit, p.Attrition = kitOf(&p, h), h.Allowance.Attrition.String()
	for _, d := range h.Defaults {
		p.Defaults = append(p.Defaults, Default{Key: d.Key, Value: d.Value})
	}
	return finish(p, earlier, problems)
}

// work is what there is to plan: every wire and cable with its length, marks and home.
type work struct {
	build  []string          // homes, in build order
	home   map[string]string // of wires and cables
	wires  []Wire            // in natural order of their ids
	cables []Cable
}

// workOf works out lengths, marks and homes. With errors in the list they are not to be used.
func workOf(h *harness.Harness) (work, problem.List) {
	w := work{build: buildOrder(h)}
	var problems, faults problem.List
	w.wires, w.cables, problems = wireRows(h)
	w.home, faults = homes(h, w.build)
	for i := range w.wires {
		w.wires[i].Home = w.home[w.wires[i].ID]
	}
	for i := range w.cables {
		w.cables[i].Home = w.home[w.cables[i].ID]
	}
	return w, append(problems, faults...)
}

// decide fills in what is decided: the order of groups and rows, reels, trays and time. What else stands in a plan is rows about it.
func (p *Plan) decide(h *harness.Harness, w work) problem.List {
	p.Types, p.Line = typeRows(h), lineOf(h)
	weigh(p.Types, w.wires, w.cables)
	rows := lineRows(w.wires, w.cables)
	p.Packet = packetOf(h, rows)
	groups, costs := runOrder(h, groupWires(rows, w.home, w.build))
	return p.run(h, groups, costs)
}

// list fills in the rows of the line, the board and the installer, and their codes.
func (p *Plan) list(h *harness.Harness, w work) {
	p.Mass, p.Tolerance = massOfHarness(w.wires, w.cables), toleranceSource(h.Paper.Spoken(), h.Job.Tolerance)
	codeWires(p.Packet, p.Types, w.wires, w.cables)
	rows, landings := lineRows(w.wires, w.cables), landingsOf(h.Paper.Spoken(), p.Types, w.wires)
	p.Connectors = connectorRows(h, landings, w.build)
	p.Joints = jointRows(h, landings)
	p.Segments, p.Bundles = segmentRows(h, w.wires), bundleRule(h)
	trunk := trunkOf(h, p.Segments)
	p.Board = boardRow(h, trunk)
	p.Routing = routingRows(h, trunk, p.Types, w.wires, w.cables)
	p.Finder = foundRows(p.Routing)
	p.tellSubstitutes(w.wires)
	p.Safety = safetyOf(h, rows, p.Types)
	p.tellUnits()
	codeLandings(p.Packet, p.Connectors, p.Joints)
	p.Prices = p.pricesOf(h, w.build, rows)
	p.listWires(w.wires, w.cables)
	p.Kept = p.keptOf(h, w.build, rows, w.wires, w.cables)
	p.Lengths = lengthRows(w.wires, w.cables)
}

// run fills the plan with everything that follows from the order of the run: groups, pieces, changes, reels and trays.
func (p *Plan) run(h *harness.Harness, groups []ownWires, costs outcome) problem.List {
	cuts, supplies := supplied(h, groups)
	p.addSubstitutes(h, cuts)
	packed := pack(h, cuts, groups)
	steps, stillOn := stepRows(cuts, packed, len(p.Packet.Lists), h.Line.Rack)
	p.Pieces = pieceRows(cuts, groups, packed)
	p.Changes = changesOf(groups, cuts, costs)
	p.Reels, p.ToOrder, p.Totals = reelRows(supplies, h.Policy.Remnant), orderRows(supplies), totalRows(supplies)
	p.ReelCount = reelCount(h, cuts, supplies)
	p.Marking, p.Setups = markingOfJob(h), setupRows(cuts, p.Types, h.Line.Leading, h.Line.Rack)
	p.ToProve = toProve(h, p.Setups)
	p.Changes.Numbered, p.Changes.Free = numberedOf(h, groups), h.Policy.Order == "free"
	p.Time = timeOf(h, groups, cuts, packed.count(h))
	p.Trays = packed.trayRows(h, groups)
	p.Groups = groupRows(h, groups, p.Trays, steps, stillOn)
	codeTrays(p.Packet, p.Trays, groups)
	problems := append(stockWarnings(h, supplies), p.substituteWarnings(h, supplies)...)
	return append(problems, packed.trayWarnings(h, groups)...)
}

// changesOf counts the changes of one pass, the loads of the whole run, and the bound.
func changesOf(groups []ownWires, cuts []cut, costs outcome) Changes {
	changes := countChanges(groups)
	for i := range cuts {
		changes.Loads += one(cuts[i].load)
	}
	changes.Substitutes = typeChanges(cuts) - changes.Reel
	changes.Bound, changes.CostMS, changes.FloorMS = costs.reels, costs.cost, costs.floor
	changes.Proved = costs.cost == costs.floor
	return changes
}

// groupRows returns the groups with the rows of their cut lists.
func groupRows(h *harness.Harness, groups []ownWires, trays []Tray, steps [][][]Step, stillOn [][]string) []Group {
	byID := bodiesByID(h)
	own := map[string][]GroupTray{}
	for _, tray := range trays {
		own[tray.Group] = append(own[tray.Group], GroupTray{Unit: tray.Unit, ID: tray.ID})
	}
	rows := make([]Group, len(groups))
	for g, group := range groups {
		home := byID[group.connector]
		rows[g] = Group{Connector: group.connector, Title: home.title, Steps: steps[g], StillOn: stillOn[g], Place: home.at}
		rows[g].Trays = own[group.connector]
		for _, wire := range group.wires {
			rows[g].Wires = append(rows[g].Wires, wire.ID)
		}
	}
	return rows
}

// packetOf names the job, and lists the methods and inks that the rows of its cut lists use.
func packetOf(h *harness.Harness, rows []*Wire) Packet {
	job := h.Job
	packet := Packet{
		Number: job.Number, Title: job.Title, Part: job.Part, Revision: job.Revision, Supersedes: job.Supersedes,
		Issued: isoDate(job.Issued), Due: isoDate(job.Due), Units: slices.Clone(job.Units), Serials: job.Serials, Class: job.Class,
		Board: h.Board.ID, TitlePlace: job.Of("title"), Draft: h.Draft, Batch: max(h.Policy.Batch, 1), Lists: unitLists(h), OneByOne: h.Policy.Units == "one by one",
		Leading: h.Line.Leading,
	}
	if packet.OneByOne {
		packet.Batch = 1
	}
	for _, document := range job.Documents {
		packet.Documents = append(packet.Documents, Document{Kind: document.Kind, Number: document.Number, Revision: document.Revision})
	}
	methods, inks := map[string]bool{}, map[string]bool{}
	for _, row := range rows {
		methods[row.Method], inks[row.Ink] = true, true
	}
	for _, method := range methodOrder {
		if methods[string(method)] {
			packet.Method = append(packet.Method, string(method))
		}
	}
	for _, ink := range []string{"black", "white"} {
		if inks[ink] {
			packet.Inks = append(packet.Inks, ink)
		}
	}
	return packet
}

// isoDate writes a day as ISO 8601, "" where none is given.
func isoDate(d harness.Date) string {
	if d == (harness.Date{}) {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
}

// lineOf returns what the sheets print of the line.
func lineOf(h *harness.Harness) Line {
	line := Line{Rack: h.Line.Rack, StepUM: int64(h.Line.Step)}
	for _, method := range h.Line.Methods {
		line.Methods = append(line.Methods, string(method))
	}
	return line
}

// codeProblems refuses a job with more units or cavities than its codes can number.
func codeProblems(h *harness.Harness) problem.List {
	refuse := func(text, hint string) problem.List {
		return problem.List{{Severity: problem.Error, Check: "too-many-codes", Place: h.Job.At, ID: h.Job.Number, Text: text, Hint: hint}}
	}
	landings, homes := len(h.Splices)+len(h.Terminals), len(h.Splices)+len(h.Terminals)+len(h.Connectors)
	for _, connector := range h.Connectors {
		landings += len(connector.Cavities)
	}
	cut, trays := len(h.Wires)+len(h.Cables), homes*len(h.Job.Units)
	switch {
	case len(h.Job.Units) > mostUnits:
		return refuse(fmt.Sprintf("job %q has %d units, and its codes number %d", h.Job.Number, len(h.Job.Units), mostUnits), "split the order into several jobs")
	case max(landings, cut, trays) > itemRange:
		return refuse(fmt.Sprintf("job %q has %d landing places, %d wires and cables and %d trays, and its codes number %d of each",
			h.Job.Number, landings, cut, trays, itemRange), "split the order or the harness into several jobs")
	}
	return nil
}

// PaperOf finds the label stock: the one that the job names, else the first of the paper's size. It is an error where there is none.
func PaperOf(h *harness.Harness) (Paper, problem.List) {
	index := slices.IndexFunc(h.Stocks, func(s harness.LabelStock) bool {
		if h.Paper.Labels != "" {
			return s.ID == h.Paper.Labels
		}
		return s.Paper == h.Paper.Size
	})
	paper := Paper{LabelsPlace: h.Paper.Of("labels"), Size: h.Paper.Size, Symbol: h.Paper.Symbol, Language: slices.Clone(h.Paper.Languages), LeaveOut: slices.Clone(h.Paper.LeaveOut), Sides: h.Paper.Sides, Words: h.Paper.Words, Wording: wordingHash(h.Paper.Words)}
	if index < 0 {
		text := fmt.Sprintf("no label stock is known for %s paper", h.Paper.Size)
		if h.Paper.Labels != "" {
			text = fmt.Sprintf("label stock %q is not known", h.Paper.Labels)
		}
		return paper, problem.List{{
			Severity: problem.Error, Check: "no-label-stock", Place: h.Paper.Of("labels"), ID: h.Paper.Labels, Text: text,
			Hint: fmt.Sprintf("add a [[label_stock]] with paper = %q, or name a stock in paper.labels", h.Paper.Size),
		}}
	}
	s := h.Stocks[index]
	paper.Labels = Stock{
		ID: s.ID, Paper: s.Paper, Columns: s.Columns, Rows: s.Rows, WidthUM: int64(s.Width), HeightUM: int64(s.Height),
		LeftUM: int64(s.Left), TopUM: int64(s.Top), PitchXUM: int64(s.PitchX), PitchYUM: int64(s.PitchY),
		GapUM: int64(s.Gap),
	}
	l := h.Printer
	paper.Print = LabelPrint{OffsetXUM: int64(l.OffsetX), OffsetYUM: int64(l.OffsetY), DriftXUM: int64(l.DriftX), DriftYUM: int64(l.DriftY),
		Start: max(l.Start, 1), Skip: slices.Clone(l.Skip)}
	return paper, nil
}

// finish writes the warnings and problems into the plan and takes its content hash.
func finish(p Plan, earlier, own problem.List) (Plan, problem.List) {
	all := slices.Concat(earlier, own)
	for _, w := range all.Warnings() {
		p.Warnings = append(p.Warnings, Warning{Check: w.Check, ID: w.ID, Text: w.Text})
	}
	p.Warnings = slices.Compact(p.Warnings)
	for _, r := range all.Sorted() {
		p.Problems = append(p.Problems, PlacedRemark{
			Severity: r.Severity.String(), File: r.Place.File, Line: r.Place.Line, Column: r.Place.Column, Text: r.Text, Hint: r.Hint,
		})
	}
	if p.Packet.Draft {
		p = p.WithoutCodes()
	}
	fillLists(reflect.ValueOf(&p).Elem())
	content, err := contentOf(p)
	if err != nil { // every field of the plan has a JSON form
		own = append(own, problem.Problem{Severity: problem.Error, Check: "no-content-hash", Text: "the plan cannot be written: " + err.Error()})
	}
	p.Packet.Content = content
	return p, own
}
