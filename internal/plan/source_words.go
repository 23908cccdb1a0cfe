package plan

import (
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/words"
)

// sourceWords names a source for reading, and how sure its figure is: "AC 43.13-1B, CHG 1 of 2001-09-27 (read)". What a
// document is called stays as it is.
func sourceWords(said words.Words, s handbook.Source) string {
	var parts []string
	for _, part := range []string{s.Document, s.Edition, s.Table} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	standing := said.Say("source.standing." + strings.NewReplacer(" ", "_", "-", "_").Replace(s.Standing.String()))
	if len(parts) == 0 {
		return standing
	}
	return said.Say("source.with_standing", "source", strings.Join(parts, ", "), "standing", standing)
}
