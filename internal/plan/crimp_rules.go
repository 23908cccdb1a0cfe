package plan

import (
	"fmt"
	"strings"

	"loomleaf/internal/handbook"
)

// crimpRules says how crimps are tested and looked at, each figure with its source.
func crimpRules(class int) []string {
	slow, fast, pull := handbook.PullMethod()
	share, seating := handbook.SeatingShare()
	_, counting, _ := handbook.SizeForSection(1)
	_, _, gap, _ := handbook.InsulationGap("22")
	nicks, _ := handbook.NickedStrands("22")
	rules := []string{
		fmt.Sprintf("Pull along the wire at %d to %d mm a minute until it parts: %s.", slow, fast, pull),
		fmt.Sprintf("A seating pull is at most %d %% of the minimum, rounded down; where wires share a barrel, of that of the thinnest alone: %s.", share, seating),
		fmt.Sprintf("Wires in one barrel are pulled together; their sections are added and count as the matching gauge, else the next larger: %s.", counting),
		fmt.Sprintf("Insulation gap, from the barrel to the insulation: %s. All wires reach the bottom of the barrel.", gap),
		fmt.Sprintf("Strands, nicked and broken, for copper wire of the usual stranding: %s.", nicks.Source),
	}
	if limits, source, listed := handbook.DamagedStrands(class); listed {
		rules = append(rules, fmt.Sprintf("Damaged strands, class %d: %s: %s. The smaller limit holds.", class, strandWords(limits), source))
	}
	return rules
}

// strandWords lists limits: "2 to 6 strands 0, 7 to 15: 1".
func strandWords(limits []handbook.StrandLimit) string {
	var words []string
	for i, l := range limits {
		noun := ""
		if i == 0 {
			noun = " strands"
		}
		damaged := fmt.Sprint(l.Damaged)
		if l.PerCent {
			damaged += " %"
		}
		if l.To == 0 {
			words = append(words, fmt.Sprintf("%d and more%s: %s", l.From, noun, damaged))
			continue
		}
		words = append(words, fmt.Sprintf("%d to %d%s: %s", l.From, l.To, noun, damaged))
	}
	return strings.Join(words, ", ")
}
