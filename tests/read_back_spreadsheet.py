#!/usr/bin/env python3
"""Opens every CSV of a folder in a spreadsheet program (Gnumeric's ssconvert), has it written again, and
compares cell by cell: texts stay texts (`10 11/16 in` must not become a date), numbers the same number.

    read_back_spreadsheet.py FOLDER
"""
import csv
import pathlib
import subprocess
import sys
import tempfile


def table(path):
    with open(path, newline="", encoding="utf-8") as file:
        return list(csv.reader(file))


def number(text):
    try:
        return float(text)
    except ValueError:
        return None


def is_same(before, after):
    if before == after:
        return True
    a, b = number(before), number(after)
    return a is not None and b is not None and abs(a - b) <= 1e-12 * abs(a)


def compare(path, scratch):
    again = scratch / "again.csv"
    subprocess.run(["ssconvert", str(path), str(again)], check=True, capture_output=True)
    before, after = table(path), table(again)
    assert len(before) == len(after), f"{path.name}: {len(before)} rows became {len(after)}"
    width = len(before[0])
    cells = 0
    for line, (row, opened) in enumerate(zip(before, after), 1):
        assert len(row) == width, f"{path.name}, row {line}: {len(row)} cells under {width} headings"
        # Empty cells at the end of a row are not written again.
        opened += [""] * (width - len(opened))
        for heading, cell, seen in zip(before[0], row, opened):
            assert is_same(cell, seen), f"{path.name}, row {line}, {heading}: {cell!r} became {seen!r}"
            cells += 1
    return cells


def main():
    files = sorted(pathlib.Path(sys.argv[1]).glob("*.csv"))
    assert files, "no CSV in this folder"
    with tempfile.TemporaryDirectory() as scratch:
        cells = sum(compare(path, pathlib.Path(scratch)) for path in files)
    print(f"spreadsheet: {len(files)} files opened, {cells} cells the same")


if __name__ == "__main__":
    main()
