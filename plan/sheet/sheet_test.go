package sheet_test

import (
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

func mm(key string) sheet.Q { return sheet.Q{Key: key, Label: key, Unit: unit.MM} }

func one(key string) sheet.Q { return sheet.Q{Key: key, Label: key, Unit: unit.One} }

func exactly(v float64) sheet.Leaf { return sheet.Leaf{Value: v, Origin: sheet.Measured} }

func within(v, half float64) sheet.Leaf {
	return sheet.Leaf{Value: v, Origin: sheet.Measured, Spread: sheet.Within(half)}
}

func normal(v, u float64) sheet.Leaf {
	return sheet.Leaf{Value: v, Origin: sheet.Measured, Spread: sheet.Std(u)}
}

func between(lo, hi float64) sheet.Leaf {
	return sheet.Leaf{Origin: sheet.Unknown, Min: lo, Max: hi}
}

// bind is the result of a sheet that is filled by define.
func bind(t testing.TB, define func(s *sheet.Sheet, m *sheet.Scope)) *sheet.Result {
	t.Helper()
	s := sheet.New()
	define(s, s.Root())
	r, err := s.Bind()
	require.NoError(t, err)
	return r
}

// refused is the error of a sheet that cannot be bound.
func refused(t testing.TB, define func(s *sheet.Sheet, m *sheet.Scope)) error {
	t.Helper()
	s := sheet.New()
	define(s, s.Root())
	_, err := s.Bind()
	require.Error(t, err)
	return err
}

func figure(t testing.TB, r *sheet.Result, key string, at sheet.Stage) sheet.Figure {
	t.Helper()
	f, ok := r.Figure(key, at)
	require.True(t, ok, "%s, %s", key, at)
	return f
}
