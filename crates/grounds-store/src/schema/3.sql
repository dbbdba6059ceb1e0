-- Spoken walks, as they were given, and what was answered to what they propose. Both only grow.
CREATE TABLE walks (
    job TEXT NOT NULL REFERENCES jobs (key),
    -- The walk's own id: a walk is kept once, however often it is given.
    id TEXT NOT NULL,
    -- The walk as one line of JSON, without its transcript.
    head TEXT NOT NULL,
    -- The transcript, character for character as it was given.
    transcript TEXT NOT NULL,
    received TEXT NOT NULL,
    PRIMARY KEY (job, id)
);

CREATE TABLE walk_answers (
    job TEXT NOT NULL,
    walk TEXT NOT NULL,
    -- The order in which the answers of one walk were given, from 1 without a gap.
    seq BIGINT NOT NULL,
    -- The answer as one line of JSON.
    body TEXT NOT NULL,
    PRIMARY KEY (job, walk, seq),
    FOREIGN KEY (job, walk) REFERENCES walks (job, id)
);
