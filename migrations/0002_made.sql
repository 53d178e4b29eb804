-- A size as measured on a finished part of an upgrade, as it was typed. Its key is that of the part and
-- the name of the size, joined by a dot: "bracket.length".

CREATE TABLE upgrade_made (
	id         INTEGER PRIMARY KEY,
	upgrade_id INTEGER NOT NULL REFERENCES upgrade (id) ON DELETE CASCADE,
	key        TEXT NOT NULL CHECK (key GLOB '[a-z_]*' AND key NOT GLOB '*[^a-z0-9_.]*'),
	typed      TEXT NOT NULL,             -- '': not given
	spread     TEXT NOT NULL,             -- typed: how far off it can be; '': as the instrument usually is
	instrument TEXT NOT NULL,             -- '': not said
	taken_on   TEXT NOT NULL,             -- a day, as typed; '': not said
	origin     TEXT NOT NULL CHECK (origin IN ('', 'measured', 'as made', 'assumed', 'chosen', 'unknown')),
	note       TEXT NOT NULL,
	UNIQUE (upgrade_id, key)
) STRICT;
