package sheet

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/job"
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/templates"
)

// cutGroup describes a group of the fixture by how many wires of each type it holds.
type cutGroup struct {
	id     string
	title  string
	counts []int
}

// cutJob describes a plan with cut lists.
type cutJob struct {
	groups  []cutGroup
	units   []string
	batch   int
	wire    string // format of the wire ids
	legend  string // format of the end legends, with the wire, here and there
	noReels bool
}

func sledJob() cutJob {
	return cutJob{units: []string{"0041", "0042"}, batch: 4, wire: "W%03d", legend: "%s %s>%s", groups: []cutGroup{
		{"J1", "main data module", []int{7, 4, 2, 1}}, {"P2", "ice radar", []int{3, 8, 0, 0}}, {"J61", "power and sensors", []int{5, 0, 6, 1}}}}
}

func sledTypes() []plan.WireType {
	return []plan.WireType{
		{ID: "E22W", Gauge: "22 AWG 0.33 mm²", GaugeShort: "22 AWG", Colour: "WH", ColourWords: "white", Proof: "ML-118, 2026-10-02, marking lead"},
		{ID: "E22K", Gauge: "22 AWG 0.33 mm²", GaugeShort: "22 AWG", Colour: "BK", ColourWords: "black"},
		{ID: "E20RD", Gauge: "20 AWG 0.52 mm²", GaugeShort: "20 AWG", Colour: "RD/WH", ColourWords: "red, white stripe"},
		{ID: "E12VT", Gauge: "3 mm² 12.3 AWG", GaugeShort: "3 mm²", Colour: "VT", ColourWords: "violet"},
	}
}

func sledReels() []plan.Reel {
	return []plan.Reel{
		{ID: "R118", Type: "E22W", Lot: "A7731", Place: "rack 3", UsedUM: 21_340_000, LeftUM: 130_660_000},
		{ID: "R131", Type: "E22K", Lot: "C0218", Place: "rack 3", UsedUM: 14_100_000, LeftUM: 85_900_000},
		{ID: "R140", Type: "E20RD", Lot: "B1190", Place: "rack 1", UsedUM: 9_000_001, LeftUM: 40_999_999},
		{ID: "R155", Type: "E12VT", UsedUM: 2_000_000, LeftUM: 18_000_000},
	}
}

// plan builds the plan: in each group type by type, a load where the reel changes.
func (j cutJob) plan() plan.Plan {
	p := sledPlan(sledCases()[:2], j.units...)
	p.Packet.Content = "3f9a77c120bd45aa90110c3e5d8b7f6e3f9a77c120bd45aa90110c3e5d8b7f6e"
	p.Packet.Supersedes, p.Packet.Due, p.Packet.Class, p.Packet.Leading = "A", "2026-12-18", 3, "a"
	p.Packet.Documents = []plan.Document{{Kind: "wire list", Number: "MOR-WL-210", Revision: "B"},
		{Kind: "board drawing", Number: "MOR-FB-210", Revision: "A"}}
	p.Packet.Method, p.Packet.Batch = []string{"laser", "ink"}, j.batch
	for from := 0; from < len(j.units); from += j.batch {
		p.Packet.Lists = append(p.Packet.Lists, j.units[from:min(from+j.batch, len(j.units))])
	}
	p.Line = plan.Line{Methods: p.Packet.Method, Rack: 6, StepUM: 1000}
	p.Types, p.Wires, p.Trays, p.Groups = sledTypes(), nil, nil, nil
	if !j.noReels {
		p.Reels = sledReels()
	}
	for g, group := range j.groups {
		j.group(p, g, group)
	}
	j.figures(p)
	return *p
}

func (j cutJob) group(p *plan.Plan, g int, group cutGroup) {
	row := plan.Group{Connector: group.id, Title: group.title, StillOn: make([]string, len(p.Packet.Lists)),
		Steps: make([][]plan.Step, len(p.Packet.Lists)), Place: problem.Place{File: "loom.toml", Line: 10 + g, Column: 1}}
	running := ""
	number := 0
	for t, count := range group.counts {
		for range count {
			number++
			w := j.wireOf(g, number, group.id, t)
			p.Wires = append(p.Wires, w)
			row.Wires = append(row.Wires, w.ID)
			for list := range p.Packet.Lists {
				if running != w.Type {
					row.Steps[list] = append(row.Steps[list], j.load(p, t, w))
				}
				row.Steps[list] = append(row.Steps[list], plan.Step{Kind: plan.StepWire, Wire: w.ID})
			}
			running = w.Type
		}
	}
	for u, unit := range j.units {
		row.Trays = append(row.Trays, plan.GroupTray{Unit: unit, ID: group.id + "/" + unit})
		p.Trays = append(p.Trays, plan.Tray{ID: group.id + "/" + unit, Unit: unit, Group: group.id, Wires: row.Wires,
			Next: "crimp bench, then board FB-210 at N1", Code: fixtureCode(plan.KindTray, group.id, u+1), StraightUM: 2_000_000})
	}
	p.Groups = append(p.Groups, row)
}

