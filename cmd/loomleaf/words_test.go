package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/job"
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/sheet"
	"loomleaf/internal/words"
	"loomleaf/templates"
)

// greek writes the Latin letters of every text in Greek ones, fields as they are: what stays Latin on paper came from elsewhere.
func greek(english words.Words) words.Words {
	latin := strings.Split("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ", "")
	other := strings.Split("αβψδεφγηιξκλμνοπκρστθωσχυζΑΒΨΔΕΦΓΗΙΞΚΛΜΝΟΠΚΡΣΤΘΩΣΧΥΖ", "")
	var pairs []string
	for i := range latin {
		pairs = append(pairs, latin[i], other[i])
	}
	letters := strings.NewReplacer(pairs...)
	texts := map[string]string{}
	for _, key := range english.Keys() {
		text, _ := english.Text(key)
		said := ""
		for text != "" {
			before, after, opened := strings.Cut(text, "{")
			said += letters.Replace(before)
			if !opened {
				break
			}
			field, rest, _ := strings.Cut(after, "}")
			said, text = said+"{"+field+"}", rest
		}
		texts[key] = said
	}
	texts["number.decimal"] = "·"
	return words.New("en", texts)
}

// latinWord is a word that some language of the program would have to say.
func latinWord() *regexp.Regexp { return regexp.MustCompile(`[A-Za-z]{2,}`) }

// hashes are no words.
func hashes() *regexp.Regexp { return regexp.MustCompile(`^[0-9a-f]{4}( [0-9a-f]{4})*$`) }

// knownWords are the words that may stand on the paper of a job in any language: those of the job, of the wording of the
// safety page, of the program's messages, and the signs of units and standards.
func knownWords(t *testing.T, folder string, p plan.Plan) map[string]bool {
	t.Helper()
	known := map[string]bool{}
	take := func(text string) {
		for _, w := range latinWord().FindAllString(text, -1) {
			known[w] = true
		}
	}
	take("AWG AQL mm kg lbf mA TOML")
	for _, value := range valuesOf(t, folder, "../../templates/safety.en.toml", "../../templates/labels.toml", "../../templates/shop.toml") {
		take(value)
	}
	for _, w := range p.Wires {
		take(w.ID) // of pigtails, which the plan names
	}
	for _, spare := range p.Spares {
		take(spare.Source) // the names of documents
	}
	for _, limit := range p.Bundles.Bends {
		take(limit.Source)
	}
	take(p.Tolerance)
	for _, text := range append(documents(t), defaultsOf(p)...) {
		take(text)
	}
	for _, price := range p.Prices {
		take(price.Policy) // a value of the job file
	}
	for _, w := range p.Warnings {
		take(w.Check + " " + w.Text)
	}
	return known
}

// valuesOf returns what stands in quotes in the TOML files of a job and in others, and the rows of its tables: names of keys and
// of columns are no values.
func valuesOf(t *testing.T, folder string, others ...string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(jobFolder, folder, "*.*"))
	require.NoError(t, err)
	var values []string
	for _, name := range append(files, others...) {
		content, err := os.ReadFile(name)
		require.NoError(t, err)
		lines := strings.Split(string(content), "\n")
		switch filepath.Ext(name) {
		case ".csv":
			values = append(values, lines[1:]...)
		case ".toml":
			for _, line := range lines {
				before, _, _ := strings.Cut(line, "# ")
				values = append(values, regexp.MustCompile(`"[^"]*"`).FindAllString(before, -1)...)
			}
		}
	}
	require.NotEmpty(t, values)
	return values
}

// documents are what the documents behind the figures are called, with editions and tables, as the handbook's source writes them.
func documents(t *testing.T) []string {
	t.Helper()
	sources, err := filepath.Glob("../../internal/handbook/*.go")
	require.NoError(t, err)
	require.NotEmpty(t, sources)
	var texts []string
	for _, name := range sources {
		content, err := os.ReadFile(name)
		require.NoError(t, err)
		for _, source := range regexp.MustCompile(`Source(\{[^}]*\}|\([^)]*\))`).FindAllString(string(content), -1) {
			texts = append(texts, regexp.MustCompile(`"[^"\n]*"`).FindAllString(source, -1)...)
		}
	}
	require.NotEmpty(t, texts)
	return texts
}

// defaultsOf are keys and values as a job file writes them.
func defaultsOf(p plan.Plan) []string {
	var texts []string
	for _, d := range p.Defaults {
		texts = append(texts, d.Key+" = "+d.Value)
	}
	return texts
}

