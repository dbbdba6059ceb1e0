-- Photos, beside their pictures in the photo store; and people who joined with a phone.
CREATE TABLE photos (
    job TEXT NOT NULL REFERENCES jobs (key),
    -- The SHA-256 of the bytes that the phone sent, in lower-case hexadecimal.
    key TEXT NOT NULL,
    -- When it was taken, if the phone said so.
    taken TEXT,
    -- Which way the camera looked, in tenths of a degree from north, if the phone said so.
    facing BIGINT,
    -- Who sent it.
    person TEXT NOT NULL,
    received TEXT NOT NULL,
    -- The picture as it is kept.
    width BIGINT NOT NULL,
    height BIGINT NOT NULL,
    bytes BIGINT NOT NULL,
    PRIMARY KEY (job, key)
);

CREATE TABLE people (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    -- The SHA-256 of the secret that the phone holds, in lower-case hexadecimal.
    token TEXT NOT NULL,
    joined TEXT NOT NULL,
    -- When the phone was last heard of.
    seen TEXT NOT NULL,
    -- When it was shut out, if it was.
    revoked TEXT
);
