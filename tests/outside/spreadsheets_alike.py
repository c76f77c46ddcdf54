#!/usr/bin/python3 -B
"""The same tables as XLSX, ODS and CSV, all written by LibreOffice, give the same findings; and of awkward workbooks
docket reads cell by cell what openpyxl reads."""
import datetime
import json
import subprocess
import sys
import tempfile
from pathlib import Path

import openpyxl

from inputs import DOCKET, ROOT, brief, run, sample_cases

AWKWARD = ROOT / "tests/ingest/awkward_files"
CELLS = Path(sys.argv[2]).resolve()
wrong = []


def office(workbook, kind, folder):
    run("soffice", f"-env:UserInstallation=file://{folder}/profile", "--headless", "--convert-to", kind, "--outdir",
        folder, workbook)


def without_files(findings):
    """Findings without what tells one file from another, and lists of rows without the order of their files."""
    if isinstance(findings, dict):
        if "excluded" in findings:
            findings = findings | {"excluded": sorted(map(json.dumps, without_files(findings["excluded"])))}
        return {k: without_files(v) for k, v in findings.items() if k not in ("evidence", "file", "row")}
    if isinstance(findings, list):
        return [without_files(v) for v in findings]
    return findings


def check_three_kinds(name, workbook, place):
    """CSV: token 44 is the comma, 34 the quotation mark, 76 UTF-8; -1 at the end writes every sheet to its own file."""
    folder = place / name
    (folder / "csv").mkdir(parents=True)
    office(workbook, "xlsx", folder)
    office(workbook, "ods", folder)
    office(workbook, "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1", folder / "csv")
    for made in (folder / "csv").glob("*.csv"):  # station-cycle_log.csv
        made.rename(made.with_name(made.name.removeprefix(workbook.stem + "-")))
    found = {kind: without_files(json.loads((brief(source, folder / f"out_{kind}") / "findings.json").read_text()))
             for kind, source in (("xlsx", folder / f"{workbook.stem}.xlsx"), ("ods", folder / f"{workbook.stem}.ods"),
                                  ("csv", folder / "csv"))}
    for kind in ("ods", "csv"):
        if found[kind] != found["xlsx"]:
            keys = [k for k in found["xlsx"] if found[kind].get(k) != found["xlsx"][k]]
            wrong.append(f"{name}: {kind} gives other findings than xlsx: {', '.join(keys)}")


EPOCH = datetime.datetime(1970, 1, 1)


