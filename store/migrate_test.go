package store_test

import (
	"database/sql"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"fettle/migrations"
	"fettle/plan/buildlog"
	"fettle/plan/machine"
	"fettle/store"
)

var update = flag.Bool("update", false, "write testdata that is missing")

// steps makes a file system of migrations from name, text, name, text, …
func steps(pairs ...string) fstest.MapFS {
	files := fstest.MapFS{}
	for i := 0; i < len(pairs); i += 2 {
		files[pairs[i]] = &fstest.MapFile{Data: []byte(pairs[i+1])}
	}
	return files
}

// ask gives the one text that a query on a file answers.
func ask(t *testing.T, file, query string) (answer string) {
	t.Helper()
	db, err := sql.Open("sqlite3", "file:"+file)
	require.NoError(t, err)
	defer db.Close()
	require.NoError(t, db.QueryRowContext(t.Context(), query).Scan(&answer))
	return answer
}

// do runs statements on a file, made if it is not there.
func do(t *testing.T, file, statements string) {
	t.Helper()
	db, err := sql.Open("sqlite3", "file:"+file)
	require.NoError(t, err)
	defer db.Close()
	_, err = db.ExecContext(t.Context(), statements)
	require.NoError(t, err)
}

var twoTables = []string{
	"0001_tables.sql", `
		CREATE TABLE parent (id INTEGER PRIMARY KEY, name TEXT) STRICT;
		CREATE TABLE child (id INTEGER PRIMARY KEY, parent_id INTEGER REFERENCES parent (id) ON DELETE CASCADE) STRICT;
		INSERT INTO parent VALUES (1, 'kept');
		INSERT INTO child VALUES (1, 1);`,
}

// With foreign keys on, dropping the old table would take the children with it.
func TestRebuildingATableKeepsItsChildren(t *testing.T) {
	folder := t.TempDir()
	file, backups := filepath.Join(folder, "f.sqlite"), filepath.Join(folder, "backups")
	require.NoError(t, store.Migrate(t.Context(), file, backups, steps(twoTables...)))
	require.NoDirExists(t, backups, "there was nothing to copy")

	both := steps(append(twoTables, "0002_rebuild.sql", `
		CREATE TABLE parent_new (id INTEGER PRIMARY KEY, name TEXT NOT NULL) STRICT;
		INSERT INTO parent_new SELECT id, name FROM parent;
		DROP TABLE parent;
		ALTER TABLE parent_new RENAME TO parent;`)...)
	do(t, file, `INSERT INTO parent VALUES (2, 'written since')`)
	require.NoError(t, store.Migrate(t.Context(), file, backups, both))
	require.Equal(t, "1", ask(t, file, `SELECT count(*) FROM child`))
	require.Equal(t, "2", ask(t, file, `PRAGMA user_version`))

	// The file as it was before.
	copied := filepath.Join(backups, "fettle-before-0002.sqlite")
	require.Equal(t, "1", ask(t, copied, `PRAGMA user_version`))
	require.Equal(t, "2", ask(t, copied, `SELECT count(*) FROM parent`))
	require.NoError(t, store.Migrate(t.Context(), file, backups, both), "again")
	require.Len(t, files(t, backups), 1)
}

