#!/usr/bin/python3 -B
"""Workbooks in other hands: openpyxl and LibreOffice open the blank one, a filled one gives a case file, and what
LibreOffice rewrites gives the same findings."""
import json
import sys
import tempfile
from pathlib import Path

import openpyxl

from inputs import DOCKET, brief, office_rewrites, run, sample_cases

CASE = {"case_ref": "HP-1", "title": "Fan housing, screws", "station": "HP-11", "line": "Line 1", "line_cycle_s": 58}
STANDARD = [
    {"element": "take_fan", "description": "Take the fan and place it", "class": "nnva", "time_s": 7.5},
    {"element": "drive_screws", "description": "Drive eight screws", "class": "va", "time_s": 31},
    {"element": "plug_cable", "description": "Plug the cable", "class": "va", "time_s": 8},
]
OPERATORS = [{"operator": "B1", "trained": "yes", "shift": "early", "prior_cycles": 6000}]
wrong = []


def header_of(sheet, wanted):
    """The row that holds the column names, and the column of each."""
    for row in sheet.iter_rows(max_row=12):
        names = {str(cell.value).strip(): cell.column for cell in row if cell.value is not None}
        if all(name in names for name in wanted):
            return row[0].row, names
    sys.exit(f"sheet {sheet.title}: no header with {', '.join(wanted)}")


def fill_keys(sheet, values):
    _, names = header_of(sheet, ["key", "value"])
    rows = {str(sheet.cell(r, names["key"]).value): r for r in range(1, sheet.max_row + 1)}
    for key, value in values.items():
        sheet.cell(rows[key], names["value"]).value = value


def fill_rows(sheet, rows):
    at, names = header_of(sheet, list(rows[0]))
    at += 1
    while str(sheet.cell(at, 1).value or "").startswith("#"):
        at += 1
    for row in rows:
        for name, value in row.items():
            sheet.cell(at, names[name]).value = value
        at += 1


def without_files(findings):
    """Findings without what tells one file from another."""
    if isinstance(findings, dict):
        return {k: without_files(v) for k, v in findings.items() if k not in ("evidence", "file")}
    if isinstance(findings, list):
        return [without_files(v) for v in findings]
    return findings


# Words that may stand in a column, as the README's tables have them; columns by their header.
LISTS = {("conditions", "state"): "as_standard,differs,not_checked", ("operators", "trained"): "yes,no,unknown",
         ("standard", "class"): "va,nnva,nva", ("referrals", "state"): "open,closed"}


def check_lists(book):
    """Where words are fixed, a cell offers them as a drop-down and takes no other."""
    for (name, column), words in LISTS.items():
        sheet = book[name]
        at, names = header_of(sheet, [column])
        cell = sheet.cell(at + 2, names[column]).coordinate
        lists = [v for v in sheet.data_validations.dataValidation if cell in v.sqref and v.type == "list"]
        if len(lists) != 1 or lists[0].formula1.strip('"') != words or not lists[0].showErrorMessage:
            wrong.append(f"{name}, {column}: the list offered is {[v.formula1 for v in lists]}, not {words}")


def check_blank(place):
    blank = place / "blank.xlsx"
    run(DOCKET, "template", blank)
    sheets = openpyxl.load_workbook(blank).sheetnames
    if not {"case", "standard", "cycle_log", "settings"} <= set(sheets):
        wrong.append(f"the blank workbook has other sheets: {sheets}")
    check_lists(openpyxl.load_workbook(blank))
    (place / "office").mkdir()
    rewritten = office_rewrites(blank, place / "office")
    ours, theirs = (run(DOCKET, "check", "--json", book, status=1) for book in (blank, rewritten))
    if ours != theirs.replace(rewritten.name, blank.name):
        wrong.append(f"check says of LibreOffice's blank workbook otherwise than of ours:\n{ours}\n{theirs}")
    return blank


def check_filled(blank, place):
    book = openpyxl.load_workbook(blank)
    fill_keys(book["case"], CASE)
    fill_rows(book["standard"], STANDARD)
    book.save(place / "two.xlsx")
    found = json.loads((brief(place / "two.xlsx", place / "two") / "findings.json").read_text())
    # 7.5 + 31 + 8 = 46.5 s
    if found["content"]["standard"]["mean_s"] != 46.5:
        wrong.append(f"filled with two sheets, the standard is {found['content']['standard']['mean_s']} s, not 46.5 s")
    fill_rows(book["operators"], OPERATORS)
    book.save(place / "three.xlsx")
    found = json.loads((brief(place / "three.xlsx", place / "three") / "findings.json").read_text())
    if {"table": "operators", "read": 1, "used": 1, "with_issue": 0, "used_now": True} not in found["counts"]:
        wrong.append(f"filled with one table more, the operators are counted otherwise: {found['counts']}")


def check_rewritten(place):
    for name, workbook in sample_cases().items():
        folder = place / f"office_{name}"
        folder.mkdir()
        rewritten = office_rewrites(workbook, folder)
        ours, theirs = (json.loads((brief(book, folder / out) / "findings.json").read_text())
                        for book, out in ((workbook, "ours"), (rewritten, "theirs")))
        if without_files(ours) != without_files(theirs):
            wrong.append(f"{name}: what LibreOffice rewrote gives other findings")


with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as made:
    check_filled(check_blank(Path(made)), Path(made))
    check_rewritten(Path(made))
print("\n".join(wrong) or "workbooks are read alike")
sys.exit(1 if wrong else 0)
