"""Nets of points, links and needs against numpy and scipy.

Sources: generalised least squares by numpy's lstsq and pinv on the weighed observation equations
(textbook); means and variances of the triangular and uniform distributions by scipy.stats; chances by
sampling with numpy; worst cases as linear programs over the positions of all points, and set-outs as
a max-min fair chain of linear programs, both by scipy's linprog (HiGHS). Settings are chosen where
nothing else joins their points, as our documentation states; that rule is written here anew.

Tolerances: least squares to a millionth (of a millimetre, or of the value where that is larger);
worst cases to a millionth of a millimetre; margins to a twenty-thousandth, being what interior points
end with; chances to four standard errors of the sample and the thousandth that is promised.
"""

import numpy as np
from scipy import stats
from scipy.optimize import linprog

from cases import cases, close

SAMPLED = 100
FAIR = 300
RUNS = 40_000
compared, differences = 0, []
generator = np.random.default_rng(20270612)


def within(what, is_, should, tolerance):
    """Counts one comparison, and keeps it where the two differ too much."""
    global compared
    compared += 1
    if not abs(is_ - should) <= tolerance * max(1.0, abs(should)):
        differences.append(f"{what}: ours {is_}, reference {should} within {tolerance}")


def distribution(link):
    """The distribution of a link's distance."""
    low, width = link["nominal"] - link["minus"], link["minus"] + link["plus"]
    if link["shape"] == "triangle":
        return stats.triang(link["minus"] / width, loc=low, scale=width)
    if link["shape"] == "even":
        return stats.uniform(loc=low, scale=width)
    return stats.norm(loc=low + width / 2, scale=width / 6)


def groups(points, links):
    """The number of the group of each point."""
    of = list(range(points))
    for link in links:
        a, b = of[link["from"]], of[link["to"]]
        of = [a if it == b else it for it in of]
    return of


def speaking(case, kinds):
    """Numbers of the links that have a say: those of some kinds, and settings that join."""
    links = case["links"]
    taken = [i for i, link in enumerate(links) if link["kind"] in kinds]
    for i, link in enumerate(links):
        if link["kind"] == "set":
            of = groups(case["points"], [links[j] for j in taken])
            if of[link["from"]] != of[link["to"]]:
                taken.append(i)
    return sorted(taken)


class Squares:
    """Least squares over some links."""

    def __init__(self, case, taken):
        self.links = [case["links"][i] for i in taken]
        self.rows = np.zeros((len(taken), case["points"]))
        for row, link in zip(self.rows, self.links):
            row[link["from"]] -= 1
            row[link["to"]] += 1
        self.shapes = [distribution(link) for link in self.links]
        self.root = np.array([1 / shape.std() for shape in self.shapes])
        self.gain = np.linalg.pinv(self.rows * self.root[:, None]) * self.root
        self.means = np.array([shape.mean() for shape in self.shapes])
        self.nominals = np.array([link["nominal"] for link in self.links])

    def coefficients(self, need):
        """What a millimetre more in each link adds to a need."""
        return self.gain[need[1]] - self.gain[need[0]]


def linear(objective, rows, limits, bounds):
    """The best value of a linear program that has one."""
    answer = linprog(objective, A_ub=rows, b_ub=limits, bounds=bounds, method="highs")
    return answer


def worst(squares, need):
    """The least and the most of a need with every link in its limits; none if links contradict."""
    high = [link["nominal"] + link["plus"] for link in squares.links]
    low = [link["nominal"] - link["minus"] for link in squares.links]
    rows = np.vstack([squares.rows, -squares.rows])
    limits = np.concatenate([high, -np.array(low)])
    objective = np.zeros(squares.rows.shape[1])
    objective[need[1]] += 1
    objective[need[0]] -= 1
    bounds = [(None, None)] * len(objective)
    ends = [linear(sign * objective, rows, limits, bounds) for sign in (1, -1)]
    if any(end.status == 2 for end in ends):
        return None
    return ends[0].fun, -ends[1].fun


def fair(needs, ranges):
    """The margins of a max-min fair choice. Each need is a list of (left, gains per setting)."""
    count = len(ranges)
    held = {}
    while len(held) < len(needs):
        def program(raised, floor):
            """The most that `raised` can have together, all others at least what they hold."""
            rows, limits = [], []
            for number, sides in enumerate(needs):
                for left, gains in sides:
                    free = number in raised
                    rows.append(np.append(-gains, 1.0 if free else 0.0))
                    least = 0.0 if free else held.get(number, floor)
                    limits.append(left - least + 1e-9)
            objective = np.append(np.zeros(count), -1.0)
            return linear(objective, np.array(rows), limits, [*ranges, (None, None)])

        open_ = {number for number in range(len(needs)) if number not in held}
        level = program(open_, None).x[-1]
        for number in open_:
            if program({number}, level).x[-1] < level + 1e-6:
                held[number] = level
    return [held[number] for number in range(len(needs))]