func files(t *testing.T, folder string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestCopyNeverReplacesAnother(t *testing.T) {
	folder := t.TempDir()
	backups := filepath.Join(folder, "backups")
	both := steps(append(twoTables, "0002_index.sql", `CREATE INDEX child_parent ON child (parent_id)`)...)
	for i := range 3 {
		file := filepath.Join(folder, fmt.Sprintf("%d.sqlite", i))
		require.NoError(t, store.Migrate(t.Context(), file, backups, steps(twoTables...)))
		do(t, file, fmt.Sprintf(`UPDATE parent SET name = 'file %d'`, i))
		require.NoError(t, store.Migrate(t.Context(), file, backups, both))
	}
	require.Equal(t, []string{"fettle-before-0002-2.sqlite", "fettle-before-0002-3.sqlite", "fettle-before-0002.sqlite"}, files(t, backups))
	require.Equal(t, "file 0", ask(t, filepath.Join(backups, "fettle-before-0002.sqlite"), `SELECT name FROM parent`))
	require.Equal(t, "file 2", ask(t, filepath.Join(backups, "fettle-before-0002-3.sqlite"), `SELECT name FROM parent`))
}

func TestStepIsTakenWholeOrNotAtAll(t *testing.T) {
	for name, tc := range map[string]struct{ text, say string }{
		"fault":   {`CREATE TABLE other (id INTEGER PRIMARY KEY) STRICT; CREATE TABLE parent (x TEXT)`, "already exists"},
		"orphans": {`CREATE TABLE other (id INTEGER PRIMARY KEY) STRICT; DELETE FROM parent`, "1 rows that belong to nothing"},
	} {
		file := filepath.Join(t.TempDir(), "f.sqlite")
		err := store.Migrate(t.Context(), file, t.TempDir(), steps(append(twoTables, "0002_bad.sql", tc.text)...))
		require.ErrorContains(t, err, "step 0002_bad.sql: ", name)
		require.ErrorContains(t, err, tc.say, name)
		require.Equal(t, "1", ask(t, file, `PRAGMA user_version`), name)
		require.Equal(t, "2", ask(t, file, `SELECT count(*) FROM sqlite_schema`), name)
		require.Equal(t, "kept", ask(t, file, `SELECT name FROM parent`), name)
	}
}

func TestGapBetweenStepsIsRefused(t *testing.T) {
	for _, names := range [][]string{
		{"0002_first.sql"},
		{"0001_a.sql", "0003_c.sql"},
		{"0001_a.sql", "0001_b.sql"},
		{"1_a.sql"},
	} {
		fs := steps()
		for _, name := range names {
			fs[name] = &fstest.MapFile{Data: []byte(`SELECT 1`)}
		}
		file := filepath.Join(t.TempDir(), "f.sqlite")
		require.ErrorContains(t, store.Migrate(t.Context(), file, t.TempDir(), fs), "the next number is", strings.Join(names, " "))
		require.NoFileExists(t, file)
	}
}

func TestNewerFileIsRefused(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, store.FileName)
	do(t, file, `CREATE TABLE machine_of_tomorrow (id INTEGER PRIMARY KEY) STRICT; PRAGMA user_version = 99`)
	_, err := store.Open(t.Context(), folder, atNoon)
	var newer *store.NewerError
	require.ErrorAs(t, err, &newer)
	require.Equal(t, 99, newer.Found)
	require.ErrorContains(t, err, "a newer Fettle has written this data (step 99; this program knows ")
	require.Equal(t, "1", ask(t, file, `SELECT count(*) FROM sqlite_schema`), "left as it is")
}

func TestFileOfSomethingElseIsRefused(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, store.FileName)
	do(t, file, `CREATE TABLE recipe (id INTEGER PRIMARY KEY) STRICT`)
	_, err := store.Open(t.Context(), folder, atNoon)
	require.ErrorContains(t, err, "holds something else than machines")
	require.Equal(t, "1", ask(t, file, `SELECT count(*) FROM sqlite_schema`))
}

// A saved file of every released version, as the statements that make it.
func TestSavedFilesOpen(t *testing.T) {
	all := []struct {
		machine  machine.Machine
		shopping store.Shopping
		log      []buildlog.Entry
	}{{machine: saved1()}, {machine: saved2()}, {saved2(), shopping3(), nil}, {saved2(), shopping3(), log4()}, {saved2(), shopping3(), log4()}, {saved2(), shopping3(), log4()}}
	for i, want := range all {
		name := fmt.Sprintf("testdata/version-%d.sql", i+1)
		if _, err := os.Stat(name); *update && err != nil { // one that is there stays as its version wrote it
			saveVersion(t, name, i+1, want.machine, want.shopping, want.log)
		}
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		folder := t.TempDir()
		file := filepath.Join(folder, store.FileName)
		do(t, file, string(text))
		require.Equal(t, strconv.Itoa(i+1), ask(t, file, `PRAGMA user_version`), name)
		s := open(t, folder)
		list, err := s.Machines(t.Context())
		require.NoError(t, err)
		require.Len(t, list, 1, name)
		got := read(t, s, list[0].ID)
		require.Equal(t, want.machine, got.Machine, name)
		require.Equal(t, map[string]int64{"cross": 1}, got.AxisRevisions)
		require.Equal(t, noon, got.Created)
		sh, _, err := s.Shopping(t.Context(), list[0].ID)
		require.NoError(t, err)
		require.Equal(t, want.shopping, sh, name)
		log, err := s.WholeLog(t.Context(), list[0].ID)
		require.NoError(t, err)
		require.Equal(t, want.log, log, name)
		found := page(t, s, store.LogQuery{MachineID: list[0].ID, Search: "bracket"})
		require.Equal(t, len(want.log) > 0, len(found.Entries) > 0, "the log is searched")
		devices, err := s.Devices(t.Context())
		require.NoError(t, err)
		require.Equal(t, i+1 >= 5, len(devices) == 1)
	}
	names, err := fs.Glob(migrations.Files, "*.sql")
	require.NoError(t, err)
	require.Len(t, all, len(names), "a version without a saved file")
}

