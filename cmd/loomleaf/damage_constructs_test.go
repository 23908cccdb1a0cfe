package main

import (
	"slices"

	"loomleaf/internal/page"
)

// constructDamages lists what is put wrong on the paper of a job that the small demo does not have: cables with their cores,
// twists, pigtails, joints, studs, shields, loose ends, shared cavities, ends made at the board, and what the line does not cut.
func constructDamages(d demo, job string) []damage {
	switch job {
	case "torture":
		return slices.Concat(cableDamages(d), twistDamages(), endDamages(), jointDamages(), studDamages(), apartDamages(), kitDamages())
	case "relay-cable":
		return relayDamages()
	case "substitute":
		return substituteDamages()
	}
	return nil
}

func relayDamages() []damage {
	text := textDamage
	return []damage{
		text("cavities of a core", "cutlist", page.Mono, 10, "P1:4 > X1:12V", into("P1:4 > X1:0V"), "RC04, P1:4 > X1:0V"),
		text("colour of a core", "cutlist", page.Medium, 10, "yellow", into("brown"), `core 4 of C1 is "brown 0.14 mm²"`),
		text("function of a core", "cutlist", page.Regular, 9, "note: +12 V", into("note: +3.3 V"), `core 4 of C1 does not say "note: +12 V"`),
		text("core in a checklist", "pins", page.Medium, 11, "C1 core 4", into("C1 core 14"), `P1:4 does not say "C1 core 4" of wire RC04`),
		text("function in a checklist", "pins", page.Medium, 10, "+12 V", gone, `P1:4 does not say "+12 V" of wire RC04`),
		text("cable on a label", "labels", page.Medium, 10, "1 cable: C1", into("1 cable: C2"), `does not say "1 cable: C1"`),
	}
}

func substituteDamages() []damage {
	text, words := textDamage, "SUBSTITUTE E24X in place of E24W, approved by deviation MOR-DV-7"
	return []damage{
		text("substitute of a row", "cutlist", page.Bold, 9, words, gone, "does not say \""+words),
		text("approval of a row", "cutlist", page.Bold, 9, words, into("SUBSTITUTE E24X in place of E24W, approved by deviation MOR-DV-8"), "does not say \""+words),
		text("substitute still on", "cutlist", page.Bold, 11, "SUBSTITUTE for E24W, approved by deviation MOR-DV-7", gone, `above the rows stands ""`),
		text("changes to substitutes", "contents", page.Medium, 10, "5 reel changes more go to or from substitutes", gone, "go to or from substitutes"),
	}
}

func cableDamages(d demo) []damage {
	text := textDamage
	return []damage{
		text("cavity of a core", "cutlist", page.Mono, 10, "J1:1.1 > P2:12", into("J1:1.10 > P2:12"), "S01, J1:1.10 > P2:12"),
		{"cavities of two cores", "cutlist", swapTexts(page.Mono, 10, "J1:1.1 > P2:12", "J1:1.10 > P2:13"), "S01, J1:1.10 > P2:13"},
		text("wire of a core", "cutlist", page.MonoBold, 10, "S02", into("S01"), "C1 core 2: S01"),
		text("core gone", "cutlist", page.Bold, 10, "C1 core 2", gone, "cable C1 lists 1 cores, 2 have a wire"),
		text("strip of a core", "cutlist", page.Medium, 9, "END B: trim 500 mm, strip 8 mm, terminal E4",
			into("END B: strip 8 mm, terminal E4"), "core BN of C2 does not say"),
		text("key in of a core", "cutlist", page.Mono, 9, keyIn(d.codeOf("wire", "S01", "")), gone, "core 1 of C1 is keyed in as"),
		text("jacket", "cutlist", page.Mono, 10, "60", into("600"), "the ends of C1 are stripped [600 60]"),
		text("pigtail", "cutlist", page.Medium, 9, "END A: shield pigtail C1-PA to J1:c", gone, `does not say "shield pigtail C1-PA to J1:c"`),
		text("wire of a pigtail", "cutlist", page.MonoBold, 12, "C1-PA", gone, "wire C1-PA of unit 1 stands 0 times"),
		{"pigtail parted from its cable", "cutlist", swapTexts(page.MonoBold, 12, "C1-PA", "M04"), "of cable C1 only"},
		{"symbol of a cable", "cutlist", changeSymbol("cable C1", nil), "0 symbols of kind wire where 1 belong"},
		text("how the line marks", "cutlist", page.Bold, 11, "UV laser", into("WHITE ink"), `the line marks "WHITE ink"`),
		text("core in a checklist", "pins", page.Medium, 11, "C1 core 1", into("C1 core 2"), `J1:1.1 does not say "C1 core 1" of wire S01`),
		text("pigtail in a checklist", "pins", page.MonoBold, 13, "C1-PA", gone, "cavity J1:c holds []"),
		text("pieces on a label", "labels", page.Bold, 12, "9 pieces", into("8 pieces"), "does not count the 9 wires"),
		text("cable on a label", "labels", page.Medium, 10, "8 wires and 1 cable: C1", gone, `does not say "8 wires and 1 cable: C1"`),
	}
}

