package job

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// faults lists the kinds of faults.
func faults() []mutation {
	return append(append(append(syntaxFaults(), valueFaults()...), quantityFaults()...), referenceFaults()...)
}

// replaced makes one mutant for each value that takes the place of the one written.
func replaced(fits func(site) bool, with func(site) []string) func(site) []mutant {
	return func(s site) []mutant {
		var all []mutant
		if !fits(s) {
			return nil
		}
		for _, written := range with(s) {
			if written != string(s.text[s.start:s.end]) {
				all = append(all, s.as(written))
			}
		}
		return all
	}
}

func always(values ...string) func(site) []string { return func(site) []string { return values } }

func isText(s site) bool { return s.value.kind == kindText && s.text[s.start] == '"' }

func isKey(s site) bool { return !s.element() }

// syntaxFaults are slips of the keyboard.
func syntaxFaults() []mutation {
	return []mutation{
		{name: "closing quote missing", at: func(s site) []mutant {
			return only(isText(s), func() mutant { return s.cut(s.end-1, s.end, "") })
		}},
		{name: "opening quote missing", at: func(s site) []mutant {
			return only(isText(s), func() mutant { return s.cut(s.start, s.start+1, "") })
		}},
		{name: "equals sign missing", at: func(s site) []mutant {
			equals := strings.IndexByte(string(s.text[s.entry.at:]), '=')
			return only(isKey(s), func() mutant { return s.cut(s.entry.at+equals, s.entry.at+equals+1, " ") })
		}},
		{name: "value missing", at: func(s site) []mutant {
			return only(isKey(s), func() mutant { return s.as("") })
		}},
		{name: "doubled key", at: doubledKeyFault},
		{name: "misspelled key", at: func(s site) []mutant {
			end := s.entry.at + len(s.entry.name)
			return only(isKey(s) && bare(s), func() mutant { return s.cut(s.entry.at, end, s.entry.name+"x") })
		}},
		{name: "key in upper case", at: func(s site) []mutant {
			upper := strings.ToUpper(s.entry.name)
			return only(isKey(s) && bare(s) && upper != s.entry.name, func() mutant {
				return s.cut(s.entry.at, s.entry.at+len(s.entry.name), upper)
			})
		}},
		{name: "unknown key", at: func(s site) []mutant {
			first := isKey(s) && s.table.keys[0].name == s.entry.name && !s.of("include")
			if s.inline {
				return only(first, func() mutant { return s.cut(s.entry.at, s.entry.at, "zebra = 1, ") })
			}
			return only(first, func() mutant { return s.cut(s.entry.at, s.entry.at, "zebra = 1\n") })
		}},
		{name: "misspelled table", at: headerFault(func(header string) string { return strings.Replace(header, "]", "x]", 1) })},
		{name: "bracket missing in a header", at: headerFault(func(header string) string { return strings.Replace(header, "]", "", 1) })},
		{name: "table that is no list, or a list that is one table", at: headerFault(func(header string) string {
			if strings.HasPrefix(header, "[[") {
				return header[1 : len(header)-1]
			}
			return "[" + header + "]"
		})},
		{name: "control character", at: func(s site) []mutant {
			return only(isText(s), func() mutant { return s.cut(s.start+1, s.start+1, `\u0007`) })
		}},
	}
}

func only(fits bool, make func() mutant) []mutant {
	if !fits {
		return nil
	}
	return []mutant{make()}
}

// bare reports a key without quotes whose name is not free: the places of a face are named as its cavities.
func bare(s site) bool {
	return strings.HasPrefix(string(s.text[s.entry.at:]), s.entry.name) && !strings.Contains(s.path, ".places.")
}

func doubledKeyFault(s site) []mutant {
	if s.element() {
		return nil
	}
	again := string(s.text[s.entry.at:s.end])
	if s.inline {
		return []mutant{s.cut(s.end, s.end, ", "+again)}
	}
	m := s.cut(s.end, s.end, "\n"+again)
	m.lines = append(m.lines, m.lines[0]+strings.Count(again, "\n")+1)
	return []mutant{m}
}

// headerFault changes the header above the first key of a table.
func headerFault(change func(string) string) func(site) []mutant {
	return func(s site) []mutant {
		if s.inline || s.element() || s.table.keys[0].name != s.entry.name || !strings.Contains(s.path, ".") {
			return nil
		}
		start := lineStart(s.text, s.table.at)
		header, _, _ := strings.Cut(string(s.text[start:]), "\n")
		header = strings.TrimRight(header[:strings.LastIndexByte(header, ']')+1], " ")
		m := s.cut(start, start+len(header), change(header))
		return []mutant{m.accept(start)}
	}
}

