"""The yardstick of benches/winters.rs: tanks through winters and price paths, in numpy, all at once.

Reads the case as JSON from standard input; prints what came of it and the least times in seconds.
"""

import json
import sys
import time

import numpy as np


def tanks(case):
    """The store's days for all winters at once: deliver, burn, look, order."""
    n, days = case["winters"], case["days"]
    wanted = np.array(case["wanted"])
    winter = np.arange(n)
    factor = 0.7 + 0.6 * ((winter * 48271) % 65537) / 65537.0
    full, reserve, reorder = case["full"], case["reserve"], case["reorder"]
    level = np.full(n, float(full))
    arrives = np.full(n, -1)
    dry = np.zeros(n, dtype=bool)
    run_outs = np.zeros(n, dtype=int)
    burned_all = np.zeros(n)
    bought = np.zeros(n)
    for day in range(days):
        due = arrives == day
        bought[due] += full - level[due]
        level[due] = full
        dry[due] = False
        arrives[due] = -1
        want = wanted[day] * factor
        burned = np.minimum(want, np.maximum(level - reserve, 0.0))
        level -= burned
        burned_all += burned
        lacking = burned < want
        run_outs += lacking & ~dry
        dry |= lacking
        order = (arrives < 0) & (level <= reorder)
        late = (winter * 7919 + day * 104729) % 10 == 0
        arrives[order] = day + np.where(late[order], 20, 7)
    return {"burned": burned_all.sum(), "bought": bought.sum(), "run_outs": int(run_outs.sum())}


def paths(case, seed):
    """Mean-reverting logarithms by exact steps, and the prices."""
    rng = np.random.default_rng(seed)
    n, months = case["paths"], case["months"]
    kept = 0.5 ** (1.0 / 12.0 / case["half_life"])
    deviation = case["spread"] * np.sqrt(1.0 - kept * kept)
    normals = rng.standard_normal((months, n))
    level = np.zeros(n)
    prices = np.empty((months, n))
    for month in range(months):
        level = kept * level + deviation * normals[month]
        prices[month] = case["price"] * np.exp(level)
    return prices


def least(count, once):
    best = float("inf")
    for _ in range(count):
        begin = time.perf_counter()
        result = once()
        best = min(best, time.perf_counter() - begin)
    return best, result


def main():
    case = json.load(sys.stdin)
    tank_s, tank = least(case["runs"], lambda: tanks(case))
    path_s, prices = least(case["runs"], lambda: paths(case, 1))
    last = np.log(prices[-1] / case["price"])
    json.dump(
        {
            "numpy": np.__version__,
            "tank_s": tank_s,
            "tank": tank,
            "path_s": path_s,
            "last_spread": float(last.std(ddof=1)),
        },
        sys.stdout,
    )


main()
