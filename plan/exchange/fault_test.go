package exchange_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/exchange"
)

// Each file in testdata/faults has a fault, and on a last line of its own what is said of it.
func TestFaults(t *testing.T) {
	entries, err := os.ReadDir("testdata/faults")
	require.NoError(t, err)
	require.NotEmpty(t, entries)
	for _, e := range entries {
		t.Run(e.Name(), func(t *testing.T) {
			text, err := os.ReadFile("testdata/faults/" + e.Name())
			require.NoError(t, err)
			file, say, found := strings.Cut(string(text), "\n--- ")
			require.True(t, found)
			_, err = exchange.Read(strings.NewReader(file))
			var fault *exchange.Fault
			require.ErrorAs(t, err, &fault)
			require.Equal(t, strings.TrimSpace(say), err.Error())
		})
	}
}

func TestFileThatIsNotText(t *testing.T) {
	for file, say := range map[string]string{
		"{\n\"format\": \"Gr\xf6\xdfe\"}":     "2:14: the file is not UTF-8 text",
		"SQLite format 3\x00\x10\x00\x01\x81": "1:20: the file is not UTF-8 text",
	} {
		_, err := exchange.Read(strings.NewReader(file))
		require.EqualError(t, err, say)
	}
}
