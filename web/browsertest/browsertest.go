// Package browsertest drives pages in a real browser, for tests.
//
// A package that uses it has one browser, started when the first test opens a page, and one tab a test:
//
//	func TestMain(m *testing.M) { os.Exit(browsertest.Main(m)) }
//
//	func TestPlanning(t *testing.T) {
//		tab := browsertest.Open(t, url, browsertest.Screen{Width: 360, Height: 740})
//		tab.Fill("#amount", "12")
//		tab.WaitText("#answer", "10.5")
//		tab.Axe()
//	}
//
// Where there is no browser, tests skip and say so; with FETTLE_REQUIRE_BROWSER=1 they fail instead.
// FETTLE_CHROMIUM names the browser when it is not in a usual place. FETTLE_SCREENSHOTS names a
// folder that [Tab.Screenshot] writes to.
//
// A test fails when the page wrote anything to the console or threw an exception; what a test expects
// there it names with [Tab.Allow]. Nothing sleeps: waiting is for a condition.
package browsertest

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// limit is how long any one step may take before its test fails.
const limit = 30 * time.Second

// The browser of the test binary, from [Main].
var shared *browser

type browser struct {
	start  func() // starts it once
	ctx    context.Context
	cancel context.CancelFunc
	err    error // why it did not start
}

var errNone = errors.New("no browser is installed; FETTLE_CHROMIUM can name one")

// Main runs the tests of a package and closes the browser that they used. It gives the exit code.
func Main(m *testing.M) int {
	b := &browser{cancel: func() {}}
	b.start = sync.OnceFunc(func() { b.ctx, b.cancel, b.err = launch() })
	shared = b
	defer func() { b.cancel() }()
	return m.Run()
}

// launch starts a browser and gives the context that its tabs are made from.
func launch() (context.Context, context.CancelFunc, error) {
	path := find()
	if path == "" {
		return nil, func() {}, errNone
	}
	options := []chromedp.ExecAllocatorOption{chromedp.ExecPath(path)}
	for _, flag := range []string{"headless", "no-sandbox", "disable-gpu", "disable-quic", "no-first-run",
		"no-default-browser-check", "disable-background-networking", "disable-component-update",
		"disable-sync", "disable-extensions", "disable-dev-shm-usage", "hide-scrollbars", "mute-audio"} {
		options = append(options, chromedp.Flag(flag, true))
	}
	options = append(options, chromedp.Flag("force-color-profile", "srgb"))
	allocator, stopAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, stop := chromedp.NewContext(allocator)
	cancel := func() { stop(); stopAllocator() }
	if err := chromedp.Do(ctx); err != nil {
		cancel()
		return nil, func() {}, fmt.Errorf("start %s: %w", path, err)
	}
	return ctx, cancel, nil
}

// find gives the path of a browser, or "".
func find() string {
	if named := os.Getenv("FETTLE_CHROMIUM"); named != "" {
		return named
	}
	for _, name := range []string{"/usr/bin/chromium", "chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome",
		"/Applications/Chromium.app/Contents/MacOS/Chromium", "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// running gives the browser's context, or skips t when there is no browser and none is required.
func running(t *testing.T) context.Context {
	t.Helper()
	if shared == nil {
		t.Fatal("the package has no TestMain that calls browsertest.Main")
	}
	shared.start()
	switch {
	case errors.Is(shared.err, errNone) && os.Getenv("FETTLE_REQUIRE_BROWSER") != "1":
		t.Skip("skipped in a browser: " + shared.err.Error())
	case shared.err != nil:
		t.Fatal(shared.err)
	}
	return shared.ctx
}
