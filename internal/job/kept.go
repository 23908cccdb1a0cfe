package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// KeptLimit is the size that an earlier plan may have, in bytes: above that of a harness of 40,000 wires.
const KeptLimit = 512 << 20

// planFormat is the version of the published form of plans that is read.
const planFormat = 1

const planHint = "name the .plan.json that the packet of the earlier revision came with"

// writtenPlan is what is read of an earlier plan. Everything else in it may be as it likes.
type writtenPlan struct {
	Loomleaf *int `json:"loomleaf"`
	Packet   struct {
		Number   string `json:"number"`
		Part     string `json:"part"`
		Revision string `json:"revision"`
		Draft    bool   `json:"draft"`
	} `json:"packet"`
	Wires    []writtenRow      `json:"wires"`
	Cables   []writtenRow      `json:"cables"`
	Sequence []json.RawMessage `json:"sequence"`
}

// writtenRow is a wire or cable of an earlier plan.
type writtenRow struct {
	ID       string `json:"id"`
	Type     string `json:"type"`
	Home     string `json:"home"`
	Method   string `json:"method"`
	Ink      string `json:"ink"`
	HeightUM int64  `json:"height_um"`
	Code     string `json:"code"`
}

// writtenGroup is a group of an earlier plan.
type writtenGroup struct {
	Group string   `json:"group"`
	Wires []string `json:"wires"`
}

// loadKept reads the earlier plan that the policy names; nil where it names none.
func loadKept(in Input, merged *value, sources problem.Sources) (*harness.KeptPlan, problem.List) {
	policy := merged.find("policy")
	if policy == nil || policy.value.kind != kindTable {
		return nil, nil
	}
	e := policy.value.find("keep")
	if e == nil || e.value.kind != kindText || strings.TrimSpace(e.value.text) == "" { // reported with the table
		return nil, nil
	}
	if in.Open == nil {
		return nil, problem.List{about(fault(includeImpossible, e.place(), "a job from %s cannot name an earlier plan", in.Name), "", "name the job file instead")}
	}
	relative, faulty := includedPath(in, e.value)
	if faulty != nil {
		return nil, problem.List{*faulty}
	}
	text, err := in.Open(relative)
	if err != nil {
		return nil, problem.List{about(fault(includeMissing, e.place(), "earlier plan %s cannot be read", quoted(relative)), "",
			"check that the file stands in the job's folder and may be read")}
	}
	r := keptReader{name: beside(in, relative), text: text, at: e.place(), printable: in.Printable}
	sources[r.name] = text
	kept := r.read()
	return kept, r.found
}

// keptReader reads an earlier plan. It trusts nothing: the file may be anything at all.
type keptReader struct {
	name      string // in messages
	text      []byte
	at        problem.Place // where the job names the file
	printable func(rune) bool
	found     problem.List
}

// refuse says what keeps the file from being an earlier plan.
func (r *keptReader) refuse(hint, format string, args ...any) {
	if len(r.found) == mostHidden {
		return
	}
	r.found = append(r.found, about(fault(badPlan, r.at, "earlier plan "+quoted(r.name)+" "+format, args...), "", hint))
}

func (r *keptReader) read() *harness.KeptPlan {
	if len(r.text) > KeptLimit {
		r.found = append(r.found, about(fault(fileTooLarge, r.at, "earlier plan %s holds more than %d MiB", quoted(r.name), KeptLimit>>20), "", planHint))
		return nil
	}
	var plan writtenPlan
	if !utf8.Valid(r.text) {
		r.refuse(planHint, "is no text in UTF-8")
		return nil
	}
	if err := json.Unmarshal(bytes.TrimPrefix(r.text, []byte("\xef\xbb\xbf")), &plan); err != nil {
		r.broken(err)
		return nil
	}
	switch {
	case plan.Loomleaf == nil:
		r.refuse(planHint, "is no plan: it does not begin with the form that it is written in")
	case *plan.Loomleaf != planFormat:
		r.refuse("plan the earlier revision again with this program, and name what it writes",
			"is written in form %d, and this program reads form %d", *plan.Loomleaf, planFormat)
	}
	if r.found != nil {
		return nil
	}
	kept := r.whole(plan)
	if r.found != nil {
		return nil
	}
	return kept
}

// broken says where the file is not the JSON of a plan.
func (r *keptReader) broken(err error) {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		r.found = append(r.found, about(fault(badPlan, r.place(syntax.Offset), "the earlier plan is no JSON: %s", syntax.Error()), "", planHint))
	case errors.As(err, &kind):
		r.found = append(r.found, about(fault(badPlan, r.place(kind.Offset), "the earlier plan has a %s as %s, which no plan has", kind.Value, shown(kind.Field)), "", planHint))
	default:
		r.refuse(planHint, "cannot be read: %s", err)
	}
}

// place returns the place of the last of so many bytes.
func (r *keptReader) place(offset int64) problem.Place {
	before := r.text[:max(0, min(int(offset)-1, len(r.text)))]
	start := bytes.LastIndexByte(before, '\n') + 1
	return problem.Place{File: r.name, Line: bytes.Count(before, []byte("\n")) + 1, Column: utf8.RuneCount(before[start:]) + 1}
}

