package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/handbook"
	"loomleaf/internal/job"
	"loomleaf/internal/words"
	"loomleaf/templates"
)

// english returns the words that come with the program.
func english() words.Words {
	said, err := job.Words(templates.Files, "en")
	if err != nil {
		panic(err)
	}
	return said
}

// inEnglish is what paper says in English.
func inEnglish() []words.Words { return []words.Words{english()} }

// TestColoursAreSaidAsTheHandbookSaysThem asks for every colour with up to two stripes.
func TestColoursAreSaidAsTheHandbookSaysThem(t *testing.T) {
	said, tried := english(), 0
	check := func(code string) {
		if colour, listed := handbook.ColourOf(code); listed {
			require.Equal(t, colour.Words, colourWords(said, code), code)
			tried++
		}
	}
	check(handbook.UnknownColour)
	for _, base := range handbook.ColourCodes() {
		check(base)
		for _, first := range handbook.ColourCodes() {
			check(base + "/" + first)
			for _, second := range handbook.ColourCodes() {
				check(base + "/" + first + "/" + second)
			}
		}
	}
	require.Equal(t, 1+15+14*13+14*13*13, tried)
}
