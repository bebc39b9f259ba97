-- Which prints reached the disk under their final names: only these may be on
-- paper. A print that is not here was stopped between its numbers and its file.
CREATE TABLE written (
	print INTEGER PRIMARY KEY REFERENCES prints (number),
	at    TEXT NOT NULL
) STRICT;

CREATE TRIGGER written_keep BEFORE DELETE ON written
BEGIN SELECT raise(ABORT, 'nothing is deleted from a register'); END;
CREATE TRIGGER written_stay BEFORE UPDATE ON written
BEGIN SELECT raise(ABORT, 'nothing is written over in a register'); END;
