package order

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Price is what one of a thing costs, as the owner typed it and as it was read.
type Price struct {
	Text     string // as typed
	Minor    int64  // in the currency's smallest coin
	Currency string // by ISO 4217: "EUR"
}

// What [ParsePrice] says of a text that it cannot take.
var (
	ErrPrice    = errors.New("give a price such as 12.50, 12,50 € or GBP 7")
	ErrCurrency = errors.New("give a currency by its sign or its three letters, such as € or SEK")
	ErrLarge    = errors.New("that is too large to be meant")
)

// mostMinor is the largest price: no bench machine's part costs 10 thousand million.
const mostMinor = 1_000_000_000_000

// codes are the currencies in use, by ISO 4217, with two decimals; those with
// others are in decimals.
// Source: ISO 4217, from memory.
var codes = strings.Fields("AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF " +
	"CHF CNY COP CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR " +
	"IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK " +
	"NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP " +
	"TRY TTD TWD TZS UAH USD UYU UZS VES WST XCD YER ZAR ZMW")

var decimals = map[string]int{
	"BIF": 0, "CLP": 0, "DJF": 0, "GNF": 0, "ISK": 0, "JPY": 0, "KMF": 0, "KRW": 0, "PYG": 0, "RWF": 0, "UGX": 0, "VND": 0,
	"VUV": 0, "XAF": 0, "XOF": 0, "XPF": 0, "BHD": 3, "IQD": 3, "JOD": 3, "KWD": 3, "LYD": 3, "OMR": 3, "TND": 3,
}

// signs are what people write for a currency. A sign that several use means the
// owner's own where that is one of them, and else the first.
var signs = []struct {
	sign string
	of   []string
}{
	{"€", []string{"EUR"}}, {"£", []string{"GBP"}},
	{"$", []string{"USD", "AUD", "CAD", "NZD", "HKD", "SGD", "MXN", "TWD"}},
	{"¥", []string{"JPY", "CNY"}}, {"₹", []string{"INR"}}, {"₩", []string{"KRW"}}, {"zł", []string{"PLN"}}, {"kč", []string{"CZK"}},
	{"ft", []string{"HUF"}}, {"fr.", []string{"CHF"}}, {"kr.", []string{"DKK", "SEK", "NOK", "ISK"}}, {"kr", []string{"SEK", "NOK", "DKK", "ISK"}},
}

// KnownCurrency tells whether code is a currency by ISO 4217.
func KnownCurrency(code string) bool {
	_, other := decimals[code]
	return other || slices.Contains(codes, code)
}

func places(code string) int {
	if n, ok := decimals[code]; ok {
		return n
	}
	return 2
}

// ParsePrice reads a price as it is written in a shop: 12.50, 12,50, €12.50,
// 1.234,50 EUR, £1,234, 7.- CHF. own is the currency of a number without one.
// A single mark with three figures after it parts thousands, as prices have
// seldom three decimals. Nothing typed is no price, and no fault.
//
// It returns [ErrPrice], [ErrCurrency] or [ErrLarge], with the text kept.
func ParsePrice(text, own string) (Price, error) {
	p := Price{Text: text}
	s := strings.TrimSpace(strings.NewReplacer("\u00a0", " ", "\u202f", " ", "’", "'", "−", "-", "–", "-").Replace(text))
	if s == "" {
		return p, nil
	}
	if len(s) > 40 {
		return p, ErrPrice
	}
	number, word := split(s)
	if number == "" || strings.HasPrefix(word, "-") {
		return p, ErrPrice
	}
	code, ok := currency(word, own)
	if !ok {
		return p, ErrCurrency
	}
	minor, err := amount(number, places(code))
	if err != nil {
		return p, err
	}
	p.Minor, p.Currency = minor, code
	return p, nil
}

// split parts the figures from what is written before or after them.
func split(s string) (number, word string) {
	figure := func(r rune) bool { return r >= '0' && r <= '9' }
	first := strings.IndexFunc(s, figure)
	if first < 0 {
		return "", s
	}
	if first > 0 && (s[first-1] == '.' || s[first-1] == ',') && (first == 1 || s[first-2] == ' ') {
		first-- // ".50"
	}
	last := strings.LastIndexFunc(s, figure) + 1
	before, after := strings.TrimSpace(s[:first]), s[last:]
	for _, dash := range []string{".-", ",-"} {
		after = strings.TrimPrefix(after, dash) // "7.-", for no coins
	}
	after = strings.TrimSpace(after)
	if before != "" && after != "" {
		return "", s // "€ 5 each" is not read as a price
	}
	return s[first:last], before + after
}

func currency(word, own string) (string, bool) {
	if word == "" {
		return own, KnownCurrency(own)
	}
	if code := strings.ToUpper(word); KnownCurrency(code) {
		return code, true
	}
	for _, s := range signs {
		if s.sign != strings.ToLower(word) {
			continue
		}
		if slices.Contains(s.of, own) {
			return own, true
		}
		return s.of[0], true
	}
	return "", false
}

// amount reads figures with marks between them as a whole number of the
// smallest coin.
func amount(s string, places int) (int64, error) {
	if s == "" || strings.Trim(s, "0123456789.,' ") != "" {
		return 0, ErrPrice
	}
	whole, part := s, ""
	if i := strings.LastIndexAny(s, ".,"); i >= 0 {
		mark, after := s[i:i+1], len(s)-i-1
		alone := strings.Count(s, mark) == 1
		// The last mark begins the decimals, unless it parts thousands.
		if alone && (after != 3 || places == 3 || strings.ContainsAny(s[:i], ".,' ") || i == 0) {
			whole, part = s[:i], s[i+1:]
		}
	}
	if len(part) > places || whole == "" && part == "" || !thousands(whole) {
		return 0, ErrPrice
	}
	digits := strings.NewReplacer(".", "", ",", "", "'", "", " ", "").Replace(whole) + part + strings.Repeat("0", places-len(part))
	if len(strings.TrimLeft(digits, "0")) > 15 {
		return 0, ErrLarge
	}
	v, err := strconv.ParseInt(digits, 10, 64)
	if err != nil {
		return 0, ErrPrice
	}
	if v > mostMinor {
		return 0, ErrLarge
	}
	return v, nil
}

// thousands tells whether a whole number has no marks, or one mark all along
// with three figures after each.
func thousands(s string) bool {
	i := strings.IndexAny(s, ".,' ")
	if i < 0 {
		return true
	}
	groups := strings.Split(s, s[i:i+1])
	for j, g := range groups {
		if strings.Trim(g, "0123456789") != "" || j > 0 && len(g) != 3 || j == 0 && (len(g) < 1 || len(g) > 3) {
			return false
		}
	}
	return true
}

// Known tells whether there is a price.
func (p Price) Known() bool { return p.Currency != "" }

// Times is the price of so many.
func (p Price) Times(n int) Price {
	return Price{Minor: p.Minor * int64(n), Currency: p.Currency}
}

// Amount is the price as a plain decimal number: "12.50".
func (p Price) Amount() string {
	if !p.Known() {
		return ""
	}
	n := places(p.Currency)
	s := fmt.Sprintf("%0*d", n+1, p.Minor)
	if n == 0 {
		return s
	}
	return s[:len(s)-n] + "." + s[len(s)-n:]
}

// String is the price with its currency: "12.50 EUR"; "" where there is none.
func (p Price) String() string {
	if !p.Known() {
		return ""
	}
	return p.Amount() + " " + p.Currency
}
