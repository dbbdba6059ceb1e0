"""Every date and time of a plan, against Python's own readers.

Sources: RFC 3339 as read by datetime.fromisoformat (Python standard library) and dateutil.parser
(reference library); offsets of time zones by zoneinfo with the IANA database (tzdata).
"""

import tomllib
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from dateutil import parser

from cases import EXAMPLES, close, grounds

compared, differences = 0, []


def compare(text, zone):
    """Reads one time twice, and compares its offset with that of its zone."""
    global compared
    compared += 1
    read, again = datetime.fromisoformat(text), parser.isoparse(text)
    offset = read.astimezone(zone).utcoffset()
    if read != again or read.utcoffset() != offset or read.astimezone(zone).isoformat() != text:
        differences.append(f"{text}: dateutil {again}, offset of the zone {offset}")
    return read


for folder in EXAMPLES:
    job = tomllib.loads((folder / "job.toml").read_text(encoding="utf-8"))
    zone = ZoneInfo(job["job"]["zone"])
    # In winter and in summer, so that both offsets are met.
    for at in (f"{datetime.fromisoformat(job['job']['begins']) + timedelta(days=30 * month):%Y-%m-%d}" for month in (1, 7)):
        plan = grounds("weeks", folder, "--at", at, "--json")
        compare(plan["finish"], zone)
        for work in plan["work"]:
            start, finish = compare(work["start"], zone), compare(work["finish"], zone)
            if finish < start:
                differences.append(f"{work['id']} ends before it starts")

close(compared, differences)
