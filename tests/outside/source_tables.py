"""Reads the table sources (tables/sources) for the outside checks.

Kept apart from the compiler of the project on purpose: a mistake in that reader must not hide itself here.
"""

import csv
import pathlib
from fractions import Fraction

HERE = pathlib.Path(__file__).resolve().parent
SOURCES = HERE.parent.parent / "tables" / "sources"
MM_PER_INCH = 25.4


def rows(path):
    """The rows of one CSV as dictionaries; empty lines and lines that begin with # are skipped."""
    lines = [line for line in path.read_text(encoding="utf-8").splitlines() if line.strip() and not line.startswith("#")]
    return list(csv.DictReader(lines))


def inches(row, name):
    """The quantity `name` of a row in inches, or None where the cell is empty or absent."""
    for column, factor in ((f"{name}_in", 1.0), (f"{name}_mm", MM_PER_INCH)):
        if (row.get(column) or "").strip():
            return float(row[column]) / factor
    return None


def families():
    """The keys of all families that have an OD file."""
    return sorted(path.stem for path in (SOURCES / "od").glob("*.csv"))


def od_rows(family):
    """The OD rows of a family; empty where there is no such file."""
    path = SOURCES / "od" / f"{family}.csv"
    return rows(path) if path.is_file() else []


def class_rows(family):
    """The wall classes of a family; empty where there is no such file."""
    path = SOURCES / "classes" / f"{family}.csv"
    return rows(path) if path.is_file() else []


def plain(name):
    """A class name without spaces and case, so that 'PC 350' and 'PC350' are the same."""
    return "".join(name.split()).lower()


def size(nominal):
    """A nominal size as a number: '1-1/2' is 1.5; None for metric names such as 'DN150'."""
    try:
        return float(sum(Fraction(part) for part in nominal.split("-")))
    except ValueError:
        return None


def closing(passed, failed, floor):
    """Prints the closing line and returns the exit status.

    A floor guards against a check that silently found nothing to check.
    """
    if passed < floor:
        print(f"only {passed} comparisons passed, at least {floor} are expected")
    print(f"{passed} passed, {failed} failed")
    return 0 if failed == 0 and passed >= floor else 1
