package main

import (
	"cmp"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"

	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// marksCommand prints the mark data.
type marksCommand struct {
	Job     string `arg:"" help:"Job file; - reads standard input."`
	CSV     bool   `xor:"form" help:"Print a table with one row for every text: see the columns below."`
	JSON    bool   `xor:"form" help:"Print the same as JSON, with lengths in micrometres."`
	Sleeves bool   `help:"Sleeves, tags and labels alone, for a label printer."`
	draftFlag
	templatesFlag
	problemFlags
}

// markColumn is a column of the table of marks.
type markColumn struct{ name, help string }

// markColumns are the columns of the table, in their order. Lengths are millimetres with a decimal point.
func markColumns() []markColumn {
	return []markColumn{
		{"no", "piece in the order of the run, from 1; empty where the line does not cut it"},
		{"kind", "mark, sleeve, tag, connector label, harness label; none for a piece without a text"},
		{"wire", "id of the wire or cable"}, {"unit", "serial or number of the unit; empty for a label alike in all"},
		{"count", "how many of it: 1, or labels alike in all units"},
		{"group", "connector that owns the piece"}, {"tray", "where it goes"}, {"type", "type of wire or cable"},
		{"reel", "reel it is cut from; empty where the job names none"}, {"cut_mm", "cut length"},
		{"from", "where end A goes"}, {"to", "where end B goes"},
		{"strip_a_mm", "strip at END A, layers parted by a blank, outermost first; jacket off of a cable"}, {"strip_b_mm", "the same at END B"},
		{"strip_by", "blade, thermal, laser; empty where the type asks for none"},
		{"end", "a, b, or empty between the ends"}, {"text", "what is to be read"},
		{"line_1", "upper line of a text in two lines"}, {"line_2", "lower line"},
		{"at_mm", "start of a mark from the cut END A; of a sleeve or tag from its finished end, END A between the ends"},
		{"lead_mm", "near edge of a mark from the cut end that leaves the line first"},
		{"width_mm", "length of the text, or of the sleeve"}, {"height_mm", "character height"},
		{"method", "laser, ink, sleeve, test first, none"}, {"ink", "black, white"},
		{"turned", "yes where the text reads from END B to END A"}, {"part", "part number of the sleeve"},
		{"code", "string of the symbol in the cut list"},
	}
}

// Help lists the columns below the flags.
func (c marksCommand) Help() string {
	var text strings.Builder
	text.WriteString("Columns of --csv; lengths are millimetres, the first row names them:\n\n")
	for _, column := range markColumns() {
		fmt.Fprintf(&text, "    %-11s %s\n", column.name, column.help)
	}
	return text.String()
}

// markData is the whole of it.
type markData struct {
	Job      string             `json:"job"`
	Revision string             `json:"revision"`
	Leading  string             `json:"leading"` // "a" or "b": the end that leaves the line first
	Pieces   []plan.MarkedPiece `json:"pieces"`
	Labels   []plan.Label       `json:"labels"`
}

// Run prints the mark data of a job.
func (c marksCommand) Run(s streams) error {
	p, _, err := planJob(s, c.Job, "", c.with(c.in(c.problemFlags)))
	if err != nil {
		return err
	}
	data := markData{Job: p.Packet.Number, Revision: p.Packet.Revision, Leading: p.Packet.Leading, Pieces: p.MarkData(), Labels: p.Labels}
	if c.Sleeves {
		data.Pieces = sleevesAlone(data.Pieces)
	} else {
		data.Labels = []plan.Label{}
	}
	switch {
	case c.JSON:
		encoder := json.NewEncoder(s.out)
		encoder.SetEscapeHTML(false)
		encoder.SetIndent("", "  ")
		return encoder.Encode(data)
	case c.CSV:
		return writeMarksCSV(s.out, data)
	}
	return writeMarks(s.out, data)
}

// sleevesAlone keeps what is slid or tied on, and the pieces that have such.
func sleevesAlone(pieces []plan.MarkedPiece) []plan.MarkedPiece {
	kept := []plan.MarkedPiece{}
	for _, piece := range pieces {
		var marks []plan.DataMark
		for _, mark := range piece.Marks {
			if mark.Kind != "mark" {
				marks = append(marks, mark)
			}
		}
		if piece.Marks = marks; len(marks) > 0 {
			kept = append(kept, piece)
		}
	}
	return kept
}

// writeMarksCSV writes a row for every text.
func writeMarksCSV(w io.Writer, data markData) error {
	table := csv.NewWriter(w)
	var names []string
	for _, column := range markColumns() {
		names = append(names, column.name)
	}
	rows := [][]string{names}
	for _, piece := range data.Pieces {
		marks := piece.Marks
		if len(marks) == 0 {
			marks = []plan.DataMark{{Kind: "none"}}
		}
		for _, mark := range marks {
			rows = append(rows, markRow(piece, mark))
		}
	}
	for _, label := range data.Labels {
		row := make([]string, len(names))
		row[1], row[3], row[4], row[10], row[16] = label.Kind+" label", label.Unit, strconv.Itoa(label.Count), label.At, label.Text
		rows = append(rows, row)
	}
	return table.WriteAll(rows)
}

// markRow is a row of the table, in the order of its columns.
func markRow(p plan.MarkedPiece, m plan.DataMark) []string {
	number, lines, turned := "", [2]string{}, ""
	if p.Number > 0 {
		number = strconv.Itoa(p.Number)
	}
	copy(lines[:], m.Lines)
	if m.Turned {
		turned = "yes"
	}
	cells := []string{number, m.Kind, p.Wire, p.Unit, "1", p.Group, p.Tray, p.Type, p.Reel, cutWords(p.CutUM, ""), p.From, p.To, strips(p.StripA), strips(p.StripB),
		p.StripBy, m.End, m.Text, lines[0], lines[1]}
	switch m.Kind {
	case "mark":
		cells = append(cells, inMM(m.AtUM), inMM(m.LeadUM), inMM(m.WidthUM), inMM(m.HeightUM))
	case "none":
		cells = append(cells, "", "", "", "")
	default:
		cells = append(cells, inMM(m.AtUM), "", inMM(m.WidthUM), "")
	}
	return append(cells, p.Method, p.Ink, turned, m.Part, p.Code)
}

// strips writes what is stripped, layer by layer.
func strips(steps []plan.StripStep) string {
	var words []string
	for _, step := range steps {
		words = append(words, inMM(step.UM))
	}
	return strings.Join(words, " ")
}

// inMM writes micrometres as millimetres without the unit, exactly.
func inMM(um int64) string { return strings.TrimSuffix(units.Length(um).String(), " mm") }

// writeMarks prints the data for a person.
func writeMarks(w io.Writer, data markData) error {
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintf(table, "%s rev %s, END %s leaves first; places in mm from the cut END A\n", data.Job, data.Revision, strings.ToUpper(data.Leading))
	for _, p := range data.Pieces {
		how := strings.TrimSpace(p.Ink + " " + p.Method)
		if p.HeightUM > 0 {
			how += " " + inMM(p.HeightUM) + " mm high"
		}
		number := "–"
		if p.Number > 0 {
			number = strconv.Itoa(p.Number)
		}
		fmt.Fprintf(table, "\n%s\t%s of %s\t%s\tcut %s\t%s\n", number, p.Wire, p.Unit, cmp.Or(p.Reel, p.Type), cutWords(p.CutUM, " mm"), how)
		for _, m := range p.Marks {
			kind := m.Kind
			if kind == "sleeve" || kind == "tag" {
				kind += " from the finished end"
			}
			fmt.Fprintf(table, "\t%s\t%s\t%s\t%s\n", inMM(m.AtUM), m.Text, kind, m.Part)
		}
	}
	for _, l := range data.Labels {
		fmt.Fprintf(table, "\n\t%s label %s\t%s\t%s\n", l.Kind, l.At, l.Text, count(l.Count, "piece"))
	}
	return table.Flush()
}

// cutWords writes a cut length; nothing where it is measured at the bench, or the piece is the core of a cable.
func cutWords(um int64, unit string) string {
	if um == 0 {
		return ""
	}
	return inMM(um) + unit
}
