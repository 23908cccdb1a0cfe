package plan

import (
	"fmt"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// Net is everything that is joined to one another.
type Net struct {
	Ends     []string      `json:"ends"`     // where it comes out: "J1:1", "E1", "leaves@N9 of W5"; connectors in build order, cavities as listed
	Through  []string      `json:"through"`  // splices, studs and shields on the way
	Wires    []string      `json:"wires"`    // in natural order
	Isolated []Isolation   `json:"isolated"` // one for each connector that it touches
	Place    problem.Place `json:"-"`
}

// Isolation says which cavities of a connector a net may not reach: all but its own.
type Isolation struct {
	Connector string   `json:"connector"`
	But       []string `json:"but"`
}

// Continuity is the test of every net, connector by connector.
type Continuity struct {
	Limit      string            `json:"limit"`      // most resistance of a connection, in words; "" where the engineer writes it in
	Exclusions []Exclusion       `json:"exclusions"` // from the high-potential test
	Groups     []ContinuityGroup `json:"groups"`
}

// Exclusion names what no high-potential test may reach.
type Exclusion struct {
	At  []string `json:"at"`
	Why string   `json:"why"`
}

// ContinuityGroup holds the nets whose first end is in one connector; the last group, without a connector, the others.
type ContinuityGroup struct {
	Connector string          `json:"connector"`
	Title     string          `json:"title"`
	Rows      []ContinuityRow `json:"rows"`
	Before    []Before        `json:"before"` // its cavities whose nets stand with earlier connectors
	Open      []string        `json:"open"`   // its cavities that no wire reaches
	Place     problem.Place   `json:"-"`
}

// Before names cavities that the rows of an earlier connector test.
type Before struct {
	Connector string   `json:"connector"`
	Cavities  []string `json:"cavities"`
}

// ContinuityRow is one net.
type ContinuityRow struct {
	From     string        `json:"from"`
	To       []string      `json:"to"` // none: the net ends here
	Through  []string      `json:"through"`
	Wires    []string      `json:"wires"`
	Isolated string        `json:"isolated"`                    // "all other cavities of J1, P2"
	Note     string        `json:"note"`                        // "C1 shield: cut back at END B"
	Excluded bool          `json:"no_high_potential,omitempty"` // it touches an exclusion
	Place    problem.Place `json:"-"`
}

// CrimpRow is one tool setting, contact and size: what is crimped with it and what it must hold.
type CrimpRow struct {
	Kind       string        `json:"kind"`    // "contact", "terminal", "splice"
	Contact    string        `json:"contact"` // id of the contact; what a terminal or splice is, in words
	Part       string        `json:"part"`
	Tool       string        `json:"tool"` // "" where the job gives no setting
	Locator    string        `json:"locator"`
	Setting    string        `json:"setting"`
	Size       string        `json:"size"`  // "22 AWG"; "2 wires, 0.65 mm² together, counts as 18 AWG"
	Types      []string      `json:"types"` // of the wires, for the samples
	StripUM    int64         `json:"strip_um"`
	Steps      []StripStep   `json:"strip_steps,omitempty"`
	Crimps     int           `json:"crimps"`     // in one unit
	Samples    int           `json:"samples"`    // pulled apart before the run
	MinimumMN  int64         `json:"minimum_mn"` // 0: not listed, the drawing says it
	Minimum    string        `json:"minimum"`    // rounded up for print: "53.4 N (12 lbf)"
	SeatingMN  int64         `json:"seating_mn"` // most that a seating pull may be; 0 where it is not known, or where nothing is seated
	Seating    string        `json:"seating"`    // rounded down for print: "42.7 N (9.6 lbf)"
	Source     string        `json:"source"`     // of the minimum
	GapLeastUM int64         `json:"gap_least_um"`
	GapMostUM  int64         `json:"gap_most_um"` // 0: not listed
	Strands    string        `json:"strands"`     // "2 nicked, 0 broken", or ""
	Place      problem.Place `json:"-"`

	rank crimpRank
}

// StripGroup is a tray at the crimp bench. The last one, without a group, holds what stands in no tray.
type StripGroup struct {
	Group    string        `json:"group"`
	Title    string        `json:"title"`
	Rows     []StripRow    `json:"rows"`
	Contacts []PartCount   `json:"contacts"` // what the bench uses up for one unit
	Place    problem.Place `json:"-"`
}

// PartCount counts a part.
type PartCount struct {
	Part  string `json:"part"`
	Words string `json:"words"` // "contact SKT20"
	Count int    `json:"count"`
}

// What the bench does to an end.
const (
	DoCrimp  = "crimp"
	DoSolder = "solder"
	DoLeave  = "leave"  // the board terminates it
	DoStrip  = "strip"  // no contact: strip and leave bare, or finish as said
	DoCap    = "cap"    // goes nowhere
	DoJacket = "jacket" // end of a cable
	DoShield = "shield" // of a pigtail, at the braid
	DoNone   = "none"   // comes ready made
)

// StripRow is one end at the crimp bench.
type StripRow struct {
	Wire    string        `json:"wire"` // or cable
	Core    string        `json:"core,omitempty"`
	Cable   string        `json:"cable,omitempty"`
	End     string        `json:"end"` // "a" or "b"
	At      string        `json:"at"`
	Gauge   string        `json:"gauge"`
	Words   string        `json:"words"` // colour
	Do      string        `json:"do"`
	SlideOn []string      `json:"slide_on"`
	TrimUM  int64         `json:"trim_um"`
	StripUM int64         `json:"strip_um"` // of a cable its jacket
	Steps   []StripStep   `json:"strip_steps,omitempty"`
	Contact string        `json:"contact"`
	Part    string        `json:"part"`
	Tool    string        `json:"tool"`
	Locator string        `json:"locator"`
	Setting string        `json:"setting"`
	With    []string      `json:"with"` // "W111 of tray P3": what goes into the same barrel
	Finish  string        `json:"finish,omitempty"`
	Shield  string        `json:"shield,omitempty"`
	Note    string        `json:"note"`
	Place   problem.Place `json:"-"`

	Substitutes []UnitInPlace `json:"substitutes,omitempty"` // units of the wire that are cut from another type
}

// Feature is a characteristic that the first piece is measured for.
type Feature struct {
	Number      int    `json:"number"`
	Group       string `json:"group"`       // "line", "crimp bench", "connectors", "joints", "branches", "whole"
	What        string `json:"what"`        // "W101 cut length"
	Requirement string `json:"requirement"` // "1432 mm, +1 / -0"
	Instrument  string `json:"instrument"`  // "rule"
	Source      string `json:"source"`      // where the requirement is a published figure
	Write       string `json:"write"`       // unit of the value to write in; "" for a box to tick
}

// Sample is a sampling plan that the job asks for.
type Sample struct {
	What   string `json:"what"`
	Lot    int    `json:"lot"`
	Level  string `json:"level"`
	AQL    string `json:"aql"`
	Letter string `json:"letter"` // of the lot
	Used   string `json:"used"`   // of the plan in force, after the arrows
	Count  int    `json:"count"`
	Accept int    `json:"accept"`
	Reject int    `json:"reject"`
	All    bool   `json:"all"` // the sample reaches the lot
	Source string `json:"source"`
}

// Spare is what goes into the cavities of a connector that no wire reaches.
type Spare struct {
	Connector string   `json:"connector"`
	Cavities  []string `json:"cavities"` // unwired, as listed
	Rule      string   `json:"rule"`     // "seal", "contact and seal", "open"; "" where every cavity is wired
	Seal      string   `json:"seal"`
	Plugs     int      `json:"plugs"`
	Contacts  []string `json:"contacts"` // ids of the contacts without wire, one a cavity
	Advised   int      `json:"advised"`  // cavities that good practice leaves unwired
	Source    string   `json:"source"`
}

// Rework is what the planned lengths leave for crimping anew.
type Rework struct {
	Times      int      `json:"times"`
	TrimBackUM int64    `json:"trim_back_um"`
	Others     []string `json:"others"` // ends with a number of their own: "H02 END B: 0"
}

// Tag is a reject tag that is torn out of the packet.
type Tag struct {
	Number string `json:"number"` // "01"
	Code   Code   `json:"code"`   // kind G, unit 000
}

// mostTags is how many reject tags a packet holds.
const mostTags = 8

// tagRows returns the reject tags of a packet. Their record is the packet and their number: they stay the same over revisions.
func tagRows(packet Packet) []Tag {
	tags := make([]Tag, mostTags)
	var names []string
	for i := range tags {
		tags[i].Number = fmt.Sprintf("%02d", i+1)
		names = append(names, "tag "+tags[i].Number)
	}
	item := items(names)
	for i, name := range names {
		tags[i].Code = Code{Kind: KindTag, Item: item[name], Name: name, Words: "reject " + name, Content: ContentOf(recordOf(packet, name))}
	}
	return tags
}

// Operation is a line of the route card.
type Operation struct {
	Number int    `json:"number"`
	Name   string `json:"name"`
	Hold   string `json:"hold"` // what the inspector looks at before the work goes on; "" without a hold point
}

// inspect fills the plan with what bench, tester and inspector work from. Wires, cables and connectors stand in it already.
func (p *Plan) inspect(h *harness.Harness) {
	b := newBench(p, h)
	p.Nets, p.Continuity = netRows(p, h), Continuity{}
	p.Continuity = continuityOf(p, h)
	p.Crimps, p.CrimpRules = b.crimpRows(), crimpRules(h.Paper.Spoken(), h.Job.Class)
	p.Strips = b.stripGroups()
	p.Spares = spareRows(p, h)
	p.Sampling = sampleRows(h)
	p.Rework = reworkOf(h)
	p.Operations, p.Tags = operationsOf(p, h), tagRows(p.Packet)
	p.FirstPiece = featuresOf(p, h)
}
