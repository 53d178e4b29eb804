package web_test

import (
	"net/http"
	"net/http/httptest"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
)

// BenchmarkSheetEdit is one key typed on the measuring sheet of the demo lathe, through the whole
// handler: read from disk, written to disk, worked out, drawn, and sent back whole.
func BenchmarkSheetEdit(b *testing.B) {
	handler, kept, _ := benchPage(b)
	defer func() { require.NoError(b, kept.Close()) }()
	id, err := kept.AddMachine(b.Context(), demo.Lathe())
	require.NoError(b, err)
	path := "/machines/" + strconv.FormatInt(id, 10) + "/axes/cross"
	page := httptest.NewRecorder()
	handler.ServeHTTP(page, request(http.MethodGet, path, nil))
	form := fields(b, page.Body.String(), "sheet")
	b.ReportAllocs()
	size := 0
	for i := 0; b.Loop(); i++ {
		form.Set("nut.to", "29."+strconv.Itoa(i%9))
		r := request(http.MethodPost, path, form)
		r.Header.Set("HX-Request", "true")
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			b.Fatal(w.Code, w.Body.String())
		}
		size = w.Body.Len()
	}
	b.ReportMetric(float64(size)/1024, "KB/page")
}
