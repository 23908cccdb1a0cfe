package job

import (
	"strings"

	"loomleaf/internal/harness"
)

func readWire(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "type", "from", "to")
	w := harness.Wire{ID: id, Type: t.text("type"), Via: t.ids("via", t.array("via"))}
	w.A, w.B = readEnd(t, "from", "a"), readEnd(t, "to", "b")
	w.Given = t.length("length", positive)
	if w.Mark = "full"; t.has("mark") {
		w.Mark = t.word("mark", "full", "ends", "none")
	}
	w.Home, w.Note = t.text("home"), t.text("note")
	w.Origin = t.done()
	h.Wires = append(h.Wires, w)
}

// unsetRetermination marks an end that takes the count of the allowance.
const unsetRetermination = -1

// readEnd reads where an end goes and what is done to it. An end without a stage is made at the bench.
func readEnd(t *table, key, side string) harness.End {
	end := harness.End{Stage: harness.StageBench, Retermination: unsetRetermination}
	end.Connector, end.Cavity = readReference(t, key)
	own := t.inner(side)
	if own == nil {
		return end
	}
	if own.has("stage") {
		end.Stage = harness.Stage(own.word("stage", string(harness.StageBench), string(harness.StageBoard)))
	}
	end.Contact = own.text("contact")
	end.Trim, end.Covered = own.length("trim", notNegative), own.length("covered", notNegative)
	end.Strip = own.length("strip", notNegative)
	end.TailExtra = own.length("tail_extra", notNegative)
	if count, fine := own.whole("retermination", 0, mostRetermination); fine && own.has("retermination") {
		end.Retermination = count
	}
	end.Note = own.text("note")
	own.done()
	return end
}

// readReference splits connector:cavity at the first colon.
func readReference(t *table, key string) (connector, cavity string) {
	text := t.text(key)
	if text == "" {
		return "", ""
	}
	connector, cavity, both := strings.Cut(text, ":")
	if !both || connector == "" || cavity == "" || strings.ContainsAny(text, "@>, ") || strings.Contains(cavity, ":") {
		t.fault(badEnd, key, t.origin.Of(key), `write connector and cavity, such as "J1:7"`, "%s is no connector and cavity", quoted(text))
		return "", ""
	}
	return connector, cavity
}
