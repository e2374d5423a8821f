"""One year of one zone in numba: the yardstick for the speed of the hourly simulation.

Reads a case as JSON on standard input, runs it compiled, and writes results, versions and times
as JSON. Temperatures in degC, powers in kW, energy in kWh, heat capacity in kWh/K, one value an
hour. The case:

    {"dry_bulb_c": [...], "loss": , "gains": , "heat_capacity": , "set_point": , "vent": ,
     "duct_efficiency": , "cycling_loss": , "strips_kw": , "cutout_c": ,
     "rows": [{"t": , "q_least": , "p_least": , "q_greatest": , "p_greatest": }, ...]}

Rows run from cold to warm; colder than the first they go on for 5 K and then the machine is off
(a lower cut-out holds the value there), warmer than the last they hold.
"""

import json
import math
import platform
import statistics
import sys
import time

import llvmlite
import numba
import numpy as np

RUNS = 200


@numba.njit
def year(dry_bulb, loss, gains, heat_capacity, set_point, vent, duct, cycling_loss, strips, cutout, t, rows):
    decay = math.exp(-loss / heat_capacity)
    pull = loss / (1.0 - decay)
    resistance = 1.0 / loss
    coldest = t[0] - 5.0
    warmest = t[-1]
    room = set_point
    lowest = set_point
    pump_kwh = 0.0
    strip_kwh = 0.0
    pump_heat_kwh = 0.0
    not_warm = 0
    i = 1
    for out in dry_bulb:
        # The room's heat to end the hour at the set point.
        need = max(0.0, pull * (set_point - room * decay) - loss * out - gains)

        heat = 0.0
        off = out <= cutout or (out < coldest and cutout >= coldest)
        if not off and need > 0.0:
            x = min(max(out, coldest), warmest)
            while i < len(t) - 1 and x > t[i]:
                i += 1
            while i > 1 and x < t[i - 1]:
                i -= 1
            f = (x - t[i - 1]) / (t[i] - t[i - 1])
            q_least = rows[i - 1, 0] + f * (rows[i, 0] - rows[i - 1, 0])
            p_least = rows[i - 1, 1] + f * (rows[i, 1] - rows[i - 1, 1])
            q_greatest = rows[i - 1, 2] + f * (rows[i, 2] - rows[i - 1, 2])
            p_greatest = rows[i - 1, 3] + f * (rows[i, 3] - rows[i - 1, 3])
            load = min(need / duct, q_greatest)
            if load < q_least:
                share = load / q_least
                pump_kwh += share * p_least / (1.0 - cycling_loss * (1.0 - share))
            elif q_greatest > q_least:
                pump_kwh += p_least + (p_greatest - p_least) * (load - q_least) / (q_greatest - q_least)
            else:
                pump_kwh += p_greatest
            heat = load * duct
            pump_heat_kwh += heat

        strip = min((need - heat) / duct, strips)
        strip_kwh += strip
        heat += strip * duct

        # Where the room ends, windows open above `vent`.
        final = out + (gains + heat) * resistance
        room = min(final + (room - final) * decay, max(vent, out))
        lowest = min(lowest, room)
        if room < set_point - 1.0:
            not_warm += 1
    return pump_kwh, strip_kwh, pump_heat_kwh, lowest, not_warm


def main():
    case = json.load(sys.stdin)
    keys = (
        *("loss", "gains", "heat_capacity", "set_point", "vent"),
        *("duct_efficiency", "cycling_loss", "strips_kw", "cutout_c"),
    )
    levels = ("q_least", "p_least", "q_greatest", "p_greatest")
    arguments = (
        np.array(case["dry_bulb_c"], dtype=np.float64),
        *(float(case[key]) for key in keys),
        np.array([row["t"] for row in case["rows"]], dtype=np.float64),
        np.array([[row[level] for level in levels] for row in case["rows"]], dtype=np.float64),
    )
    result = year(*arguments)  # compiles
    for _ in range(20):
        year(*arguments)

    micros = []
    for _ in range(RUNS):
        begin = time.perf_counter_ns()
        result = year(*arguments)
        micros.append((time.perf_counter_ns() - begin) / 1000.0)

    pump_kwh, strip_kwh, pump_heat_kwh, lowest, not_warm = result
    json.dump(
        {
            "heat_pump_kwh": pump_kwh,
            "strip_kwh": strip_kwh,
            "heat_pump_heat_kwh": pump_heat_kwh,
            "lowest_room_c": lowest,
            "hours_not_kept_warm": not_warm,
            "best_us": min(micros),
            "median_us": statistics.median(micros),
            "runs": RUNS,
            "versions": {
                "python": platform.python_version(),
                "numba": numba.__version__,
                "llvmlite": llvmlite.__version__,
                "numpy": np.__version__,
            },
        },
        sys.stdout,
        indent=1,
    )
    print()


if __name__ == "__main__":
    main()
