package store

import (
	"context"
	"database/sql"
	"fmt"
	"strconv"
	"strings"
)

// LogQuery says which entries of a machine's log are wanted.
type LogQuery struct {
	MachineID int64
	Upgrade   string // ID of the upgrade; "" is any or none
	Pictured  bool   // only those with photos
	Search    string // see [Store.Log]; "" is all
	After     string // [LogPage.Next] of the page before; "" is the first page
	Limit     int    // of a page; 0 is [LogPageSize]
}

// LogPageSize is how many entries a page has unless a query says otherwise.
const LogPageSize = 25

// LogPage is a page of a log, the newest first.
type LogPage struct {
	Entries []LogEntry
	Hits    []LogHit // of a search: one an entry, in the same order; else nil
	Next    string   // for the page that follows; "" is none
}

// Log reads a page of a machine's log: its entries that are not deleted, by the time that they tell, the
// newest first, and of one minute the one that was entered last. It takes as long at ten thousand
// entries as at a hundred.
//
// A search finds entries in whose text or captions every word of it begins a word, in any order, whatever
// its case and accents: "gib scr" finds "Gib screws"; words in quotation marks stand side by side. A
// search without a word in it finds nothing.
//
// It returns [ErrNotFound] for a machine that is not there, and for an After that no page gave.
func (s *Store) Log(ctx context.Context, q LogQuery) (page LogPage, err error) {
	if q.Limit == 0 {
		q.Limit = LogPageSize
	}
	err = s.read(ctx, func(tx *sql.Tx) error {
		if _, err := headOf(ctx, tx, q.MachineID); err != nil {
			return err
		}
		condition, args, err := q.condition()
		if err != nil {
			return err
		}
		entries, err := logEntries(ctx, tx, condition, args...)
		if err != nil {
			return err
		}
		page.Entries = entries
		if len(entries) > q.Limit {
			page.Entries = entries[:q.Limit]
			if page.Next, err = cursorOf(ctx, tx, page.Entries[q.Limit-1]); err != nil {
				return err
			}
		}
		if strings.TrimSpace(q.Search) != "" {
			page.Hits, err = logHits(ctx, tx, q, page.Entries)
		}
		return err
	})
	return page, err
}

// condition is what an entry of the page fulfils, and one beyond it, that tells whether there is more.
func (q LogQuery) condition() (string, []any, error) {
	condition, args := `machine_id = ? AND deleted_at IS NULL`, []any{q.MachineID}
	if q.Upgrade != "" {
		condition, args = condition+` AND upgrade_id = ?`, append(args, q.Upgrade)
	}
	if q.Pictured {
		condition += ` AND EXISTS (SELECT 1 FROM log_photo WHERE log_photo.entry_id = log_entry.id)`
	}
	if strings.TrimSpace(q.Search) != "" {
		condition += ` AND id IN (SELECT rowid FROM log_search WHERE log_search MATCH ?)`
		args = append(args, matching(q.Search))
	}
	if q.After != "" {
		at, id, err := parseCursor(q.After)
		if err != nil {
			return "", nil, err
		}
		condition, args = condition+` AND (at, id) < (?, ?)`, append(args, at, id)
	}
	return condition + ` ORDER BY at DESC, id DESC LIMIT ?`, append(args, q.Limit+1), nil
}

// cursorOf tells where a page ended: what was entered or deleted meanwhile moves nothing.
func cursorOf(ctx context.Context, tx *sql.Tx, e LogEntry) (string, error) {
	is, err := logRowAt(ctx, tx, e.MachineID, e.Key)
	return e.At + "_" + strconv.FormatInt(is.id, 10), err
}

func parseCursor(cursor string) (at string, id int64, err error) {
	at, number, _ := strings.Cut(cursor, "_")
	id, err = strconv.ParseInt(number, 10, 64)
	if err != nil {
		return "", 0, fmt.Errorf("%w: %w", notFound("page of the log after", cursor), err)
	}
	return at, id, nil
}
