package store_test

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/upgrade"
	"fettle/store"
)

// TestMain lets the test's own program be the child that is killed.
func TestMain(m *testing.M) {
	if folder := os.Getenv("FETTLE_TEST_SCRIBBLE"); folder != "" {
		fmt.Fprintln(os.Stderr, scribble(folder))
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// scribble saves one draft again and again, and prints each number once it is acknowledged.
func scribble(folder string) error {
	ctx := context.Background()
	s, err := store.Open(ctx, folder, atNoon)
	if err != nil {
		return err
	}
	list, err := s.Machines(ctx)
	if err != nil {
		return err
	}
	for n := int64(1); ; n++ {
		u := small().Upgrades[0]
		u.Inputs = map[string]string{"amount": strconv.FormatInt(n, 10), "again": strconv.FormatInt(n, 10)}
		if _, _, err := s.SaveUpgrade(ctx, list[0].ID, n, u); err != nil {
			return err
		}
		fmt.Println(n)
	}
}

func TestKilledProgramLosesNothingAcknowledged(t *testing.T) {
	program, err := os.Executable()
	require.NoError(t, err)
	for _, after := range []int64{1, 7, 60, 150} {
		folder := t.TempDir()
		s, err := store.Open(t.Context(), folder, atNoon)
		require.NoError(t, err)
		id := add(t, s, small())
		require.NoError(t, s.Close())

		child := exec.CommandContext(t.Context(), program)
		child.Env = append(os.Environ(), "FETTLE_TEST_SCRIBBLE="+folder)
		child.Stderr = os.Stderr
		out, err := child.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, child.Start())
		acknowledged := int64(0)
		for lines := bufio.NewScanner(out); lines.Scan(); {
			acknowledged, err = strconv.ParseInt(lines.Text(), 10, 64)
			require.NoError(t, err)
			if acknowledged == after {
				require.NoError(t, child.Process.Kill()) // and read what it still said
			}
		}
		require.Error(t, child.Wait())
		require.GreaterOrEqual(t, acknowledged, after)

		s = open(t, folder)
		got := read(t, s, id)
		kept, err := strconv.ParseInt(got.Upgrades[0].Inputs["amount"], 10, 64)
		require.NoError(t, err)
		require.Contains(t, []int64{acknowledged, acknowledged + 1}, kept, "the one under way may be there, unacknowledged")
		require.Equal(t, kept+1, got.UpgradeRevisions["1"])
		require.Equal(t, upgrade.Upgrade{ID: "1", Kind: "extend_travel", Axis: "cross", State: upgrade.Planned, Inputs: map[string]string{
			"amount": strconv.FormatInt(kept, 10), "again": strconv.FormatInt(kept, 10)}}, got.Upgrades[0], "whole")
		require.Equal(t, "ok", ask(t, filepath.Join(folder, store.FileName), `PRAGMA integrity_check`))
	}
}
