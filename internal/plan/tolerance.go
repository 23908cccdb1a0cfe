package plan

import (
	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
	"loomleaf/internal/words"
)

// Tolerance is by how much a finished length may miss its figure.
type Tolerance struct {
	LongerUM  int64 `json:"longer_um"`
	ShorterUM int64 `json:"shorter_um"`
}

// toleranceOf returns the tolerance of a finished length: that of the job, else that of the published table; nil where the length is
// not known.
func toleranceOf(own *harness.Tolerance, finishedUM int64) *Tolerance {
	switch {
	case finishedUM <= 0:
		return nil
	case own != nil:
		return &Tolerance{LongerUM: int64(own.Longer), ShorterUM: int64(own.Shorter)}
	}
	longer, _ := handbook.LengthTolerance(units.Length(finishedUM))
	return &Tolerance{LongerUM: int64(longer)}
}

// toleranceSource says where the tolerances of a job come from.
func toleranceSource(said words.Words, own *harness.Tolerance) string {
	if own != nil {
		return said.Say("board.tolerance_given")
	}
	_, source := handbook.LengthTolerance(0)
	return sourceWords(said, source)
}
