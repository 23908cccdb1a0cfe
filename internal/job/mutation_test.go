package job

import (
	"flag"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/problem"
)

// mutant is a job with one fault: a part of one of its files is written differently.
type mutant struct {
	fault      string
	file       string
	start, end int
	written    string
	of         site
	lines      []int // of the file; one of them must be reported
}

// mostMutants is how many mutants of a job are tried, spread over all kinds and places; the switch tries every one.
const mostMutants = 100

// everyPlace puts the faults into every place; that takes a minute or two.
var everyPlace = flag.Bool("every-place", false, "put every fault into every place of the jobs")

// leastPlaced is the share of mutants, in thousandths, whose fault must be reported on its own line.
const leastPlaced = 990

// TestEveryFaultIsRefusedOnItsLine puts single faults into the good jobs. Each mutant must be refused, and at least 99 % of
// them with a message on the line of the fault, or that shows this line as the other place; for a missing key the table counts.
func TestEveryFaultIsRefusedOnItsLine(t *testing.T) {
	var all tally
	for _, s := range specimens(t) {
		var own tally
		for _, m := range picked(s.mutants()) {
			own.judge(s, m)
		}
		t.Logf("%s: %s", s.name, own.words())
		all.add(own)
	}
	t.Logf("together: %s", all.words())
	for _, one := range all.misplaced {
		t.Logf("elsewhere: %s", one)
	}
	require.GreaterOrEqual(t, len(all.kinds), 25, "too few kinds of faults were tried")
	require.Empty(t, all.accepted, "faults that nobody notices")
	require.GreaterOrEqual(t, 1000*(all.tried-len(all.misplaced)), leastPlaced*all.tried, "reported elsewhere: %s", all.words())
}

// picked returns mutants evenly spread over all, and always the first of each kind.
func picked(all []mutant) []mutant {
	stride := 1 + len(all)/mostMutants
	if *everyPlace {
		stride = 1
	}
	var some []mutant
	kinds := map[string]bool{}
	for i, m := range all {
		if i%stride == 0 || !kinds[m.fault] {
			some = append(some, m)
		}
		kinds[m.fault] = true
	}
	return some
}

// tally counts what became of mutants.
type tally struct {
	tried     int
	kinds     map[string]int
	accepted  []string // not refused
	misplaced []string // refused without a word about the line of the fault
	noisy     int      // refused with errors on other lines too
}

func (c *tally) judge(s *specimen, m mutant) {
	if c.kinds == nil {
		c.kinds = map[string]int{}
	}
	c.tried++
	c.kinds[m.fault]++
	was := s.files[m.file]
	text := slices.Concat(was[:m.start], []byte(m.written), was[m.end:])
	if string(text) == string(was) {
		c.accepted = append(c.accepted, m.fault+" changes nothing at "+m.of.path)
	}
	_, found := s.read(m.file, text)
	before := map[string]int{}
	refused, placed, elsewhere := false, false, false
	var first problem.Problem
	for _, p := range found {
		name := p.Check + " " + p.Text
		if before[name]++; p.Severity == problem.Warning || before[name] <= s.sound[name] {
			continue
		}
		if !refused {
			first = p
		}
		refused = true
		here := m.shows(p.Place) || p.Also != nil && m.shows(p.Also.Place)
		placed, elsewhere = placed || here, elsewhere || !here
	}
	where := fmt.Sprintf("%s %s, %s:%d, %s", s.name, m.fault, m.file, m.lines[0], m.of.path)
	switch {
	case !refused:
		c.accepted = append(c.accepted, where)
	case !placed:
		c.misplaced = append(c.misplaced, fmt.Sprintf("%s -> line %d: %s", where, first.Place.Line, first.Text))
	case elsewhere:
		c.noisy++
	}
}

// shows reports whether a place is on one of the lines that may be reported.
func (m mutant) shows(at problem.Place) bool {
	return at.File == m.file && slices.Contains(m.lines, at.Line)
}

func (c *tally) add(other tally) {
	if c.kinds == nil {
		c.kinds = map[string]int{}
	}
	for kind, count := range other.kinds {
		c.kinds[kind] += count
	}
	c.tried += other.tried
	c.noisy += other.noisy
	c.accepted = append(c.accepted, other.accepted...)
	c.misplaced = append(c.misplaced, other.misplaced...)
}

func (c *tally) words() string {
	placed := c.tried - len(c.misplaced) - len(c.accepted)
	return fmt.Sprintf("%d mutants of %d kinds, %d accepted, %d on the line of the fault (%.2f %%), %d of these with errors on other lines too",
		c.tried, len(c.kinds), len(c.accepted), placed, 100*float64(placed)/float64(max(c.tried, 1)), c.noisy)
}

// mutation is a kind of fault, and the mutants that it makes of a place; none where it does not fit.
type mutation struct {
	name string
	at   func(s site) []mutant
}

// mutants returns those of every kind and place of a job.
func (s *specimen) mutants() []mutant {
	var all []mutant
	for _, f := range faults() {
		for _, one := range s.sites {
			for _, m := range f.at(one) {
				m.fault = f.name
				all = append(all, m)
			}
		}
	}
	for _, table := range s.tables() {
		all = append(all, s.tableMutants(table)...)
	}
	return all
}
