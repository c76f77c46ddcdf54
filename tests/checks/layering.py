#!/usr/bin/python3
"""Reads the include lines and fails on a breach of the direction: core <- ingest, core <- report; content and
adaptation apart; libraries inside .cpp files.

    tests/checks/layering.py [ROOT]
"""
import re
import sys
from pathlib import Path

ROOT = Path(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).resolve().parent.parent.parent)
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')
LIBRARY = re.compile(r"^(Q[A-Z]\w*|Qt\w*/.*|Poco/.*|sqlite3\.h|expat\.h|xlsxwriter.*|zlib\.h|zstd\.h)$")
DRAWING_LIBRARY = re.compile(r"^(Q(Gui|Paint|Pdf|Font|Raw|Image|Pixmap|Page|Text(Document|Layout))\w*|QtGui/.*)$")
OUTSIDE_WORLD = {"ctime", "time.h", "sys/time.h", "locale", "clocale", "iostream", "fstream", "cstdio", "stdio.h",
                 "filesystem", "thread", "random", "cstdlib"}
CLOCKS = re.compile(r"\b(system_clock|steady_clock|high_resolution_clock|utc_clock|random_device|setlocale)\b")


def breaches_of(path):
    """The breaches in one file, as (line number, what is wrong)."""
    name = path.relative_to(ROOT).as_posix()
    part = name.split("/")[0]
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if re.match(r"\s*using\s+namespace\b", line):
            yield number, "`using namespace` hides where a name comes from; name it"
        if part == "core" and CLOCKS.search(line.split("//")[0]):
            yield number, "core knows no clock, locale or chance of its own"
        found = INCLUDE.match(line)
        if not found:
            continue
        quoted, header = found[1] == '"', found[2]
        if LIBRARY.match(header) and path.suffix != ".cpp":
            yield number, f"{header} stays inside .cpp files"
        if DRAWING_LIBRARY.match(header) and not name.startswith("report/pdf/"):
            yield number, f"{header}: only report/pdf draws by Qt Gui"
        if part == "core" and not quoted and (LIBRARY.match(header) or header in OUTSIDE_WORLD):
            yield number, f"core must not know {header}"
        if not quoted:
            continue
        if header.split("/")[0] not in ("core", "ingest", "report", "tests"):
            yield number, f'"{header}" is not written from the root'
        if part == "core" and header.startswith(("ingest/", "report/")):
            yield number, f"core must not include {header}"
        if name.startswith("core/content/") and header.startswith("core/adaptation/"):
            yield number, "core/content must not include core/adaptation"
        if name.startswith("core/adaptation/") and header.startswith("core/content/"):
            yield number, "core/adaptation must not include core/content"
        if name.startswith("core/statistics/") and header.startswith(("core/content/", "core/adaptation/")):
            yield number, "core/statistics serves both questions and includes neither"
        if name.startswith(("core/content/", "core/adaptation/")) and header.startswith("core/ergonomics/"):
            yield number, "cautions decide neither question: core/ergonomics stays out of them"
        if name.startswith("core/ergonomics/") and header.startswith(("core/content/", "core/adaptation/")):
            yield number, "core/ergonomics knows the case, not the answers"
        if part == "ingest" and header.startswith("report/"):
            yield number, "ingest must not include report"
        if part == "report" and header.startswith("ingest/") and not name.startswith("report/cli/"):
            yield number, "only report/cli includes ingest"


def main():
    files = sorted(p for folder in ("core", "ingest", "report") for p in (ROOT / folder).rglob("*")
                   if p.suffix in (".h", ".cpp"))
    if not files:
        sys.exit(f"layering: no source file under {ROOT}")
    found = [(p, n, what) for p in files for n, what in breaches_of(p)]
    for path, number, what in found:
        print(f"{path.relative_to(ROOT)}:{number}: {what}")
    sys.exit(1 if found else 0)


main()
