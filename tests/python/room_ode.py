"""Integrates a room's temperature with scipy, hour by hour, for the Rust tests.

Standard input: {"loss": kW/K, "gains": kW, "heat_capacity": kWh/K, "start": deg C,
"outdoor": [deg C an hour], "heat": [kW an hour]}. Prints {"end": [deg C], "mean": [deg C], "version":
scipy's}, the room at the end of each hour and its mean over it. Knows nothing of the crate.
"""

import json
import sys

import scipy
from scipy.integrate import solve_ivp

case = json.load(sys.stdin)
loss, gains, capacity = case["loss"], case["gains"], case["heat_capacity"]
room, end, mean = case["start"], [], []
for outdoor, heat in zip(case["outdoor"], case["heat"], strict=True):

    def slope(_hour, state, outdoor=outdoor, heat=heat):
        # The room, and the integral of its temperature.
        return [(loss * (outdoor - state[0]) + gains + heat) / capacity, state[0]]

    solved = solve_ivp(slope, (0.0, 1.0), [room, 0.0], rtol=1e-10, atol=1e-10)
    room = float(solved.y[0][-1])
    end.append(room)
    mean.append(float(solved.y[1][-1]))
json.dump({"end": end, "mean": mean, "version": scipy.__version__}, sys.stdout)
