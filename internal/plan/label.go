package plan

import "loomleaf/internal/harness"

// Label is a label of a connector or of a whole harness.
type Label struct {
	Kind  string `json:"kind"` // "connector" or "harness"
	At    string `json:"at"`   // connector id; "" for a harness
	Text  string `json:"text"`
	Unit  string `json:"unit"`  // that it belongs to; "" where those of all units are alike
	Count int    `json:"count"` // one for each unit that it belongs to
}

// labelRows returns the labels of the connectors in build order, then one of the harness for each unit. Where the shop wants none
// there are none.
func labelRows(h *harness.Harness, connectors []Connector) []Label {
	var rows []Label
	fill := func(template legendText, own map[string]string) string {
		own["job"], own["part"], own["revision"] = h.Job.Number, h.Job.Part, h.Job.Revision
		return template.filled(func(field string) string { return own[field] })
	}
	ofConnector, ofHarness := cutLegend(h.Marks.ConnectorLabel), cutLegend(h.Marks.HarnessLabel)
	for _, c := range connectors {
		if text := fill(ofConnector, map[string]string{"connector": c.ID, "title": c.Title}); text != "" {
			rows = append(rows, Label{Kind: "connector", At: c.ID, Text: text, Count: len(h.Job.Units)})
		}
	}
	for _, unit := range h.Job.Units {
		serial := ""
		if h.Job.Serials {
			serial = unit
		}
		text := fill(ofHarness, map[string]string{"serial": serial, "title": h.Job.Title})
		switch last := len(rows) - 1; {
		case text == "":
		case last >= 0 && rows[last].Kind == "harness" && rows[last].Text == text:
			rows[last].Unit, rows[last].Count = "", rows[last].Count+1
		default:
			rows = append(rows, Label{Kind: "harness", Text: text, Unit: unit, Count: 1})
		}
	}
	return rows
}
