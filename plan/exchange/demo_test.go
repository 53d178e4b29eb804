package exchange_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/exchange"
)

// The machines that come with the program are as the schema says, and as Read does.
func TestDemoMachines(t *testing.T) {
	schema := compiled(t)
	files, err := filepath.Glob("../demo/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		file, err := os.ReadFile(name)
		require.NoError(t, err)
		require.NoError(t, schema.Validate(parsed(t, file)), name)
		_, err = exchange.Read(bytes.NewReader(file))
		require.NoError(t, err, name)
	}
}
