-- The build log: what was done, what it took, and photos of it.
--
-- Hours and costs are kept as they were typed. A photo's file is named by its content; a row says that it
-- was kept, and the entry that shows it names the row.

ALTER TABLE machine ADD COLUMN log_changes INTEGER NOT NULL DEFAULT 0; -- counts the changes of its log

CREATE TABLE log_entry (
	id         INTEGER PRIMARY KEY,
	machine_id INTEGER NOT NULL REFERENCES machine (id) ON DELETE CASCADE,
	-- Given by whoever writes the entry, before it is sent: sent twice, it is still one.
	key        TEXT NOT NULL CHECK (length(key) BETWEEN 1 AND 64 AND key NOT GLOB '*[^A-Za-z0-9_-]*'),
	at         TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M', at)), -- on the workshop's clock, no zone
	text       TEXT NOT NULL,             -- Markdown
	hours      TEXT NOT NULL,             -- typed; '': not said
	cost       TEXT NOT NULL,             -- typed; '': not said
	currency   TEXT NOT NULL,             -- typed, of a cost without one; '': not said
	axis_key   TEXT NOT NULL,             -- '': none
	upgrade_id TEXT,                      -- NULL: none
	part_key   TEXT NOT NULL,             -- '': none
	first_sent TEXT NOT NULL,             -- SHA-256 of the entry as it first came: the same again is no change
	revision   INTEGER NOT NULL CHECK (revision > 0),
	created_at TEXT NOT NULL,
	changed_at TEXT NOT NULL,
	deleted_at TEXT,                      -- NULL: it is not deleted
	UNIQUE (machine_id, key),
	FOREIGN KEY (machine_id, upgrade_id) REFERENCES upgrade (machine_id, public_id)
) STRICT;
-- A page of the log is one reach into one of these, at any length of the log.
CREATE INDEX log_entry_machine ON log_entry (machine_id, deleted_at, at);
CREATE INDEX log_entry_upgrade ON log_entry (upgrade_id, machine_id, deleted_at, at);
-- All that a sum reads, in the order in which it is grouped.
CREATE INDEX log_entry_spent ON log_entry (machine_id, deleted_at, upgrade_id, hours, cost, currency);
CREATE INDEX log_entry_deleted ON log_entry (deleted_at) WHERE deleted_at IS NOT NULL;

-- A photo that was kept, or of which an imported log tells.
CREATE TABLE photo (
	id       INTEGER PRIMARY KEY,
	sha256   TEXT NOT NULL UNIQUE CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
	type     TEXT NOT NULL CHECK (type IN ('image/jpeg', 'image/png', 'image/webp', 'image/heic')),
	width    INTEGER NOT NULL CHECK (width > 0),  -- pixels, the right way up
	height   INTEGER NOT NULL CHECK (height > 0),
	taken    TEXT NOT NULL,               -- on the camera's clock: 2026-03-01T14:30:05; '': not said
	place    TEXT NOT NULL,               -- latitude and longitude in degrees, WGS 84: 51.4779,-0.0015; '': not said
	added_at TEXT NOT NULL
) STRICT;

CREATE TABLE log_photo (
	id       INTEGER PRIMARY KEY,
	entry_id INTEGER NOT NULL REFERENCES log_entry (id) ON DELETE CASCADE,
	photo_id INTEGER NOT NULL REFERENCES photo (id),
	position INTEGER NOT NULL,
	caption  TEXT NOT NULL,
	role     TEXT NOT NULL CHECK (role IN ('', 'before', 'after')),
	UNIQUE (entry_id, photo_id)
) STRICT;
CREATE INDEX log_photo_photo ON log_photo (photo_id);
CREATE UNIQUE INDEX log_photo_role ON log_photo (entry_id, role) WHERE role <> '';

-- A photo that has come before its entry.
CREATE TABLE staged_photo (
	id         INTEGER PRIMARY KEY,
	machine_id INTEGER NOT NULL REFERENCES machine (id) ON DELETE CASCADE,
	entry_key  TEXT NOT NULL CHECK (length(entry_key) BETWEEN 1 AND 64 AND entry_key NOT GLOB '*[^A-Za-z0-9_-]*'),
	photo_id   INTEGER NOT NULL REFERENCES photo (id),
	staged_at  TEXT NOT NULL,
	UNIQUE (machine_id, entry_key, photo_id)
) STRICT;
CREATE INDEX staged_photo_photo ON staged_photo (photo_id);

-- The words of entries, rowid that of the entry. The deleted ones are among them.
CREATE VIRTUAL TABLE log_search USING fts5 (text, captions, tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3');