func twistDamages() []damage {
	was := "twist T1 with M11, lay 25 mm, 40 mm straight at both ends"
	return []damage{
		{"partner of a twist parted", "cutlist", swapTexts(page.MonoBold, 12, "M11", "M04"), "of twist T1 only"},
		textDamage("partner of a twist", "cutlist", page.Medium, 9, was, into("twist T1 with M21, lay 25 mm, 40 mm straight at both ends"), "the row of M12 does not say"),
		textDamage("lay of a twist", "cutlist", page.Medium, 9, was, into("twist T1 with M11, lay 52 mm, 40 mm straight at both ends"), "the row of M12 does not say"),
		textDamage("twist gone", "cutlist", page.Medium, 9, was, gone, "the row of M12 does not say"),
	}
}

func endDamages() []damage {
	text := textDamage
	return []damage{
		text("strip", "cutlist", page.Mono, 10, "5.8", into("8.5"), "are stripped [8.5 "),
		text("board end", "cutlist", page.Medium, 9, "END B at the board: do not strip", gone, "the row of H02 does not say"),
		text("end that stays loose", "cutlist", page.Medium, 9, "END B: finish tinned; stays loose: do not land", gone, "the row of M21 does not say"),
		text("end that leaves", "cutlist", page.Medium, 9, "END B: leaves at N10", gone, "the row of M19 does not say"),
		text("capped end", "cutlist", page.Medium, 9, "END A: capped at N8; finish cap CP-1", gone, "the row of M20 does not say"),
		text("core that leaves", "cutlist", page.Medium, 9, "END B: leaves at N9; finish tinned, the pump takes it up", gone, "core BU of C2 does not say"),
		text("splice of an end", "cutlist", page.Medium, 9, "END B: splice SP2", into("END B: splice SP1"), "the row of M04 does not say"),
		text("strip at the board", "pins", page.Medium, 10, "board end: trim 20 mm, strip 5.8 mm", into("board end: strip 5.8 mm"), "J1:C does not say"),
		text("loose end in a checklist", "pins", page.Bold, 11, "NOT LANDED: leave loose", gone, "J6:14 does not say"),
		text("shared cavity", "pins", page.Bold, 10, "one crimp: 2 wires in one contact, 0.41 mm²", gone, "J2:004 says"),
		text("wire of a shared cavity", "pins", page.MonoBold, 13, "M10", gone, "cavity J2:004 holds [M09]"),
		{"box of a cavity", "pins", changeTick(nil), "has 0 boxes"},
		{"box of a cavity twice", "pins", changeTick(func(b page.Box) []page.Item { return []page.Item{b, b} }), "has 2 boxes"},
		{"box of a cut", "cutlist", changeTick(nil), "has 1 boxes for 2 units"},
		text("where a wire comes from", "pins", page.Mono, 11, "bought", into("existing"), "trays [existing]"),
	}
}

func jointDamages() []damage {
	text := textDamage
	return []damage{
		{"sides of a splice", "joints", swapTexts(page.MonoBold, 13, "M01", "M02"), "side 1 of SP1 holds [M02]"},
		text("side of a splice", "joints", page.Bold, 11, "side 2", into("side 1"), "side 2 of SP2 holds []"),
		text("wire of a splice", "joints", page.MonoBold, 13, "M05", gone, "SP2 holds [M04 M06]"),
		text("other end at a splice", "joints", page.Mono, 12, "to J1:E", into("to J1:D"), "wire M04 at SP2 says"),
		text("sleeve of a splice", "joints", page.Medium, 11, "sleeve HS-6, 40 mm", gone, `SP2 does not say "sleeve HS-6, 40 mm"`),
		text("place of a splice", "joints", page.Bold, 12, "at N4, 40 mm to N5", into("at N4, 40 mm to N6"), "the head of SP1 says"),
		text("stage of a splice", "joints", page.Bold, 12, "at the BENCH", into("at the BOARD"), "the head of SP2 says"),
		text("strip of a splice", "joints", page.Medium, 10, "board end: strip 7 mm", gone, "wire M01 at SP1 does not say"),
		{"symbol of a splice", "joints", changeSymbol("splice SP1 of unit 1", nil), "0 symbols of kind landing where 1 belong"},
		text("terminal gone", "joints", page.MonoBold, 24, "E4", gone, "E4 of unit 1 stands 0 times"),
		text("wires of a terminal", "joints", page.MonoBold, 13, "M07", gone, "E1 holds [M06]"),
	}
}

