"""Works out n-year lows with scipy and numpy, and prints them as JSON.

Reads one JSON object from standard input:

    {"minima_degC": [-11.15, …], "years": [5, 10, 20, 50], "draws": 20000}

Maximum likelihood is scipy's own fit of the Gumbel distribution of least values (gumbel_l).
Moments and L-moments follow from the distribution's mean, variance and second L-moment as scipy
gives them. The interval is a parametric bootstrap of the fit by moments with numpy's generator.

Knows nothing of the program.
"""

import json
import sys

import numpy as np
import scipy
import scipy.integrate
from scipy import stats


def by_moments(minima):
    """Mode and scale whose mean and variance are the sample's (n − 1)."""
    scale = minima.std(axis=-1, ddof=1) / stats.gumbel_l.std()
    mode = minima.mean(axis=-1) - stats.gumbel_l.mean() * scale
    return mode, scale


def by_l_moments(minima):
    """Mode and scale whose first two L-moments are the sample's: half the mean difference of pairs."""
    differences = np.abs(minima[:, None] - minima[None, :])
    n = len(minima)
    second = differences.sum() / (n * (n - 1)) / 2.0
    # The standard Gumbel's second L-moment by scipy's quantiles: ∫ Q(u)·(2u − 1) du.
    standard, _ = scipy.integrate.quad(lambda u: stats.gumbel_l.ppf(u) * (2.0 * u - 1.0), 0.0, 1.0)
    scale = second / standard
    return minima.mean() - stats.gumbel_l.mean() * scale, scale


def main():
    """Answers one question."""
    job = json.load(sys.stdin)
    minima = np.array(job["minima_degC"], dtype=float)
    shares = 1.0 / np.array(job["years"], dtype=float)
    moments = by_moments(minima)
    likelihood = stats.gumbel_l.fit(minima)
    chance = np.random.default_rng(1)
    drawn = stats.gumbel_l.rvs(*moments, size=(job["draws"], len(minima)), random_state=chance)
    modes, scales = by_moments(drawn)
    lows = modes[:, None] + scales[:, None] * stats.gumbel_l.ppf(shares)[None, :]
    answer = {
        "moments": list(stats.gumbel_l.ppf(shares, *moments)),
        "l_moments": list(stats.gumbel_l.ppf(shares, *by_l_moments(minima))),
        "maximum_likelihood": list(stats.gumbel_l.ppf(shares, *likelihood)),
        "interval": np.percentile(lows, [5.0, 95.0], axis=0, method="linear").T.tolist(),
        "versions": {"scipy": scipy.__version__, "numpy": np.__version__},
    }
    json.dump(answer, sys.stdout)


main()
