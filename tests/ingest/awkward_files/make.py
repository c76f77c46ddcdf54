#!/usr/bin/env python3
"""Makes the awkward workbooks that tests/ingest/workbook_test.cpp and ods_test.cpp read.

The files are in the repository; the tests do not run this. Written with openpyxl 3.0 (python3-openpyxl) and, by hand
from the clauses of ISO/IEC 29500-1, with zipfile. libreoffice.xlsx is openpyxl.xlsx opened and saved by LibreOffice:

    soffice --headless --convert-to xlsx:"Calc MS Excel 2007 XML" --outdir OUT openpyxl.xlsx

and libreoffice.ods is libreoffice.xlsx, opened and saved with --convert-to ods.
"""
import datetime
import gzip
import os
import re
import warnings
import zipfile

import openpyxl
from openpyxl.styles import Font
from openpyxl.utils.datetime import CALENDAR_MAC_1904

HERE = os.path.dirname(os.path.abspath(__file__))


def path(name):
    return os.path.join(HERE, name)


def write_zip(name, parts, method=zipfile.ZIP_DEFLATED):
    """parts: list of (name, text or bytes), so that a name may come twice."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        with zipfile.ZipFile(path(name), "w") as out:
            for part, content in parts:
                info = zipfile.ZipInfo(part, (1980, 1, 1, 0, 0, 0))
                info.compress_type = method
                out.writestr(info, content)


def fix_times(name):
    """The same bytes on every run."""
    with zipfile.ZipFile(path(name)) as made:
        parts = [(i.filename, made.read(i)) for i in made.infolist()]
    fixed = [(n, re.sub(rb"\d{4}-\d\d-\d\dT[\d:]+Z", b"2026-03-02T00:00:00Z", c) if n == "docProps/core.xml" else c)
             for n, c in parts]
    write_zip(name, fixed)


# ---- by openpyxl ---------------------------------------------------------------------------------------------------

def make_openpyxl():
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "kinds"
    sheet["A1"] = "Station 12, as found"
    sheet.merge_cells("A1:D1")
    sheet["A1"].font = Font(bold=True)
    rows = [
        ("what", "value", None),
        ("text", "  pump, left  ", None),
        ("text_of_digits", "012", None),
        ("two_lines", "first\nsecond", None),
        ("accents", "W\u00e4rme \u2265 5 \U0001F527", None),
        ("looks_escaped", "_x0041_", None),
        ("whole", 100000, None),
        ("seconds", 57.5, None),
        ("sum", 0.1 + 0.2, None),
        ("small", 0.000036, "0.00E+00"),
        ("in_days", 2.5, '0.00 "days"'),
        ("in_tmu", 27.8, "0.0\\ \\d"),
        ("red", -3.25, "[Red]0.00;[Blue]-0.00"),
        ("percent", 0.05, "0%"),
        ("percent_1", 0.0725, "0.0%"),
        ("day", datetime.date(2026, 3, 2), "yyyy-mm-dd"),
        ("day_dotted", datetime.date(2026, 3, 2), "dd\\.mm\\.yyyy"),
        ("day_built_in", datetime.date(2026, 3, 2), "mm-dd-yy"),
        ("instant", datetime.datetime(2026, 3, 2, 6, 5, 30, 250000), "yyyy-mm-dd hh:mm:ss.000"),
        ("instant_as_time", datetime.datetime(2026, 3, 2, 6, 5, 30), "h:mm:ss"),
        ("time_of_day", datetime.time(6, 5), "h:mm"),
        ("hours", datetime.timedelta(hours=26, minutes=30), "[h]:mm"),
        ("minutes", datetime.timedelta(seconds=57.5), "mm:ss.0"),
        ("truth", True, None),
        ("untruth", False, None),
        ("formula", "=1+1", None),
        ("error", "#DIV/0!", None),
        ("white", "  \u00a0 ", None),
    ]
    for number, (what, value, code) in enumerate(rows, start=3):
        sheet.cell(number, 1, what)
        cell = sheet.cell(number, 2, value)
        if code:
            cell.number_format = code
    hidden = book.create_sheet("hidden one")
    hidden.sheet_state = "hidden"
    hidden["B3"] = "seen"
    formatted = book.create_sheet("formatted")
    formatted["A1"] = "element"
    formatted["C2"] = 5
    for row in range(1, 1001):
        for column in range(1, 9):
            formatted.cell(row, column).font = Font(bold=True)
    book.create_sheet("empty")
    book.save(path("openpyxl.xlsx"))
    fix_times("openpyxl.xlsx")


def make_1904():
    book = openpyxl.Workbook()
    book.epoch = CALENDAR_MAC_1904
    sheet = book.active
    sheet.title = "days"
    sheet["A1"] = datetime.date(2026, 1, 2)
    sheet["A1"].number_format = "yyyy-mm-dd"
    sheet["B1"] = datetime.datetime(2026, 1, 2, 3, 4, 5)
    sheet["B1"].number_format = "yyyy-mm-dd hh:mm:ss"
    sheet["C1"] = datetime.timedelta(minutes=90)
    sheet["C1"].number_format = "[h]:mm"
    book.save(path("days_1904.xlsx"))
    fix_times("days_1904.xlsx")


# ---- by hand -------------------------------------------------------------------------------------------------------

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
STRICT = "http://purl.oclc.org/ooxml/spreadsheetml/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
STRICT_OFFICE = "http://purl.oclc.org/ooxml/officeDocument/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'

TYPES = HEAD + '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>'


def relationships(office, entries):
    return (HEAD + f'<Relationships xmlns="{PACKAGE}">' +
            "".join(f'<Relationship Id="{i}" Type="{office}/{t}" Target="{p}"/>' for i, t, p in entries) +
            "</Relationships>")


def small_book(sheet_data, styles=None, strings=None, office=OFFICE):
    """The parts of a workbook with one sheet called `s`."""
    entries = [("rId1", "worksheet", "worksheets/sheet1.xml")]
    parts = [("[Content_Types].xml", TYPES),
             ("_rels/.rels", relationships(office, [("rId1", "officeDocument", "xl/workbook.xml")])),
             ("xl/workbook.xml", HEAD + f'<workbook xmlns="{MAIN}" xmlns:r="{office}"><sheets>'
              '<sheet name="s" sheetId="1" r:id="rId1"/></sheets></workbook>')]
    if styles:
        entries.append(("rId2", "styles", "styles.xml"))
        parts.append(("xl/styles.xml", HEAD + f'<styleSheet xmlns="{MAIN}">{styles}</styleSheet>'))
    if strings:
        entries.append(("rId3", "sharedStrings", "sharedStrings.xml"))
        parts.append(("xl/sharedStrings.xml", HEAD + f'<sst xmlns="{MAIN}">{strings}</sst>'))
    parts.append(("xl/_rels/workbook.xml.rels", relationships(office, entries)))
    parts.append(("xl/worksheets/sheet1.xml",
                  HEAD + f'<worksheet xmlns="{MAIN}"><sheetData>{sheet_data}</sheetData></worksheet>'))
    return parts


def make_strings():
    strings = (
        '<si><r><rPr><b/></rPr><t xml:space="preserve">left </t></r><r><t>pump</t></r>'
        '<rPh sb="0" eb="1"><t>never read</t></rPh><phoneticPr fontId="1"/></si>'
        '<si><t>plain _x0041__x00E4_</t></si>'
        '<si><t>_x005F_x0041_</t></si>'
        '<si><t>_xD83D__xDD27_</t></si>'
        '<si><t>a_x000D_\nb</t></si>'
        '<si><t>half _xD83D_ and _x0001_</t></si>'
        '<si><r><t>  close </t></r><r><t> up  </t></r></si>'
        '<si><t/></si>'
        '<si><t><![CDATA[5 < 6]]> &amp; 7</t></si>')
    cells = "".join(f'<c t="s"><v>{i}</v></c>' for i in range(9))
    data = (f'<row>{cells}</row>'
            '<row><c t="inlineStr"><is><t>straight in</t></is></c>'
            '<c t="inlineStr"><is><r><t xml:space="preserve">two </t></r><r><t>runs</t></r></is></c>'
            '<c t="str"><f>A1&amp;"x"</f><v> stored _x0042_ </v></c>'
            '<c t="str"><f>""</f><v></v></c>'
            '<c t="e"><f>1/0</f><v>#DIV/0!</v></c>'
            '<c t="b"><v>1</v></c>'
            '<c><f>1+1</f><v></v></c><c><f>1+1</f></c><c><f>1+1</f><v>2</v></c></row>')
    write_zip("strings.xlsx", small_book(data, strings=strings))


def make_places():
    data = ('<row><c><v>1</v></c><c/><c><v>3</v></c></row>'
            '<row r="4"><c r="B4"><v>2</v></c><c><v>3</v></c><c r="AA4"><v>27</v></c><c r="AB4" s="0"/></row>'
            '<row><c t="inlineStr"><is><t>  </t></is></c></row>'
            '<row><c><v>6</v></c><c><v>0.30000000000000004</v></c><c><v> -5.75E+1 </v></c><extLst><ext><c><v>99</v></c></ext></extLst></row>'
            '<row r="1048576"><c r="XFD1048576"><v>9</v></c></row>')
    write_zip("places.xlsx", small_book(data))


DATE_STYLES = ('<numFmts count="2"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd\\ hh:mm:ss"/>'
               '<numFmt numFmtId="165" formatCode="[$-407]d/\\ mmmm\\ yyyy;@"/></numFmts>'
               '<cellStyleXfs><xf numFmtId="9"/></cellStyleXfs>'
               '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="22"/><xf numFmtId="164"/>'
               '<xf numFmtId="165"/><xf numFmtId="20"/><xf numFmtId="46"/><xf numFmtId="45"/></cellXfs>'
               '<dxfs><dxf><numFmt numFmtId="164" formatCode="0%"/></dxf></dxfs>')


def make_days():
    serials = [(1, "1"), (1, "59"), (1, "60"), (1, "61"), (1, "25569"), (1, "2958465"), (1, "2958466"), (1, "-1"),
               (2, "44562.12783564815"), (2, "44562.1278356481"), (3, "44562.999999999"), (4, "46083"), (5, "0.25"),
               (5, "46083.25"), (6, "1.5"), (7, "1.1574074074074073E-5"), (1, "0.5")]
    data = ("<row>" + "".join(f'<c s="{s}"><v>{v}</v></c>' for s, v in serials) + "</row><row>" +
            "".join(f'<c t="d"><v>{v}</v></c>' for v in
                    ["2026-03-02", "2026-03-02T06:05:30.250", "2026-03-02T06:05Z", "06:05:30", "2026-02-30"]) +
            "</row>")
    write_zip("days.xlsx", small_book(data, styles=DATE_STYLES))


def make_strict():
    """Prefixed elements, the strict edition's addresses, parts in odd places and another order, a chart sheet."""
    def sheet(value):
        return (HEAD + f'<x:worksheet xmlns:x="{STRICT}"><x:sheetData><x:row r="1"><x:c r="A1"><x:v>{value}</x:v>'
                '</x:c></x:row></x:sheetData></x:worksheet>')
    write_zip("strict.xlsx", [
        ("[Content_Types].xml", TYPES),
        ("_rels/.rels", relationships(STRICT_OFFICE, [("a", "officeDocument", "/book/main.xml")])),
        ("book/_rels/main.xml.rels", relationships(STRICT_OFFICE, [
            ("s2", "worksheet", "../Sheets/B.xml"), ("s1", "worksheet", "/sheets/a.xml"),
            ("c1", "chartsheet", "chart.xml"), ("x", "theme", "missing.xml")])),
        ("book/main.xml", HEAD + f'<x:workbook xmlns:x="{STRICT}" xmlns:q="{STRICT_OFFICE}">'
         '<x:workbookPr date1904="false"/><x:sheets>'
         '<x:sheet name="second &amp; first" sheetId="7" q:id="s2"/><x:sheet name="chart" sheetId="3" q:id="c1"/>'
         '<x:sheet name="first" sheetId="1" q:id="s1" state="veryHidden"/></x:sheets></x:workbook>'),
        ("sheets/a.xml", sheet(1)),
        ("sheets/b.xml", sheet(2)),
    ])


