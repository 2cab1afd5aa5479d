"""Compares the table sources with values typed by hand from public sources.

od_by_hand.csv holds figures read in those sources themselves, never copied from our tables; each row names the source
and the place in it. `tolerance_in` is the rounding of the source, not a tolerance of the pipe.

Quantities: `od`; `wall CLASS`; `plus` and `minus` (tolerance on the average OD); `plus_at_least` and `minus_at_least`
(ours may be wider, never narrower); `oor` (out-of-round, each way); `od_count` (number of different ODs of a size).
Where several rows of a family share a nominal size (and the variant, where one is named), their ODs and walls must all
match; of their tolerances one is enough.

Sources contradict each other here and there; such a figure is left out of od_by_hand.csv where it is plainly a slip of
its source. Run: python3 od_check.py
"""

import sys

from source_tables import HERE, class_rows, closing, inches, od_rows, plain, rows

FLOOR = 900
PIT_CAST = ("pit-cast A", "pit-cast B", "pit-cast C", "pit-cast D")
AT_LEAST = "_at_least"
SERIES_DEPENDENT = ("plus", "minus", "oor")
# the names that od_by_hand.csv uses for the columns of the table sources
COLUMN = {"od": "od", "plus": "plus", "minus": "minus", "oor": "out_of_round"}


def ours(row):
    """What the table sources say for one typed row, as a sorted list of different values."""
    family, nominal, variant, quantity = (row[key] for key in ("family", "nominal", "variant", "quantity"))
    if quantity.startswith("wall "):
        wanted = plain(quantity.removeprefix("wall "))
        found = [
            inches(line, "wall")
            for line in class_rows(family)
            if line["nominal"] == nominal and plain(line["class"]) == wanted
        ]
    elif quantity == "od_count":
        found = [inches(line, "od") for line in od_rows(family) if line["nominal"] == nominal and line["variant"] in PIT_CAST]
        return [float(len({round(value, 3) for value in found}))] if found else []
    else:
        column = COLUMN[quantity.removesuffix(AT_LEAST)]
        found = [
            inches(line, column)
            for line in od_rows(family)
            if line["nominal"] == nominal and variant in ("", line["variant"])
        ]
    return sorted({value for value in found if value is not None})


def agrees(row, values):
    """Whether our values fit the typed one."""
    typed, slack = float(row["value_in"]), float(row["tolerance_in"]) + 1e-9
    if row["quantity"].endswith(AT_LEAST):
        return any(value >= typed - slack for value in values)
    fits = [abs(value - typed) <= slack for value in values]
    # a tolerance may differ from series to series, an OD and the wall of a class may not
    return any(fits) if row["quantity"] in SERIES_DEPENDENT else bool(fits) and all(fits)


def main():
    """Checks every typed row and prints those that do not fit."""
    passed = failed = 0
    for row in rows(HERE / "od_by_hand.csv"):
        values = ours(row)
        if agrees(row, values):
            passed += 1
            continue
        failed += 1
        label = " ".join(filter(None, (row["family"], row["nominal"], row["variant"], row["quantity"])))
        have = ", ".join(f"{value:.4f}" for value in values) or "nothing"
        print(f"FAIL {label}: source {row['value_in']}, tables {have} ({row['source']}; {row['where']})")
    return closing(passed, failed, FLOOR)


if __name__ == "__main__":
    sys.exit(main())
