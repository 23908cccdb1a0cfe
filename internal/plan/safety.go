package plan

import (
	"slices"

	"loomleaf/internal/harness"
)

// safetyOf returns what the shop quotes and the hazards that the methods in use bring. A type to be tested first may end
// up inked, and its sample is marked with the laser where the line has one: it brings both.
func safetyOf(h *harness.Harness, methods []string) Safety {
	testFirst := slices.Contains(methods, string(harness.MethodTestFirst))
	met := map[string]bool{
		"always": true,
		"ink":    slices.Contains(methods, string(harness.MethodInk)) || testFirst,
		"laser": slices.Contains(methods, string(harness.MethodLaser)) ||
			testFirst && slices.Contains(h.Line.Methods, harness.MethodLaser),
	}
	safety := Safety{Officer: h.Safety.Officer, Emergency: h.Safety.Emergency, Deference: slices.Clone(h.Safety.Deference)}
	for _, block := range h.Safety.Blocks {
		if met[block.When] {
			safety.Blocks = append(safety.Blocks, SafetyBlock{Signal: block.Signal, Title: block.Title, Lines: slices.Clone(block.Lines)})
		}
	}
	return safety
}
