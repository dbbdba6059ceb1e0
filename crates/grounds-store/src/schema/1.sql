-- Jobs and their notes. Plain SQL, so that a larger database server can hold the same tables.
CREATE TABLE jobs (
    key TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    -- The job document, character for character as it was given.
    document TEXT NOT NULL,
    -- The number of the note received last; 0 before the first.
    last_seq BIGINT NOT NULL DEFAULT 0,
    -- Moments in RFC 3339, in UTC.
    created TEXT NOT NULL,
    changed TEXT NOT NULL
);

CREATE TABLE notes (
    job TEXT NOT NULL REFERENCES jobs (key),
    -- The order in which the notes of one job were received, from 1 without a gap.
    seq BIGINT NOT NULL,
    -- The note's own id: a note is received once, however often it is sent.
    id TEXT NOT NULL,
    -- The note as one line of JSON.
    body TEXT NOT NULL,
    received TEXT NOT NULL,
    PRIMARY KEY (job, seq),
    UNIQUE (job, id)
);
