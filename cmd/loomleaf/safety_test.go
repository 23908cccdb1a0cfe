package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/job"
	"loomleaf/internal/plan"
	"loomleaf/templates"
)

// claim finds words that call something harmless or approved, as whole words, in both languages.
var claim = regexp.MustCompile(`(?i)(^|[^\pL-])(safe|safely|eye-?safe|compliant|certified|sicher|augensicher|konform|zertifiziert)($|[^\pL-])`)

// requireNoClaims looks at every printed word of a packet.
func requireNoClaims(t *testing.T, papers []paper) {
	t.Helper()
	for _, p := range papers {
		for _, w := range p.words {
			require.NotRegexp(t, claim, w.text, p.name)
		}
	}
}

func TestClaimsAreFound(t *testing.T) {
	for text, is := range map[string]bool{"This line is safe.": true, "eye-safe": true, "Das ist sicher.": true, "certified": true,
		"Safety": false, "laser or UV safety officer": false, "Sicherheit": false, "fail-safe design": false} {
		require.Equal(t, is, claim.MatchString(text), text)
	}
}

// inLanguages is the small demo with its safety page in other languages and nothing quoted.
func inLanguages(t *testing.T, languages string) demo {
	t.Helper()
	text := strings.NewReplacer("[safety]\n", "[paper]\nlanguage = "+languages+"\n\n[safety]\nlamp = { ozone = true, mercury = true }\nhigh_potential = true\n",
		`"laser and UV officer, marking shop, extension 17"`, `""`, `"site alarm, extension 100"`, `""`).Replace(string(jobText(t, "sled-small")))
	require.Contains(t, text, "high_potential")
	return made(t, "sled-small", []byte(text))
}

// TestSafetyPagesReadBackInBothLanguages prints every hazard, reads the pages back, and counts blanks and claims.
func TestSafetyPagesReadBackInBothLanguages(t *testing.T) {
	d := inLanguages(t, `["de", "en"]`)
	for _, language := range d.plan.Safety {
		var said []string
		for _, p := range d.packet.Pages.Pages {
			if p.Sheet != "safety" || strings.HasPrefix(p.Name, "safety/en") != (language.Language == "en") {
				continue
			}
			papers := readDocument(t, d.packet.Pages, false, p.Name)
			requireNoClaims(t, papers)
			words := sentences(papers[0])
			require.Contains(t, words, sentences(paper{words: wordsOf(language.Deference)}), p.Name)
			said = append(said, words)
		}
		all := strings.Join(said, " ")
		require.Equal(t, len(language.Blanks), strings.Count(all, language.Ask), "nothing is quoted: every blank is there")
		for _, block := range language.Blocks {
			require.Contains(t, all, block.Title)
			for _, line := range block.Lines {
				require.Contains(t, all, line)
			}
		}
	}
}

// sentences joins the words of a page as they stand in it.
func sentences(p paper) string {
	var texts []string
	for _, w := range p.words {
		texts = append(texts, w.text)
	}
	return strings.Join(texts, " ")
}

func wordsOf(lines []string) []word {
	var words []word
	for _, line := range lines {
		words = append(words, word{text: line})
	}
	return words
}

// wordings returns the wording files that come with the program.
func wordings(t *testing.T) []harness.Wording {
	t.Helper()
	return inLanguages(t, `["en", "de"]`).harness.Safety.Wordings
}

// TestBothLanguagesSayTheSame compares everything but the words.
func TestBothLanguagesSayTheSame(t *testing.T) {
	both := wordings(t)
	english, german := both[0], both[1]
	require.Len(t, german.Deference, len(english.Deference))
	require.Len(t, german.Blanks, len(english.Blanks))
	for i, blank := range english.Blanks {
		require.Equal(t, [2]string{blank.What, blank.When}, [2]string{german.Blanks[i].What, german.Blanks[i].When})
	}
	require.Len(t, german.Blocks, len(english.Blocks))
	for i, block := range english.Blocks {
		other := german.Blocks[i]
		require.Equal(t, []any{block.When, block.Signal, block.Signs, len(block.Lines), block.Count == ""},
			[]any{other.When, other.Signal, other.Signs, len(other.Lines), other.Count == ""}, block.Title)
		require.NotEqual(t, block.Title, other.Title)
		for _, place := range []string{"{wires}", "{all}", "{insulation}"} {
			require.Equal(t, strings.Contains(block.Count, place), strings.Contains(other.Count, place), block.Title)
		}
	}
}

// TestWordingClaimsNothing holds what a page without an assessment may not say: a class, limit, density, distance or glove of
// its own, that blinking or missing glow protects, that a blank means nothing, a treatment, or compliance.
func TestWordingClaimsNothing(t *testing.T) {
	banned := regexp.MustCompile(`(?i)\b(mpe|nohd|od ?\d|lb ?\d|rb ?\d|exposure limit|blink\w*|lidschluss\w*|compl(y|ies|iance)|conform\w*|approved|zugelassen|` +
		`no hazard|keine gefahr|ungefährlich|unbedenklich|harmless|n/a|none|nitrile|nitril|latex|rinse|spülen|minutes|minuten|metres|meter|nm|\d+ ?(s|min|h|m|mm|ppm))\b`)
	for _, w := range wordings(t) {
		texts := append([]string{w.Short, w.Heading, w.Ask}, w.Deference...)
		for _, block := range w.Blocks {
			texts = append(append(texts, block.Title, block.Count), block.Lines...)
		}
		for _, text := range texts {
			require.NotRegexp(t, claim, text, w.Language)
			require.NotRegexp(t, banned, text, w.Language)
			require.LessOrEqual(t, len(strings.Fields(text)), 20, "a sentence to be read at the start of a shift: %s", text)
		}
	}
}

// TestWhoDecidesCannotBeTakenOut gives a wording file of the shop's own with one line on who decides: it is added.
func TestWhoDecidesCannotBeTakenOut(t *testing.T) {
	builtIn, err := templates.Files.ReadFile("safety.en.toml")
	require.NoError(t, err)
	start, end := strings.Index(string(builtIn), "deference = ["), strings.Index(string(builtIn), "[words]")
	own := string(builtIn)[:start] + "deference = [\"Ask the shift lead.\"]\n" + string(builtIn)[end:]
	own = strings.Replace(own, `title  = "Laser beam"`, `title  = "The marking laser"`, 1)
	text := strings.Replace(string(jobText(t, "sled-small")), "[safety]\n", "[safety]\nwording = [\"own.toml\"]\n", 1)
	in := job.Input{Name: "job.toml", Text: []byte(text), Open: func(string) ([]byte, error) { return []byte(own), nil }}
	h, found, _ := job.Read(in, templates.Files)
	requireNoErrors(t, found)
	p, more := plan.Make(h, found)
	requireNoErrors(t, more)
	before := made(t, "sled-small", jobText(t, "sled-small")).plan.Safety[0]
	require.Equal(t, append(before.Deference, "Ask the shift lead."), p.Safety[0].Deference)
	require.Equal(t, "The marking laser", p.Safety[0].Blocks[0].Title)
}
