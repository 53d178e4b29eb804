-- What the owner noted of a machine's buy list, and the bar that is in the rack for it.
--
-- A mark is kept by the key of its line, which is made from what the line is, so that it survives a
-- change of the plan. Prices, counts and sizes are kept as they were typed.

CREATE TABLE shopping (
	id         INTEGER PRIMARY KEY,
	machine_id INTEGER NOT NULL UNIQUE REFERENCES machine (id) ON DELETE CASCADE,
	currency   TEXT NOT NULL,             -- of a price without one, as typed; '': not said
	revision   INTEGER NOT NULL CHECK (revision > 0) -- counts the changes of the marks and the offcuts too
) STRICT;

CREATE TABLE shopping_mark (
	id          INTEGER PRIMARY KEY,
	shopping_id INTEGER NOT NULL REFERENCES shopping (id) ON DELETE CASCADE,
	key         TEXT NOT NULL CHECK (key <> ''),
	called      TEXT NOT NULL,            -- what the line was when it was marked
	state       TEXT NOT NULL CHECK (state IN ('to get', 'ordered', 'bought', 'had already')),
	quantity    TEXT NOT NULL,            -- typed: how many that is true of; '': as many as are needed
	price       TEXT NOT NULL,            -- typed, of one; '': not said
	note        TEXT NOT NULL,
	UNIQUE (shopping_id, key)
) STRICT;

CREATE TABLE offcut (
	id          INTEGER PRIMARY KEY,
	shopping_id INTEGER NOT NULL REFERENCES shopping (id) ON DELETE CASCADE,
	position    INTEGER NOT NULL,
	label       TEXT NOT NULL,
	material    TEXT NOT NULL,            -- key of a material; '': not said
	form        TEXT NOT NULL,            -- "round", "flat", …
	across      TEXT NOT NULL,            -- typed: the diameter, or the width
	second      TEXT NOT NULL,            -- typed: the thickness of a flat; '': none
	length      TEXT NOT NULL             -- typed
) STRICT;
CREATE INDEX offcut_shopping ON offcut (shopping_id);
