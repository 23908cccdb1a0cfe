package plan

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"

	"loomleaf/internal/harness"
)

// Kept says how far a plan holds to an earlier one, and what that costs against an order made afresh.
type Kept struct {
	Number   string `json:"number"` // of the earlier plan
	Part     string `json:"part"`
	Revision string `json:"revision"`
	Draft    bool   `json:"draft"` // nothing of its paper is valid

	Rows     int      `json:"rows"`      // of the cut lists, wires and cables, that stand in both plans
	SameRows int      `json:"same_rows"` // of those, the ones that say what they said
	Moved    []Moved  `json:"moved"`     // of those, the ones that stand elsewhere, in the order of this run
	Added    []string `json:"added"`     // rows that the earlier plan has not, in the order of this run
	Removed  []string `json:"removed"`   // rows that stand in the earlier plan alone, in the order of its run

	Groups     int      `json:"groups"`      // cut lists of the earlier plan
	SameGroups []string `json:"same_groups"` // of those, the ones that say what they said, in the order of this run
	Order      string   `json:"order"`       // what puts the groups in order: "board", "listed", or "free" for the earlier plan

	Reel    int   `json:"reel"`  // reel changes of one pass
	Loads   int   `json:"loads"` // of the whole run
	Minutes int64 `json:"minutes"`

	Afresh Afresh `json:"afresh"`
}

// Moved is a row that stands elsewhere than in the earlier plan.
type Moved struct {
	ID  string `json:"id"`
	Was string `json:"was"` // home
	Is  string `json:"is"`
	Why string `json:"why"`
}

// Why a row stands elsewhere.
const (
	MovedLocked   = "locked"   // the job locks its home
	MovedEnd      = "end"      // it no longer goes to its home
	MovedTogether = "together" // it goes into one tray with others, side by side
	MovedGroup    = "group"    // its group runs at another place, which the job fixes
	MovedSetting  = "setting"  // it runs on another reel, or is marked in another way, and stands cheaper there
)

// Afresh is the same work in homes and in an order that hold to nothing.
type Afresh struct {
	Reel       int   `json:"reel"`
	Loads      int   `json:"loads"`
	Minutes    int64 `json:"minutes"`
	Moved      int   `json:"moved"`       // rows that would stand elsewhere than in the earlier plan
	SameGroups int   `json:"same_groups"` // cut lists that would say what they said
}

// keptOf compares a plan that is run with the earlier one that it holds to; nil where it holds to none. Rows are those of the line,
// among all wires and cables.
func (p *Plan) keptOf(h *harness.Harness, build []string, rows []*Wire, wires []Wire, cables []Cable) *Kept {
	earlier := h.Policy.Kept
	if earlier == nil {
		return nil
	}
	k := &Kept{
		Number: earlier.Number, Part: earlier.Part, Revision: earlier.Revision, Draft: earlier.Draft, Groups: len(earlier.Groups), Order: h.Policy.Order,
		Reel: p.Changes.Reel, Loads: p.Changes.Loads, Minutes: p.Time.Minutes, Added: []string{}, Removed: []string{},
	}
	same := sameRows(earlier, codesOf(wires, cables))
	k.compareRows(earlier, p.Groups, same)
	k.Moved = whyMoved(h, rows, movedRows(earlier, p.Groups))
	k.SameGroups = sameGroups(earlier, p.Groups, p.Cables, same)
	fresh := p.afresh(h, build, rows)
	k.Afresh = Afresh{Reel: fresh.Changes.Reel, Loads: fresh.Changes.Loads, Minutes: fresh.Time.Minutes,
		Moved: len(movedRows(earlier, fresh.Groups)), SameGroups: len(sameGroups(earlier, fresh.Groups, p.Cables, same))}
	return k
}

