package web_test

import (
	"errors"
	"fmt"
	"net/http"
	"net/netip"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/web"
)

// Off by default: the page says how to turn it on, and no code is to be had.
func TestPhoneWhereOnlyThisComputerIsAnswered(t *testing.T) {
	s, _ := newServer(t)
	page := send(s.Handler(), request(http.MethodGet, "/phone", nil)).Body.String()
	says(t, page, "Fettle answers only this computer.", "<kbd>fettle passphrase</kbd>", "<kbd>fettle -listen 0.0.0.0:8270</kbd>")
	saysNot(t, page, "Show a code", "<svg")
	w := send(s.Handler(), request(http.MethodPost, "/phone/code", url.Values{}))
	require.Equal(t, http.StatusConflict, w.Code)
	says(t, send(s.Handler(), request(http.MethodGet, "/", nil)).Body.String(), `<a href="/phone">Use your phone</a>`)
}

func TestPhonePage(t *testing.T) {
	s := newWorkshop(t)
	page := s.send(atDesk(http.MethodGet, "/phone", nil)).Body.String()
	says(t, page, "Show a code", "None. At this computer itself nobody has to sign in.")
	saysNot(t, page, "<svg", "hx-get")

	code := s.code(t)
	page = s.send(atDesk(http.MethodGet, "/phone", nil)).Body.String()
	// The name that was given, then the address in the home's network, then the other; neither loopback nor
	// link-local addresses, which no phone can ask for.
	says(t, page, `href="http://workshop.example:8270/pair?code=`+code+`"`, "until <b>12:10</b>", `hx-get="/phone"`)
	require.Equal(t, []string{"http://workshop.example:8270/", "http://192.168.7.7:8270/", "http://198.51.100.7:8270/"}, addresses(page))
	says(t, s.send(atDesk(http.MethodGet, "/phone?at=1", nil)).Body.String(), `href="http://192.168.7.7:8270/pair?code=`+code+`"`, `hx-get="/phone?at=1"`)
	for _, at := range []string{"3", "-1", "x", "99999999999999999999"} {
		says(t, s.send(atDesk(http.MethodGet, "/phone?at="+at, nil)).Body.String(), `href="http://workshop.example:8270/pair?code=`+code+`"`)
	}

	// While a code waits, the part that changes is asked for again; once it is used, no more.
	r := byPhone(http.MethodPost, "/pair", url.Values{"code": {code}, "name": {"Bench <phone>"}})
	cookie := session(t, s.send(r))
	r = atDesk(http.MethodGet, "/phone", nil)
	r.Header.Set("HX-Request", "true")
	part := s.send(r).Body.String()
	saysNot(t, part, "<html", code, "hx-get")
	says(t, part, "<b>Bench &lt;phone&gt;</b>", "by code, today, 12:00; last seen today, 12:00; signs in again after 13 April 2026",
		`Shut out <span class="unseen">Bench &lt;phone&gt;</span>`)

	own := s.send(byPhone(http.MethodGet, "/phone", nil, cookie)).Body.String()
	says(t, own, "This device", "(this device)", `action="/phone/sign-out"`)
}

var addressText = regexp.MustCompile(`<span class="address">([^<]*)</span>`)

func addresses(page string) (all []string) {
	for _, found := range addressText.FindAllStringSubmatch(page, -1) {
		all = append(all, found[1])
	}
	return all
}

func TestPhonePageAsJSON(t *testing.T) {
	s := newWorkshop(t)
	s.pair(t)
	code := s.code(t)
	r := atDesk(http.MethodGet, "/phone", nil)
	r.Header.Set("Accept", "application/json")
	says(t, s.send(r).Body.String(), `"manages": true`, `"text": "`+code+`"`, `"way": "code"`, `"address": "http://192.168.7.7:8270/"`)
}

