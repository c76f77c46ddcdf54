"""Writes tables as a workbook, the same bytes every time."""

import datetime
import io
import re
import zipfile

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font, PatternFill

FORMATS = {datetime.datetime: "yyyy-mm-dd hh:mm:ss", datetime.date: "yyyy-mm-dd", datetime.time: "hh:mm"}
SAVED_AT = datetime.datetime(2026, 1, 1)


class Table:
    """One sheet: header, at most one note row, rows as lists in the order of the header."""

    def __init__(self, name, header, rows, note=None, widths=None):
        self.name, self.header, self.rows, self.note = name, header, rows, note
        self.widths = widths or {}


# Sheets that every case fills in the same way: header, and widths where they are not those of the headers.
SHEETS = {
    "case": (["key", "value"], {"key": 24, "value": 70}),
    "statements": (["who", "on", "text"], {"who": 26, "on": 12, "text": 90}),
    "conditions": (["check", "state", "affects", "from", "to", "note"], {"check": 40, "note": 40}),
    "training": (["operator", "on", "given_by_role", "what", "variants", "signed_off"], {"on": 12, "what": 40}),
    "steps": (["step", "due", "done_on", "document", "by_role"],
              {"step": 22, "due": 12, "done_on": 12, "document": 24, "by_role": 28}),
}


def sheet(name, rows, note=None, widths=None):
    """One of SHEETS."""
    header, usual = SHEETS[name]
    return Table(name, header, [list(row) for row in rows], note, usual | (widths or {}))


def table_of(name, header, records, note=None, widths=None):
    """A table from dictionaries; a key that is missing is a blank cell."""
    return Table(name, header, [[record.get(column) for column in header] for record in records], note, widths)


def write_workbook(path, tables):
    book = Workbook()
    book.remove(book.active)
    for table in tables:
        sheet = book.create_sheet(table.name)
        sheet.append(table.header)
        for cell in sheet[1]:
            cell.font = Font(bold=True)
            cell.fill = PatternFill("solid", fgColor="DDDDDD")
        if table.note:
            sheet.append(["# " + table.note])
            sheet["A2"].font = Font(italic=True, color="666666")
        for row in table.rows:
            sheet.append(row)
            for cell in sheet[sheet.max_row]:
                number_format = FORMATS.get(type(cell.value))
                if number_format:
                    cell.number_format = number_format
                elif isinstance(cell.value, str) and len(cell.value) > 60:
                    cell.alignment = Alignment(wrap_text=True, vertical="top")
        sheet.freeze_panes = "A2"
        for i, column in enumerate(table.header):
            letter = sheet.cell(row=1, column=i + 1).column_letter
            sheet.column_dimensions[letter].width = table.widths.get(column, max(9, len(column) + 2))
    book.properties.creator = "invented plant"
    book.properties.created = SAVED_AT
    raw = io.BytesIO()
    book.save(raw)
    path.write_bytes(_with_fixed_times(raw))


def _with_fixed_times(raw):
    """The library stamps the hour of saving into the file; here every file has the same one."""
    out = io.BytesIO()
    with zipfile.ZipFile(raw) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as new:
        for name in old.namelist():
            data = old.read(name)
            if name == "docProps/core.xml":
                stamp = SAVED_AT.strftime("%Y-%m-%dT%H:%M:%SZ").encode()
                data = re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>" + stamp, data)
            entry = zipfile.ZipInfo(name, date_time=(1980, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(entry, data)
    return out.getvalue()