// needed lists the keys that a table cannot do without.
func needed() string {
	return `job.number job.title job.part job.revision job.issued job.serials job.quantity job.documents.kind job.documents.number
		wire_type.id wire_type.awg wire_type.section wire_type.colour wire_type.diameter wire_type.laser
		wire_type.proved.on wire_type.proved.by wire_type.proved.record
		reel.id reel.type reel.left contact.id contact.kind contact.barrel contact.strip contact.crimp.awg contact.crimp.tool
		connector.id connector.cavities connector.rings.counts connector.rings.start connector.rings.direction connector.rings.seen_from
		connector.cavity.name connector.cavity.contact connector.shared.cavity connector.shared.wires connector.after.step
		wire.id wire.type wire.from wire.to board.id board.size node.id node.at segment.between
		cable_type.id cable_type.cores cable_type.colour cable_type.diameter cable_type.laser
		cable_type.cores.id cable_type.cores.colour cable_type.cores.awg cable_type.cores.section
		cable.id cable.type cable.a cable.b cable.a.jacket_off cable.b.jacket_off cable.a.pigtail cable.b.pigtail
		cable.a.pigtail.type cable.a.pigtail.length cable.a.pigtail.to cable.b.pigtail.type cable.b.pigtail.length cable.b.pigtail.to
		wire.cable wire.core splice.id splice.sides terminal.id terminal.kind stud.id stud.stack
		twist.id twist.wires twist.lay twist.untwist sleeve.part sleeve.fits segment.cover.part segment.cover.from segment.cover.to
		contact.strip.layer contact.strip.length`
}

// blank lists the texts that may be empty.
const blank = "safety.officer safety.emergency"

// valueFaults are values of the wrong kind, and words that mean nothing.
func valueFaults() []mutation {
	return []mutation{
		{name: "key missing", at: func(s site) []mutant { return only(s.of(needed()), s.without) }},
		{name: "part number missing", at: func(s site) []mutant {
			return only(s.of("wire_type.part cable_type.part contact.part connector.part splice.part terminal.part"), s.without)
		}},
		{name: "part number not yet known", at: replaced(func(s site) bool { return s.key() == "part" && isText(s) }, always(`"TBD"`, `"MOR-?"`))},
		{name: "wrong kind of value", at: replaced(func(s site) bool { return true }, wrongKinds)},
		{name: "empty text", at: replaced(func(s site) bool { return isText(s) && !s.of(blank) }, always(`""`))},
		{name: "blank text", at: replaced(func(s site) bool { return isText(s) && !s.of(blank) }, always(`"  "`))},
		{name: "empty list", at: replaced(func(s site) bool {
			return s.of(`job.serials connector.cavities connector.rows connector.rings.counts connector.shared.wires connector.cavity.name board.size node.at segment.between
				cable_type.cores twist.wires twist.untwist splice.sides stud.stack sleeve.fits`)
		}, always("[]"))},
		{name: "unknown word", at: replaced(func(s site) bool { return s.of(worded) && isText(s) }, func(s site) []string {
			return []string{strconv.Quote(s.value.text + "ish"), strconv.Quote(strings.ToUpper(s.value.text))}
		})},
		{name: "no day of the calendar", at: replaced(func(s site) bool { return s.value.kind == kindDay },
			always("2026-13-01", "2026-02-30", `"2026-11-20"`, "20.11.2026", "2026-11", "2026-11-20T08:00:00Z"))},
		{name: "count out of range", at: replaced(func(s site) bool { return s.of(counted) && s.value.kind == kindInteger },
			always("-1", "1.5", "99999999999", "99999999999999999999", "nan"))},
		{name: "other count than expected", at: replaced(func(s site) bool { return s.of("job.expect.wires job.expect.ends") },
			func(s site) []string { return []string{s.value.text + "0", "0"} })},
		{name: "gauge out of range", at: replaced(func(s site) bool { return s.key() == "awg" && scalarSite(s) },
			always("99", "-22", "21.5", `"24/28"`, `"22 AWG"`, "nan"))},
		{name: "gauges in the wrong order", at: replaced(func(s site) bool { return s.key() == "awg" && s.value.kind == kindArray },
			always("[24, 20]", "[22]", "[20, 22, 24]"))},
		{name: "unknown colour", at: replaced(func(s site) bool { return s.key() == "colour" }, always(`"XX"`, `"WH/WH"`, `"white"`, `"WH/BU/RD/GN"`))},
		{name: "id that nothing can name", at: replaced(func(s site) bool { return s.key() == "id" && isText(s) }, badIDs)},
		{name: "range of cavities that is none", at: replaced(func(s site) bool {
			return s.of("connector.cavities[] connector.rows[]") && strings.Contains(s.value.text, "-")
		},
			always(`"37-1"`, `"a-Z"`, `"01-100"`, `"1-99999"`, `"1-4 except 9"`))},
		{name: "cavity twice", at: func(s site) []mutant {
			return only(s.of("connector.cavities[]"), func() mutant { return s.cut(s.end, s.end, ", "+string(s.text[s.start:s.end])) })
		}},
	}
}

