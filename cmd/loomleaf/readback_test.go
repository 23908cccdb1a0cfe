package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/harness"
	"loomleaf/internal/job"
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/sheet"
	"loomleaf/templates"
)

// demo is a job with everything made of it.
type demo struct {
	harness *harness.Harness
	plan    plan.Plan
	packet  sheet.Packet
}

func (d demo) codes() []plan.CodeRow { return append(d.plan.CodeRows(), d.packet.Codes...) }

func (d demo) reconcile(packet, labels []paper) []string {
	s := shop{scrap: d.harness.Line.SetUpScrap, straight: d.harness.Tray.Length, attrition: int64(d.harness.Allowance.Attrition), approved: map[[2]string]string{}, contacts: map[string]string{}}
	for _, c := range d.harness.Contacts {
		s.contacts[c.ID] = c.Part
	}
	for _, t := range d.harness.WireTypes {
		for _, other := range t.Substitutes {
			s.approved[[2]string{t.ID, other.Type}] = other.Approved
		}
	}
	return reconcile(d.plan, s, d.codes(), packet, labels)
}

// jobFolder holds the jobs that must packet without an error.
const jobFolder = "../../testdata/jobs"

func jobText(t *testing.T, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(jobFolder, name, "job.toml"))
	require.NoError(t, err)
	return text
}

// made runs a job text through every stage; errors of any stage fail the test.
func made(t *testing.T, name string, text []byte) demo {
	t.Helper()
	return madeWith(t, text, opener(filepath.Join(jobFolder, name)))
}

// madeWith makes a demo from a text, and the files beside it as they are opened.
func madeWith(t *testing.T, text []byte, open func(string) ([]byte, error)) demo {
	t.Helper()
	in := job.Input{Name: "job.toml", Text: text, Open: open}
	h, found, _ := job.Read(in, templates.Files)
	requireNoErrors(t, found)
	p, more := plan.Make(h, found)
	requireNoErrors(t, more)
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	packet, more := sheet.Lay(p, metrics)
	requireNoErrors(t, more)
	requireNoErrors(t, faults(packet, metrics))
	return demo{harness: h, plan: p, packet: packet}
}

func requireNoErrors(t *testing.T, found problem.List) {
	t.Helper()
	for _, p := range found {
		if p.Severity == problem.Error {
			t.Errorf("%s:%d:%d: %s: %s; %s", p.Place.File, p.Place.Line, p.Place.Column, p.Check, p.Text, p.Hint)
		}
	}
	if t.Failed() {
		t.FailNow()
	}
}

// skipUnderRace leaves a long test to the run without the race detector; the small jobs take the same way under it.
func skipUnderRace(t *testing.T) {
	t.Helper()
	if underRace {
		t.Skip("runs without the race detector")
	}
}

// TestReadBack prints the demo jobs, reads their paper as a stranger would, counts everything again, and damages what only these
// jobs hold.
func TestReadBack(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"sled-small", "sled", "relay-cable", "substitute", "torture"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if name == "sled" || name == "torture" {
				skipUnderRace(t)
			}
			d := made(t, name, jobText(t, name))
			packet := readDocument(t, d.packet.Pages, name == "sled-small")
			labels := readDocument(t, d.packet.Labels, name == "sled-small")
			d.requireFound(t, packet, labels, constructDamages(d, name))
			requireNoClaims(t, append(packet, labels...))
		})
	}
}

// TestStarterReadsBack does the same with the job that a new planner starts from.
func TestStarterReadsBack(t *testing.T) {
	t.Parallel()
	text, err := templates.Files.ReadFile("starter.toml")
	require.NoError(t, err)
	d := made(t, "sled-small", text)
	require.Empty(t, d.reconcile(readDocument(t, d.packet.Pages, false), readDocument(t, d.packet.Labels, false)))
}
