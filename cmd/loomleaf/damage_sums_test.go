package main

import "loomleaf/internal/page"

// sumDamages are those of printed counts and totals; they name things of the small demo.
func sumDamages() []damage {
	text := textDamage
	return []damage{
		text("count at the head of a cut list", "cutlist", page.Regular, 11, "8 wires per unit", into("9 wires per unit"), `it says "9 wires per unit", the list has 8 rows`),
		text("count at the end of a cut list", "cutlist", page.MonoBold, 10, "of 8", into("of 9"), `"of 9", it has 8 rows`),
		text("end of a cut list", "cutlist", page.MonoBold, 10, "0040 counted", gone, "the rows are not counted at the end"),
		text("number of a row", "cutlist", page.Mono, 9, "3", into("4"), "does not say that it is number 3"),
		text("pages of the cover", "cover", page.Bold, 11, "of 46", into("of 47"), `"pages counted" is followed by "of 47", there are 46`),
		text("pages of the contents", "contents", page.Bold, 12, "Pages: 43 and this list", into("Pages: 44 and this list"), `"Pages: 43 and this list" stands 0 times`),
		text("pieces of a type", "contents", page.Medium, 10, "4", into("5"), "the cut lists take 4 pieces and 7.3 m"),
		text("metres of a type", "contents", page.Medium, 10, "7.3", into("7.4"), "the cut lists take 4 pieces and 7.3 m"),
		text("sum at the head of a checklist", "pins", page.Medium, 11, "10 cavities = 8 wired + 0 sealing plugs + 2 open", into("10 cavities = 7 wired + 1 sealing plug + 2 open"), "the head does not say"),
		text("boxes at the end of a checklist", "pins", page.Bold, 10, "of 8", into("of 9"), "counts [of 9"),
	}
}
