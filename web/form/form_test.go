package form_test

import (
	"errors"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/web/form"
)

func post(body string) *http.Request {
	r := httptest.NewRequest(http.MethodPost, "/", strings.NewReader(body))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return r
}

func TestWhatWasTypedIsKept(t *testing.T) {
	typed := url.Values{"amount": {" 1-1/4\" "}, "note": {"líne one\r\nline two"}, "empty": {""}}
	f, err := form.Read(post(typed.Encode()))
	require.NoError(t, err)
	require.Equal(t, ` 1-1/4" `, f.Value("amount"))
	require.Equal(t, "líne one\r\nline two", f.Value("note"))
	require.True(t, f.Has("empty"))
	require.True(t, f.Blank("empty"))
	require.False(t, f.Has("never sent"))
	require.Equal(t, []string{"amount", "empty", "note"}, f.Names())

	again, err := url.ParseQuery(f.Encoded())
	require.NoError(t, err)
	require.Equal(t, typed, again)
}

func TestQueryAndUploadFormsAreReadToo(t *testing.T) {
	f, err := form.Read(httptest.NewRequest(http.MethodGet, "/?s=88&s=100", nil))
	require.NoError(t, err)
	require.Equal(t, []string{"88", "100"}, f.Values("s"))

	var body strings.Builder
	parts := multipart.NewWriter(&body)
	require.NoError(t, parts.WriteField("amount", "12"))
	require.NoError(t, parts.Close())
	r := httptest.NewRequest(http.MethodPost, "/?amount=13", strings.NewReader(body.String()))
	r.Header.Set("Content-Type", parts.FormDataContentType())
	f, err = form.Read(r)
	require.NoError(t, err)
	require.Equal(t, []string{"12"}, f.Values("amount"), "a posted form is its body alone")
}

func TestUnreadable(t *testing.T) {
	for name, r := range map[string]*http.Request{
		"broken escape":  post("amount=%zz"),
		"not UTF-8":      post("amount=%ff"),
		"a zero byte":    post("amount=1%002"),
		"name not UTF-8": post("%ff=1"),
		"query":          httptest.NewRequest(http.MethodGet, "/?a=%zz", nil),
	} {
		t.Run(name, func(t *testing.T) {
			_, err := form.Read(r)
			require.ErrorIs(t, err, form.ErrUnreadable)
		})
	}
}

func TestTooLarge(t *testing.T) {
	r := post("note=" + strings.Repeat("x", 100))
	r.Body = http.MaxBytesReader(httptest.NewRecorder(), r.Body, 50)
	_, err := form.Read(r)
	var tooLarge *http.MaxBytesError
	require.True(t, errors.As(err, &tooLarge))
	require.NotErrorIs(t, err, form.ErrUnreadable)
}

func TestProblems(t *testing.T) {
	f := form.New(url.Values{"amount": {"twelve"}})
	require.True(t, f.OK())
	require.Equal(t, http.StatusOK, f.Status())

	f.Fail("amount", "give a length such as 12 or 0.5 in")
	f.Fail("amount", "give a length above 0")
	require.False(t, f.OK())
	require.Equal(t, http.StatusUnprocessableEntity, f.Status())
	require.Equal(t, "give a length such as 12 or 0.5 in", f.Problem("amount"), "the first stands")
	require.Empty(t, f.Problem("end"))
	require.Equal(t, "twelve", f.Value("amount"))
	require.Len(t, f.Problems(), 1)
}

func TestFields(t *testing.T) {
	for _, tc := range []struct {
		typed string
		read  func(*form.Form) any
		want  any
		say   string
	}{
		{"  Lathe ", func(f *form.Form) any { return f.Text("x", "a name", 10) }, "Lathe", ""},
		{"   ", func(f *form.Form) any { return f.Text("x", "a name", 10) }, "", "give a name"},
		{"Große Dreh", func(f *form.Form) any { return f.Text("x", "a name", 10) }, "Große Dreh", ""},
		{"a much longer one", func(f *form.Form) any { return f.Text("x", "a name", 10) }, "a much longer one", "give a name in at most 10 characters; this has 17"},
		{"inner", func(f *form.Form) any { return f.Choice("x", "outer", "inner") }, "inner", ""},
		{"sideways", func(f *form.Form) any { return f.Choice("x", "outer", "inner") }, "outer", "choose one of the list"},
		{" 3 ", func(f *form.Form) any { return f.Whole("x", 1, 4) }, 3, ""},
		{"5", func(f *form.Form) any { return f.Whole("x", 1, 4) }, 1, "give a whole number from 1 to 4"},
		{"1.5", func(f *form.Form) any { return f.Whole("x", 1, 4) }, 1, "give a whole number from 1 to 4"},
	} {
		t.Run(tc.typed, func(t *testing.T) {
			f := form.New(url.Values{"x": {tc.typed}})
			require.Equal(t, tc.want, tc.read(f))
			require.Equal(t, tc.say, f.Problem("x"))
			require.Equal(t, tc.typed, f.Value("x"))
		})
	}
}
