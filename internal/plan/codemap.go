package plan

import (
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// codesHeader is the first line of the codes map.
var codesHeader = []string{"string", "job", "revision", "unit", "kind", "name", "words"}

// kindWord names the kind of a code in the codes map; "" for a letter that no code starts with.
func kindWord(kind byte) string {
	switch kind {
	case KindWire:
		return "wire"
	case KindLanding:
		return "landing"
	case KindTray:
		return "tray"
	case KindPage:
		return "page"
	case KindConnector:
		return "connector"
	case 'R':
		return "reel"
	case KindTag:
		return "reject tag"
	case KindScanTest:
		return "scanner test"
	}
	return ""
}

// CodeRows returns the lines of the codes map for everything in the plan, and for the scanner test. Pages are not in the plan:
// their lines come from PageRows.
func (p Plan) CodeRows() []CodeRow {
	var codes []Code
	for _, wire := range p.Wires {
		codes = append(codes, wire.Code)
	}
	for _, cable := range p.Cables {
		codes = append(codes, cable.Code)
	}
	for _, joint := range p.Joints {
		codes = append(codes, joint.Codes...)
	}
	for _, connector := range p.Connectors {
		codes = append(codes, connector.Codes...)
		for _, cavity := range connector.Cavities {
			codes = append(codes, cavity.Codes...)
		}
	}
	for _, tray := range p.Trays {
		codes = append(codes, tray.Code)
	}
	for _, tag := range p.Tags {
		codes = append(codes, tag.Code)
	}
	test := CodeRow{
		Code: ScanTest, Job: p.Packet.Number, Revision: p.Packet.Revision, Kind: kindWord(KindScanTest),
		Name: "scanner test", Words: "scanner test",
	}
	return sortedRows(append(rowsOf(p.Packet, codes), test))
}

// PageRows returns the lines of the codes map for the codes of pages.
func PageRows(packet Packet, codes []Code) []CodeRow { return sortedRows(rowsOf(packet, codes)) }

// rowsOf writes codes as lines of the map.
func rowsOf(packet Packet, codes []Code) []CodeRow {
	rows := make([]CodeRow, 0, len(codes)+1)
	for _, code := range codes {
		rows = append(rows, CodeRow{
			Code: code.String(), Job: packet.Number, Revision: packet.Revision, Unit: unitName(packet, code.Unit),
			Kind: kindWord(code.Kind), Name: code.Name, Words: code.Words,
		})
	}
	return rows
}

// sortedRows orders lines by kind, name and unit, numbers by their value.
func sortedRows(rows []CodeRow) []CodeRow {
	sorted := slices.Clone(rows)
	slices.SortStableFunc(sorted, func(a, b CodeRow) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), naturalCompare(a.Name, b.Name), naturalCompare(a.Unit, b.Unit),
			cmp.Compare(a.Code, b.Code))
	})
	return sorted
}

// WriteCodes writes the codes map as CSV, sorted by kind, name and unit. It refuses lines that ReadCodes would refuse, before
// anything is written.
func WriteCodes(w io.Writer, rows []CodeRow) error {
	seen := map[string]bool{}
	sorted := sortedRows(rows)
	for _, row := range sorted {
		if err := checkRow(row, seen); err != nil {
			return fmt.Errorf("codes map: %w", err)
		}
	}
	out := csv.NewWriter(w)
	if err := out.Write(codesHeader); err != nil {
		return err
	}
	for _, row := range sorted {
		if err := out.Write([]string{row.Code, row.Job, row.Revision, row.Unit, row.Kind, row.Name, row.Words}); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// ReadCodes reads a codes map. The error names the line.
func ReadCodes(r io.Reader) ([]CodeRow, error) {
	in := csv.NewReader(r)
	in.FieldsPerRecord = -1
	var rows []CodeRow
	seen := map[string]bool{}
	for first := true; ; first = false {
		fields, err := in.Read()
		switch {
		case errors.Is(err, io.EOF) && first:
			return nil, errors.New("codes map: the file is empty")
		case errors.Is(err, io.EOF):
			return rows, nil
		case err != nil:
			return nil, fmt.Errorf("codes map: %w", err)
		}
		line, _ := in.FieldPos(0)
		if first {
			fields[0] = strings.TrimPrefix(fields[0], "\ufeff")
			if !slices.Equal(fields, codesHeader) {
				return nil, fmt.Errorf("codes map: line %d: the first line must read %q", line, strings.Join(codesHeader, ","))
			}
			continue
		}
		if len(fields) != len(codesHeader) {
			return nil, fmt.Errorf("codes map: line %d: %d fields in place of %d", line, len(fields), len(codesHeader))
		}
		row := CodeRow{
			Code: fields[0], Job: fields[1], Revision: fields[2], Unit: fields[3], Kind: fields[4], Name: fields[5], Words: fields[6],
		}
		if err := checkRow(row, seen); err != nil {
			return nil, fmt.Errorf("codes map: line %d: %w", line, err)
		}
		rows = append(rows, row)
	}
}

// checkRow refuses a line whose string is no code or stands twice, whose kind is another than its letter says, or whose texts
// would not survive a CSV file.
func checkRow(row CodeRow, seen map[string]bool) error {
	code, err := ParseCode(row.Code)
	switch {
	case err != nil:
		return fmt.Errorf("string %q: %w", row.Code, err)
	case code.String() != row.Code:
		return fmt.Errorf("string %q: not written as a code is", row.Code)
	case seen[row.Code]:
		return fmt.Errorf("string %s stands twice", row.Code)
	case row.Kind != kindWord(code.Kind):
		return fmt.Errorf("string %s is of kind %q, not %q", row.Code, kindWord(code.Kind), row.Kind)
	case row.Job == "" || row.Name == "":
		return fmt.Errorf("string %s: job or name is missing", row.Code)
	}
	for _, text := range []string{row.Job, row.Revision, row.Unit, row.Name, row.Words} {
		if !utf8.ValidString(text) || strings.ContainsFunc(text, unicode.IsControl) {
			return fmt.Errorf("string %s: %q holds a character that is no text", row.Code, text)
		}
	}
	seen[row.Code] = true
	return nil
}
