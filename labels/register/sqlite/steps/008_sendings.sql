-- What was sent to printers, step by step: noted before it is sent, and when it is
-- known what became of it. Where the last step of a job is 'sending' or 'unknown',
-- nobody knows whether it is on paper.
CREATE TABLE sendings (
	number  INTEGER PRIMARY KEY,
	mark    TEXT NOT NULL,
	printer TEXT NOT NULL,
	what    TEXT NOT NULL,
	series  TEXT NOT NULL,
	lo      INTEGER NOT NULL,
	hi      INTEGER NOT NULL,
	pages   INTEGER NOT NULL CHECK (pages >= 1),
	came    TEXT NOT NULL CHECK (came IN ('sending', 'printed', 'refused', 'stopped', 'unknown')),
	why     TEXT NOT NULL,
	at      TEXT NOT NULL
) STRICT;

CREATE INDEX sendings_mark ON sendings (mark);

CREATE TRIGGER sendings_end BEFORE INSERT ON sendings
WHEN EXISTS (SELECT 1 FROM sendings WHERE mark = NEW.mark AND (came IN ('printed', 'refused', 'stopped') OR NEW.came = 'sending'))
BEGIN SELECT raise(ABORT, 'a job is sent once and ends once'); END;

CREATE TRIGGER sendings_keep BEFORE DELETE ON sendings
BEGIN SELECT raise(ABORT, 'nothing is deleted from a register'); END;

CREATE TRIGGER sendings_stay BEFORE UPDATE ON sendings
BEGIN SELECT raise(ABORT, 'nothing is written over in a register'); END;