def make_refused():
    with open(path("text.xlsx"), "w", newline="\n") as out:
        out.write("element,time_s\nlift pump,12.5\n")
    open(path("empty.xlsx"), "w").close()
    with open(path("protected.xlsx"), "wb") as out:
        out.write(bytes.fromhex("D0CF11E0A1B11AE1") + bytes(504))
    write_zip("letter.xlsx", [("hello.txt", "not a workbook")])
    write_zip("letter_with_parts.xlsx", [
        ("_rels/.rels", relationships(OFFICE, [("rId1", "officeDocument", "word/document.xml")])),
        ("word/document.xml", HEAD + "<document/>")])
    write_zip("binary.xlsx", [
        ("_rels/.rels", relationships(OFFICE, [("rId1", "officeDocument", "xl/workbook.bin")])),
        ("xl/workbook.bin", b"\x83\x01\x00")])
    write_zip("open_document.ods", [("mimetype", "application/vnd.oasis.opendocument.spreadsheet"),
                                    ("content.xml", HEAD + "<content/>")], zipfile.ZIP_STORED)

    row = '<row r="1"><c r="A1"><v>1</v></c></row>'
    laughs = "".join(f'<!ENTITY l{i} "{f"&l{i - 1};" * 10}">' for i in range(1, 10))
    parts = small_book(row)
    parts[-1] = (parts[-1][0], '<?xml version="1.0"?><!DOCTYPE worksheet [<!ENTITY l0 "ha">' + laughs + "]>" +
                 f'<worksheet xmlns="{MAIN}"><sheetData><row><c t="str"><v>&l9;</v></c></row></sheetData></worksheet>')
    write_zip("laughs.xlsx", parts)

    parts = small_book(row)
    parts[-1] = (parts[-1][0], HEAD + "<worksheet>" + "<a>" * 300 + "</a>" * 300 + "</worksheet>")
    write_zip("deep.xlsx", parts)

    parts = small_book(row)
    parts[-1] = (parts[-1][0], HEAD + '<worksheet a="' + "a" * 3_000_000 + '"/>')
    write_zip("long_tag.xlsx", parts)

    write_zip("twice.xlsx", small_book(row) + [("xl/worksheets/sheet1.xml", "<worksheet/>")])
    write_zip("twice_in_capitals.xlsx", small_book(row) + [("xl/worksheets/SHEET1.xml", "<worksheet/>")])
    write_zip("no_sheet_part.xlsx", small_book(row)[:-1])

    write_zip("bomb.xlsx", small_book(row + " " * (40 << 20)))

    # The sheet is encrypted by its flag, in the local header and in the central directory.
    write_zip("encrypted_part.xlsx", small_book(row))
    with open(path("encrypted_part.xlsx"), "rb") as made:
        content = bytearray(made.read())
    for mark, offset in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = content.find(mark)
        while at >= 0:
            content[at + offset] |= 1
            at = content.find(mark, at + 4)
    with open(path("encrypted_part.xlsx"), "wb") as out:
        out.write(content)

    # The last entry says that it unpacks to 10 bytes, in both places; the data and their check sum are right.
    write_zip("wrong_size.xlsx", small_book("".join(f"<row><c><v>{i}</v></c></row>" for i in range(1, 1001))))
    with open(path("wrong_size.xlsx"), "rb") as made:
        content = bytearray(made.read())
    for mark, offset in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        at = content.rfind(mark)
        content[at + offset:at + offset + 4] = (10).to_bytes(4, "little")
    with open(path("wrong_size.xlsx"), "wb") as out:
        out.write(content)

    for name, data in {
        "bad_index": '<row><c t="s"><v>0</v></c></row>',
        "bad_number": '<row r="5"><c r="C5"><v>12,5</v></c></row>',
        "bad_order": '<row r="2"><c><v>1</v></c></row><row r="2"><c><v>2</v></c></row>',
        "bad_cell": '<row r="2"><c r="B3"><v>1</v></c></row>',
        "bad_cell_order": '<row r="2"><c r="B2"><v>1</v></c><c r="A2"><v>1</v></c></row>',
        "bad_column": '<row r="1"><c r="XFE1"><v>1</v></c></row>',
        "bad_row": '<row r="1048577"><c><v>1</v></c></row>',
        "bad_type": '<row><c t="z"><v>1</v></c></row>',
        "bad_xml": '<row><c><v>1</c></row>',
    }.items():
        write_zip(name + ".xlsx", small_book(data))