def as_text(value):
    """A cell of openpyxl as docket shows it: its kind and its text."""
    if value is None:
        return "-:"
    if isinstance(value, bool):
        return f"b:{str(value).upper()}"
    if isinstance(value, datetime.datetime):
        milliseconds = round((value - EPOCH) / datetime.timedelta(milliseconds=1))
        rounded = EPOCH + datetime.timedelta(milliseconds=milliseconds)
        text = rounded.date().isoformat()
        if rounded.time() != datetime.time():
            text += "T" + rounded.strftime("%H:%M:%S") + (f".{rounded.microsecond // 1000:03}" if rounded.microsecond else "")
        return f"d:{text}"
    if isinstance(value, (datetime.time, datetime.timedelta)):
        if isinstance(value, datetime.time):
            value = datetime.datetime.combine(EPOCH, value) - EPOCH
        milliseconds = round(value / datetime.timedelta(milliseconds=1))
        sign, milliseconds = ("-" if milliseconds < 0 else ""), abs(milliseconds)
        seconds, rest = divmod(milliseconds, 1000)
        text = f"{sign}{seconds // 3600}:{seconds // 60 % 60:02}:{seconds % 60:02}" + (f".{rest:03}" if rest else "")
        return f"D:{text}"
    if isinstance(value, (int, float)):
        return f"n:{float(value)!r}"
    if value.startswith("#") and value in ("#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!"):
        return f"e:{value}"
    text = value.strip(" \t\r\n\f\v\u00a0\u202f\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    return f"t:{text}" if text else "-:"


def cells_by_openpyxl(path):
    stored = openpyxl.load_workbook(path, data_only=True)
    formulas = openpyxl.load_workbook(path)
    cells = {}
    for sheet in stored:
        for row in sheet.iter_rows():
            for cell in row:
                formula = formulas[sheet.title][cell.coordinate].value
                text = as_text(cell.value)
                if cell.value is None and isinstance(formula, str) and formula.startswith("="):
                    text = "?:"
                if text != "-:":
                    cells[sheet.title, cell.row, cell.column] = text
    return cells


def cells_by_docket(path):
    """`reader_cells` prints a JSON line a cell: sheet, row, column, kind, text, number."""
    cells = {}
    for line in subprocess.run([CELLS, path], check=True, capture_output=True, text=True).stdout.splitlines():
        sheet, row, column, kind, text, number = json.loads(line)
        cells[sheet, row, column] = f"n:{float(number)!r}" if kind in "n%" else f"{kind}:{text}"
    return cells


# What openpyxl does otherwise, with the reason: (file, sheet, row, column) -> why it is left out of the comparison.
KNOWN = {
    ("openpyxl.xlsx", "kinds", 8, 2): "_x0041_ stands for A by ISO/IEC 29500-1, 22.9.2.19; openpyxl keeps it",
}


def check_cell_by_cell(path):
    theirs, ours = cells_by_openpyxl(path), cells_by_docket(path)
    compared = 0
    for place in sorted(set(theirs) | set(ours)):
        if (path.name, *place) in KNOWN:
            continue
        compared += 1
        if theirs.get(place) != ours.get(place):
            wrong.append(f"{path.name}, sheet {place[0]}, row {place[1]}, column {place[2]}: "
                         f"docket {ours.get(place)!r}, openpyxl {theirs.get(place)!r}")
    return compared


def make_awkward(path, date1904):
    """Both date systems, merged titles, a hidden sheet, rich and shared strings, percent, durations, errors, formulas."""
    book = openpyxl.Workbook()
    if date1904:
        book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    sheet = book.active
    sheet.title = "log"
    sheet.merge_cells("A1:E1")
    sheet["A1"] = "  Station 11\nweek 45  "
    sheet.append([])
    sheet.append(["started_at", "cycle_s", "share", "length", "note"])
    for i in range(50):
        at = datetime.datetime(2026, 3, 2, 6, 0, 0, 250000 * (i % 4)) + datetime.timedelta(seconds=58 * i)
        sheet.append([at, 50 + i / 7, i / 97, datetime.timedelta(seconds=i * 1.5), f"unit {i} \u00fc"])
        sheet.cell(i + 4, 1).number_format = "dd/mm/yyyy hh:mm:ss.000"
        sheet.cell(i + 4, 3).number_format = "0.0%"
        sheet.cell(i + 4, 4).number_format = "[h]:mm:ss.000"
    sheet["G4"], sheet["G5"], sheet["G6"] = "=SUM(B4:B9)", True, "#N/A"
    hidden = book.create_sheet("hidden")
    hidden.sheet_state = "hidden"
    hidden["C7"] = datetime.date(2026, 3, 2)
    hidden["C7"].number_format = "d mmm yy"
    book.save(path)


with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as made:
    place = Path(made)
    for name, workbook in sample_cases().items():
        check_three_kinds(name, workbook, place)
    compared = 0
    for date1904 in (False, True):
        path = place / f"awkward_{1904 if date1904 else 1900}.xlsx"
        make_awkward(path, date1904)
        compared += check_cell_by_cell(path)
        rewritten = place / "rewritten"
        rewritten.mkdir(exist_ok=True)
        office(path, "xlsx", rewritten)
        compared += check_cell_by_cell(rewritten / path.name)
    for name in ("openpyxl.xlsx", "libreoffice.xlsx", "days_1904.xlsx"):
        compared += check_cell_by_cell(AWKWARD / name)
    for workbook in sample_cases().values():
        compared += check_cell_by_cell(workbook)
print("\n".join(wrong[:40]) or f"{compared} cells are read alike, and three kinds of file give the same findings")
sys.exit(1 if wrong or compared < 1000 else 0)
