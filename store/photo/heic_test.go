package photo_test

import (
	"testing"

	"github.com/gen2brain/heic"
	"github.com/stretchr/testify/require"
)

// Photos come from anybody's phone: they are decoded where they are shut in, never by a library of the
// system, which the decoder loads where it finds one unless it is built with the tag nodynamic.
func TestNoLibraryOfTheSystemDecodesPhotos(t *testing.T) {
	require.Error(t, heic.Dynamic(), "a library of the system was loaded; build with -tags sqlite_fts5,nodynamic")
}