# ---- OpenDocument, by hand from the clauses of OpenDocument 1.3 part 3 -----------------------------------------------

SPREADSHEET = "application/vnd.oasis.opendocument.spreadsheet"
OASIS = "urn:oasis:names:tc:opendocument:xmlns:"
NAMES = " ".join(f'xmlns:{prefix}="{OASIS}{name}:1.0"' for prefix, name in (
    ("office", "office"), ("table", "table"), ("text", "text"), ("draw", "drawing"), ("svg", "svg-compatible")))
MANIFEST = HEAD + f'<manifest:manifest xmlns:manifest="{OASIS}manifest:1.0">{{}}</manifest:manifest>'


def content_of(sheets, head=HEAD):
    return (f'{head}<office:document-content {NAMES}><office:body><office:spreadsheet>{sheets}'
            '</office:spreadsheet></office:body></office:document-content>')


def write_ods(name, sheets, media_type=SPREADSHEET, manifest="", head=HEAD):
    write_zip(name, [("mimetype", media_type), ("META-INF/manifest.xml", MANIFEST.format(manifest)),
                     ("content.xml", content_of(sheets, head))])


def table(rows, name="s"):
    return f'<table:table table:name="{name}">{rows}</table:table>'


def row(cells, repeated=None):
    times = f' table:number-rows-repeated="{repeated}"' if repeated else ""
    return f"<table:table-row{times}>{cells}</table:table-row>"


