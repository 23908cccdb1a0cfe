package main

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/job"
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
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
	t.Parallel()
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

// TestNoClaimOnAnyPageInAnyLanguage reads the German packet of the small demo back, and looks at every text of every job that
// comes with the program in both languages.
func TestNoClaimOnAnyPageInAnyLanguage(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	starter, err := templates.Files.ReadFile("starter.toml")
	require.NoError(t, err)
	for name, text := range map[string][]byte{"sled-small": jobText(t, "sled-small"), "sled": jobText(t, "sled"), "starter": starter} {
		folder := strings.Replace(name, "starter", "sled-small", 1)
		d := made(t, folder, append(slices.Clone(text), "\n[paper]\nlanguage = [\"de\", \"en\"]\n"...))
		for _, document := range []page.Document{d.packet.Pages, d.packet.Labels} {
			var dump strings.Builder
			require.NoError(t, page.Dump(&dump, document))
			require.NotRegexp(t, claim, dump.String(), name)
		}
		if name == "sled-small" {
			requireNoClaims(t, readDocument(t, d.packet.Pages, false))
			foot := d.plan.Safety[0].Short
			require.Contains(t, foot, "Herstelleranleitung")
			for _, p := range d.packet.Pages.Pages {
				require.Equal(t, p.Sheet == "cutlist" || p.Sheet == "setup", slices.ContainsFunc(p.Frame, func(item page.Item) bool {
					words, is := item.(page.Text)
					return is && words.String == foot
				}), p.Name)
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
	require.Len(t, german.Signs, len(english.Signs))
	for i, sign := range english.Signs {
		require.Equal(t, sign.Number, german.Signs[i].Number)
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
		texts := append([]string{w.Title, w.Short, w.Heading, w.Ask, w.Given, w.Copied, w.Read, w.Name}, w.Deference...)
		for _, blank := range w.Blanks {
			texts = append(texts, blank.Label)
		}
		for _, sign := range w.Signs {
			texts = append(texts, sign.Title)
		}
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

// withWording reads the small demo with a wording file of the shop's own.
func withWording(t *testing.T, own string) (*harness.Harness, problem.List) {
	t.Helper()
	text := strings.Replace(string(jobText(t, "sled-small")), "[safety]\n", "[safety]\nwording = \"own.toml\"\n", 1)
	h, found, _ := job.Read(job.Input{Name: "job.toml", Text: []byte(text), Open: func(string) ([]byte, error) { return []byte(own), nil }}, templates.Files)
	return h, found
}

// builtInWording returns a wording file that comes with the program, changed in one place.
func builtInWording(t *testing.T, put, old string) string {
	t.Helper()
	text, err := templates.Files.ReadFile("safety.en.toml")
	require.NoError(t, err)
	require.Contains(t, string(text), old)
	return strings.Replace(string(text), old, put, 1)
}

// TestACopyOfTheWordingChangesNothing starts as the shop is told to.
func TestACopyOfTheWordingChangesNothing(t *testing.T) {
	h, found := withWording(t, builtInWording(t, "", ""))
	requireNoErrors(t, found)
	require.Equal(t, made(t, "sled-small", jobText(t, "sled-small")).harness.Safety.Wordings, h.Safety.Wordings)
}

// TestWhoDecidesCannotBeTakenOut adds a line, words a hazard in another way, and then takes out every line, word, blank and
// hazard in turn.
func TestWhoDecidesCannotBeTakenOut(t *testing.T) {
	t.Parallel()
	before := wordings(t)[0]
	last := before.Deference[len(before.Deference)-1]
	own := builtInWording(t, last+"\",\n  \"Ask the shift lead.", last)
	h, found := withWording(t, strings.Replace(own, "count  = \"{wires} of the {all} wires of a unit are laser marked.\"", "count  = \"{wires} laser marks.\"", 1))
	requireNoErrors(t, found)
	p, more := plan.Make(h, found)
	requireNoErrors(t, more)
	require.Equal(t, append(slices.Clone(before.Deference), "Ask the shift lead."), p.Safety[0].Deference)
	require.Equal(t, "7 laser marks.", p.Safety[0].Blocks[0].Count)

	for _, line := range before.Deference {
		requireLacks(t, builtInWording(t, "", "  \""+line+"\",\n"))
	}
	for _, words := range []string{before.Short, before.Ask} {
		requireLacks(t, builtInWording(t, "as you like", words))
	}
	for _, blank := range before.Blanks {
		entry := "[[blank]]\nwhat  = \"" + blank.What + "\"\nlabel = \"" + blank.Label + "\"\nwhen  = \"" + blank.When + "\"\n"
		requireLacks(t, builtInWording(t, "", entry))
	}
	whole := builtInWording(t, "", "")
	hazards := strings.Split(whole, "[[block]]")
	require.Len(t, hazards, len(before.Blocks)+1)
	for i := range before.Blocks {
		requireLacks(t, strings.Join(slices.Delete(slices.Clone(hazards), i+1, i+2), "[[block]]"))
	}
}

func requireLacks(t *testing.T, own string) {
	t.Helper()
	h, found := withWording(t, own)
	require.Nil(t, h)
	lacks := slices.ContainsFunc(found, func(p problem.Problem) bool { return p.Check == "wording-lacks" && p.Place.File == "own.toml" })
	require.True(t, lacks, "%v", found)
}

// TestSignsOfThePagesAreTheRightOnes compares the English titles with the register, and keeps the signs for ionizing and for
// radio radiation off a page about light.
func TestSignsOfThePagesAreTheRightOnes(t *testing.T) {
	for _, w := range wordings(t) {
		for _, sign := range w.Signs {
			registered, listed := handbook.SignOf(sign.Number)
			require.True(t, listed)
			require.Equal(t, w.Language == "en", registered.Title == sign.Title, "%s %s", w.Language, sign.Number)
		}
		for _, block := range w.Blocks {
			require.NotEmpty(t, block.Signs, block.Title)
			require.NotContains(t, block.Signs, "W003")
			require.NotContains(t, block.Signs, "W005")
			require.Equal(t, block.When == "laser", slices.Contains(block.Signs, "W004"), block.Title)
		}
		uv := slices.IndexFunc(w.Blocks, func(b harness.SafetyBlock) bool { return slices.Contains(b.Signs, "W027") })
		require.Equal(t, "ink", w.Blocks[uv].When)
	}
}

// safetyTexts are the words of the safety pages in both languages: with every hazard and nothing quoted, then with values.
func safetyTexts(t *testing.T) string {
	t.Helper()
	quotes := "quote = [{ what = \"laser class\", value = \"1 closed, 4 open\", source = \"maker's manual, page 4\" }, " +
		"{ what = \"data sheet\", value = \"SDS 7, rev 3\", source = \"ink maker, 2026-02\" }]"
	text := strings.Replace(string(jobText(t, "sled-small")), "[safety]\n", "[paper]\nlanguage = [\"de\", \"en\"]\n\n[safety]\n"+quotes+"\n", 1)
	var texts strings.Builder
	for _, d := range []demo{inLanguages(t, `["en", "de"]`), made(t, "sled-small", []byte(text))} {
		for _, p := range d.packet.Pages.Pages {
			if p.Sheet != "safety" {
				continue
			}
			fmt.Fprintf(&texts, "page %s\n", p.Name)
			for _, item := range p.Body {
				if words, is := item.(page.Text); is {
					fmt.Fprintf(&texts, "  %s\n", words.String)
				}
			}
		}
	}
	return texts.String()
}

// TestTwoPagesForALaserAndInk holds the page to what can be read at the start of a shift, with values quoted and without.
func TestTwoPagesForALaserAndInk(t *testing.T) {
	for _, languages := range []string{`["en"]`, `["de"]`} {
		text := strings.Replace(string(jobText(t, "sled-small")), "[safety]\n", "[paper]\nlanguage = "+languages+"\n\n[safety]\n", 1)
		count := 0
		for _, p := range made(t, "sled-small", []byte(text)).packet.Pages.Pages {
			if p.Sheet == "safety" {
				count++
			}
		}
		require.Equal(t, 2, count, languages)
	}
}
