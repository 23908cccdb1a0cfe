package plan

import (
	"cmp"
	"fmt"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// family is what shares one home: a wire alone, the wires of a twist, or a cable with its cores and pigtails.
type family struct {
	name  string // "twist T1", "cable C1"; "" for a wire alone
	cable *harness.Cable
	wires []*harness.Wire // in natural order of their ids
}

// families returns the families in natural order of their first wires; cables without any wire come last.
func families(h *harness.Harness) []*family {
	byName := map[string]*family{}
	all := make([]*family, 0, len(h.Wires))
	in := func(name string) *family {
		if byName[name] == nil {
			byName[name] = &family{name: name}
			all = append(all, byName[name])
		}
		return byName[name]
	}
	twists := twistsByWire(h)
	for _, w := range wiresInOrder(h) {
		name := familyName(w, twists)
		if name == "" {
			all = append(all, &family{wires: []*harness.Wire{w}})
			continue
		}
		f := in(name)
		f.wires = append(f.wires, w)
	}
	for _, c := range cablesInOrder(h) {
		in("cable " + c.ID).cable = c
	}
	return all
}

// familyName names the twist or cable that a wire belongs to: "twist T1", "cable C1"; "" for a wire alone.
func familyName(w *harness.Wire, twists map[string]string) string {
	switch cable := cmp.Or(w.Cable, w.A.Shield); {
	case cable != "":
		return "cable " + cable
	case twists[w.ID] != "":
		return "twist " + twists[w.ID]
	}
	return ""
}

// leading returns the wires whose ends say where the home may be: all but pigtails, where there are others.
func (f *family) leading() []*harness.Wire {
	shield := func(w *harness.Wire) bool { return w.A.Kind == harness.EndShield }
	if !slices.ContainsFunc(f.wires, shield) {
		return f.wires
	}
	leading := slices.DeleteFunc(slices.Clone(f.wires), shield)
	if len(leading) == 0 {
		return f.wires
	}
	return leading
}

// homes returns the home of every wire and cable by its id: the one that the job locks it to, else that of the plan that is kept to,
// else the one that the policy says. A twist, and a cable with its cores and pigtails, has one home.
func homes(h *harness.Harness, build []string) (map[string]string, problem.List) {
	ranks := rankOf(h, build)
	var problems problem.List
	all := families(h)
	at, free := make([]string, len(all)), map[string][]tie{}
	owned := map[string]map[string]bool{}
	for i, f := range all {
		locked, found := f.locked()
		problems = append(problems, found...)
		if at[i] = cmp.Or(locked, f.kept(h.Policy.Kept)); at[i] == "" {
			at[i] = f.choose(h.Policy.Home, ranks)
			if ends := f.mayBeAt(ranks); h.Policy.Home == "fewest-changes" && len(ends) == 2 {
				free[f.wires[0].Type] = append(free[f.wires[0].Type], tie{i, [2]string(ends)})
				continue
			}
		}
		if at[i] == "" && f.onLine() {
			problems = append(problems, f.homeless())
		}
		f.own(owned, at[i])
	}
	fewestHomes(free, owned, ranks, func(family int, home string) { at[family] = home })
	home := make(map[string]string, len(h.Wires))
	for i, f := range all {
		for _, wire := range f.wires {
			home[wire.ID] = at[i]
		}
		if f.cable != nil {
			home[f.cable.ID] = at[i]
		}
	}
	return home, problems
}

// mayBeAt returns the two places that a wire alone may have its home at, where there are two of the same class; else none.
func (f *family) mayBeAt(ranks map[string]rank) []string {
	if f.cable != nil || len(f.wires) != 1 || !cutAlone(f.wires[0]) {
		return nil
	}
	ends := bodiesOf(f.wires)
	if len(ends) != 2 || ranks[ends[0]].class != ranks[ends[1]].class {
		return nil
	}
	return ends
}

// own notes that a place owns wires of the types of a family.
func (f *family) own(owned map[string]map[string]bool, at string) {
	note := func(wireType string) {
		if owned[wireType] == nil {
			owned[wireType] = map[string]bool{}
		}
		owned[wireType][at] = true
	}
	for _, w := range f.wires {
		if cutAlone(w) {
			note(w.Type)
		}
	}
}

// rank is the place of a home among others.
type rank struct{ class, position int }

func rankOf(h *harness.Harness, build []string) map[string]rank {
	byID := bodiesByID(h)
	ranks := make(map[string]rank, len(build))
	for i, id := range build {
		ranks[id] = rank{byID[id].class, i}
	}
	return ranks
}

// locked returns the home that the job locks a family to, "" where it locks none.
func (f *family) locked() (string, problem.List) {
	var problems problem.List
	home, by := "", ""
	lock := func(at, noun, id string, place problem.Place, ends []string, words string) {
		switch {
		case at == "":
		case !slices.Contains(ends, at):
			problems = append(problems, strayHome(noun, id, at, words, place))
		case home == "":
			home, by = at, fmt.Sprintf("%s %q", noun, id)
		case home != at:
			problems = append(problems, problem.Problem{Check: "home-conflict", Place: place, ID: id,
				Text: fmt.Sprintf("%s is locked to home %q and %s %q to home %q, but %s goes into one tray", by, home, noun, id, at, f.name),
				Hint: "write the same home in both, or take one out"})
		}
	}
	for _, w := range f.wires {
		a, b := w.A.Body(), w.B.Body()
		if w.Home != "" {
			lock(w.Home, "wire", w.ID, w.Of("home"), []string{a, b},
				fmt.Sprintf("it runs from %s to %s", cmp.Or(a, w.A.Written()), cmp.Or(b, w.B.Written())))
		}
	}
	if f.cable != nil {
		lock(f.cable.Home, "cable", f.cable.ID, f.cable.Of("home"), bodiesOf(f.leading()), "none of its cores goes there")
	}
	return home, problems
}

// strayHome refuses a lock to what is at neither end.
func strayHome(noun, id, home, words string, place problem.Place) problem.Problem {
	return problem.Problem{
		Severity: problem.Error, Check: "home-not-an-end", Place: place, ID: id,
		Text: fmt.Sprintf("%s %q is locked to home %q, but %s", noun, id, home, words),
		Hint: "name the connector of one of its ends",
	}
}

// bodiesOf returns everything that wires go to.
func bodiesOf(wires []*harness.Wire) []string {
	var ids []string
	for _, w := range wires {
		for _, id := range []string{w.A.Body(), w.B.Body()} {
			if id != "" && !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	return ids
}

// choose returns the home that the policy says, among what all wires of the family go to, or else the first of them; "" where
// there is none. A connector comes before a splice, a splice before a terminal.
func (f *family) choose(policy string, ranks map[string]rank) string {
	wires := f.leading()
	from := slices.DeleteFunc(bodiesOf(wires), func(id string) bool {
		return slices.ContainsFunc(wires, func(w *harness.Wire) bool { return w.A.Body() != id && w.B.Body() != id })
	})
	for i := 0; len(from) == 0 && i < len(wires); i++ {
		from = bodiesOf(wires[i : i+1])
	}
	if len(from) == 0 {
		return ""
	}
	return slices.MinFunc(from, func(a, b string) int {
		byEnd := 0
		if policy == "end-a" {
			byEnd = one(wires[0].A.Body() != a) - one(wires[0].A.Body() != b)
		}
		return cmp.Or(cmp.Compare(ranks[a].class, ranks[b].class), byEnd, cmp.Compare(ranks[a].position, ranks[b].position))
	})
}

// onLine reports whether the line cuts anything of the family.
func (f *family) onLine() bool {
	if f.cable != nil && !f.cable.Measure && supplyOf(f.cable.Supply) == harness.SupplyReel {
		return true
	}
	return slices.ContainsFunc(f.wires, cutAlone)
}

// homeless says that nothing owns a wire.
func (f *family) homeless() problem.Problem {
	if f.cable != nil {
		return problem.Problem{Check: "no-home", Place: f.cable.At, ID: f.cable.ID,
			Text: fmt.Sprintf("no core of cable %q goes to a connector, splice or terminal, so that no tray can hold it", f.cable.ID),
			Hint: "take the cable out of the job, or name wires as its cores"}
	}
	w := f.wires[0]
	return problem.Problem{Check: "no-home", Place: w.At, ID: w.ID,
		Text: fmt.Sprintf("wire %q runs from %q to %q: it goes to no connector, splice or terminal, so that no tray can hold it", w.ID, w.A.Written(), w.B.Written()),
		Hint: "name a connector, splice or terminal at one end"}
}