def cell(attributes="", inside="", repeated=None, name="table-cell"):
    times = f' table:number-columns-repeated="{repeated}"' if repeated else ""
    return f"<table:{name} {attributes}{times}>{inside}</table:{name}>"


def value(kind, **values):
    return f'office:value-type="{kind}"' + "".join(f' office:{k.replace("_", "-")}="{v}"' for k, v in values.items())


def paragraph(text):
    return f"<text:p>{text}</text:p>"


NUMBER = value("float", value="7")
FORMULA = 'table:formula="of:=[.A1]+1"'


def make_ods():
    kinds = [
        cell(value("float", value="-57.5"), paragraph("-57,50")),
        cell(value("percentage", value="0.804"), paragraph("80 %")),
        cell(value("currency", value="12.5"), paragraph("12.50 EUR")),
        cell(value("date", date_value="2026-03-02"), paragraph("02.03.26")),
        cell(value("date", date_value="2026-03-02T06:05:30.250000000"), paragraph("2 Mar")),
        cell(value("date", date_value="1899-12-30T06:05:00"), paragraph("6:05")),
        cell(value("time", time_value="PT06H05M00S"), paragraph("6:05")),
        cell(value("time", time_value="PT26H30M00S"), paragraph("26:30")),
        cell(value("time", time_value="PT00H00M57.500000000S"), paragraph("0:57.5")),
        cell(value("time", time_value="PT1105974H05M30S"), paragraph("06:05:30")),
        cell(value("boolean", boolean_value="true"), paragraph("WAHR")),
        cell(value("boolean", boolean_value="false"), paragraph("FALSCH")),
        cell('table:formula="of:=TRUE()" ' + value("float", value="1"), paragraph("1")),
        cell(value("string"), paragraph("plain")),
        cell(value("string", string_value="stored"), paragraph("shown")),
        cell(FORMULA + " " + value("float", value="8"), paragraph("8")),
        cell(FORMULA),
        cell(FORMULA + " " + value("float")),
        cell(FORMULA + ' office:value-type="string" calcext:value-type="error" xmlns:calcext="urn:x"',
             paragraph("#DIV/0!")),
        cell("", paragraph("no type")),
        cell("", ""),
    ]
    texts = [
        paragraph("first") + paragraph("second"),
        paragraph("two<text:s text:c=\"3\"/>blanks") + paragraph(""),
        paragraph("a<text:tab/>b<text:line-break/>c"),
        paragraph("  many \n  white\t places  "),
        paragraph("<text:span>in a <text:a>link</text:a></text:span> and <text:date>3 March</text:date>"),
        '<office:annotation><dc:creator xmlns:dc="urn:x">somebody</dc:creator>' + paragraph("never read") +
        "</office:annotation>" + paragraph("read<office:annotation>" + paragraph("nor this") + "</office:annotation>"),
        paragraph("with<text:note><text:note-body>" + paragraph("below") + "</text:note-body></text:note> note"),
        "<draw:frame><draw:text-box>" + paragraph("in a box") + "</draw:text-box></draw:frame>" + paragraph("beside"),
        paragraph("<text:ruby><text:ruby-base>base</text:ruby-base><text:ruby-text>upper</text:ruby-text></text:ruby>"),
        paragraph(" \u00a0 "),
        paragraph("5 &lt; 6 &amp; <![CDATA[7]]>"),
    ]
    changes = ('<table:tracked-changes><table:cell-content-change><table:previous><table:change-track-table-cell>' +
               paragraph("before") + "</table:change-track-table-cell></table:previous>"
               "</table:cell-content-change></table:tracked-changes>")
    write_ods("cells.ods", changes + table(row("".join(kinds))) + table(
        row("".join(cell(value("string"), t) for t in texts)), "texts &amp; notes"))

    end = row(cell(repeated=16384), repeated=948574)
    write_ods("repeats.ods", table(
        '<table:table-column table:number-columns-repeated="16384"/>'
        "<table:table-header-rows>" + row(cell(value("string"), paragraph("title")) +
                                          cell(name="covered-table-cell", repeated=3)) + "</table:table-header-rows>" +
        row(cell(), repeated=3) +
        "<table:table-row-group><table:table-row-group>" +
        row(cell(repeated=2) + cell(NUMBER, paragraph("7"), repeated=3) + cell(repeated=16379), repeated=2) +
        "</table:table-row-group></table:table-row-group>" +
        row(cell(NUMBER) + cell(repeated=20000)) + end) + table(end, "blank") +
        table(row(cell(NUMBER)), "\u0027file:///home/other.ods\u0027#$log"))

    write_ods("day_0.ods", '<table:calculation-settings><table:null-date table:date-value="1904-01-01"/>'
              "</table:calculation-settings>" +
              table(row(cell(value("date", date_value="1904-01-01T06:00:00")) +
                        cell(value("time", time_value="PT1070886H05M00S")))))
    write_zip("no_mimetype.ods", [("META-INF/manifest.xml", MANIFEST.format("")),
                                  ("content.xml", content_of(table(row(cell(NUMBER)))))])

    # Made to be refused.
    write_ods("letter.ods", "", media_type="application/vnd.oasis.opendocument.text")
    write_ods("locked.ods", "", manifest='<manifest:file-entry><manifest:encryption-data/></manifest:file-entry>')
    laughs = "".join(f'<!ENTITY l{i} "{f"&l{i - 1};" * 10}">' for i in range(1, 10))
    write_ods("laughs.ods", table(row(cell(value("string"), paragraph("&l9;")))),
              head=f'<?xml version="1.0"?><!DOCTYPE d [<!ENTITY l0 "ha">{laughs}]>')
    write_ods("deep.ods", table(row(cell(value("string"), paragraph("<text:span>" * 300 + "</text:span>" * 300)))))
    write_ods("long_tag.ods", table("", name="a" * 3_000_000))
    write_ods("bomb.ods", table(row(cell()) + " " * (40 << 20)))
    write_ods("all_cells.ods", table(row(cell(NUMBER, repeated=16384), repeated=1048576)))
    blanks = paragraph("|" + '<text:s text:c="4294967295"/>' * 20_000 + "|")
    write_ods("all_blanks.ods", table(row(cell(value("string"), blanks))))
    for name, cells in {
        "bad_value.ods": cell(value("float", value="12,5")),
        "bad_kind.ods": cell(value("colour", value="1")),
        "bad_truth.ods": cell(value("boolean", boolean_value="yes")),
        "bad_time.ods": cell(value("time", time_value="6:05")),
        "no_value.ods": cell(value("float")),
        "too_long.ods": cell(repeated=16384) + cell(NUMBER),
        "bad_repeat.ods": cell(NUMBER, repeated=-1),
    }.items():
        write_ods(name, table(row("", repeated=6) + row(cells)))
    write_ods("too_deep_down.ods", table(row(cell(), repeated=1048576) + row(cell(NUMBER))))


