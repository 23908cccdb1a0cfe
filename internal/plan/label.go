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
	fill := func(template string, fields ...[2]string) string {
		return filled(append(fields, [2]string{"job", h.Job.Number}, [2]string{"part", h.Job.Part}, [2]string{"revision", h.Job.Revision}), template)
	}
	for _, c := range connectors {
		if text := fill(h.Marks.ConnectorLabel, [2]string{"connector", c.ID}, [2]string{"title", c.Title}); text != "" {
			rows = append(rows, Label{Kind: "connector", At: c.ID, Text: text, Count: len(h.Job.Units)})
		}
	}
	for _, unit := range h.Job.Units {
		serial := ""
		if h.Job.Serials {
			serial = unit
		}
		text := fill(h.Marks.HarnessLabel, [2]string{"serial", serial}, [2]string{"title", h.Job.Title})
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
