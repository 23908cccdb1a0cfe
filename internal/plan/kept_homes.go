package plan

import (
	"slices"

	"loomleaf/internal/harness"
)

// kept returns the home that an earlier plan gave a family, where its wires still go there; else "". Where its wires had several
// homes, since they stood apart, it is the one of most of them.
func (f *family) kept(earlier *harness.KeptPlan) string {
	if earlier == nil {
		return ""
	}
	counts := map[string]int{}
	for _, id := range f.ids() {
		counts[earlier.Rows[id].Home]++
	}
	best := ""
	for _, home := range bodiesOf(f.leading()) {
		if counts[home] > counts[best] || best == "" && counts[home] > 0 {
			best = home
		}
	}
	return best
}

// ids returns the wires of a family, and its cable.
func (f *family) ids() []string {
	var ids []string
	for _, w := range f.wires {
		ids = append(ids, w.ID)
	}
	if f.cable != nil {
		ids = append(ids, f.cable.ID)
	}
	return ids
}

// whyRehomed says why the wires of a job have another home than the earlier plan gave them, by wire or cable.
func whyRehomed(h *harness.Harness) map[string]string {
	why := map[string]string{}
	for _, f := range families(h) {
		locked, _ := f.locked()
		ends := bodiesOf(f.leading())
		for _, id := range f.ids() {
			switch home := h.Policy.Kept.Rows[id].Home; {
			case locked != "":
				why[id] = MovedLocked
			case !slices.Contains(ends, home):
				why[id] = MovedEnd
			default:
				why[id] = MovedTogether
			}
		}
	}
	return why
}
