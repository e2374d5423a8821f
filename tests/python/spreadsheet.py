"""Types prices into a spreadsheet, has LibreOffice work it out, and reads what comes of it.

Reads JSON: {"file": path, "folder": path, "cases": [[[fuel, price of, value], ...], ...]}. Writes JSON:
what the file itself holds ("stored"), and for each case what LibreOffice makes of it ("cases"): options on
the sheet Prices as [name, as run, at these prices, change], whether each keeps warm, their costs by fuel, and options on the sheet
Over the years as [name, all, all as run], and what
`soffice --version` says ("version"). What openpyxl writes holds no results of formulas, so LibreOffice
must work every one out.
"""

import json
import pathlib
import subprocess
import sys

from openpyxl import load_workbook


def rows(sheet, first_head, columns):
    """Rows under the head whose first cell is first_head, up to an empty one."""
    row = next(r for r in range(1, sheet.max_row + 1) if sheet.cell(r, 1).value == first_head) + 1
    while sheet.cell(row, 1).value not in (None, "", "Prices changed"):
        yield row, [sheet.cell(row, column).value for column in columns]
        row += 1


def shares(costs):
    """The price and the quantity of every line whose unit is money: a share of other lines."""
    for row in range(3, costs.max_row + 1):
        unit, price = costs.cell(row, 6).value, costs.cell(row, 7).value
        if unit == "$" and price is not None:
            yield [price, costs.cell(row, 5).value]


def read(path):
    book = load_workbook(path, data_only=True)
    prices = book["Prices"]
    found = {
        "warm": [cells[0] for _, cells in rows(prices, "Option", [2])],
        "prices": [cells for _, cells in rows(prices, "Option", [1, 3, 4, 5])],
        "by_fuel": [cells for _, cells in rows(prices, "Option", range(6, prices.max_column + 1))],
        "years": [],
        "sums": list(shares(book["Costs"])),
        "paper": [sheet.page_setup.paperSize for sheet in book],
    }
    if "Over the years" in book.sheetnames:
        found["years"] = [cells for _, cells in rows(book["Over the years"], "Option", [1, 8, 9])]
    return found


def main():
    task = json.load(sys.stdin)
    folder = pathlib.Path(task["folder"])
    files = []
    for place, changes in enumerate(task["cases"]):
        book = load_workbook(task["file"])
        sheet = book["Prices"]
        for fuel, price_of, value in changes:
            found = [row for row, cells in rows(sheet, "Fuel", [1, 2]) if cells == [fuel, price_of]]
            assert len(found) == 1, (fuel, price_of, list(rows(sheet, "Fuel", [1, 2])))
            sheet.cell(found[0], 4).value = value
        files.append(folder / f"case{place}.xlsx")
        book.save(files[-1])
    out = folder / "worked-out"
    profile = f"-env:UserInstallation=file://{folder}/profile"
    command = ["soffice", profile, "--headless", "--convert-to", "xlsx", "--outdir", out, *files]
    if files:
        subprocess.run(command, check=True, capture_output=True, timeout=300)
    said = subprocess.run(["soffice", profile, "--version"], check=True, capture_output=True, timeout=60, text=True)
    cases = [read(out / file.name) for file in files]
    print(json.dumps({"stored": read(task["file"]), "cases": cases, "version": said.stdout.strip()}))


main()
