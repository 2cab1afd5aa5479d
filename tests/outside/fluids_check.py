"""Compares the table sources with the general-purpose library `fluids` 1.3.1 (fluids.piping.schedule_lookup).

This is a guard against typing slips, no more. The library and several of our sources go back to the same ASTM, ASME and
AWWA tables, so that agreement says nothing about an error in a standard or about a table that we took from the library.

Every OD and every wall that both have is compared. A difference has to be listed in fluids_known.csv with a reason; one
that is not listed fails, and so does a listed one that no longer occurs. Run: python3 fluids_check.py
"""

import sys

from fluids.piping import schedule_lookup

from source_tables import HERE, MM_PER_INCH, class_rows, closing, families, inches, od_rows, plain, rows, size

FLOOR = 700
# The last printed digit of a wall is 0.001 in; the library holds some tables in millimetres rounded to 0.01.
SLACK = 0.0006

# (family, class, schedules of the library)
WALLS = [("ips-pvc", f"Sch {s}", [f"{s}D1785"]) for s in (40, 80, 120)]
WALLS += [
    ("ips-pvc", f"SDR {dr}", [f"DR{dr.replace('.', '')}D2241"])
    for dr in ("13.5", "17", "21", "26", "32.5", "41", "64")
]
WALLS += [("ips-pvc", f"DR {dr}", [f"IPSDR{dr.replace('.', '')}"]) for dr in ("21", "26", "32.5", "41")]
WALLS += [("drain-pvc", "Sch 40", ["PVCD2665"])]
WALLS += [
    ("c900", f"DR {dr}", [f"DR{dr}C900", f"CIDR{dr.replace('.', '')}C905"])
    for dr in ("14", "18", "21", "25", "32.5", "41", "51")
]
WALLS += [
    ("pip", f"SDR {dr}", [f"DR{dr.replace('.', '')}D2241PIP"])
    for dr in ("21", "26", "32.5", "35", "41", "51", "81")
]
WALLS += [("cts-plastic", f"SDR {dr}", [f"DR{dr.replace('.', '')}D2241CTS"]) for dr in ("11", "13.5", "17", "21")]
WALLS += [("sewer-pvc", f"PS {ps}", [f"PS{ps}F679"]) for ps in (46, 75, 115)]
WALLS += [
    ("steel", name, [key])
    for name, key in [("STD", "STD"), ("XS", "XS"), ("XXS", "XXS")]
    + [(f"Sch {s}", str(s)) for s in (5, 10, 20, 30, 40, 60, 80, 100, 120, 140, 160)]
]
WALLS += [
    ("hdpe-ips", f"DR {dr}", [f"DR{dr.replace('.', '')}F2619IPS"])
    for dr in ("7", "7.3", "9", "11", "13.5", "17", "21", "26", "32.5")
]

# The library knows PVC in copper tube sizes, not CPVC and PE, whose walls have other floors.
ONLY_SERIES = {"cts-plastic": "PVC"}


def od_slack(family, nominal):
    """How far an OD may lie from the library's: steel above 16 in stands there in whole millimetres."""
    if family == "steel":
        return 0.5 / MM_PER_INCH if nominal > 16 else 0.06 / MM_PER_INCH
    return 0.06 / MM_PER_INCH if family == "c900" else SLACK


def library(schedules, nominal):
    """The (OD, wall) pairs of the library for a nominal size, in inches."""
    pairs = []
    for key in schedules:
        sizes, _, ods, walls = schedule_lookup.get(key, ([], [], [], []))
        pairs += [(o / MM_PER_INCH, t / MM_PER_INCH) for s, o, t in zip(sizes, ods, walls) if s == nominal]
    return pairs


def comparisons():
    """Yields (family, nominal, class, ours, library values, slack) for all that both have; class is '' for an OD."""
    for family in families():
        schedules = [key for name, _, keys in WALLS if name == family for key in keys]
        for row in od_rows(family):
            nominal = size(row["nominal"])
            ods = [od for od, _ in library(schedules, nominal)]
            # sewer sizes up to 15 in are not in the library's table, the sizes that it has are F679
            if ods:
                yield family, row["nominal"], "", inches(row, "od"), ods, od_slack(family, nominal)
        for row in class_rows(family):
            wall = inches(row, "wall")
            for name, label, keys in WALLS:
                if name != family or plain(label) != plain(row["class"]) or wall is None:
                    continue
                if row["series"] != ONLY_SERIES.get(family, row["series"]):
                    continue
                walls = [value for _, value in library(keys, size(row["nominal"]))]
                if walls:
                    yield family, row["nominal"], row["class"], wall, walls, SLACK


def main():
    """Runs all comparisons and holds the differences against the list of known ones."""
    known = {(row["family"], row["nominal"], plain(row["class"])): row for row in rows(HERE / "fluids_known.csv")}
    met = set()
    passed = failed = 0
    for family, nominal, name, ours, theirs, slack in comparisons():
        key = (family, nominal, plain(name))
        if any(abs(ours - value) <= slack for value in theirs):
            passed += 1
        elif key in known and abs(ours - float(known[key]["ours_in"])) < SLACK:
            met.add(key)
            passed += 1
        else:
            failed += 1
            print(f"FAIL {family} {nominal} {name or 'OD'}: tables {ours:.4f}, library {', '.join(f'{v:.4f}' for v in theirs)}")
    for key, row in known.items():
        if key not in met:
            failed += 1
            print(f"FAIL {row['family']} {row['nominal']} {row['class'] or 'OD'}: the known difference no longer occurs")
    return closing(passed, failed, FLOOR)


if __name__ == "__main__":
    sys.exit(main())
