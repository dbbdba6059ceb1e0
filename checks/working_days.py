"""Working days of a thousand drawn cases, against numpy's business days.

Source: numpy.busday_offset and numpy.busday_count (numpy, reference library), with each case's
working week as weekmask and its closed days as holidays.

- Work of N whole days from a day on ends on busday_offset(day, N - 1, roll="forward").
- Working days between two days are busday_count(from, until), the last one not counted.
- Notice of N working days given on a day runs out on busday_offset(day, N, roll="backward").
"""

import numpy as np

from cases import cases, close

compared, differences = 0, []


def compare(what, ours, theirs):
    """Counts one comparison, and keeps it where the two differ."""
    global compared
    compared += 1
    if str(ours) != str(theirs):
        differences.append(f"{what}: ours {ours}, numpy {theirs}")


for calendar in cases("calendars"):
    days = np.busdaycalendar(weekmask=calendar["week"], holidays=calendar["closed"])
    for case in calendar["cases"]:
        ends = np.busday_offset(case["from"], case["days"] - 1, roll="forward", busdaycal=days)
        compare(f"{case['days']} days from {case['from']}", case["ends"], ends)
        between = np.busday_count(case["from"], case["until"], busdaycal=days)
        compare(f"days in {case['from']} to {case['until']}", case["between"], between)
    told, notice, first = calendar["notice"]
    allowed = np.busday_offset(told, notice, roll="backward", busdaycal=days)
    compare(f"notice of {notice} days on {told}", first, allowed)

close(compared, differences)
