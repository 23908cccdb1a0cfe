package plan

import (
	"fmt"
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/words"
)

// crimpRules says how crimps are tested and looked at, each figure with its source.
func crimpRules(spoken words.Words, class int) []string {
	slow, fast, pull := handbook.PullMethod()
	share, seating := handbook.SeatingShare()
	_, counting, _ := handbook.SizeForSection(1)
	_, _, gap, _ := handbook.InsulationGap("22")
	nicks, _ := handbook.NickedStrands("22")
	rules := []string{
		spoken.Say("crimp_rules.pull", "slow", slow, "fast", fast, "source", sourceWords(spoken, pull)),
		spoken.Say("crimp_rules.seating", "share", share, "source", sourceWords(spoken, seating)),
		spoken.Say("crimp_rules.together", "source", sourceWords(spoken, counting)),
		spoken.Say("crimp_rules.gap", "source", sourceWords(spoken, gap)),
		spoken.Say("crimp_rules.strands", "source", sourceWords(spoken, nicks.Source)),
	}
	if limits, source, listed := handbook.DamagedStrands(class); listed {
		rules = append(rules, spoken.Say("crimp_rules.damaged", "class", class, "limits", strandWords(spoken, limits), "source", sourceWords(spoken, source)))
	}
	return rules
}

// strandWords lists limits: "2 to 6 strands 0, 7 to 15: 1".
func strandWords(spoken words.Words, limits []handbook.StrandLimit) string {
	var said []string
	for i, l := range limits {
		form := "next_"
		if i == 0 {
			form = "first_"
		}
		damaged := fmt.Sprint(l.Damaged)
		if l.PerCent {
			damaged += " %"
		}
		if l.To == 0 {
			said = append(said, spoken.Say("strand_limits."+form+"more", "from", l.From, "to", l.To, "damaged", damaged))
			continue
		}
		said = append(said, spoken.Say("strand_limits."+form+"to", "from", l.From, "to", l.To, "damaged", damaged))
	}
	return strings.Join(said, ", ")
}