// figure is a number with a decimal point; one that a unit follows is no part of an id.
func figure() *regexp.Regexp {
	return regexp.MustCompile(`[0-9]+\.[0-9]+( ?(mm2?|m|g|kg|s|N|lbf|g/m)\b| ?%)?`)
}

// knownFigures are those that may stand on paper with a point in any language: in ids, texts and documents.
func knownFigures(t *testing.T, folder string, p plan.Plan) map[string]bool {
	t.Helper()
	known := map[string]bool{}
	texts := slices.Concat(valuesOf(t, folder), documents(t), defaultsOf(p), []string{p.Tolerance})
	for _, spare := range p.Spares {
		texts = append(texts, spare.Source)
	}
	for _, limit := range p.Bundles.Bends {
		texts = append(texts, limit.Source)
	}
	for _, w := range p.Warnings { // in the language of the program
		for _, found := range figure().FindAllString(w.Text, -1) {
			known[found] = true
		}
	}
	for _, text := range texts {
		for _, found := range figure().FindAllStringSubmatch(text, -1) {
			if found[1] == "" {
				known[found[0]] = true
			}
		}
	}
	return known
}

// TestEveryWordOnPaperIsSaidInTheLanguage prints the demo jobs in Greek letters, and finds no Latin word
// that the job does not hold, and no figure with a point.
func TestEveryWordOnPaperIsSaidInTheLanguage(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	english, err := job.Words(templates.Files, "en")
	require.NoError(t, err)
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	for _, name := range []string{"sled-small", "torture", "relay-cable", "substitute"} {
		text := jobText(t, name)
		h, found, _ := job.Read(job.Input{Name: "job.toml", Text: text, Open: opener(filepath.Join(jobFolder, name))}, templates.Files)
		requireNoErrors(t, found)
		h.Paper.Words = []words.Words{greek(english)}
		p, found := plan.Make(h, found)
		requireNoErrors(t, found)
		packet, _ := sheet.Lay(p, metrics) // wider letters may not fit; the places are as good
		known, figures := knownWords(t, name, p), knownFigures(t, name, p)
		names := map[string]bool{} // listed in the contents as they are
		for _, pg := range packet.Pages.Pages {
			names[pg.Name] = true
		}
		p.Packet.Draft = true
		draft, _ := sheet.Lay(p, metrics)
		for _, pg := range slices.Concat(packet.Pages.Pages, packet.Labels.Pages, draft.Pages.Pages) {
			if pg.Sheet == "safety" {
				continue
			}
			for _, item := range slices.Concat(pg.Frame, pg.Body) {
				printed, is := item.(page.Text)
				if !is || slices.Contains(defaultsOf(p), printed.String) || names[printed.String] || pg.Name == printed.String || hashes().MatchString(printed.String) {
					continue
				}
				for _, w := range latinWord().FindAllString(printed.String, -1) {
					if !known[w] {
						t.Errorf("%s, page %s: %q of %q does not come from the words", name, pg.Name, w, printed.String)
					}
				}
				for _, found := range figure().FindAllString(printed.String, -1) {
					if !figures[found] {
						t.Errorf("%s, page %s: %q of %q has a point", name, pg.Name, found, printed.String)
					}
				}
			}
		}
	}
}

// TestGermanPacketFits prints the demo jobs in German, and nothing is clipped, refused or left in braces.
func TestGermanPacketFits(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	for _, name := range []string{"sled-small", "sled", "torture", "relay-cable", "substitute"} {
		d := made(t, name, inGerman(jobText(t, name)))
		for _, document := range []page.Document{d.packet.Pages, d.packet.Labels} {
			require.Equal(t, "de", document.Language)
			for _, pg := range document.Pages {
				for _, item := range slices.Concat(pg.Frame, pg.Body) {
					if printed, is := item.(page.Text); is {
						require.NotRegexp(t, `\{[a-z_]+(\.[a-z_]+)+\}`, printed.String, pg.Name)
					}
				}
			}
		}
	}
}

// inGerman puts the floor's language first; a job that names languages keeps the others behind.
func inGerman(text []byte) []byte {
	if strings.Contains(string(text), "\n[paper]\n") {
		return []byte(strings.Replace(string(text), "\n[paper]\n", "\n[paper]\nlanguage = [\"de\", \"en\"]\n", 1))
	}
	return append(slices.Clone(text), "\n[paper]\nlanguage = [\"de\", \"en\"]\n"...)
}
