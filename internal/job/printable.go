package job

import "loomleaf/internal/problem"

// unprintables finds texts with a character that the sheets cannot print. Comments may hold any.
func (v *value) unprintables(printable func(rune) bool) problem.List {
	var found problem.List
	switch v.kind {
	case kindText:
		for _, r := range v.text {
			if !printable(r) {
				p := fault(unprintable, v.place(), "%s holds the character %s (U+%04X), which the sheets cannot print", quoted(v.text), quoted(string(r)), r)
				return problem.List{about(p, "", "use Latin, Greek or Cyrillic letters, digits and common signs")}
			}
		}
	case kindArray:
		for _, item := range v.items {
			found = append(found, item.unprintables(printable)...)
		}
	case kindTable:
		for _, e := range v.keys {
			found = append(found, e.value.unprintables(printable)...)
		}
	}
	return found
}
