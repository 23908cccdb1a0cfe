package job

import (
	"strings"

	"loomleaf/internal/harness"
)

const (
	placeHint = `write connector and cavity, such as "J1:7", the id of a splice or terminal, "capped@N4" or "leaves@N9"`
	openHint  = `write "capped@N4" for a spare wire, "leaves@N9" for one that leaves this harness, or where it lands, with lands = false where it stays loose`
)

// unsetRetermination marks an end that takes the count of the allowance.
const unsetRetermination = -1

// readEnd reads where an end goes and what is done to it.
func readEnd(t *table, key, side string) harness.End {
	end := readPlace(t, key, "wire", openHint)
	own := t.inner(side)
	if own == nil {
		return end
	}
	if own.has("stage") {
		end.Stage = harness.Stage(own.word("stage", string(harness.StageBench), string(harness.StageBoard)))
	}
	end.Contact = own.name("contact")
	end.Trim, end.Covered = own.length("trim", notNegative), own.length("covered", notNegative)
	end.Strip = own.length("strip", notNegative)
	end.TailExtra, end.Free = own.length("tail_extra", notNegative), own.length("free", notNegative)
	if count, fine := own.whole("retermination", 0, mostRetermination); fine && own.has("retermination") {
		end.Retermination = count
	}
	end.NotLanded = own.has("lands") && !own.truth("lands")
	end.Finish, end.Note = own.text("finish"), own.text("note")
	own.done()
	return end
}

// readPlace reads where an end of a wire or pigtail goes. The hint is for ends that say nothing. A bare id counts as that of a splice until all tables are read: see resolve.
func readPlace(t *table, key, what, hint string) harness.End {
	end := harness.End{Retermination: unsetRetermination}
	e := t.get(key)
	if e == nil || e.value.kind == kindText && strings.TrimSpace(e.value.text) == "" {
		at := t.value.place()
		if e != nil {
			at = e.place()
		}
		t.fault(openEnd, key, at, hint, "nothing says where the %s ends", what)
		return end
	}
	text := t.name(key)
	switch {
	case text == "": // reported as no text
	case strings.Contains(text, ":"):
		readCavity(t, key, text, &end)
	case strings.Contains(text, "@"):
		readOpen(t, key, text, &end)
	case leftOpen(text):
		t.fault(openEnd, key, e.place(), hint, "%s does not say how the %s ends", quoted(text), what)
	case strings.EqualFold(text, "cut back"):
		t.fault(badEnd, key, e.place(), `write shield = "cut back" in that end of the cable`, "%s is what is done to a shield", quoted(text))
	case strings.ContainsAny(text, ">, "):
		t.fault(badEnd, key, e.place(), placeHint, "%s is no place where a wire can end", quoted(text))
	default:
		end.Kind, end.Splice = harness.EndSplice, text
	}
	return end
}

// readCavity splits connector:cavity at the first colon.
func readCavity(t *table, key, text string, end *harness.End) {
	connector, cavity, _ := strings.Cut(text, ":")
	if connector == "" || cavity == "" || strings.ContainsAny(text, "@>, ") || strings.Contains(cavity, ":") {
		t.fault(badEnd, key, t.origin.Of(t.prefix+key), `write connector and cavity, such as "J1:7"`, "%s is no connector and cavity", quoted(text))
		return
	}
	end.Connector, end.Cavity = connector, cavity
}

// readOpen splits what becomes of an end that lands nowhere from its node.
func readOpen(t *table, key, text string, end *harness.End) {
	what, node, _ := strings.Cut(text, "@")
	kinds := map[string]harness.EndKind{"capped": harness.EndCapped, "leaves": harness.EndLeaves}
	kind, known := kinds[what]
	if !known || node == "" || strings.ContainsAny(node, "@>, ") {
		t.fault(badEnd, key, t.origin.Of(t.prefix+key), placeHint, "%s is no place where a wire can end", quoted(text))
		return
	}
	end.Kind, end.Node = kind, node
}

// leftOpen reports what people write where they leave an end open: it could be a spare wire, one that goes on in another
// harness, one that is landed later, or a mistake.
func leftOpen(text string) bool {
	words := []string{"-", "--", "?", "n/c", "nc", "n.c.", "n/a", "none", "open", "spare", "unused", "not used", "tbd", "tbc"}
	return contains(words, strings.ToLower(strings.TrimSpace(text)))
}

// isRead reports whether an end was read.
func isRead(end *harness.End) bool {
	return end.Connector != "" || end.Splice != "" || end.Terminal != "" || end.Node != "" || end.Shield != ""
}
