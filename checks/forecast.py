"""Forecasts against scipy: the beta-PERT distribution, sums and maxima by numeric convolution.

Sources: the shapes alpha = 1 + 4(m - a)/(b - a) and beta = 1 + 4(b - m)/(b - a) are published (the
PERT papers of 1958-59); their quantiles are scipy.stats.beta's (reference library). The chance of the
last finish of chains side by side is the product of the chances of the chains, and a chain's
distribution is the convolution of its works' (textbook probability), here on a fine grid with numpy.
For works that share their luck the variance of the sum is integrated over two correlated normal
scores by Gauss-Hermite quadrature (a Gaussian copula, published in textbooks).

Tolerances: our figures of quantiles must agree to a millionth; what was counted in n runs may differ
by four standard errors (of a share sqrt(p(1 - p)/n), of a mean sd/sqrt(n), of a variance about
var sqrt(2/n), doubled for tails), and by what a grid and whole ticks can hide.
"""

import numpy as np
from scipy import stats

from cases import cases, close

STEP = 0.002
compared, differences = 0, []
ours = cases("forecast")
RUNS = ours["runs"]


def within(what, is_, should, tolerance):
    """Counts one comparison, and keeps it where the two differ too much."""
    global compared
    compared += 1
    if abs(is_ - should) > tolerance:
        differences.append(f"{what}: ours {is_}, reference {should} within {tolerance}")


def beta(low, likely, high):
    """The distribution of a judgement."""
    width = high - low
    alpha, beta_ = 1 + 4 * (likely - low) / width, 1 + 4 * (high - likely) / width
    return stats.beta(alpha, beta_, loc=low, scale=width)


def grid(judgement):
    """Mass of a judgement on a grid of steps from its low end, each at the middle of its cell."""
    low, _, high = judgement
    edges = low + STEP * np.arange(round((high - low) / STEP) + 1)
    return np.diff(beta(*judgement).cdf(edges))


def chain(works):
    """Dates and chances of a chain of works, by convolution."""
    mass = np.array([1.0])
    for judgement in works:
        mass = np.convolve(mass, grid(judgement))
    first = sum(work[0] for work in works) + STEP * len(works) / 2
    return first + STEP * np.arange(len(mass)), mass


for case in ours["judgements"]:
    name, reference = str(case["judgement"]), beta(*case["judgement"])
    for p, x in case["quantiles"]:
        within(f"{name} quantile {p}", x, reference.ppf(p), 1e-6 * (1 + abs(x)))
    for p, x in case["seen"]:
        error = 4 * np.sqrt(p * (1 - p) / RUNS) + 1e-3
        within(f"{name} chance of the date seen at {p}", reference.cdf(x), p, error)
    within(f"{name} mean", case["mean"], reference.mean(), 4 * reference.std() / np.sqrt(RUNS) + 1e-3)

for case in ours["networks"]:
    name = str(case["chains"])
    parts = [chain(works) for works in case["chains"]]
    dates = np.arange(min(d[0] for d, _ in parts), max(d[-1] for d, _ in parts) + STEP, STEP)
    kept = np.ones_like(dates)
    for days, mass in parts:
        kept *= np.interp(dates, days + STEP / 2, np.cumsum(mass), left=0.0, right=1.0)
    for date, chance in case["chances"]:
        should = np.interp(date, dates, kept)
        error = 4 * np.sqrt(should * (1 - should) / RUNS) + 2e-3
        within(f"{name} chance by {date}", chance, should, error)
    mean = dates[0] + np.sum(1 - kept) * STEP
    variance = 2 * np.sum((dates - dates[0]) * (1 - kept)) * STEP - (mean - dates[0]) ** 2
    within(f"{name} mean", case["mean"], mean, 4 * np.sqrt(variance / RUNS) + 5e-3)

case = ours["alike"]
works, share = [beta(*work) for work in case["works"]], case["share"]
nodes, weights = np.polynomial.hermite_e.hermegauss(80)
weights = weights / weights.sum()


def given(work, z):
    """The mean of a work when the common score is z."""
    scores = np.sqrt(share) * z + np.sqrt(1 - share) * nodes
    return np.dot(weights, work.ppf(np.clip(stats.norm.cdf(scores), 1e-9, 1 - 1e-9)))


means = np.array([[given(work, z) for z in nodes] for work in works])
covariance = (means * weights) @ means.T - np.outer(means @ weights, means @ weights)
variance = covariance.sum() - np.trace(covariance) + sum(work.var() for work in works)
total = sum(work.mean() for work in works)
within("alike: mean", case["mean"], total, 4 * np.sqrt(variance / RUNS) + 1e-3)
within("alike: variance", case["variance"], variance, 8 * variance * np.sqrt(2 / RUNS))
apart = sum(work.var() for work in works)
within("alike: more spread than apart", float(case["variance"] > 1.1 * apart), 1.0, 0)

close(compared, differences)
