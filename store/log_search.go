package store

import (
	"context"
	"database/sql"
	"strings"
	"unicode"

	"fettle/plan/buildlog"
)

// LogHit is where a search was met in an entry.
type LogHit struct {
	Text     []Run   // some words of the text, about those that were met
	Captions [][]Run // of each photo, whole
}

// Run is a stretch of text, met by the search or not.
type Run struct {
	Text string
	Met  bool
}

// The marks stand in no text that is searched.
const (
	markMet = "\x01"
	markEnd = "\x02"
	// Between captions there is a letter for private use: to the index it is a word, so that no words in
	// quotation marks are met across it.
	letterParts = "\uE000"
	markParts   = " " + letterParts + " "
)

var noMarks = strings.NewReplacer(markMet, "", markEnd, "", letterParts, "")

// putLogWords brings what an entry says into the search.
func putLogWords(ctx context.Context, tx *sql.Tx, id int64, e buildlog.Entry) error {
	captions := make([]string, len(e.Photos))
	for i, p := range e.Photos {
		captions[i] = noMarks.Replace(p.Caption)
	}
	if _, err := tx.ExecContext(ctx, `DELETE FROM log_search WHERE rowid = ?`, id); err != nil {
		return err
	}
	_, err := tx.ExecContext(ctx, `INSERT INTO log_search (rowid, text, captions) VALUES (?, ?, ?)`,
		id, noMarks.Replace(e.Text), strings.Join(captions, markParts))
	return err
}

// matching writes a search as the index takes it. No word of it can be taken for one of its commands.
func matching(search string) string {
	var words []string
	for i, part := range strings.Split(search, `"`) {
		if i%2 == 1 { // in quotation marks
			words = appendWord(words, part)
			continue
		}
		for _, word := range strings.Fields(part) {
			words = appendWord(words, word)
		}
	}
	if len(words) == 0 {
		return `""`
	}
	return strings.Join(words, " AND ")
}

func appendWord(words []string, word string) []string {
	word = strings.ReplaceAll(word, "\x00", " ")
	if !strings.ContainsFunc(word, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) }) {
		return words
	}
	return append(words, `"`+word+`"*`)
}

// logHits reads where the search was met, of the entries of one page.
func logHits(ctx context.Context, tx *sql.Tx, q LogQuery, entries []LogEntry) ([]LogHit, error) {
	const query = `
		SELECT snippet(log_search, 0, ?, ?, '…', 32), highlight(log_search, 1, ?, ?)
		FROM log_search
		WHERE log_search MATCH ? AND rowid = ?`
	one, err := tx.PrepareContext(ctx, query)
	if err != nil {
		return nil, err
	}
	defer one.Close()
	hits := make([]LogHit, len(entries))
	for i, e := range entries {
		is, err := logRowAt(ctx, tx, e.MachineID, e.Key)
		if err != nil {
			return nil, err
		}
		var text, captions string
		if err := one.QueryRowContext(ctx, markMet, markEnd, markMet, markEnd, matching(q.Search), is.id).Scan(&text, &captions); err != nil {
			return nil, err
		}
		hits[i].Text = runs(text)
		if len(e.Photos) == 0 {
			continue
		}
		for caption := range strings.SplitSeq(captions, markParts) {
			hits[i].Captions = append(hits[i].Captions, runs(caption))
		}
	}
	return hits, nil
}

// runs parts a text at its marks.
func runs(marked string) (all []Run) {
	for i, part := range strings.Split(marked, markMet) {
		met, rest, closed := strings.Cut(part, markEnd)
		if i == 0 || !closed { // before the first mark
			met, rest = "", part
		}
		if met != "" {
			all = append(all, Run{met, true})
		}
		if rest != "" {
			all = append(all, Run{rest, false})
		}
	}
	return all
}
