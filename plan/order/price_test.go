package order_test

import (
	"strings"
	"testing"

	"fettle/plan/order"

	"github.com/stretchr/testify/require"
)

func TestParsePrice(t *testing.T) {
	for _, tc := range []struct {
		text, own string
		minor     int64
		currency  string
		shown     string
	}{
		{"12.50", "EUR", 1250, "EUR", "12.50 EUR"},
		{" 12,50 ", "EUR", 1250, "EUR", "12.50 EUR"},
		{"12,5", "EUR", 1250, "EUR", "12.50 EUR"},
		{"€12.50", "GBP", 1250, "EUR", "12.50 EUR"},
		{"12,50 €", "GBP", 1250, "EUR", "12.50 EUR"},
		{"£1,234.50", "EUR", 123450, "GBP", "1234.50 GBP"},
		{"1.234,50 EUR", "EUR", 123450, "EUR", "1234.50 EUR"},
		{"1 234,50 kr", "NOK", 123450, "NOK", "1234.50 NOK"},
		{"1'234.50 CHF", "EUR", 123450, "CHF", "1234.50 CHF"},
		{"7.- CHF", "EUR", 700, "CHF", "7.00 CHF"},
		{"GBP 7", "EUR", 700, "GBP", "7.00 GBP"},
		{"gbp7", "EUR", 700, "GBP", "7.00 GBP"},
		{"1,234", "USD", 123400, "USD", "1234.00 USD"},
		{"1.234", "EUR", 123400, "EUR", "1234.00 EUR"},
		{"1.234.567", "EUR", 123456700, "EUR", "1234567.00 EUR"},
		{"$3", "EUR", 300, "USD", "3.00 USD"},
		{"$3", "CAD", 300, "CAD", "3.00 CAD"},
		{"kr 30", "EUR", 3000, "SEK", "30.00 SEK"},
		{"¥1,200", "EUR", 1200, "JPY", "1200 JPY"},
		{"1.234 KWD", "EUR", 1234, "KWD", "1.234 KWD"},
		{".50", "EUR", 50, "EUR", "0.50 EUR"},
		{"0", "EUR", 0, "EUR", "0.00 EUR"},
		{"5,00", "EUR", 500, "EUR", "5.00 EUR"},
	} {
		p, err := order.ParsePrice(tc.text, tc.own)
		require.NoError(t, err, tc.text)
		require.Equal(t, order.Price{Text: tc.text, Minor: tc.minor, Currency: tc.currency}, p)
		require.Equal(t, tc.shown, p.String())
	}
	p, err := order.ParsePrice("  ", "EUR")
	require.NoError(t, err)
	require.False(t, p.Known())
	require.Empty(t, p.String())
}

func TestParsePriceRefuses(t *testing.T) {
	for _, tc := range []struct {
		text string
		want error
	}{
		{"twelve", order.ErrPrice}, {"12 bananas", order.ErrCurrency}, {"€", order.ErrPrice}, {"12.505 EUR 3", order.ErrPrice}, {"1,2,3", order.ErrPrice},
		{"12.3456", order.ErrPrice}, {"1,23.45", order.ErrPrice}, {"12.50 JPY", order.ErrPrice}, {"-5", order.ErrPrice}, {"€ 5 each", order.ErrPrice},
		{"99999999999999999999", order.ErrLarge}, {"10000000001", order.ErrLarge}, {strings.Repeat("1", 50), order.ErrPrice}, {"1e5", order.ErrPrice}, {"1,,5", order.ErrPrice},
	} {
		p, err := order.ParsePrice(tc.text, "EUR")
		require.ErrorIs(t, err, tc.want, tc.text)
		require.Equal(t, tc.text, p.Text, "what was typed stays")
		require.False(t, p.Known())
	}
	_, err := order.ParsePrice("12", "")
	require.ErrorIs(t, err, order.ErrCurrency, "a number alone needs the owner's currency")
}

func TestPriceTimes(t *testing.T) {
	p, err := order.ParsePrice("0.35", "EUR")
	require.NoError(t, err)
	require.Equal(t, "2.45 EUR", p.Times(7).String())
}

func FuzzParsePrice(f *testing.F) {
	for _, s := range []string{"12.50", "1.234,50 EUR", "£1,234", "7.- CHF", "¥1200", "1.234 KWD", ".5", "kr 3", "", "€ 5 each", "1' 2"} {
		f.Add(s, "EUR")
	}
	f.Add("$3", "CAD")
	f.Fuzz(func(t *testing.T, text, own string) {
		p, err := order.ParsePrice(text, own)
		require.Equal(t, text, p.Text)
		if err != nil || !p.Known() {
			require.Zero(t, p.Minor)
			return
		}
		require.GreaterOrEqual(t, p.Minor, int64(0))
		require.True(t, order.KnownCurrency(p.Currency))
		again, err := order.ParsePrice(p.String(), own)
		require.NoError(t, err, "%q from %q", p.String(), text)
		require.Equal(t, p.Minor, again.Minor, "%q from %q", p.String(), text)
		require.Equal(t, p.Currency, again.Currency)
	})
}
