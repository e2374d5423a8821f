"""Makes data/weather/*.csv.gz from the published TMY3 and EPW files.

    python3 tests/python/make_places.py FOLDER

FOLDER holds the originals, plain or gzipped (names in PLACES). The same originals give the same
bytes (no time stamp in the gzip header). Uses nothing but the standard library, and none of the
program's readers, so that these can be held against it. Header lines of design conditions are
never read.
"""

import gzip
import pathlib
import sys

# key: original, name, time zone
PLACES = {
    "ak-northway": ("TMY3_702910_AK_Northway.epw", "Northway, Alaska", "America/Anchorage"),
    "az-tucson": ("TMY3_722740_AZ_Tucson.csv", "Tucson, Arizona", "America/Phoenix"),
    "co-golden": ("TMY3_724666_CO_Golden.csv", "Golden, Colorado", "America/Denver"),
    "il-chicago": ("TMY3_725300_IL_ChicagoOHare.epw", "Chicago O'Hare, Illinois", "America/Chicago"),
    "nc-greensboro": ("TMY3_723170_NC_Greensboro.csv", "Greensboro, North Carolina", "America/New_York"),
    "nj-mcguire": ("TMY3_724096_NJ_McGuireAFB.epw", "McGuire, New Jersey", "America/New_York"),
}
HEADER = (
    "dry_bulb_degC,dew_point_degC,relative_humidity_percent,pressure_Pa,"
    "global_W_m2,direct_W_m2,diffuse_W_m2,wind_m_s"
)
# Columns in the order of HEADER.
EPW_COLUMNS = [6, 7, 8, 9, 13, 14, 15, 21]
TMY3_NAMES = [
    "Dry-bulb (C)",
    "Dew-point (C)",
    "RHum (%)",
    "Pressure (mbar)",
    "GHI (W/m^2)",
    "DNI (W/m^2)",
    "DHI (W/m^2)",
    "Wspd (m/s)",
]


def lines_of(folder, name):
    """The lines of an original, gzipped or not."""
    packed = folder / (name + ".gz")
    data = gzip.decompress(packed.read_bytes()) if packed.exists() else (folder / name).read_bytes()
    return data.decode("ascii").splitlines()


def plain(text, factor=1):
    """A number without trailing zeros."""
    value = float(text) * factor
    return str(int(value)) if value == int(value) else repr(value)


def from_epw(lines):
    """Station number, latitude, longitude, elevation, offset from UTC, rows."""
    place = lines[0].split(",")
    rows = [line.split(",") for line in lines[8:] if line]
    body = [[plain(row[i]) for i in EPW_COLUMNS] for row in rows]
    return place[5], place[6], place[7], place[9], place[8], body


def from_tmy3(lines):
    """The same of a TMY3 file; millibar become pascal."""
    place = lines[0].split(",")
    names = lines[1].split(",")
    columns = [names.index(name) for name in TMY3_NAMES]
    rows = [line.split(",") for line in lines[2:] if line]
    factors = [100 if name.startswith("Pressure") else 1 for name in TMY3_NAMES]
    body = [[plain(row[i], f) for i, f in zip(columns, factors)] for row in rows]
    return place[0], place[4], place[5], place[6], place[3], body


def main():
    """Writes every place."""
    folder = pathlib.Path(sys.argv[1])
    target = pathlib.Path(__file__).resolve().parents[2] / "data" / "weather"
    for key, (original, name, zone) in PLACES.items():
        lines = lines_of(folder, original)
        read = from_epw if original.endswith(".epw") else from_tmy3
        station, latitude, longitude, elevation, offset, body = read(lines)
        assert len(body) == 8760, key
        head = [
            f"# place: {name}",
            f"# origin: NREL TMY3, station {station}; Wilcox and Marion, NREL/TP-581-43156 (2008)",
            f"# latitude: {plain(latitude)}",
            f"# longitude: {plain(longitude)}",
            f"# elevation_m: {plain(elevation)}",
            f"# utc_offset_h: {plain(offset)}",
            f"# time_zone: {zone}",
            "# year: typical",
            HEADER,
        ]
        text = "\n".join(head + [",".join(row) for row in body]) + "\n"
        (target / f"{key}.csv.gz").write_bytes(gzip.compress(text.encode("ascii"), 9, mtime=0))


main()