// whole turns a plan into what is kept of it, if its parts agree.
func (r *keptReader) whole(plan writtenPlan) *harness.KeptPlan {
	p := plan.Packet
	kept := &harness.KeptPlan{Number: p.Number, Part: p.Part, Revision: p.Revision, Draft: p.Draft, Rows: map[string]harness.KeptRow{}}
	for _, name := range []struct{ key, text string }{{"number", p.Number}, {"part number", p.Part}, {"revision", p.Revision}} {
		if strings.TrimSpace(name.text) == "" {
			r.refuse(planHint, "has no %s", name.key)
		} else if !r.prints(name.text) {
			r.refuse(planHint, "has the %s %s, which no plan has", name.key, quoted(name.text))
		}
	}
	for _, rows := range [][]writtenRow{plan.Wires, plan.Cables} {
		for _, row := range rows {
			r.row(kept, row)
		}
	}
	homes, stands := map[string]bool{}, map[string]bool{}
	for _, text := range plan.Sequence {
		r.group(kept, text, homes, stands)
	}
	return kept
}

// prints reports whether a name out of the plan can stand on paper.
func (r *keptReader) prints(name string) bool {
	for _, c := range name {
		if hidden(c) || r.printable != nil && !r.printable(c) {
			return false
		}
	}
	return len(name) <= longestShown
}

// isID reports whether a text of the plan can be an id.
func (r *keptReader) isID(id string) bool {
	return id != "" && utf8.RuneCountInString(id) <= longestID && !strings.ContainsAny(id, ":@>,") &&
		!strings.ContainsFunc(id, unicode.IsSpace) && r.prints(id)
}

func (r *keptReader) row(kept *harness.KeptPlan, row writtenRow) {
	_, twice := kept.Rows[row.ID]
	switch {
	case !r.isID(row.ID) || row.Home != "" && !r.isID(row.Home):
		r.refuse(planHint, "has a wire %s with the home %s, which are no ids", quoted(row.ID), quoted(row.Home))
	case twice:
		r.refuse(planHint, "has the wire %s twice", quoted(row.ID))
	}
	kept.Rows[row.ID] = harness.KeptRow{Home: row.Home, Type: row.Type, Method: row.Method, Ink: row.Ink, Height: units.Length(row.HeightUM), Code: row.Code}
}

// group takes a group of the run. Homes and stands hold the groups and rows that came before.
func (r *keptReader) group(kept *harness.KeptPlan, text json.RawMessage, homes, stands map[string]bool) {
	var group writtenGroup
	if err := json.Unmarshal(text, &group); err != nil {
		r.refuse(planHint, "has something else than a group with its wires in its sequence")
		return
	}
	switch {
	case !r.isID(group.Group):
		r.refuse(planHint, "has a group %s, which is no id", quoted(group.Group))
	case homes[group.Group]:
		r.refuse(planHint, "has the group %s twice", quoted(group.Group))
	}
	homes[group.Group] = true
	for _, id := range group.Wires {
		row, known := kept.Rows[id]
		switch {
		case !known:
			r.refuse(planHint, "cuts the wire %s in group %s, and has no such wire", quoted(id), quoted(group.Group))
		case row.Home != group.Group:
			r.refuse(planHint, "cuts the wire %s in group %s, and its home is %s", quoted(id), quoted(group.Group), quoted(row.Home))
		case stands[id]:
			r.refuse(planHint, "cuts the wire %s twice", quoted(id))
		}
		stands[id] = true
	}
	kept.Groups = append(kept.Groups, harness.KeptGroup{Home: group.Group, Rows: group.Wires, Text: string(text)})
}

// checkKept finds an earlier plan that has nothing to do with the job.
func checkKept(h *harness.Harness) problem.List {
	kept := h.Policy.Kept
	if kept == nil {
		return nil
	}
	at := h.Policy.Of("keep")
	if !keptAny(h) {
		return problem.List{about(fault(nothingKept, at, "the plan of %s revision %s has none of the wires and cables of this job", quoted(kept.Number), quoted(kept.Revision)),
			"", "name the plan of an earlier revision of this job, or take keep out")}
	}
	if kept.Part != h.Job.Part {
		return problem.List{warning(about(fault(otherPlan, at, "the order of %s revision %s is kept, the plan of another part: %s, and this job makes %s",
			quoted(kept.Number), quoted(kept.Revision), quoted(kept.Part), quoted(h.Job.Part)), h.Job.Number, "name the plan of an earlier revision of this part, or accept it"))}
	}
	replaced := h.Job.Supersedes
	if kept.Number == h.Job.Number && replaced != "" && kept.Revision != replaced && kept.Revision != h.Job.Revision {
		return problem.List{warning(with(about(fault(otherPlan, at, "the order of revision %s is kept, and this job supersedes revision %s", quoted(kept.Revision), quoted(replaced)),
			h.Job.Number, "name the plan of revision "+replaced+", whose paper is on the floor"), h.Job.Of("supersedes"), "the revision on the floor"))}
	}
	return nil
}

// keptAny reports whether the earlier plan has a wire or cable of the job.
func keptAny(h *harness.Harness) bool {
	for i := range h.Wires {
		if _, known := h.Policy.Kept.Rows[h.Wires[i].ID]; known {
			return true
		}
	}
	for i := range h.Cables {
		if _, known := h.Policy.Kept.Rows[h.Cables[i].ID]; known {
			return true
		}
	}
	return false
}
