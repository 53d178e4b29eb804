package web_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/machine"
)

const lathesStand = "Wind the slide fully inward and leave it there. All positions are measured from the saddle&#39;s rear face; outward counts up, the other way is negative."

// The sheet and the blank to write on say in bold how the slide stands, and so does each line that needs it.
func TestSheetSaysHowTheSlideStands(t *testing.T) {
	k := keep(t, demo.Lathe())
	for _, query := range []string{"", "?blank=1"} {
		page := k.get(t, "/axes/cross"+query)
		says(t, page, "<b>"+lathesStand+"</b>", "from the datum face, slide fully inward")
	}
}

// A quill is called so throughout.
func TestSheetOfAQuill(t *testing.T) {
	k := keep(t, machine.Machine{Name: "Drill", Kind: "drill", Units: "mm"})
	k.post(t, "/axes", http.StatusSeeOther, "label", "Quill", "arrangement", "rack", "plus", "down", "minus", "up")
	page := k.get(t, "/axes/quill")
	says(t, page, "Bring the quill fully up", "moves with the quill", "bring the quill right to that end")
	saysNot(t, page, "moves with the slide", "wind the slide", "Wind the slide")
}

// A sheet that begins blank says what it begins with; each part can be struck out at its heading, until it is measured.
func TestSheetBegunFromBlank(t *testing.T) {
	k := keep(t, machine.Machine{Name: "Lathe", Kind: "lathe", Units: "mm"})
	k.post(t, "/axes", http.StatusSeeOther, "label", "Top slide", "arrangement", "travelling_screw")
	path := "/axes/top_slide"
	page := k.get(t, path)
	says(t, page, "Take off the parts that your machine has not got", "In dashes: the outline only, not measured yet", "Words on this sheet", "a web by the screw’s tip",
		`<button class="part-not" name="do" value="take_off_part:rear_web">Not on my machine`)
	parts := len(k.axis(t).Parts)
	require.Equal(t, parts, strings.Count(page, "Not on my machine"))

	form := fields(t, page, "sheet")
	gone := k.sheet(t, path, form, "do", "take_off_part:rear_web").Body.String()
	says(t, gone, "Taken off.", "Undo")
	require.Len(t, k.axis(t).Parts, parts-1)
	k.sheet(t, path, fields(t, k.get(t, path), "sheet"), "slide.from", "-40")
	page = k.get(t, path)
	require.Equal(t, parts-2, strings.Count(page, "Not on my machine"))
	saysNot(t, page, "take_off_part:slide\">Not on", "has not got")
}

// An end at which nothing on the sheet stops the axis asks for what does, with the way there.
func TestSheetAsksWhatStopsIt(t *testing.T) {
	m := demo.Lathe()
	a := &m.Axes[0]
	rear, _ := a.Part("rear_wall")
	rear.Lanes = []string{}
	k := keep(t, m)
	page := k.get(t, "/axes/cross")
	says(t, page, "Cross slide, inward: nothing that is measured stops it there. What does?", `<a href="#add">Add what stops it inward</a>`, `id="add"`)
	page = k.get(t, "")
	says(t, page, "nothing that is measured stops it there", `<a href="`+k.url+`/axes/cross#add">Cross slide: add what stops it inward</a>`)

	saysNot(t, keep(t, demo.Lathe()).get(t, "/axes/cross"), "What does?", "Add what stops")
}
