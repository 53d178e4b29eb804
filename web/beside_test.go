package web_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/web"
)

func TestBeside(t *testing.T) {
	asked, failed := make(chan int), errors.New("full")
	wait := web.Beside(func() (int, error) { return <-asked, failed })
	asked <- 7 // it runs already
	got, err := wait()
	require.Equal(t, 7, got)
	require.ErrorIs(t, err, failed)
}

// A panic on another goroutine would end the program.
func TestPanicBesideIsThatOfWhoWaits(t *testing.T) {
	wait := web.Beside(func() (int, error) { panic("a formula that does not compile") })
	defer func() {
		fault, ok := recover().(error)
		require.True(t, ok)
		require.ErrorContains(t, fault, "a formula that does not compile")
		require.ErrorContains(t, fault, "beside_test.go", "with where it was")
	}()
	_, _ = wait()
	t.Error("nothing came out")
}
