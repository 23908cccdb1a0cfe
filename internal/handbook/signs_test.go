package handbook

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSigns(t *testing.T) {
	for _, row := range vectors(t, "signs.csv") {
		sign, listed := SignOf(row["number"])
		require.True(t, listed, row["number"])
		require.Equal(t, row["title"], sign.Title)
		require.NotEmpty(t, sign.Source.Document)
	}
	for _, unknown := range []string{"", "W999", "w004", "Laser beam", "X004"} {
		_, listed := SignOf(unknown)
		require.False(t, listed, "%q", unknown)
	}
	shapes := map[string]SignShape{"W004": WarningSign, "M004": MandatorySign, "P075": ProhibitSign, "E003": RescueSign}
	for number, shape := range shapes {
		sign, _ := SignOf(number)
		require.Equal(t, shape, sign.Shape)
	}
}

func TestFluoropolymers(t *testing.T) {
	for insulation, is := range map[string]bool{"ETFE": true, "PTFE": true, "XL-ETFE": true, "etfe": true,
		"PTFE over polyimide": true, "FEP/PFA": true, "fluoropolymer": true, "PVC": false, "": false, "silicone": false, "XLPE": false} {
		require.Equal(t, is, Fluoropolymer(insulation), insulation)
	}
}
