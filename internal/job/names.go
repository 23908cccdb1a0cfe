package job

import (
	"fmt"

	"loomleaf/internal/problem"
)

// The names of the checks. Each has a faulty job of its own in testdata/bad.
const (
	// What keeps a file from being read.
	fileTooLarge      = "file-too-large"
	notUTF8           = "not-utf8"
	controlCharacter  = "control-character"
	nestedTooDeep     = "nested-too-deep"
	syntaxFault       = "syntax"
	includePath       = "include-path"
	includeImpossible = "include-impossible"
	includeMissing    = "include-missing"
	includeLoop       = "include-loop"
	includeNested     = "include-nested"
	badPlan           = "bad-plan"
	doubledInclude    = "doubled-include"
	doubledKey        = "doubled-key"

	// What a table or a value gets wrong.
	unknownTable   = "unknown-table"
	missingTable   = "missing-table"
	singleTable    = "single-table"
	unknownKey     = "unknown-key"
	missingKey     = "missing-key"
	wrongKind      = "wrong-kind"
	emptyValue     = "empty-value"
	badQuantity    = "bad-quantity"
	bareNumber     = "bare-number"
	outOfRange     = "out-of-range"
	reversedRange  = "reversed-range"
	badDate        = "bad-date"
	badWord        = "bad-word"
	badID          = "bad-id"
	unprintable    = "unprintable"
	badFileName    = "bad-file-name"
	badSerial      = "bad-serial"
	placeholder    = "placeholder"
	badEnd         = "bad-end"
	openEnd        = "open-end"
	badCore        = "bad-core"
	badShield      = "bad-shield"
	badSides       = "bad-sides"
	badOffset      = "bad-offset"
	badSteps       = "bad-steps"
	badCavities    = "bad-cavities"
	badGauge       = "bad-gauge"
	badColour      = "bad-colour"
	badLegend      = "bad-legend"
	badFace        = "bad-face"
	oneOf          = "one-of"
	tooManyUnits   = "too-many-units"
	doubledElement = "doubled-element"
	badTable       = "bad-table"
	badColumn      = "bad-column"

	// What the shop's own texts get wrong.
	unknownTemplate = "unknown-template"
	unknownWord     = "unknown-word"
	wordFields      = "word-fields"
	badQuote        = "bad-quote"
	unknownSign     = "unknown-sign"
	safetyClaim     = "safety-claim"
	wordingLacks    = "wording-lacks"

	// What does not fit together.
	doubledID          = "doubled-id"
	retiredID          = "retired-id"
	unknownType        = "unknown-type"
	unknownContact     = "unknown-contact"
	unknownConnector   = "unknown-connector"
	unknownCavity      = "unknown-cavity"
	unknownJoint       = "unknown-joint"
	unknownCable       = "unknown-cable"
	unknownCore        = "unknown-core"
	unknownTerminal    = "unknown-terminal"
	unknownWire        = "unknown-wire"
	unknownNode        = "unknown-node"
	unknownLabels      = "unknown-labels"
	unknownHome        = "unknown-home"
	unknownReel        = "unknown-reel"
	chainedTwice       = "chained-twice"
	otherPlan          = "other-plan"
	nothingKept        = "nothing-kept"
	stockOverlaps      = "stock-does-not-fit"
	homeElsewhere      = "home-elsewhere"
	undrawnCavity      = "undrawn-cavity"
	cavityTaken        = "cavity-taken"
	sharedMismatch     = "shared-mismatch"
	idleKey            = "idle-key"
	sameEnds           = "same-ends"
	coreTaken          = "core-taken"
	coreTurned         = "core-turned"
	coreSeparation     = "core-separation"
	noShieldEnd        = "no-shield-end"
	noShield           = "no-shield"
	sideMismatch       = "side-mismatch"
	terminalTaken      = "terminal-taken"
	noTerminal         = "no-terminal"
	tooFewTwisted      = "too-few-twisted"
	twistedTwice       = "twisted-twice"
	twistedCore        = "twisted-core"
	noPitch            = "no-pitch"
	gaugeOutside       = "gauge-outside-contact"
	diameterOutside    = "diameter-outside-contact"
	sectionOutside     = "section-outside-contact"
	noStrip            = "no-strip"
	noLengthIs         = "no-length-is"
	noLength           = "no-length"
	noTail             = "no-tail"
	noFree             = "no-free"
	offSegment         = "off-segment"
	segmentToItself    = "segment-to-itself"
	doubledSegment     = "doubled-segment"
	offBoard           = "off-board"
	noWires            = "no-wires"
	expectDiffers      = "expect-differs"
	noSpareRule        = "no-spare-rule"
	noSeal             = "no-seal"
	noSpareContact     = "no-spare-contact"
	serialTogether     = "serial-together"
	arrangementDiffers = "arrangement-differs"
	neverSampled       = "never-sampled"
	noSamplePlan       = "no-sample-plan"
	unknownExcluded    = "unknown-excluded"
	inkHidden          = "ink-hidden"
	wireNumber         = "wire-number"
	badSubstitute      = "bad-substitute"
	substituteDiffers  = "substitute-differs"
	substituteOutside  = "substitute-outside-contact"

	// Warnings, and what leaves nothing but a draft.
	lookAlike   = "look-alike"
	nearlySame  = "nearly-same"
	blackLaser  = "black-laser"
	fewSpares   = "few-spares"
	missingPart = "missing-part"
	noCrimp     = "no-crimp"
	coreLoops   = "core-loops"
	twistApart  = "twist-apart"
)

// fault returns an error of a check.
func fault(check string, at problem.Place, format string, args ...any) problem.Problem {
	return problem.Problem{Severity: problem.Error, Check: check, Place: at, Text: fmt.Sprintf(format, args...)}
}

// release turns an error into one that leaves nothing but a draft.
func release(p problem.Problem) problem.Problem {
	p.Severity = problem.Release
	return p
}

// warning turns an error into a warning.
func warning(p problem.Problem) problem.Problem {
	p.Severity = problem.Warning
	return p
}

// about completes a problem with the id it speaks of and what to do.
func about(p problem.Problem, id, hint string) problem.Problem {
	p.ID, p.Hint = id, hint
	return p
}

// with adds the other place.
func with(p problem.Problem, place problem.Place, text string) problem.Problem {
	p.Also = &problem.Related{Place: place, Text: text}
	return p
}
