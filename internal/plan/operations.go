package plan

import (
	"fmt"
	"slices"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
)

// spareRows returns what fills the cavities that no wire reaches.
func spareRows(p *Plan, h *harness.Harness) []Spare {
	listed := listedCavities(h)
	rules := map[string]string{}
	for _, c := range h.Connectors {
		rules[c.ID] = c.Spare
	}
	rows := make([]Spare, 0, len(p.Connectors))
	for _, c := range p.Connectors {
		row := Spare{Connector: c.ID}
		advised, source := handbook.SpareCavities(len(c.Cavities))
		row.Advised, row.Source = advised, sourceWords(h.Paper.Spoken(), source)
		byName := make(map[string]Cavity, len(c.Cavities))
		for _, cavity := range c.Cavities {
			byName[cavity.Name] = cavity
		}
		for _, name := range listed[c.ID] {
			cavity := byName[name]
			switch cavity.Fill {
			case FillSeal:
				row.Plugs++
			case FillContactAndSeal:
				row.Plugs++
				row.Contacts = append(row.Contacts, cavity.Contact)
			case FillOpen:
			default:
				continue
			}
			row.Cavities, row.Rule = append(row.Cavities, name), rules[c.ID]
		}
		if row.Plugs > 0 {
			row.Seal = c.Seal
		}
		rows = append(rows, row)
	}
	return rows
}

// sampleRows returns the sampling plans that the job asks for. That they are listed was checked when the job was read.
func sampleRows(h *harness.Harness) []Sample {
	var rows []Sample
	for _, s := range h.Inspection.Sampling {
		if plan, listed := handbook.SamplePlanOf(s.Lot, s.Level, s.AQL); listed {
			rows = append(rows, Sample{What: s.What, Lot: s.Lot, Level: s.Level, AQL: s.AQL, Letter: plan.Letter, Used: plan.Used,
				Count: plan.Sample, Accept: plan.Accept, Reject: plan.Reject, All: plan.All, Source: sourceWords(h.Paper.Spoken(), plan.Source)})
		}
	}
	return rows
}

// reworkOf returns what the lengths leave for crimping anew: for all ends, and for those that say otherwise.
func reworkOf(h *harness.Harness) Rework {
	rework := Rework{Times: h.Allowance.Retermination, TrimBackUM: int64(h.Allowance.TrimBack)}
	for _, w := range wiresInOrder(h) {
		for side, end := range []harness.End{w.A, w.B} {
			crimped := end.Kind == harness.EndTerminal || end.Kind == harness.EndCavity
			if crimped && end.Retermination != rework.Times {
				rework.Others = append(rework.Others, fmt.Sprintf("%s %s: %d", w.ID, endWord(h.Paper.Spoken(), side), end.Retermination))
			}
		}
	}
	return rework
}

// operationsOf lists the work in order, as far as the job holds it, with hold points where its class or the shop asks for them.
// Class 3, and a job that names no class, have them all but the test, which has a record of its own (common practice; the
// drawing and the contract have the last word).
func operationsOf(p *Plan, h *harness.Harness) []Operation {
	spoken := h.Paper.Spoken()
	var rows []Operation
	add := func(done bool, name string, at harness.Operation, hold string) {
		if !done {
			return
		}
		all := h.Job.Class == 0 || h.Job.Class == 3
		if !(slices.Contains(h.Inspection.Hold, at) || all && at != harness.OperationTest) {
			hold = ""
		}
		rows = append(rows, Operation{Number: (len(rows) + 1) * 10, Name: name, Hold: hold})
	}
	mark := spoken.Say("operations.mark")
	if !slices.ContainsFunc(p.Packet.Method, func(method string) bool { return method != "none" && method != "sleeve" }) {
		mark = spoken.Say("operations.measure")
	}
	splices := func(stage string) bool {
		return slices.ContainsFunc(p.Joints, func(j Joint) bool { return j.Kind == jointSplice && j.Stage == stage })
	}
	add(true, spoken.Say("operations.issue"), "", "")
	add(len(p.Pieces) > 0, mark, harness.OperationCut, spoken.Say("operations.hold_cut"))
	add(len(h.Twists) > 0, spoken.Say("operations.twists"), "", "")
	add(p.atBench(), spoken.Say("operations.crimp"), harness.OperationCrimp, spoken.Say("operations.hold_crimp"))
	add(splices(string(harness.StageBench)), spoken.Say("operations.splices_bench"), harness.OperationSplice, spoken.Say("operations.hold_splice"))
	add(true, spoken.Say("operations.board"), harness.OperationBoard, spoken.Say("operations.hold_board"))
	add(splices(string(harness.StageBoard)), spoken.Say("operations.splices_board"), harness.OperationSplice, spoken.Say("operations.hold_splice"))
	add(len(h.Studs) > 0, spoken.Say("operations.studs"), "", "")
	add(slices.ContainsFunc(p.Connectors, func(c Connector) bool { return len(c.After) > 0 }), spoken.Say("operations.close"), "", "")
	add(true, spoken.Say("operations.test"), harness.OperationTest, spoken.Say("operations.hold_test"))
	add(true, spoken.Say("operations.final"), harness.OperationFinal, spoken.Say("operations.hold_final"))
	return rows
}

// atBench reports whether the crimp bench has anything to do.
func (p *Plan) atBench() bool {
	return slices.ContainsFunc(p.Strips, func(g StripGroup) bool {
		return slices.ContainsFunc(g.Rows, func(r StripRow) bool { return r.Do != DoLeave && r.Do != DoNone })
	})
}