// The mass of what moves was two figures until step 6. What was typed is kept, in place of
// what was blank or assumed; a part's figure of that name is another one.
func TestMovingMassIsOneFigure(t *testing.T) {
	text, err := os.ReadFile("testdata/version-5.sql")
	require.NoError(t, err)
	for _, tc := range []struct{ typed, origin, want string }{
		{"", "", "34"}, {"12", "assumed", "34"}, {"12", "", "12"},
	} {
		folder := t.TempDir()
		do(t, filepath.Join(folder, store.FileName), string(text)+fmt.Sprintf(`
			INSERT INTO entry VALUES (90, 1, NULL, NULL, 'slide_mass', '34', '', 'rule', '', '', '');
			INSERT INTO entry VALUES (91, 1, NULL, NULL, 'moving_mass', '%s', '', '', '', '%s', '');
			INSERT INTO entry VALUES (92, 1, 3, NULL, 'slide_mass', '5', '', '', '', '', '');`, tc.typed, tc.origin))
		s := open(t, folder)
		list, err := s.Machines(t.Context())
		require.NoError(t, err)
		a := read(t, s, list[0].ID).Axes[0]
		require.Equal(t, tc.want, a.Entries["moving_mass"].Typed)
		require.Equal(t, tc.want == "12", a.Entries["slide_mass"].Given(), "nothing that was typed is lost")
		require.Equal(t, "5", a.Parts[2].Entries["slide_mass"].Typed)
	}
}

// Every foreign key is the beginning of an index.
func TestForeignKeysAreIndexed(t *testing.T) {
	folder := t.TempDir()
	open(t, folder)
	file := filepath.Join(folder, store.FileName)
	require.Equal(t, "20", ask(t, file, `
		SELECT count(*) FROM sqlite_schema AS t, pragma_foreign_key_list(t.name) WHERE t.type = 'table'`))
	require.Equal(t, "", ask(t, file, `
		SELECT ifnull(group_concat(t.name || '.' || k."from"), '')
		FROM sqlite_schema AS t, pragma_foreign_key_list(t.name) AS k
		WHERE t.type = 'table' AND NOT EXISTS (
			SELECT 1 FROM pragma_index_list(t.name) AS i, pragma_index_info(i.name) AS c
			WHERE c.seqno = 0 AND c.name = k."from" AND i.partial = 0)`))
	require.Equal(t, "0", ask(t, file, `SELECT count(*) FROM pragma_table_list WHERE schema = 'main' AND type = 'table'
		AND NOT strict AND name NOT LIKE 'sqlite_%'`))
}

// saveVersion writes the statements that make a file of a version with one machine: the steps' own, and
// a row at a time.
func saveVersion(t *testing.T, name string, version int, m machine.Machine, sh store.Shopping, log []buildlog.Entry) {
	folder := t.TempDir()
	s := open(t, folder)
	id, err := s.AddMachine(t.Context(), m, log...)
	require.NoError(t, err)
	tables := []string{"machine", "axis", "answer", "part", "obstacle", "entry", "upgrade", "upgrade_input"}
	if version >= 2 {
		tables = append(tables, "upgrade_made")
	}
	if version >= 3 {
		tables = append(tables, "shopping", "shopping_mark", "offcut")
		_, err := s.SaveShopping(t.Context(), id, 0, sh)
		require.NoError(t, err)
	}
	if version >= 4 {
		tables = append(tables, "log_entry", "photo", "log_photo", "staged_photo")
	}
	if version >= 5 {
		tables = append(tables, "passphrase", "device")
		require.NoError(t, s.SetPassphrase(t.Context(), "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"))
		_, err := s.AddDevice(t.Context(), "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
			store.Token{1, 2, 3}, store.Device{Name: "Telefon in der Werkstatt", Way: store.ByCode, Expires: noon.AddDate(0, 0, 30)}, 0)
		require.NoError(t, err)
	}
	names, err := fs.Glob(migrations.Files, "*.sql")
	require.NoError(t, err)
	var text strings.Builder
	for _, step := range names[:version] {
		schema, err := migrations.Files.ReadFile(step)
		require.NoError(t, err)
		text.Write(schema)
	}
	fmt.Fprintf(&text, "\nPRAGMA user_version = %d;\n", version)
	file := filepath.Join(folder, store.FileName)
	for _, table := range tables {
		values := ask(t, file, fmt.Sprintf(`
			SELECT group_concat('quote("' || name || '")', ' || '', '' || ') FROM pragma_table_info('%s')`, table))
		text.WriteString(ask(t, file, fmt.Sprintf(`
			SELECT ifnull(group_concat('INSERT INTO %s VALUES (' || %s || ');' || char(10), ''), '') FROM "%[1]s"`, table, values)))
	}
	if version >= 4 { // columns of the index itself are hidden from its list
		text.WriteString(ask(t, file, `
			SELECT group_concat('INSERT INTO log_search (rowid, text, captions) VALUES (' || rowid || ', ' || quote(text) || ', ' ||
				quote(captions) || ');' || char(10), '')
			FROM log_search`))
	}
	require.NoError(t, os.WriteFile(name, []byte(text.String()), 0o600))
}
