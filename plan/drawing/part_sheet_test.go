package drawing_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/drawing"
	"fettle/plan/unit"
)

func sheetOptions() drawing.SheetOptions {
	return drawing.SheetOptions{Units: unit.MM, Owner: "A workshop", Machine: "Bench lathe, cross slide", Number: "L1", Date: "2026-01-05", Creator: "A. Turner"}
}

func goldenPath(name string) string { return filepath.Join("testdata", name) }

// The layout of each sheet, read in review.
func TestPartGolden(t *testing.T) {
	for _, d := range drawing.PartSheets(madeParts(), sheetOptions()) {
		name := d.Paper.Part
		if d.Paper.Label != "" && d.Paper.Number > 0 {
			name = "part-" + d.Paper.Part + "-" + string(rune('0'+d.Paper.Number%10))
		}
		got := svg(t, d) + "\n"
		path := goldenPath(name + ".golden.svg")
		if *update {
			require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(want), got)
	}
}
