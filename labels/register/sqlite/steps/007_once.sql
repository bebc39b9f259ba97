-- The asking that a print came from: the same asking prints once, also after the
-- program was started anew. What came of one asking is written in one transaction.
ALTER TABLE prints ADD COLUMN once TEXT NOT NULL DEFAULT '';
CREATE INDEX prints_once ON prints (once) WHERE once <> '';
