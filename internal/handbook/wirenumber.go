package handbook

import "regexp"

// WireNumber is a significant wire number: its parts say what the wire is for and how thick it is.
type WireNumber struct {
	Unit     string // of several alike, "" where the equipment stands alone
	Function string // letter of the circuit: "P" for dc power
	Number   string // changes where there is no common terminal
	Segment  string // letter, advances at every terminal or connector
	Size     string // AWG as written: "4", "20", "2/0"
	Suffix   string // "N" runs to ground, "A", "B", "C" phases, "ALUM"; "" for none
	Source   Source
}

// numberForm is the form of a significant wire number. That hyphens may part it, that segments leave out I and O and go on with
// AA, that a function may take a second letter, and the suffixes beyond N, the phases and aluminium, are from memory.
func numberForm() *regexp.Regexp {
	const segment = `[A-HJ-NP-Z]{1,2}`
	const suffix = `N|A|B|C|V|ALUM|ALUMINUM|CHROM|ALML|IRON|CONS|COP`
	return regexp.MustCompile(`^([0-9]+)?-?([A-Z]{1,2})-?([0-9]+)-?(` + segment + `)-?([0-9]+(?:/0)?)-?(` + suffix + `)?$`)
}

// WireNumberOf takes a significant wire number apart: "P215A4N" is function P, number 215, segment A, size 4, to ground. It reports
// false for a text that does not have the form, or whose size is no AWG size.
func WireNumberOf(text string) (WireNumber, bool) {
	parts := numberForm().FindStringSubmatch(text)
	if parts == nil {
		return WireNumber{}, false
	}
	if _, listed := WireSizeOf(parts[5]); !listed {
		return WireNumber{}, false
	}
	return WireNumber{Unit: parts[1], Function: parts[2], Number: parts[3], Segment: parts[4], Size: parts[5], Suffix: parts[6],
		Source: Source{Document: "NAVEDTRA 14176", Table: "figure 3-3", Standing: Read}}, true
}
