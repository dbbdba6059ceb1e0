"""The JSON Schema of the job document, against a general validator.

Sources: JSON Schema draft 2020-12 as the jsonschema package (reference library) implements it; TOML
as tomllib (Python standard library) reads it. Every example must be accepted, and every example
that is spoiled in one way must be refused.
"""

import copy
import datetime
import tomllib

from jsonschema import Draft202012Validator

from cases import EXAMPLES, close, grounds

compared, differences = 0, []


def plain(value):
    """A TOML document as JSON: dates become text."""
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, list):
        return [plain(item) for item in value]
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    return value


def spoiled(job):
    """Copies of a job, each wrong in one way, with what is wrong."""

    def change(what, alter):
        copied = copy.deepcopy(job)
        alter(copied)
        return what, copied

    place = next(iter(job["places"]))
    yield change("a key that does not exist", lambda j: j.update(plases={}))
    yield change("a place without a level", lambda j: j["places"][place].pop("level"))
    yield change("a name that is a number", lambda j: j["job"].update(name=7))
    yield change("crews that are a text", lambda j: j["places"][place].update(crews="two"))
    yield change("units that nobody uses", lambda j: j["job"].update(units="cubits"))
    yield change("no format", lambda j: j.pop("format"))
    yield change("a day that is not in the week", lambda j: next(iter(j["calendars"].values())).update(days=["funday"]))


schema = grounds("schema")
Draft202012Validator.check_schema(schema)
validator = Draft202012Validator(schema)
for folder in EXAMPLES:
    job = plain(tomllib.loads((folder / "job.toml").read_text(encoding="utf-8")))
    compared += 1
    for error in validator.iter_errors(job):
        differences.append(f"{folder.name}: {error.json_path}: {error.message[:200]}")
    for what, wrong in spoiled(job):
        compared += 1
        if validator.is_valid(wrong):
            differences.append(f"{folder.name} with {what} is accepted")

close(compared, differences)
