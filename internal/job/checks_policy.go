package job

import (
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// checkChains finds chains of the run that name what owns no wires, or one home twice.
func checkChains(h *harness.Harness) problem.List {
	homes := append(connectorIDs(h), jointIDs(h)...)
	spell := newSpeller(homes)
	var found problem.List
	seen := map[string]problem.Place{}
	for i, chain := range h.Policy.Chains {
		for at, id := range chain {
			place := h.Policy.Of(elementKey(elementKey("chains", i), at))
			first, twice := seen[id]
			switch {
			case !slices.Contains(homes, id):
				found = append(found, about(fault(unknownHome, place, "the chain names %s, which is no connector, splice or terminal", quoted(id)), id,
					spell.hint(id, "take it out of the chain")))
			case twice:
				found = append(found, with(about(fault(chainedTwice, place, "%s stands in two chains", quoted(id)), id, "join the chains to one"),
					first, "it stands here too"))
			}
			seen[id] = place
		}
	}
	return found
}

// checkMounted finds a reel on the line that is neither in stock nor a type.
func checkMounted(h *harness.Harness) problem.List {
	known := slices.Concat(idsOf(h.Reels, func(r *harness.Reel) string { return r.ID }), typeIDs(h), cableTypeIDs(h))
	if id := h.Line.Mounted; id != "" && !slices.Contains(known, id) {
		return problem.List{about(fault(unknownReel, h.Line.Of("mounted"), "%s is on the line when the run starts, and the job has no such reel or type", quoted(id)),
			id, newSpeller(known).hint(id, "add the [[reel]], or name its type"))}
	}
	return nil
}