func (j cutJob) load(p *plan.Plan, t int, w plan.Wire) plan.Step {
	step := plan.Step{Kind: plan.StepLoad, Type: w.Type, Rack: t + 1, Method: w.Method, Ink: w.Ink, HeightUM: w.HeightUM}
	if t == 0 && len(p.Groups) > 0 {
		step.Kind = plan.StepSwitch
	}
	if !j.noReels {
		reel := sledReels()[t]
		step.Reel, step.Lot, step.Place = reel.ID, reel.Lot, reel.Place
	}
	return step
}

func (j cutJob) wireOf(g, number int, home string, t int) plan.Wire {
	id := fmt.Sprintf(j.wire, (g+1)*100+number)
	w := plan.Wire{ID: id, Type: sledTypes()[t].ID, From: fmt.Sprintf("%s:%d", home, number), To: fmt.Sprintf("P5:%d", number+10), Home: home,
		CutUM: int64(385+117*number) * 1000, Legend: id, Code: fixtureCode(plan.KindWire, id, 0),
		Place: problem.Place{File: "loom.toml", Line: 100*(g+1) + number, Column: 1}}
	w.Method = []string{"laser", "ink", "test first", "sleeve"}[t]
	w.Ink = []string{"", "white", "black", ""}[t]
	w.HeightUM = []int64{1000, 1000, 1300, 0}[t]
	if number%6 == 5 {
		w.From, w.To = w.To, w.From
	}
	w.A = plan.End{At: w.From, Stage: "bench", StripUM: 4000, Legend: fmt.Sprintf(j.legend, id, w.From, w.To)}
	w.B = plan.End{At: w.To, Stage: "bench", StripUM: 4500, Legend: fmt.Sprintf(j.legend, id, w.To, w.From)}
	w.Marks = []plan.Mark{{Text: w.A.Legend, End: "a"}, {Text: id}, {Text: w.B.Legend, End: "b"}}
	switch number {
	case 3:
		w.B.Stage = "board"
		w.Note = "keep clear of heater"
	case 6:
		w.A.Legend, w.B.Legend, w.Marks, w.Method, w.CutUM = "", "", nil, "none", 65_000
	case 9:
		w.A.Note, w.Turned = "leave the tail long, the clamp is beside it", true
	}
	return w
}

func (j cutJob) figures(p *plan.Plan) {
	for i, t := range p.Types {
		p.Totals = append(p.Totals, plan.Total{Type: t.ID, Pieces: 14 + i, UM: 21_340_001, LongestUM: 2_218_000})
	}
	p.ToOrder = []plan.Order{{Type: "E22K", UM: 12_345_678}}
	p.Changes = plan.Changes{Reel: 11, Bound: 11, Proved: true, Loads: 8, Ink: 1, Method: 4, Height: 3}
	p.Warnings = []plan.Warning{
		{Check: "short-stock", ID: "E22K", Text: "the stock of E22K is 12.4 m short of what the job takes, with 150 mm of scrap at every load counted in"},
		{Check: "spares", ID: "J1", Text: "J1 has 2 spare cavities of 37; fewer than one in ten"}}
	for _, key := range []string{"line.step", "line.rack", "line.set_up_scrap", "marks.first", "marks.gap", "tray.wires", "allowance.loop"} {
		p.Defaults = append(p.Defaults, plan.Default{Key: key, Value: `"150 mm"`})
	}
	p.Defaults = append(p.Defaults, plan.Default{Key: "line.heights", Value: `["0.8 mm", "1.0 mm", "1.3 mm", "1.8 mm", "2.5 mm", "3.2 mm", "4.0 mm"]`})
}

func loadFonts(t require.TestingT) composer {
	m, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	english, err := job.Words(templates.Files, "en")
	require.NoError(t, err)
	return composer{Metrics: m, Words: english}
}

// TestEveryLayoutIsFitToPrint lays ends side by side, stacked, and below the wire id; serials that fit and that do not.
func TestEveryLayoutIsFitToPrint(t *testing.T) {
	m := loadFonts(t)
	wide := sledJob()
	wide.units, wide.batch, wide.wire = []string{"0041", "0042", "0043", "0044", "0045", "0046"}, 5, "SLED-NAV-%03d"
	middle := sledJob()
	middle.units, middle.batch, middle.noReels = []string{"S-0041", "S-0042", "S-0043"}, 5, true
	middle.groups = append(middle.groups, cutGroup{"P9", "long", []int{37, 4, 0, 0}})
	for i, job := range []cutJob{sledJob(), middle, wide} {
		p := job.plan()
		c := measureColumns(p, &pen{metrics: m})
		require.Equal(t, []bool{i > 0, i > 1}, []bool{c.stacked, c.below})
		packet, problems := lay(p, m)
		require.Empty(t, problems)
		require.Empty(t, page.Check(packet.Pages, m.Metrics))
	}
}
