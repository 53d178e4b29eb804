package exchange

import (
	"strconv"
	"strings"
	"time"

	"fettle/plan/buildlog"
)

// The shape of an entry of the log, as it is written.
type (
	loggedDoc struct {
		Key      string     `json:"key"`
		At       string     `json:"at"`
		Text     string     `json:"text,omitempty"`
		Hours    string     `json:"hours,omitempty"`
		Cost     string     `json:"cost,omitempty"`
		Currency string     `json:"currency,omitempty"`
		Axis     string     `json:"axis,omitempty"`
		Upgrade  string     `json:"upgrade,omitempty"`
		Part     string     `json:"part,omitempty"`
		Photos   []photoDoc `json:"photos,omitempty"`
	}
	photoDoc struct {
		SHA256  string        `json:"sha256"`
		Type    string        `json:"type"`
		Width   int           `json:"width"`
		Height  int           `json:"height"`
		Taken   string        `json:"taken,omitempty"`
		Place   string        `json:"place,omitempty"`
		Caption string        `json:"caption,omitempty"`
		Role    buildlog.Role `json:"role,omitempty"`
	}
)

func loggedOf(e buildlog.Entry) loggedDoc {
	return loggedDoc{
		Key: e.Key, At: e.At, Text: e.Text, Hours: e.Hours, Cost: e.Cost, Currency: e.Currency,
		Axis: e.Axis, Upgrade: e.Upgrade, Part: e.Part, Photos: each(e.Photos, photoOf),
	}
}

func photoOf(p buildlog.Photo) photoDoc {
	return photoDoc{
		SHA256: p.SHA256, Type: p.Type, Width: p.Width, Height: p.Height, Taken: p.Taken, Place: p.Place,
		Caption: p.Caption, Role: p.Role,
	}
}

// withoutPlaces is a log that does not tell where its photos were taken.
func withoutPlaces(log []buildlog.Entry) []buildlog.Entry {
	return each(log, func(e buildlog.Entry) buildlog.Entry {
		e.Photos = each(e.Photos, func(p buildlog.Photo) buildlog.Photo {
			p.Place = ""
			return p
		})
		return e
	})
}

const (
	mostKey   = 64
	keyLetter = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-"
	hexDigit  = "0123456789abcdef"
)

func (r *reader) logged(v value) buildlog.Entry {
	members := r.object(v, "key at text? hours? cost? currency? axis? upgrade? part? photos?")
	e := buildlog.Entry{
		Key:      r.text(members["key"]),
		At:       r.moment(members["at"], buildlog.TimeLayout, "2026-02-28T14:30"),
		Text:     r.text(members["text"]),
		Hours:    r.text(members["hours"]),
		Cost:     r.text(members["cost"]),
		Currency: r.text(members["currency"]),
		Axis:     r.text(members["axis"]),
		Upgrade:  r.text(members["upgrade"]),
		Part:     r.text(members["part"]),
		Photos:   list(r, members["photos"], r.photo),
	}
	if e.Key == "" || len(e.Key) > mostKey || strings.Trim(e.Key, keyLetter) != "" {
		r.fault(members["key"], "give 1 to %d of A-Z, a-z, 0-9, _ and -", mostKey)
	}
	r.distinct(members["photos"], "sha256")
	for _, role := range []buildlog.Role{buildlog.Before, buildlog.After} {
		seen := false
		for i, p := range e.Photos {
			if p.Role == role && seen {
				r.fault(members["photos"].items[i].member("role"), "another photo of this entry is the one %s", role)
			}
			seen = seen || p.Role == role
		}
	}
	return e
}

func (r *reader) photo(v value) buildlog.Photo {
	members := r.object(v, "sha256 type width height taken? place? caption? role?")
	p := buildlog.Photo{
		SHA256:  r.text(members["sha256"]),
		Type:    oneOf(r, members["type"], "image/jpeg", "image/png", "image/webp", "image/heic"),
		Width:   r.pixels(members["width"]),
		Height:  r.pixels(members["height"]),
		Place:   r.text(members["place"]),
		Caption: r.text(members["caption"]),
	}
	if taken := members["taken"]; taken.sort != absent {
		p.Taken = r.moment(taken, buildlog.TakenLayout, "2026-02-28T14:30:05")
	}
	if role := members["role"]; role.sort != absent {
		p.Role = oneOf(r, role, buildlog.Before, buildlog.After)
	}
	if len(p.SHA256) != 64 || strings.Trim(p.SHA256, hexDigit) != "" {
		r.fault(members["sha256"], "give the SHA-256 of the photo: 64 digits of 0-9 and a-f")
	}
	return p
}

func (r *reader) pixels(v value) int {
	n, err := strconv.Atoi(v.text)
	if v.sort != number || err != nil || n < 1 || n > 1<<31-1 {
		r.fault(v, "give a number of pixels, from 1")
	}
	return n
}

func (r *reader) moment(v value, layout, such string) string {
	s := r.text(v)
	if _, err := time.Parse(layout, s); err != nil || len(s) != len(layout) {
		r.fault(v, "give a day and a time as %q", such)
	}
	return s
}
