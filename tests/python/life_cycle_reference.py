"""Works out life-cycle costs and loan payments with numpy-financial, and prints them as JSON.

Reads one JSON object from standard input:

    {"cases": [{"years": 20, "discount_rate": 0.03, "inflation": 0.025, "installed": 9000.0,
                "incentives": 500.0, "upkeep": 120.0, "yearly": [[1800.0, 0.01]],
                "replacements": [[12, 6000.0]],
                "loan": {"amount": 5000.0, "yearly_rate": 0.07, "months": 60}}, ...]}

Every case is laid out as one flow of money a year, from today on, and numpy-financial's npv and pmt
do the rest. Knows nothing of the program.
"""

import json
import sys

import numpy_financial as npf


def answer(case):
    """The life-cycle cost and the loan's monthly payment."""
    years, loan = case["years"], case["loan"]
    last = max(years, -(-loan["months"] // 12) if loan else 0)
    flow = [0.0] * (last + 1)
    flow[0] = case["installed"] - case["incentives"]
    for year in range(1, years + 1):
        flow[year] += case["upkeep"]
        flow[year] += sum(cost * (1.0 + rise) ** year for cost, rise in case["yearly"])
    for life, cost in case["replacements"]:
        bought = list(range(life, years, life))
        for year in bought:
            flow[year] += cost
        age = years - (bought[-1] if bought else 0)
        flow[years] -= cost * (life - age) / life
    payment = 0.0
    if loan:
        flow[0] -= loan["amount"]
        payment = -npf.pmt(loan["yearly_rate"] / 12.0, loan["months"], loan["amount"])
        for month in range(1, loan["months"] + 1):
            year = -(-month // 12)
            flow[year] += payment / (1.0 + case["inflation"]) ** year
    return {"total": npf.npv(case["discount_rate"], flow), "payment": payment}


def main():
    """Answers all cases."""
    cases = json.load(sys.stdin)["cases"]
    json.dump({"answers": [answer(case) for case in cases], "version": npf.__version__}, sys.stdout)


if __name__ == "__main__":
    main()
