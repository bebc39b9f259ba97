-- What is needed to make a print once more as it was, what asked for it, and
-- the file that it is in.
ALTER TABLE prints ADD COLUMN pack TEXT NOT NULL DEFAULT '';
ALTER TABLE prints ADD COLUMN market TEXT NOT NULL DEFAULT '';
ALTER TABLE prints ADD COLUMN langs TEXT NOT NULL DEFAULT '';
ALTER TABLE prints ADD COLUMN paper TEXT NOT NULL DEFAULT '';
ALTER TABLE prints ADD COLUMN asked TEXT NOT NULL DEFAULT '';
ALTER TABLE prints ADD COLUMN file TEXT NOT NULL DEFAULT '';

-- What became of numbers: they are applied, or void. What is applied may still
-- become void; what is void stays void.
CREATE TABLE ends (
	number INTEGER PRIMARY KEY,
	series TEXT NOT NULL,
	lo     INTEGER NOT NULL CHECK (lo >= 1),
	hi     INTEGER NOT NULL CHECK (hi >= lo),
	state  TEXT NOT NULL CHECK (state IN ('applied', 'void')),
	why    TEXT NOT NULL,
	at     TEXT NOT NULL
) STRICT;

CREATE INDEX ends_numbers ON ends (series, hi);

CREATE TRIGGER ends_once BEFORE INSERT ON ends
WHEN EXISTS (SELECT 1 FROM ends WHERE series = NEW.series AND hi >= NEW.lo AND lo <= NEW.hi AND state IN ('void', NEW.state))
BEGIN SELECT raise(ABORT, 'a number ends once'); END;

CREATE TRIGGER ends_keep BEFORE DELETE ON ends
BEGIN SELECT raise(ABORT, 'nothing is deleted from a register'); END;

CREATE TRIGGER ends_stay BEFORE UPDATE ON ends
BEGIN SELECT raise(ABORT, 'nothing is written over in a register'); END;
