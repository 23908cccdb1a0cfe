package job

import (
	"regexp"
	"strings"
)

const claimHint = "say what to do and who decides; a page cannot judge an exposure"

// claims finds words that call something harmless or approved, as whole words: no program can know that.
func claims() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(^|[^\pL-])(safe|safely|safest|eye-?safe|harmless|compliant|certified|no hazards?|no danger|` +
		`sicher|augensicher|harmlos|konform|zertifiziert|ungefährlich|unbedenklich|gefahrlos|keine gefahr)($|[^\pL])`)
}

// claimIn returns the claim that a text makes, or "".
func claimIn(text string) string {
	if found := claims().FindStringSubmatch(text); found != nil {
		return found[2]
	}
	return ""
}

// saysNothing reports a text that stands where a value is missing: printed, it would read as "there is none".
func saysNothing(text string) bool {
	bare := strings.ToLower(strings.Trim(strings.TrimSpace(text), ".-–—_/"))
	return contains([]string{"", "none", "nil", "no", "n/a", "n.a", "na", "not applicable", "unknown",
		"keine", "keiner", "keines", "kein", "entfällt", "nicht zutreffend", "unbekannt"}, bare)
}

// refuseClaims refuses every text of a wording file that makes a claim.
func (r *reader) refuseClaims(v *value) {
	if v.kind == kindText {
		if claim := claimIn(v.text); claim != "" {
			r.found = append(r.found, about(fault(safetyClaim, v.place(), "the text uses the words %s", quoted(claim)), "", claimHint))
		}
	}
	for _, item := range v.items {
		r.refuseClaims(item)
	}
	for _, e := range v.keys {
		r.refuseClaims(e.value)
	}
}
