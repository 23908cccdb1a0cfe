package job

import (
	"github.com/agext/levenshtein"
)

// nearest returns the name that a mistyped one most likely means, or "": the same but for case, zeros and look-alikes,
// else the first of those with the fewest changed letters, at most one in three and never more than three.
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
		if changes := levenshtein.Distance(name, candidate, nil); changes < fewest {
			best, fewest = candidate, changes
		}
	}
	return best
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