// afresh runs the same rows in homes and in an order that hold to no earlier plan.
func (p *Plan) afresh(h *harness.Harness, build []string, rows []*Wire) Plan {
	other := *h
	other.Policy.Kept = nil
	home, _ := homes(&other, build) // locks are the same
	fresh := *p
	fresh.Types, fresh.Substitutes = slices.Clone(p.Types), nil // the run adds to both
	groups := groupWires(rows, home, build)
	groups, costs := cheapestPass(&other, groups, tableOf(groups))
	fresh.run(&other, groups, costs)
	return fresh
}

// compareRows counts the rows that stand in both plans, and names those that stand in one alone.
func (k *Kept) compareRows(earlier *harness.KeptPlan, groups []Group, same map[string]bool) {
	stood, stands := map[string]bool{}, map[string]bool{}
	for _, group := range earlier.Groups {
		for _, id := range group.Rows {
			stood[id] = true
		}
	}
	for _, group := range groups {
		for _, id := range group.Wires {
			stands[id] = true
			if !stood[id] {
				k.Added = append(k.Added, id)
				continue
			}
			k.Rows++
			k.SameRows += one(same[id])
		}
	}
	for _, group := range earlier.Groups {
		for _, id := range group.Rows {
			if !stands[id] {
				k.Removed = append(k.Removed, id)
			}
		}
	}
}

// sameRows returns the wires and cables whose rows say what they said: a row that does not has another code.
func sameRows(earlier *harness.KeptPlan, codes map[string]string) map[string]bool {
	same := map[string]bool{}
	for id, code := range codes {
		same[id] = !earlier.Draft && code != "" && earlier.Rows[id].Code == code
	}
	return same
}

// codesOf returns the codes of wires and cables by id.
func codesOf(wires []Wire, cables []Cable) map[string]string {
	codes := make(map[string]string, len(wires)+len(cables))
	for i := range wires {
		codes[wires[i].ID] = wires[i].Code.String()
	}
	for i := range cables {
		codes[cables[i].ID] = cables[i].Code.String()
	}
	return codes
}

// sameGroups returns the groups whose cut lists say what they said, row for row and reel for reel.
func sameGroups(earlier *harness.KeptPlan, groups []Group, cables []Cable, same map[string]bool) []string {
	was := map[string]string{}
	written := make([]Group, len(earlier.Groups))
	for i, group := range earlier.Groups {
		if json.Unmarshal([]byte(group.Text), &written[i]) != nil {
			return []string{} // of another kind than this program writes: nothing of it is known to be the same
		}
	}
	for i, text := range cutTexts(written) {
		was[written[i].Connector] = text
	}
	cores := map[string][]string{}
	for i := range cables {
		cores[cables[i].ID] = cables[i].Cores
	}
	found := []string{}
	for i, text := range cutTexts(groups) {
		changed := func(id string) bool { return !same[id] }
		if was[groups[i].Connector] == text && !slices.ContainsFunc(groups[i].Wires, func(id string) bool {
			return changed(id) || slices.ContainsFunc(cores[id], changed)
		}) {
			found = append(found, groups[i].Connector)
		}
	}
	return found
}

// cutTexts returns what the cut lists of each group say: the group, and how the line marks when each of its lists starts.
func cutTexts(groups []Group) []string {
	texts := make([]string, len(groups))
	lists := 0
	for i := range groups {
		group := groups[i]
		fillLists(reflect.ValueOf(&group).Elem())
		text, err := json.Marshal(group)
		if err != nil {
			panic("plan: a group without a JSON form: " + err.Error()) // it holds texts and numbers alone
		}
		texts[i], lists = string(text), max(lists, len(group.Steps))
	}
	setting := ""
	for list := range lists {
		for i := range groups {
			texts[i] += setting
			if list < len(groups[i].Steps) {
				setting = lastSetting(groups[i].Steps[list], setting)
			}
		}
	}
	return texts
}

// lastSetting returns how the line marks after steps, in words of no language.
func lastSetting(steps []Step, before string) string {
	for _, step := range slices.Backward(steps) {
		if step.Kind == StepLoad || step.Kind == StepSwitch {
			return fmt.Sprintf(" %q %q %d", step.Method, step.Ink, step.HeightUM)
		}
	}
	return before
}
