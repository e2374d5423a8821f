"""Works out with numpy and pandas what the program is held against, and prints it as JSON.

Reads one JSON object from standard input:

    {"what": "statistics", "file": "data/weather/il-chicago.csv.gz"}

    {"what": "steady_year", "file": …, "loss_kw_per_k": 0.3, "balance_c": 16.0,
     "duct_efficiency": 0.95, "cutout_c": -25.0, "degradation": 0.25,
     "greatest": [[outdoor_c, capacity_kw, cop], …], "least": [[…], …]}

    {"what": "actual_years", "files": ["tests/data/weather/…", …], "shift_h": -6}

The actual years: files of twelve numbers a row, or CSV with datetime and temp_2m in kelvin, both in
UTC; missing hours on a straight line, the clock shifted, degree-days below 65 °F by calendar year.

The steady year: the need is loss·(balance − outdoors) where that is above 0, over the duct
efficiency. Capacity and power are linear in outdoor temperature between the rows; power is linear
in output between least and greatest; under the least output the machine cycles with a part-load
factor of 1 − degradation·(1 − load/least). Colder than the map: 5 K on the line of the last two
rows (exactly 5 K is on), then off; at or below the cut-out off; warmer than the map: the last row
holds. Where the cut-out lies below those 5 K the value at 5 K holds down to it;
"cutout_c": null is no cut-out. What the machine
lacks, resistance strips carry. The tables are taken as given, frost included.

Knows nothing of the program: reads the gzipped CSV with pandas.
"""

import json
import pathlib
import sys

import numpy as np
import pandas as pd

ROOT = pathlib.Path(__file__).resolve().parents[2]
EXTRAPOLATION_K = 5.0


def dry_bulb_c(file):
    """The hourly dry-bulb of a built-in place, °C."""
    table = pd.read_csv(ROOT / file, comment="#")
    return table["dry_bulb_degC"].to_numpy(dtype=float)


def fahrenheit(celsius):
    """°C into °F."""
    return celsius * 1.8 + 32.0


def bins_5f(degrees_f):
    """[middle °F, hours], warm to cold; bin 42 holds 39.5 up to, not including, 44.5 °F."""
    middle = np.floor((np.round(degrees_f, 9) - 39.5) / 5.0) * 5.0 + 42.0
    counts = pd.Series(middle).value_counts().sort_index(ascending=False)
    return [[float(m), int(n)] for m, n in counts.items()]


def longest_below(degrees_f, limit):
    """The longest run of hours below the limit."""
    below = pd.Series(np.round(degrees_f, 9) < limit)
    run = below.groupby((~below).cumsum()).sum()
    return int(run.max())


def statistics(job):
    """Of one place, in °F as the tables print them."""
    celsius = dry_bulb_c(job["file"])
    degrees_f = fahrenheit(celsius)
    index = pd.date_range("2023-01-01", periods=len(celsius), freq="h")
    daily = pd.Series(degrees_f, index=index).resample("D").mean()
    return {
        "hours": len(celsius),
        "mean_degF": float(degrees_f.mean()),
        "min_degF": float(degrees_f.min()),
        "coldest_hour": int(celsius.argmin()),
        "hdd65_degF_day": float(np.maximum(0.0, 65.0 - daily).sum()),
        "cdd50_degF_day": float(np.maximum(0.0, daily - 50.0).sum()),
        "design_99_degF": float(np.percentile(degrees_f, 1.0, method="linear")),
        "design_99_6_degF": float(np.percentile(degrees_f, 0.4, method="linear")),
        "hours_below_17_degF": int((np.round(degrees_f, 9) < 17.0).sum()),
        "longest_below_32_degF": longest_below(degrees_f, 32.0),
        "bins_5_degF": bins_5f(degrees_f),
    }


def dated_celsius(file):
    """The temperatures of one file of an actual year, °C, by their time in UTC."""
    if file.endswith(".csv.gz"):
        table = pd.read_csv(ROOT / file, parse_dates=["datetime"])
        return pd.Series(table["temp_2m"].to_numpy() - 273.15, index=table["datetime"].dt.floor("h"))
    table = pd.read_csv(ROOT / file, sep=r"\s+", header=None)
    parts = {"year": table[0], "month": table[1], "day": table[2], "hour": table[3]}
    return pd.Series(table[4].where(table[4] != -9999).to_numpy() / 10.0, index=pd.to_datetime(parts))


def actual_years(job):
    """Degree-days of each calendar year of local standard time."""
    hours = pd.concat([dated_celsius(file) for file in job["files"]])
    hours = hours.reindex(pd.date_range(hours.index[0], hours.index[-1], freq="h")).interpolate()
    hours.index = hours.index + pd.Timedelta(hours=job["shift_h"])
    short = np.maximum(0.0, 65.0 - hours.map(fahrenheit).resample("D").mean())
    # A year's first hours may be missing after the shift; pandas then takes the mean of the others.
    sums = short.groupby(short.index.year).sum()
    return {"hdd65_degF_day": {str(year): float(sum) for year, sum in sums.items()}}


def at_outdoor(rows, outdoor_c):
    """Capacity and power, kW, of a table [outdoor °C, capacity kW, COP] at each temperature."""
    table = np.array(sorted(rows), dtype=float)
    outdoor, capacity, cop = table.T
    power = capacity / cop
    # One more row 5 K below the coldest continues the line; beyond, np.interp holds the ends.
    below = outdoor[0] - EXTRAPOLATION_K
    share = EXTRAPOLATION_K / (outdoor[1] - outdoor[0])
    longer = np.concatenate([[below], outdoor])
    extended = [np.concatenate([[y[0] - share * (y[1] - y[0])], y]) for y in (capacity, power)]
    return [np.interp(outdoor_c, longer, y) for y in extended]


def steady_year(job):
    """Heat and electricity of one year with an uncontrolled room: the steady line."""
    outdoor_c = dry_bulb_c(job["file"])
    need = np.maximum(0.0, job["loss_kw_per_k"] * (job["balance_c"] - outdoor_c))
    load = need / job["duct_efficiency"]
    least, least_power = at_outdoor(job["least"], outdoor_c)
    most, most_power = at_outdoor(job["greatest"], outdoor_c)
    coldest = min(row[0] for row in job["greatest"]) - EXTRAPOLATION_K
    cutout = job["cutout_c"]
    on = outdoor_c >= coldest
    if cutout is not None:
        on = (outdoor_c > cutout) & (on | (cutout < coldest))
    heat = np.where(on, np.minimum(load, most), 0.0)
    cycling = heat < least
    share = heat / least
    part_load = 1.0 - job["degradation"] * (1.0 - share)
    slope = (most_power - least_power) / np.where(most > least, most - least, 1.0)
    running = least_power + slope * (heat - least)
    power = np.where(on, np.where(cycling, least_power * share / part_load, running), 0.0)
    strip = load - heat
    return {
        "need_kwh": float(need.sum()),
        "heat_kwh": float(load.sum()),
        "heat_pump_heat_kwh": float(heat.sum()),
        "heat_pump_kwh": float(power.sum()),
        "strip_kwh": float(strip.sum()),
        "total_kwh": float(power.sum() + strip.sum()),
        "hours_off": int((~on & (load > 0.0)).sum()),
    }


def main():
    """Answers one question."""
    job = json.load(sys.stdin)
    questions = {"statistics": statistics, "steady_year": steady_year, "actual_years": actual_years}
    answer = questions[job["what"]](job)
    answer["versions"] = {
        "python": sys.version.split()[0],
        "numpy": np.__version__,
        "pandas": pd.__version__,
    }
    json.dump(answer, sys.stdout)


main()
