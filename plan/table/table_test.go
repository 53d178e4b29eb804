package table_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/table"
)

// RFC 4180: a cell in quotes can hold commas, and quotes that are doubled.
const pins = "standard,dia,note\nISO 2338,4,\"h8, \"\"parallel\"\"\"\nISO 2338,,\n"

func TestRows(t *testing.T) {
	rows := table.Rows(pins)
	require.Len(t, rows, 2)
	require.Equal(t, table.Row{"standard": "ISO 2338", "dia": "4", "note": `h8, "parallel"`}, rows[0])
	require.Equal(t, 4.0, rows[0].Number("dia"))
	require.Zero(t, rows[1].Number("dia"), "an empty cell")
	require.Equal(t, []string{"standard", "dia", "note"}, table.Cells(pins)[0])
}

func TestFaultsPanic(t *testing.T) {
	row := table.Rows(pins)[0]
	require.PanicsWithValue(t, `embedded table: no column "length"`, func() { row.Number("length") })
	require.Panics(t, func() { row.Number("standard") }, "no figure")
	require.Panics(t, func() { table.Number("") }, "no figure")
	require.Panics(t, func() { table.Rows("a,b\n1,2,3\n") }, "a cell too many")
}
