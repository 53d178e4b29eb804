package photo_test

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image/jpeg"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/store/photo"
)

// keepAgainAndAgain keeps one photo after another, each with another end, and prints each name once it is kept.
func keepAgainAndAgain(folder string) error {
	file, err := os.ReadFile(filepath.Join(folder, "photo"))
	if err != nil {
		return err
	}
	f := photo.New(folder)
	for n := 0; ; n++ {
		p, err := f.Add(context.Background(), bytes.NewReader(fmt.Append(file, n)))
		if err != nil {
			return err
		}
		fmt.Println(p.SHA256)
	}
}

// Whatever has a name is whole, and what was told to be kept has one.
func TestKilledProgramLeavesNoHalfPhoto(t *testing.T) {
	self, err := os.Executable()
	require.NoError(t, err)
	for after := range 12 {
		folder := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(folder, "photo"), jpegOf(t, scene(640, 480)), 0o600))
		child := exec.CommandContext(t.Context(), self)
		child.Env = append(os.Environ(), "FETTLE_TEST_KEEP="+folder)
		child.Stderr = os.Stderr
		out, err := child.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, child.Start())
		var told []string
		for lines := bufio.NewScanner(out); lines.Scan(); {
			told = append(told, lines.Text())
			if len(told) == 1+after {
				require.NoError(t, child.Process.Kill()) // and read what it still said
			}
		}
		require.Error(t, child.Wait())

		for _, sum := range told {
			require.FileExists(t, filepath.Join(folder, "photos", sum[:2], sum))
		}
		originals, err := filepath.Glob(filepath.Join(folder, "photos", "??", "*"))
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(originals), len(told))
		for _, path := range originals {
			file, err := os.ReadFile(path)
			require.NoError(t, err)
			sum := sha256.Sum256(file)
			require.Equal(t, filepath.Base(path), hex.EncodeToString(sum[:]))
		}
		renditions, err := filepath.Glob(filepath.Join(folder, "renditions", "??", "[0-9a-f]*.jpg"))
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(renditions), 2*len(told))
		for _, path := range renditions {
			file, err := os.ReadFile(path)
			require.NoError(t, err)
			_, err = jpeg.Decode(bytes.NewReader(file))
			require.NoError(t, err)
		}
	}
}
