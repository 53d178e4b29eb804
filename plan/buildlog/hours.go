package buildlog

import (
	"errors"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// What [ParseHours] says of a text that it cannot take.
var (
	ErrHours = errors.New("give hours such as 1.5, 1:30, 1 h 30 or 45 min")
	ErrLong  = errors.New("that is too long to be meant")
)

// mostHours is more than a year without sleep.
const mostHours = 10_000

var (
	clock   = regexp.MustCompile(`^(\d{1,5}):([0-5]\d)$`)
	worded  = regexp.MustCompile(`^(?:(\d{1,5}|\d{0,5}[.,]\d{1,4}) ?(?:h|hr|hrs|hour|hours))?(?: ?(\d{1,6}) ?(?:m|min|mins|minute|minutes)?)?$`)
	decimal = regexp.MustCompile(`^(\d{0,5})(?:[.,](\d{1,4}))?$`)
)

// ParseHours reads a time spent, as people say it: hours as a decimal number with a point or a comma
// (1.5, .75), a clock's way (1:30), or with units (2 h, 1 h 30, 1h30m, 45 min). Nothing typed is no time,
// and no fault. It returns [ErrHours] or [ErrLong].
func ParseHours(text string) (time.Duration, error) {
	s := strings.ToLower(strings.Join(strings.Fields(strings.NewReplacer("½", ".5", "¼", ".25", "¾", ".75").Replace(text)), " "))
	if s == "" {
		return 0, nil
	}
	spent, ok := hours(s)
	switch {
	case !ok:
		return 0, ErrHours
	case spent > mostHours*time.Hour:
		return 0, ErrLong
	}
	return spent, nil
}

func hours(s string) (time.Duration, bool) {
	if m := clock.FindStringSubmatch(s); m != nil {
		return whole(m[1], time.Hour) + whole(m[2], time.Minute), true
	}
	if m := decimal.FindStringSubmatch(s); m != nil && s != "" {
		return fraction(m[1], m[2]), true
	}
	m := worded.FindStringSubmatch(s)
	if m == nil || m[1] == "" && strings.Trim(s, "0123456789 ") == "" {
		return 0, false
	}
	before, after, _ := strings.Cut(strings.Replace(m[1], ",", ".", 1), ".")
	return fraction(before, after) + whole(m[2], time.Minute), true
}

// whole is a number of up to six digits, or none, of a unit.
func whole(digits string, unit time.Duration) time.Duration {
	n, err := strconv.Atoi(digits)
	if err != nil {
		return 0 // none: the pattern lets nothing else through
	}
	return time.Duration(n) * unit
}

// fraction is hours with up to four decimals, exactly: the fourth is 360 ms.
func fraction(before, after string) time.Duration {
	const tenThousandth = time.Hour / 10_000
	return whole(before, time.Hour) + whole((after + "0000")[:4], tenThousandth)
}
