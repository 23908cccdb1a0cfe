package job

import (
	"github.com/agext/levenshtein"
)

// nearest returns the name that a mistyped one most likely means, or "": the same but for case, zeros and look-alikes,
// else the first of those with the fewest changed letters, at most one in three and never more than three; two neighbours that
// changed places count as one.
func nearest(name string, names []string) string {
	best, fewest := "", min(3, (len([]rune(name))+2)/3)+1
	for _, candidate := range names {
		if candidate != name && (plainForm(candidate) == plainForm(name) || lookForm(candidate) == lookForm(name)) {
			return candidate
		}
		difference := len(candidate) - len(name)
		if candidate == name || difference >= 4*fewest || -difference >= 4*fewest {
			continue
		}
		changes := levenshtein.Distance(name, candidate, nil)
		if changes == 2 && swapped(name, candidate) {
			changes = 1
		}
		if changes < fewest {
			best, fewest = candidate, changes
		}
	}
	return best
}

// swapped reports whether two names differ in two neighbouring letters that changed places.
func swapped(a, b string) bool {
	for i := 0; len(a) == len(b) && i+1 < len(a); i++ {
		if a[i] != b[i] {
			return a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
		}
	}
	return false
}

// speller suggests names out of one list. It looks for so many wrong names only, since each costs a walk over the list.
type speller struct {
	names []string
	known map[string]string
}

const mostSuggested = 100

func newSpeller(names []string) *speller { return &speller{names: names, known: map[string]string{}} }

// hint says what to do about a name that is not in the list. Names of the trade differ by one digit as a rule, so the
// near miss is offered as a question.
func (s *speller) hint(name, otherwise string) string {
	near, known := s.known[name]
	if !known && len(s.known) < mostSuggested {
		near = nearest(name, s.names)
		s.known[name] = near
	}
	if near == "" {
		return otherwise
	}
	return "did you mean " + quoted(near) + "? else " + otherwise
}