# ---- event logs, by hand in the structure of IEEE 1849 -----------------------------------------------------------------

def make_event_logs():
    def event(at, transition, unit):
        return (f'<event><string key="concept:name" value="HP-11"/><string key="lifecycle:transition" value="{transition}"/>'
                f'<string key="org:resource" value="B{unit % 3 + 1}"/><date key="time:timestamp" value="{at.isoformat()}"/>'
                "</event>")
    traces = []
    for unit in range(40):
        at = datetime.datetime(2026, 3, 2, 6) + datetime.timedelta(seconds=58 * unit)
        end = at + datetime.timedelta(seconds=50 + unit % 7)
        traces.append(f'<trace><string key="concept:name" value="U{unit}"/>{event(at, "start", unit)}'
                      f'{event(end, "complete", unit)}</trace>\n')
    log = (HEAD + '<log xes.version="1849.2016">\n' + "".join(traces) + "</log>\n").encode()
    with open(path("line.xes"), "wb") as out:
        out.write(log)
    third = len(log) // 3
    with open(path("line.xes.gz"), "wb") as out:
        for piece in (log[:third], log[third:2 * third], log[2 * third:]):
            out.write(gzip.compress(piece, mtime=0))
    with open(path("bomb.xes.gz"), "wb") as out:
        out.write(gzip.compress(b"<log>" + b" " * (40 << 20) + b"</log>", mtime=0))


if __name__ == "__main__":
    make_openpyxl()
    make_1904()
    make_strings()
    make_places()
    make_days()
    make_strict()
    make_refused()
    make_ods()
    make_event_logs()
