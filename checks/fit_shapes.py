"""Openings, planes and cut lists against numpy and scipy.

Sources: the largest upright rectangle in a convex outline is a concave program in its four edges
(the logarithm of the area under linear limits, textbook), solved here by scipy's SLSQP and judged on
area and on lying inside; the plane of least squares by numpy's lstsq, that of total least squares by
its singular values; the least shims are a linear program, by scipy's linprog (HiGHS); the fewest
stock lengths are an integer program over all patterns, by scipy's milp (HiGHS).

Tolerances: areas agree to a part in a million (SLSQP's own end), planes to a millionth of a
millimetre over the house, shims to a thousandth of a millimetre per seat; counts exactly where the
list is proven, and never beyond the bound.
"""

import numpy as np
from scipy.optimize import LinearConstraint, linprog, milp, minimize

from cases import cases, close

MOST_PATTERNS = 4000
compared, differences = 0, []
ours = cases("shapes")


def holds(what, statement):
    """Counts one comparison, and keeps it where it does not hold."""
    global compared
    compared += 1
    if not statement:
        differences.append(what)


def limits(corners):
    """Rows over left, right, bottom, top that keep a rectangle inside: rows · edges <= most."""
    corners = np.array(corners)
    rows, most = [], []
    for a, b in zip(corners, np.roll(corners, -1, axis=0)):
        out = np.array([b[1] - a[1], a[0] - b[0]])
        out /= np.linalg.norm(out)
        row = [min(out[0], 0), max(out[0], 0), min(out[1], 0), max(out[1], 0)]
        rows.append(row)
        most.append(out @ a)
    return np.array(rows), np.array(most)


def largest(corners):
    """The largest area, from the middle of the outline."""
    rows, most = limits(corners)
    middle = np.mean(corners, axis=0)
    spread = np.ptp(np.array(corners), axis=0)
    start = np.array([middle[0], middle[0], middle[1], middle[1]])
    start = start + np.array([-spread[0], spread[0], -spread[1], spread[1]]) / 10
    scale = spread.max()
    result = minimize(
        lambda e: -np.log(max(e[1] - e[0], 1e-12)) - np.log(max(e[3] - e[2], 1e-12)),
        start / scale,
        jac=lambda e: np.array(
            [1 / (e[1] - e[0]), -1 / (e[1] - e[0]), 1 / (e[3] - e[2]), -1 / (e[3] - e[2])]
        ),
        constraints={
            "type": "ineq",
            "fun": lambda e: most / scale - rows @ e,
            "jac": lambda e: -rows,
        },
        method="SLSQP",
        options={"maxiter": 500, "ftol": 1e-14},
    )
    edges = result.x * scale
    return (edges[1] - edges[0]) * (edges[3] - edges[2])


for number, case in enumerate(ours["rectangles"]):
    left, bottom, width, height = case["found"]
    rows, most = limits(case["corners"])
    edges = np.array([left, left + width, bottom, bottom + height])
    holds(f"rectangle {number} lies inside", np.all(rows @ edges <= most + 1e-6))
    should = largest(case["corners"])
    holds(
        f"rectangle {number}: ours {width * height}, reference {should}",
        abs(width * height - should) <= 1e-6 * should,
    )

for number, case in enumerate(ours["planes"]):
    marks = np.array(case["marks"])
    along, up, off = marks.T
    ones = np.ones_like(along)
    sheet = np.column_stack([ones, along, up])
    free = np.linalg.lstsq(sheet, off, rcond=None)[0]
    reach = np.array([1, 9000, 9000])
    holds(f"free plane {number}", np.all(np.abs(free - case["free"]) * reach <= 1e-6))
    plumb = np.linalg.lstsq(sheet[:, :2], off, rcond=None)[0]
    plumb = np.append(plumb, 0)
    holds(f"plumb plane {number}", np.all(np.abs(plumb - case["plumb"]) * reach <= 1e-6))
    middle = marks.mean(axis=0)
    normal = np.linalg.svd(marks - middle)[2][2]
    normal *= np.sign(normal[np.argmax(np.abs(normal))])
    same = np.all(np.abs(normal - case["normal"]) * 9000 <= 1e-6)
    holds(f"plane in space {number}", same and abs(normal @ middle - case["distance"]) <= 1e-6)
    scaled = sheet / reach
    program = linprog(scaled.sum(axis=0), A_ub=-scaled, b_ub=-off, bounds=(None, None))
    total = program.fun - off.sum()
    holds(
        f"shims {number}: ours {case['shims']}, reference {total}",
        abs(case["shims"] - total) <= 1e-3 * len(off),
    )


def patterns(lengths, counts, room):
    """All ways to fill a stock length that leave no room for one more piece."""
    found = []

    def fill(kind, left, taken):
        if len(found) > MOST_PATTERNS:
            return
        if kind == len(lengths):
            spare = [n < c and l <= left for n, c, l in zip(taken, counts, lengths)]
            if not any(spare):
                found.append(taken)
            return
        for count in range(min(left // lengths[kind], counts[kind]), -1, -1):
            fill(kind + 1, left - count * lengths[kind], taken + [count])

    fill(0, room, [])
    return found if len(found) <= MOST_PATTERNS else None


for number, case in enumerate(ours["cuts"]):
    holds(f"cut list {number} is not below its bound", case["bars"] >= case["at_least"])
    lengths = [length + case["kerf"] for length, _ in case["pieces"]]
    counts = [count for _, count in case["pieces"]]
    ways = patterns(lengths, counts, case["stock"] + case["kerf"])
    if ways is None:
        continue
    table = np.array(ways).T
    best = milp(
        np.ones(table.shape[1]),
        constraints=LinearConstraint(table, lb=counts),
        integrality=np.ones(table.shape[1]),
        options={"time_limit": 5},
    )
    if best.status != 0:
        continue
    fewest = round(best.fun)
    holds(f"cut list {number}: bound {case['at_least']} above {fewest}", case["at_least"] <= fewest)
    holds(f"cut list {number}: ours {case['bars']}, fewest {fewest}", case["bars"] == fewest)

close(compared, differences)