// worded lists the keys that take one of a few words.
const worded = `wire_type.laser wire_type.ink cable_type.laser cable_type.ink contact.kind connector.face connector.spare connector.order
	connector.reference connector.seen_from connector.rings.direction connector.rings.seen_from wire.a.stage wire.b.stage splice.stage
	wire.mark wire.supply cable.mark cable.supply cable.a.shield cable.b.shield job.length_is job.length_unit policy.home policy.order
	policy.units paper.size paper.symbol line.methods[] line.inks[] line.leading`

// counted lists the keys that take a whole number within bounds.
const counted = "job.class job.quantity job.expect.wires job.expect.ends policy.batch line.rack tray.wires tray.bend allowance.retermination wire.a.retermination wire.b.retermination connector.rings.counts[]"

func scalarSite(s site) bool { return s.value.kind == kindInteger || s.value.kind == kindText }

// wrongKinds returns a value of a kind that the key does not take.
func wrongKinds(s site) []string {
	switch s.value.kind {
	case kindBool:
		return []string{"3"}
	case kindInteger, kindDecimal:
		return []string{`"many"`, "true"}
	case kindArray, kindTable:
		return []string{"true", "2026-11-20"}
	case kindDay:
		return []string{"true", "20261120", "[2026-11-20]"}
	default:
		return []string{"true", "2026-11-20", "5.5e3"}
	}
}

func badIDs(s site) []string {
	id := s.value.text
	return []string{strconv.Quote(id + " 2"), strconv.Quote(id + ":1"), strconv.Quote(id + "@N1"), strconv.Quote(id + ","), `"TBD"`,
		strconv.Quote(strings.Repeat(id, 60))}
}

var quantityText = regexp.MustCompile(`^(-?[0-9.]+) (mm|cm|m|in|ft|s|kg|g/m|mm2|%|m/s|deg)$`)

// freeText lists keys that say what people read; figures in them mean nothing to the program.
const freeText = "title name note value step part lot place finish record by key gender seal setting tool locator officer emergency slide_on_first torque kind"

func isQuantity(s site) bool {
	return isText(s) && quantityText.MatchString(s.value.text) && !contains(strings.Fields(freeText), s.key())
}

// quantityFaults are figures that cannot be.
func quantityFaults() []mutation {
	split := func(s site) (number, unit string) {
		parts := quantityText.FindStringSubmatch(s.value.text)
		return parts[1], parts[2]
	}
	changed := func(name, format string) mutation {
		return mutation{name: name, at: replaced(isQuantity, func(s site) []string {
			number, unit := split(s)
			return []string{fmt.Sprintf(format, number, unit)}
		})}
	}
	return []mutation{
		{name: "wrong unit", at: replaced(isQuantity, func(s site) []string {
			if _, unit := split(s); unit == "kg" || unit == "g/m" {
				return []string{`"5 mm"`}
			}
			return []string{`"5 kg"`}
		})},
		changed("unknown unit", `"%[1]s furlong"`),
		changed("no unit in the text", `"%[1]s"`),
		changed("unit alone", `"%[2]s"`),
		changed("figure that is none", `"nan %[2]s"`),
		changed("figure without end", `"inf %[2]s"`),
		changed("huge figure", `"%[1]s9999999999999999999999 %[2]s"`),
		changed("comma for a point", `"1,5 %[2]s"`),
		changed("two figures", `"%[1]s %[2]s %[1]s %[2]s"`),
		changed("letter for a figure", `"1O0 %[2]s"`),
		{name: "bare number without a unit", at: replaced(func(s site) bool {
			_, lengthUnit := s.specimen.unit()
			return isQuantity(s) && !lengthUnit
		}, always("5", "5.5", "nan", "-inf"))},
		{name: "negative figure", at: replaced(func(s site) bool { return isQuantity(s) && !signed(s) && strings.Trim(s.value.text, "0. mcft") != "" }, func(s site) []string {
			number, unit := split(s)
			return []string{`"-` + strings.TrimPrefix(number, "-") + " " + unit + `"`}
		})},
		{name: "zero where there must be something", at: replaced(func(s site) bool { return isQuantity(s) && s.of(positives) }, always(`"0 mm"`))},
		{name: "range from large to small", at: replaced(func(s site) bool { return s.of("contact.insulation line.diameters terminal.insulation sleeve.fits") },
			always(`["9 mm", "1 mm"]`, `["1 mm"]`))},
		{name: "node beyond the board", at: replaced(func(s site) bool { return s.of("node.at") }, always(`["90 m", "0 mm"]`, `["0 mm", "-1 mm"]`, `["1 mm"]`))},
	}
}

// signed reports a length that may be below zero.
func signed(s site) bool {
	return s.of("connector.to_barrel connector.rings.start") || strings.HasPrefix(s.path, "connector.places.")
}

// positives lists lengths that cannot be zero.
const positives = "wire_type.diameter cable_type.diameter reel.left board.size[] wire.length contact.insulation[]"

// unit returns the unit of bare lengths.
func (s *specimen) unit() (string, bool) {
	found := regexp.MustCompile(`(?m)^length_unit *= *"(\w+)"`).FindSubmatch(s.files["job.toml"])
	if found == nil {
		return "", false
	}
	return string(found[1]), true
}
