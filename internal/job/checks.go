package job

import (
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// check is one computation over the harness. It rests on some keys of the job, and is left out where reading one of
// them failed: what it found then could be a mere consequence.
type check struct {
	run   func(*harness.Harness) problem.List
	rests string // keys, "wire.from wire.to"; a table alone means that it was not read
}

// What the checks of ends rest on.
const (
	endKeys     = "wire wire.from wire.to cable cable.a.pigtail.to cable.b.pigtail.to "
	cavityKeys  = endKeys + "connector connector.id connector.cavities "
	jointKeys   = endKeys + "splice splice.id terminal terminal.id "
	typeKeys    = "wire_type wire_type.id wire_type.awg wire_type.section cable_type cable_type.id cable_type.cores cable.type wire.cable wire.core wire.type "
	contactKeys = cavityKeys + jointKeys + "contact contact.id wire.a.contact wire.b.contact connector.contact connector.cavity.name connector.cavity.contact "
	cableKeys   = "cable cable.id wire.cable wire.core "
	sharedKeys  = "connector.shared connector.shared.cavity connector.shared.wires "
	boardKeys   = "board board.id node node.id node.at segment segment.between segment.length "
)

func checks() []check {
	return append(checksOfParts(), checksOfLengths()...)
}

// checksOfParts lists the checks of what goes where.
func checksOfParts() []check {
	return []check{
		{checkDoubled, ""},
		{checkRetired, "job.retired"},
		{checkTypes, "wire_type wire_type.id cable_type cable_type.id"},
		{checkSubstitutes, "wire_type wire_type.id wire_type.awg wire_type.section wire_type.colour wire_type.diameter wire_type.substitutes wire_type.substitutes.type cable_type cable_type.id"},
		{checkSubstituteContacts, contactKeys + typeKeys + "contact.insulation terminal.insulation wire_type.diameter wire_type.substitutes wire_type.substitutes.type"},
		{checkContacts, "contact contact.id"},
		{checkConnectors, "connector connector.id"},
		{checkCavities, "connector connector.id connector.cavities"},
		{checkJoints, "splice splice.id terminal terminal.id connector connector.id"},
		{checkEndKeys, jointKeys},
		{checkHomes, endKeys + "splice terminal"},
		{checkNodes, "node node.id"},
		{checkChains, jointKeys + "policy connector connector.id"},
		{checkMounted, "line reel reel.id wire_type wire_type.id cable_type cable_type.id"},
		{checkLabels, "label_stock label_stock.id"},
		{checkStockFits, "label_stock.width label_stock.height label_stock.left label_stock.top label_stock.pitch label_stock.columns label_stock.rows"},
		{checkDrawn, "connector.cavities connector.rows connector.rings connector.rings.counts connector.places"},
		{checkArrangements, "connector.cavities connector.arrangement"},
		{checkTaken, "wire.id connector.id " + sharedKeys},
		{checkShared, cavityKeys + "wire.id " + sharedKeys},
		{checkSameEnds, ""},
		{checkGauges, contactKeys + typeKeys + "contact.awg terminal.awg splice.awg"},
		{checkDiameters, contactKeys + typeKeys + "contact.insulation terminal.insulation wire_type.diameter cable_type.cores.diameter"},
		{checkSections, contactKeys + typeKeys + "contact.awg terminal.awg"},
		{checkSpliceSections, jointKeys + typeKeys + "splice.section splice.sides wire.id"},
		{checkCrimps, contactKeys + typeKeys + "contact.crimp contact.crimp.awg terminal.crimp terminal.crimp.awg"},
		{checkStrips, contactKeys + "wire.a.strip wire.b.strip contact.strip splice.strip terminal.strip cable.a.pigtail.strip cable.b.pigtail.strip"},
		{checkCables, cableKeys},
		{checkCores, cableKeys + "cable.type cable_type cable_type.id cable_type.cores"},
		{checkShields, "cable.type cable.a cable.b cable.a.shield cable.b.shield cable_type.id cable_type.shield"},
		{checkCoreEnds, cableKeys + jointKeys + cavityKeys},
		{checkCoreSeparations, cableKeys + "wire.separation"},
		{checkSides, jointKeys + "splice.sides wire.id"},
		{checkStuds, "terminal terminal.id stud.stack"},
		{checkTwistWires, "twist.wires wire wire.id"},
		{checkTwistEnds, "twist.wires " + jointKeys + cavityKeys},
		{checkTwistPitch, "twist.wires twist.pitch wire.type wire_type.id wire_type.diameter"},
		{checkSleeves, ""},
		{checkSpareRules, cavityKeys + "connector.spare"},
		{checkSeals, cavityKeys + "connector.spare connector.seal connector.contact connector.cavity.contact"},
		{checkLookAlikes, ""},
		{checkNearlySame, ""},
		{checkBlackLaser, ""},
		{checkInks, "wire_type.ink wire_type.colour cable_type.ink cable_type.colour"},
		{checkWireNumbers, "marks.wire_numbers wire wire.id wire.type wire.cable wire.core wire_type wire_type.id wire_type.awg cable cable.id cable.type cable_type cable_type.id cable_type.cores"},
		{checkSpareCount, cavityKeys},
		{checkQuotes, "safety.quote paper.language"},
		{checkSampling, "inspection inspection.sampling.what inspection.sampling.lot inspection.sampling.level inspection.sampling.aql"},
		{checkExclusions, "inspection inspection.exclude.at connector connector.id splice splice.id terminal terminal.id"},
		{checkParts, "wire_type.part cable_type.part contact.part connector.part splice.part terminal.part"},
	}
}

// checksOfLengths lists the checks of lengths, places and counts.
func checksOfLengths() []check {
	return []check{
		{checkLengthIs, "job job.length_is"},
		{checkLengths, jointKeys + "connector connector.id connector.node splice.node terminal.node wire.length wire.supply cable.length cable.supply board board.id node"},
		{checkTails, jointKeys + "connector.id connector.node connector.tail terminal.node terminal.tail wire.length wire.supply cable.length cable.supply"},
		{checkSegments, ""},
		{checkOffsets, boardKeys + "splice.node splice.offset"},
		{checkCovers, boardKeys},
		{checkOnBoard, "board board.size node.at"},
		{checkWires, "job wire"},
		{checkExpected, "job.expect wire"},
		{checkSerialLegends, "marks policy"},
	}
}

// runChecks returns what the checks find that can be run.
func runChecks(h *harness.Harness, unread map[string]bool) problem.List {
	var found problem.List
	for _, c := range checks() {
		if !anyUnread(c.rests, unread) {
			found = append(found, c.run(h)...)
		}
	}
	return found
}

func anyUnread(rests string, unread map[string]bool) bool {
	for _, key := range strings.Fields(rests) {
		if unread[key] {
			return true
		}
	}
	return false
}