def set_out(case, taken, ours, known, name):
    """Settings against the max-min fair choice."""
    squares = Squares(case, taken)
    settings = [i for i, link in enumerate(squares.links) if link["kind"] == "set"]
    ranges = [
        tuple(np.array(squares.links[i]["range"]) - squares.links[i]["nominal"]) for i in settings
    ]
    values = [
        value - squares.links[i]["nominal"] for i, (_, value) in zip(settings, ours["settings"])
    ]
    sides = []
    for number, need in enumerate(case["needs"]):
        if known[number] is None:
            continue
        low, high, unit = known[number]
        gains = squares.coefficients(need)[settings] / unit
        both = []
        if need[2] is not None:
            both.append(((low - need[2]) / unit, gains))
        if need[3] is not None:
            both.append(((need[3] - high) / unit, -gains))
        if not both:
            continue
        margin = min(left + gain @ values for left, gain in both)
        within(f"{name} margin {number}", ours["margins"][number], margin, 2e-6)
        sides.append((number, both))
    movable = [(n, both) for n, both in sides if np.any(np.abs(both[0][1]) > 1e-9)]
    for (number, _), should in zip(movable, fair([both for _, both in movable], ranges)):
        within(f"{name} fair margin {number}", ours["margins"][number], should, 5e-5)
    short = any(margin is not None and margin < -1e-5 for margin in ours["margins"])
    within(f"{name} clashes", float(short), float(ours["clashes"] > 0), 0.0)


for index, case in enumerate(cases("nets")):
    prior = Squares(case, speaking(case, {"built"}))
    adjusted = speaking(case, {"built", "measured"})
    posterior = Squares(case, adjusted)
    known = {"worst": [], "spreads": []}
    for number, need in enumerate(case["needs"]):
        name = f"net {index} need {number}"
        nominal, mean, spread, limits, chance = case["prior"][number]
        gain = prior.coefficients(need)
        within(f"{name} nominal", nominal, gain @ prior.nominals, 1e-6)
        within(f"{name} mean", mean, gain @ prior.means, 1e-6)
        within(f"{name} spread", spread, np.linalg.norm(gain / prior.root), 1e-6)
        should = worst(prior, need)
        known["worst"].append(None if limits is None else (*limits, 1.0))
        if limits is None:
            within(f"{name} contradictions", float(case["contradictions"] > 0), 1.0, 0.0)
        elif should is None:
            # The contradiction lies where this need does not pass.
            within(f"{name} contradictions", float(case["contradictions"] > 0), 1.0, 0.0)
        else:
            within(f"{name} worst low", limits[0], should[0], 1e-6)
            within(f"{name} worst high", limits[1], should[1], 1e-6)
        if index < SAMPLED:
            drawn = gain @ np.array([s.rvs(RUNS, random_state=generator) for s in prior.shapes])
            low = -np.inf if need[2] is None else need[2]
            high = np.inf if need[3] is None else need[3]
            share = np.mean((drawn >= low) & (drawn <= high))
            error = 4 * np.sqrt(max(chance * (1 - chance), 1e-6) / RUNS) + 1e-3
            within(f"{name} chance", chance, share, error)
        mean, spread = case["posterior"][number]
        gain = posterior.coefficients(need)
        within(f"{name} adjusted mean", mean, gain @ posterior.means, 1e-6)
        within(f"{name} adjusted spread", spread, np.linalg.norm(gain / posterior.root), 1e-6)
        known["spreads"].append((mean, mean, spread))
    smoothed = posterior.rows @ posterior.gain
    residuals = smoothed @ posterior.means - posterior.means
    for row, number in enumerate(adjusted):
        residual, redundancy = case["residuals"][number]
        within(f"net {index} link {number} residual", residual, residuals[row], 1e-6)
        within(f"net {index} link {number} redundancy", redundancy, 1 - smoothed[row, row], 1e-6)
    value, freedom = case["agreement"]
    within(f"net {index} agreement", value, np.sum((residuals * posterior.root) ** 2), 1e-6)
    rank = np.linalg.matrix_rank(posterior.rows)
    within(f"net {index} freedom", freedom, len(adjusted) - rank, 0.0)
    if index < FAIR:
        taken = speaking(case, {"built"})
        set_out(case, taken, case["worst_case"], known["worst"], f"net {index} worst case")
        set_out(case, adjusted, case["spreads"], known["spreads"], f"net {index} spreads")

close(compared, differences)