func TestWhereThePagesAre(t *testing.T) {
	interfaces := func() ([]netip.Addr, error) {
		var all []netip.Addr
		for _, a := range []string{"::1", "127.0.0.1", "2001:db8::7", "fe80::7", "203.0.113.7", "10.0.0.7", "fd00::7", "169.254.7.7", "172.17.0.1"} {
			all = append(all, netip.MustParseAddr(a))
		}
		return all, nil
	}
	for _, tc := range []struct {
		listen string
		hosts  []string
		tls    bool
		want   []string
	}{
		{"127.0.0.1:8270", nil, false, nil},
		{"0.0.0.0:8270", nil, false, []string{"http://10.0.0.7:8270/", "http://172.17.0.1:8270/", "http://203.0.113.7:8270/"}},
		{"[::]:443", nil, true, []string{"https://10.0.0.7/", "https://172.17.0.1/", "https://203.0.113.7/", "https://[2001:db8::7]/", "https://[fd00::7]/"}},
		{"10.0.0.7:80", nil, false, []string{"http://10.0.0.7/"}},
		{"[fd00::7]:8270", []string{"shed.example"}, false, []string{"http://shed.example:8270/", "http://[fd00::7]:8270/"}},
		{"127.0.0.1:8270", []string{"shed.example", "shed.example:8443"}, false, []string{"http://shed.example/", "http://shed.example:8443/"}},
	} {
		t.Run(fmt.Sprint(tc.listen, tc.hosts), func(t *testing.T) {
			s := newWorkshop(t, func(o *web.Options) { o.Listen, o.Hosts, o.TLS, o.Addresses = tc.listen, tc.hosts, tc.tls, interfaces })
			got, err := s.Addresses()
			require.NoError(t, err)
			require.Equal(t, tc.want, got)
			for _, at := range got { // and at each the pages are answered
				r := byPhone(http.MethodGet, "/signin", nil)
				to, err := url.Parse(at)
				require.NoError(t, err)
				if address, err := netip.ParseAddr(to.Hostname()); err == nil {
					port, err := strconv.ParseUint(tc.listen[strings.LastIndex(tc.listen, ":")+1:], 10, 16)
					require.NoError(t, err)
					r = between("10.0.0.23:40000", netip.AddrPortFrom(address, uint16(port)).String(), http.MethodGet, "/signin", nil)
				}
				r.Host = to.Host
				require.Equal(t, http.StatusOK, s.send(r).Code, at)
			}
		})
	}
	s := newWorkshop(t, func(o *web.Options) {
		o.Hosts, o.Addresses = nil, func() ([]netip.Addr, error) { return nil, errors.New("no interfaces") }
	})
	require.Equal(t, http.StatusInternalServerError, s.send(atDesk(http.MethodGet, "/phone", nil)).Code)
}

func TestNamesThatAreNone(t *testing.T) {
	for _, name := range []string{"", "http://shed.example/", "shed.example/x", "*.example", "a b", ":8270", "user@shed"} {
		_, err := web.New(web.Options{Listen: listen, Log: quiet(), Store: newStore(t), Now: noon, Hosts: []string{name}})
		require.ErrorContains(t, err, "no name of a computer", name)
	}
}

// The picture by ISO/IEC 18004: 21 + 4n modules a side, a border of 4 that is blank, and in three corners
// the finder pattern: a dark ring of 7, a light one of 5 in it, a dark square of 3 in that.
func TestQRPicture(t *testing.T) {
	s := newWorkshop(t)
	s.code(t)
	page := s.send(atDesk(http.MethodGet, "/phone", nil)).Body.String()
	found := regexp.MustCompile(`<svg class="qr" viewBox="0 0 (\d+) (\d+)"[^>]*>.*?<path d="([^"]*)"`).FindStringSubmatch(page)
	require.NotNil(t, found)
	require.Equal(t, found[1], found[2])
	size, err := strconv.Atoi(found[1])
	require.NoError(t, err)
	require.Zero(t, (size-8-21)%4)
	dark := map[[2]int]bool{}
	for _, run := range regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`).FindAllStringSubmatch(found[3], -1) {
		var x, y, n, back int
		_, err := fmt.Sscan(strings.Join(run[1:], " "), &x, &y, &n, &back)
		require.NoError(t, err)
		require.Equal(t, n, back)
		for i := range n {
			dark[[2]int{x + i, y}] = true
		}
	}
	for y := range size {
		for x := range size {
			if x < 4 || y < 4 || x >= size-4 || y >= size-4 {
				require.False(t, dark[[2]int{x, y}], "the border at %d, %d", x, y)
			}
		}
	}
	finder := []string{"#######.", "#.....#.", "#.###.#.", "#.###.#.", "#.###.#.", "#.....#.", "#######.", "........"}
	last := size - 5
	for dy, row := range finder {
		for dx, module := range row {
			want := module == '#'
			require.Equal(t, want, dark[[2]int{4 + dx, 4 + dy}], "top left")
			require.Equal(t, want, dark[[2]int{last - dx, 4 + dy}], "top right")
			require.Equal(t, want, dark[[2]int{4 + dx, last - dy}], "bottom left")
		}
	}
}
