package browsertest_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/web/browsertest"
)

func TestMain(m *testing.M) { os.Exit(browsertest.Main(m)) }

// Every shared component is readable by everybody, on a phone and on a desk, in light and dark.
func TestPagesAreAccessible(t *testing.T) {
	url := serve(t)
	for path, name := range map[string]string{"/": "first", "/nothing-here": "missing", "/specimen": "planning", "/specimen/others": "others"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			tab := browsertest.Open(t, url+path, browsertest.Screen{})
			tab.Allow("status of 404")
			tab.OnEveryScreen(name)
		})
	}
}

// The checker itself must find what is wrong, also where it looks at colours alone.
func TestAxeFindsFaults(t *testing.T) {
	tab := browsertest.Open(t, serve(t)+"/specimen", browsertest.Screen{})
	require.Empty(t, tab.Faults(browsertest.Colour...))
	tab.Eval(`document.querySelector("label[for=amount]").remove()`, nil)
	require.Contains(t, strings.Join(tab.Faults(), "\n"), "label: Form elements must have labels")
	require.Empty(t, tab.Faults(browsertest.Colour...), "a label that is missing has no colour")
	tab.Eval(`document.querySelector("h1").style.color = "#aaa"`, nil)
	require.Contains(t, strings.Join(tab.Faults(browsertest.Colour...), "\n"), "color-contrast: ")
}

func TestConsoleIsHeard(t *testing.T) {
	url := serve(t)
	for name, script := range map[string]string{
		"message":          `console.log("hello")`,
		"exception":        `setTimeout(() => { throw new Error("thrown") })`,
		"content policy":   `document.body.setAttribute("style", "color: red")`,
		"missing resource": `await fetch("/nothing-here")`,
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			tab := browsertest.Open(t, url+"/", browsertest.Screen{})
			tab.Eval("(async () => {"+script+"})()", nil)
			tab.Wait("true")
			require.NotEmpty(t, tab.Heard())
			tab.Forget()
		})
	}
}

func TestTypingKeepsFieldAndCaretAndLosesNothing(t *testing.T) {
	tab := browsertest.Open(t, serve(t)+"/specimen", browsertest.Screen{})
	tab.Fill("#amount", "15")
	tab.WaitText("#answer", "15 mm")
	require.Equal(t, "amount", tab.Focus())
	tab.Type(".5")
	tab.WaitText("#answer", "15.5 mm")
	tab.WaitText("#saved", "saved 14:03")
	require.Equal(t, "15.5", tab.Value("#amount"))
}

// What is typed while an answer is on its way is not overwritten by it.
func TestSlowAnswerLosesNothingTyped(t *testing.T) {
	held := make(chan struct{})
	tab := browsertest.Open(t, serveHeld(t, held)+"/specimen", browsertest.Screen{})
	tab.Fill("#amount", "99")
	tab.Wait(`document.querySelector(".htmx-request") !== null`)
	tab.Type("5")
	close(held)
	tab.WaitText("#answer", "995 mm")
	require.Equal(t, "995", tab.Value("#amount"))
	require.Equal(t, "amount", tab.Focus())
}

func TestProblemIsSaidAtItsField(t *testing.T) {
	tab := browsertest.Open(t, serve(t)+"/specimen", browsertest.Screen{Width: 360, Height: 740})
	tab.Allow("status of 422")
	tab.Fill("#amount", "twelve")
	tab.WaitText("#amount-problem", "give a length such as 12")
	require.Equal(t, "twelve", tab.Value("#amount"))
	tab.Axe()
	tab.Fill("#amount", "12")
	tab.Wait(`document.querySelector("#amount-problem") === null`)
}

func TestFailureKeepsWhatWasTyped(t *testing.T) {
	tab := browsertest.Open(t, serve(t)+"/specimen", browsertest.Screen{})
	tab.Allow("status of 500")
	tab.Fill("#amount", "13")
	tab.WaitText("#notices", "The log says why.")
	require.Equal(t, "13", tab.Value("#amount"))
	tab.Fill("#amount", "14")
	tab.WaitText("#answer", "14 mm")
	tab.Wait(`document.querySelector("#notices").childElementCount === 0`)
}