func studDamages() []damage {
	text := textDamage
	return []damage{
		{"order of a stud", "joints", swapTexts(page.MonoBold, 14, "E3", "E1"), "stud G1 is stacked [toothed washer E1 E3 washer nut M5]"},
		text("washer of a stud", "joints", page.Medium, 12, "washer", gone, "stud G1 is stacked"),
		text("wires on a stud", "joints", page.Mono, 11, "M06 M07", into("M06"), "stud G1 holds"),
		text("torque", "joints", page.Medium, 11, "torque: per drawing", into("torque: hand tight"), "stud G1 holds"),
		text("shield", "joints", page.Bold, 11, "shield cut back", into("shield through"), "the shield of C1 END B says"),
		text("end of a shield", "joints", page.Bold, 11, "END B", into("END A"), "C1 END B of unit 1 stands 0 times"),
		text("jacket of a shield", "joints", page.Regular, 11, "jacket off 40 mm", into("jacket off 60 mm"), "the shield of C3 END A says"),
		text("pigtail of a shield", "joints", page.Bold, 11, "shield pigtail C1-PA to J1:c", into("shield pigtail C1-PA to J1:b"), "the shield of C1 END A says"),
	}
}

func apartDamages() []damage {
	text := textDamage
	return []damage{
		text("wire that is there", "apart", page.MonoBold, 12, "M23", gone, "M23 of unit 1 stands 0 times in the lists of what is not cut"),
		text("reason", "apart", page.Bold, 10, "EXISTING: is there already", into("BOUGHT: comes ready made"), "the row of M23 says"),
		text("length of a bought cable", "apart", page.Bold, 10, "length 600 mm", gone, "the row of C3 says"),
		text("way", "apart", page.Mono, 10, "J5:18 > J6:18", into("J5:18 > J6:8"), "M24 goes"),
		text("core of a bought cable", "apart", page.Mono, 10, "J5:9 > J6:9", into("J5:9 > J6:10"), "S06, J5:9 > J6:10"),
		text("unit to be measured", "apart", page.MonoBold, 10, "2", gone, "C4 is measured for units [1]"),
		text("jacket of a bought cable", "apart", page.Medium, 9, "END A: jacket off 40 mm", gone, "the row of C3 does not say how much jacket"),
		text("how many are at hand", "apart", page.MonoBold, 10, "of 7", into("of 6"), "to be at hand are 7"),
		{"symbol of a bought wire", "apart", changeSymbol("wire M24", nil), "0 symbols of kind wire where 1 belong"},
	}
}

func kitDamages() []damage {
	text := textDamage
	return []damage{
		text("need of a part", "kit", page.Medium, 11, "174 + 9 + 4", into("147 + 9 + 4"), "needs 147, and the job takes 174"),
		text("spare of a part", "kit", page.Medium, 11, "174 + 9 + 4", into("186 + 9 + 8"), "has a spare of 8"),
		text("what is handed out", "kit", page.Bold, 12, "187", into("178"), "hands out 178"),
		text("part gone", "kit", page.MonoBold, 11, "nut M5", gone, "no row for nut M5"),
	}
}

// changeTick changes the last box of a page that is ticked, or takes it away where nothing changes it. Pages that end with
// signatures have larger boxes.
func changeTick(change func(page.Box) []page.Item) func([]page.Item) []page.Item {
	return func(items []page.Item) []page.Item {
		for i := len(items) - 1; i >= 0; i-- {
			tick, is := items[i].(page.Box)
			if !is || tick.W != tick.H {
				continue
			}
			if change == nil {
				return slices.Delete(items, i, i+1)
			}
			return slices.Replace(items, i, i+1, change(tick)...)
		}
		return nil
	}
}

// swapTexts exchanges two texts of one face and size.
func swapTexts(face page.Face, size page.Pt, one, other string) func([]page.Item) []page.Item {
	return func(items []page.Item) []page.Item {
		find := func(text string) int {
			return slices.IndexFunc(items, func(item page.Item) bool {
				t, is := item.(page.Text)
				return is && t.Face == face && t.Size == size*page.Point && t.String == text
			})
		}
		a, b := find(one), find(other)
		if a < 0 || b < 0 {
			return nil
		}
		first, second := items[a].(page.Text), items[b].(page.Text)
		first.String, second.String = second.String, first.String
		items[a], items[b] = first, second
		return items
	}
}
