"""Balances by scipy: the least squares of the misses by lsq_linear, the least sum of them and single concessions by linprog (HiGHS).

lsq_linear knows bounds and no equation, so the mass of the batch is one more row, weighed so heavily that it holds to the digits written; a target
with two ends is a variable between them. What is compared is what the request decides: the misses, which are the same for every recipe that is
best, never the masses, which may not be.

    pip install -r requirements.txt
    python -B tabulate_balance.py

Python 3.11, scipy 1.17.1. Writes balance/*.csv."""
import numpy as np
from scipy.optimize import linprog, lsq_linear

from tables import numbers, registry, six_digits, table

# What the shares are called in the crate, and the pure stuff they are made of there.
SHARES = ["water", "sugars", "cocoa_butter", "milk_fat", "fat_free_cocoa", "ethanol"]
SCIPY = registry("scipy")
# The weight of the row that fills the batch: its error in the misses is of the order of its inverse square.
HEAVY = 1e5


def percent(value):
    return round(value, 2)


def request(draw):
    """Ingredients that close to 100 % with inert matter, bounds that leave room for the batch, targets near what a mixture of them holds."""
    count, wanted = draw.randint(2, 8), draw.randint(1, 5)
    shares = draw.sample(SHARES, wanted)
    held = []
    for _ in range(count):
        parts = [draw.random() ** 3 for _ in range(wanted + 1)]
        held.append([percent(100 * part / sum(parts)) for part in parts[:wanted]])
    least = [percent(draw.uniform(0, 60 / count)) if draw.random() < 0.3 else 0.0 for _ in range(count)]
    most = [percent(low + draw.uniform(5, 80)) if draw.random() < 0.4 else 100.0 for low in least]
    most = [min(high, 100.0) for high in most]
    if sum(least) > 95 or sum(most) < 105 or any(sum(line) > 100 for line in held):
        return None
    held, least, most = np.array(held) / 100, np.array(least) / 100, np.array(most) / 100
    # A mixture within the bounds, and targets at or about what it holds.
    mixture = least + (most - least) * (1 - least.sum()) / (most - least).sum()
    about = held.T @ mixture
    spread = draw.choice([0.0, 0.02, 0.1])
    low, high = [], []
    for value in about:
        low.append(max(0.0, percent(100 * (value + draw.uniform(-spread, spread))) / 100))
        high.append(min(1.0, low[-1] + percent(draw.uniform(0, 4)) / 100) if draw.random() < 0.4 else low[-1])
    weights = [draw.choice([1.0, 1.0, 2.0, 0.5]) for _ in shares]
    if any(not reachable(held[:, at], least, most, low[at], high[at]) for at in range(wanted)):
        return None
    return shares, held, least, most, np.array(low), np.array(high), np.array(weights)


def reachable(held, least, most, low, high):
    """With a margin, so that rounding does not decide."""
    def end(sign):
        found = linprog(sign * held, A_eq=[np.ones(len(held))], b_eq=[1.0], bounds=list(zip(least, most)))
        return sign * found.fun
    return end(1) < high - 1e-4 and end(-1) > low + 1e-4


def least_squares(held, least, most, low, high, weights):
    """The misses in percentage points: 100 (held x - s), s between the ends, with the row of the batch weighed heavily."""
    count, wanted = held.shape
    scale = 100 * np.sqrt(weights)
    rows = np.hstack([held.T * scale[:, None], -np.diag(scale)])
    batch = HEAVY * np.hstack([np.ones(count), np.zeros(wanted)])
    # lsq_linear wants room between bounds: a target at one point is taken out of the variables.
    free = high > low
    target = np.where(free, 0.0, low * scale)
    rows = np.hstack([rows[:, :count], rows[:, count:][:, free]])
    batch = np.hstack([batch[:count], batch[count:][free]])
    found = lsq_linear(np.vstack([rows, batch]), np.append(target, HEAVY), bounds=(np.append(least, low[free]), np.append(most, high[free])),
                       method="bvls", tol=1e-14, max_iter=2000)
    share = held.T @ found.x[:count]
    return 100 * (share - np.clip(share, low, high))


def least_sum(held, least, most, low, high):
    """The least sum of all misses, in percentage points."""
    count, wanted = held.shape
    rows = np.vstack([np.hstack([100 * held.T, -np.eye(wanted), np.zeros((wanted, wanted))]),
                      np.hstack([-100 * held.T, np.zeros((wanted, wanted)), -np.eye(wanted)])])
    found = linprog(np.append(np.zeros(count), np.ones(2 * wanted)), A_ub=rows, b_ub=np.append(100 * high, -100 * low),
                    A_eq=[np.append(np.ones(count), np.zeros(2 * wanted))], b_eq=[1.0],
                    bounds=[*zip(least, most), *[(0, None)] * (2 * wanted)])
    return found.fun


def concession(held, least, most, low, high, target):
    """The share that a target would have to be, the others being met; nothing if even that is not enough."""
    count, wanted = held.shape
    keep = [at for at in range(wanted) if at != target]
    rows = [np.append(held[:, at], [0, 0]) for at in keep] + [np.append(-held[:, at], [0, 0]) for at in keep]
    ends = [high[at] for at in keep] + [-low[at] for at in keep]
    rows += [np.append(held[:, target], [-1, 0]), np.append(-held[:, target], [0, -1])]
    ends += [high[target], -low[target]]
    found = linprog(np.append(np.zeros(count), [1, 1]), A_ub=rows, b_ub=ends, A_eq=[np.append(np.ones(count), [0, 0])], b_eq=[1.0],
                    bounds=[*zip(least, most), (0, None), (0, None)])
    return found.fun if found.success else None


def filler(held, least, most, low, high):
    """The least of something that holds none of it, as a share of the batch."""
    count = len(least)
    rows, ends = np.vstack([held.T, -held.T, np.ones(count)]), np.concatenate([high, -low, [1.0]])
    found = linprog(-np.ones(count), A_ub=rows, b_ub=ends, bounds=list(zip(least, most)))
    return 1 + found.fun if found.success else None


def row(draw):
    made = request(draw)
    if not made:
        return None
    shares, held, least, most, low, high, weights = made
    total = least_sum(held, least, most, low, high)
    met = total < 1e-6
    # Neither met nor missed by more than rounding: not one to compare.
    if not met and total < 1e-2:
        return None
    misses = np.zeros(len(shares)) if met else least_squares(held, least, most, low, high, weights)
    conceded = None if met else concession(held, least, most, low, high, 0)
    filled = None if met else filler(held, least, most, low, high)
    return {"shares": ";".join(shares), "held": "|".join(numbers(line) for line in held), "least": numbers(least), "most": numbers(most),
            "from": numbers(low), "to": numbers(high), "weights": numbers(weights), "is": "met" if met else "missed",
            **{f"miss_{at + 1}": float(misses[at]) if at < len(misses) else 0.0 for at in range(5)},
            "first_gives_way_by": -1.0 if conceded is None else float(100 * conceded), "filler": -1.0 if filled is None else float(filled)}


table("balance/requests", SCIPY, 400, row)