func TestNoAnswerIsSaidAndKeepsWhatWasTyped(t *testing.T) {
	tab := browsertest.Open(t, serve(t)+"/specimen", browsertest.Screen{})
	tab.Allow("htmx: htmx:error") // what htmx itself notes
	tab.Allow("ERR_INTERNET_DISCONNECTED")
	tab.Offline(true)
	tab.Fill("#amount", "14")
	tab.WaitText("#notices", "Fettle does not answer.")
	require.Equal(t, "14", tab.Value("#amount"))
	tab.Offline(false)
	tab.Fill("#amount", "16")
	tab.WaitText("#answer", "16 mm")
	tab.Wait(`document.querySelector("#notices").childElementCount === 0`)
}

func TestSliderMovesTheSlideAndOutlivesANewPicture(t *testing.T) {
	tab := browsertest.Open(t, serve(t)+"/specimen", browsertest.Screen{})
	placed := func(want string) {
		t.Helper()
		tab.Wait(fmt.Sprintf(`document.getElementById("moving").getAttribute("transform") === %q`, want))
	}
	placed("translate(0.000 0)")
	tab.Choose("#at", "40.5")
	placed("translate(-59.500 0)")
	require.Equal(t, "40.5 of 100 mm", tab.Text("output[for=at]"))
	tab.Fill("#amount", "11")
	tab.WaitText("#answer", "11 mm")
	placed("translate(-59.500 0)")
	require.Equal(t, "40.5", tab.Value("#at"))

	tab.Eval(`document.getElementById("at").focus()`, nil)
	tab.Press("ArrowRight")
	placed("translate(-59.000 0)")
	var said string
	tab.Eval(`document.getElementById("at").getAttribute("aria-valuetext")`, &said)
	require.Equal(t, "41 mm", said)
}

func TestOpenedFigureStaysOpen(t *testing.T) {
	tab := browsertest.Open(t, serve(t)+"/specimen", browsertest.Screen{})
	tab.Click("#k3-why summary")
	tab.WaitVisible("#k3-why .explain")
	tab.Fill("#amount", "11")
	tab.WaitText("#answer", "11 mm")
	tab.WaitVisible("#k3-why .explain")
}

func TestWithoutScripts(t *testing.T) {
	tab := browsertest.Open(t, serve(t)+"/specimen", browsertest.Screen{NoScript: true})
	tab.Fill("#amount", "15")
	require.Contains(t, tab.Text("#answer"), "12 mm", "nothing happens by itself")
	tab.Press("Enter")
	tab.WaitText("#answer", "15 mm")
	require.False(t, tab.Visible(".slide-control"), "a slider that cannot move anything is not shown")
}

func TestByKeyboardAlone(t *testing.T) {
	tab := browsertest.Open(t, serve(t)+"/specimen", browsertest.Screen{})
	tab.Press("Tab")
	require.Equal(t, "Go to the page", tab.Text(":focus"))
	tab.Press("Enter")
	tab.Press("Tab")
	require.Equal(t, "end", tab.Focus())
	tab.Press("Tab")
	require.Equal(t, "amount", tab.Focus())
}

// On a phone the answer and the picture come right under the amount, and the picture shows the end where
// things meet.
func TestPhoneOrder(t *testing.T) {
	tab := browsertest.Open(t, serve(t)+"/specimen", browsertest.Screen{Width: 360, Height: 740, Touch: true})
	var tops []float64
	tab.Eval(`["#amount", "#answer", ".picture", "#at", ".far", "#at88", ".knock-ons", ".checks"].map(
		s => document.querySelector(s).getBoundingClientRect().top)`, &tops)
	require.IsIncreasing(t, tops)
	var dial, screen float64
	tab.Eval(`document.querySelector(".drawing .dim-old").getBoundingClientRect().right`, &dial)
	tab.Eval(`document.documentElement.clientWidth`, &screen)
	require.Less(t, dial, screen)
	require.Positive(t, dial)
}
