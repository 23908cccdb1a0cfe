package harness

import "loomleaf/internal/units"

// KeptPlan is an earlier plan whose homes and order the run holds to, as far as they still can be held. It is what a file said, not
// what is so: ids may be unknown by now, and homes no ends any more.
type KeptPlan struct {
	Number, Part, Revision string
	Draft                  bool
	Groups                 []KeptGroup        // in the order of the run
	Rows                   map[string]KeptRow // wires, cores, pigtails and cables by id
}

// KeptGroup is a home with its rows in the order of the run.
type KeptGroup struct {
	Home string
	Rows []string // ids of wires and cables; each stands in one group of the plan, once
	Text string   // its cut list as the plan wrote it: an object of JSON
}

// KeptRow is a wire or cable of an earlier plan.
type KeptRow struct {
	Home, Type, Method, Ink string
	Height                  units.Length // of the marks; 0 for none
	Code                    string       // "" in a draft
}
