-- Sessions and weeks, the largest tables of the plans, in parts by a hash of the person (PostgreSQL 14 or newer).
-- For records that have outgrown one table: stop every process, back up, then psql --single-transaction --file partition.sql.
-- The program works on as before: each of its questions names the person, so that the database looks into one part alone.

ALTER TABLE session RENAME TO session_whole;
ALTER TABLE session_whole RENAME CONSTRAINT pk_session TO pk_session_whole;
CREATE TABLE session (
    LIKE session_whole INCLUDING DEFAULTS,
    CONSTRAINT pk_session PRIMARY KEY (who, "on"),
    CONSTRAINT fk_session_who FOREIGN KEY (who) REFERENCES person (who) ON DELETE CASCADE
) PARTITION BY HASH (who);

ALTER TABLE week RENAME TO week_whole;
ALTER TABLE week_whole RENAME CONSTRAINT pk_week TO pk_week_whole;
CREATE TABLE week (
    LIKE week_whole INCLUDING DEFAULTS,
    CONSTRAINT pk_week PRIMARY KEY (who, number),
    CONSTRAINT fk_week_who FOREIGN KEY (who) REFERENCES person (who) ON DELETE CASCADE
) PARTITION BY HASH (who);

DO $$
BEGIN
    FOR part IN 0..7 LOOP
        EXECUTE format('CREATE TABLE session_%s PARTITION OF session FOR VALUES WITH (MODULUS 8, REMAINDER %s)', part, part);
        EXECUTE format('CREATE TABLE week_%s PARTITION OF week FOR VALUES WITH (MODULUS 8, REMAINDER %s)', part, part);
    END LOOP;
END $$;

INSERT INTO session SELECT * FROM session_whole;
INSERT INTO week SELECT * FROM week_whole;
DROP TABLE session_whole;
DROP TABLE week_whole;
ANALYZE session;
ANALYZE week;
