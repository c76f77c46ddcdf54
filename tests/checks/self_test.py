#!/usr/bin/python3
"""Plants breaches in a small tree and fails where a check does not see one: a check that can't fail proves nothing."""
import subprocess
import sys
import tempfile
from pathlib import Path

CHECKS = Path(__file__).resolve().parent

GOOD = {
    "core/error.h": "enum class ErrorKind {\n  input_has_faults = 1,\n};\n",
    "core/content/a.cpp": '#include "core/error.h"\n#include <vector>\n',
    "core/adaptation/b.cpp": '#include "core/error.h"\n',
    "ingest/c.cpp": '#include "core/error.h"\n#include <expat.h>\n\nDefect d = fault("not_a_number", "", "");\n',
    "report/d.cpp": '#include "core/error.h"\n#include <QString>\n',
    "report/cli/commands.cpp": '#include "ingest/c.h"\n\nCommand{"brief", "", ""};\nOptionDeclaration{"out", "", ""};\n',
    "tests/ingest/c_test.cpp": 'expect("not_a_number");\n',
    "tests/golden/brief_x/cmd": "brief in --out case\n",
    "tests/golden/brief_x/code": "1\n",
}

# (check, file, text added at its end)
BREACHES = [
    ("layering.py", "core/content/a.cpp", '#include "core/adaptation/b.h"\n'),
    ("layering.py", "core/adaptation/b.cpp", '#include "core/content/a.h"\n'),
    ("layering.py", "core/content/a.cpp", '#include "core/ergonomics/e.h"\n'),
    ("layering.py", "core/ergonomics/e.cpp", '#include "core/content/a.h"\n'),
    ("layering.py", "core/statistics/s.cpp", '#include "core/content/a.h"\n'),
    ("layering.py", "core/content/a.cpp", "#include <QString>\n"),
    ("layering.py", "core/content/a.cpp", "#include <Poco/Path.h>\n"),
    ("layering.py", "core/content/a.cpp", "#include <ctime>\n"),
    ("layering.py", "core/content/a.cpp", "#include <iostream>\n"),
    ("layering.py", "core/content/a.cpp", "#include <sqlite3.h>\n"),
    ("layering.py", "core/content/a.cpp", "auto now = std::chrono::system_clock::now();\n"),
    ("layering.py", "core/content/a.cpp", '#include "ingest/c.h"\n'),
    ("layering.py", "core/content/a.cpp", '#include "report/d.h"\n'),
    ("layering.py", "ingest/c.cpp", '#include "report/d.h"\n'),
    ("layering.py", "report/d.cpp", '#include "ingest/c.h"\n'),
    ("layering.py", "report/d.h", "#include <QString>\n"),
    ("layering.py", "report/d.cpp", "#include <QPainter>\n"),
    ("layering.py", "report/cli/d.cpp", "#include <QGuiApplication>\n"),
    ("layering.py", "ingest/c.h", "#include <expat.h>\n"),
    ("layering.py", "ingest/c.cpp", "void f() {\n  using namespace std;\n}\n"),
    ("layering.py", "ingest/c.cpp", '#include "c.h"\n'),
    ("format.sh", "ingest/c.cpp", "int  x=1 ;\n"),
    ("everything_tested.py", "ingest/c.cpp", 'Defect e = fault("never_tested", "", "");\n'),
    ("everything_tested.py", "ingest/c.cpp", 'Defect e{IssueGrade::warning, "never_tested"};\n'),
    ("everything_tested.py", "report/cli/commands.cpp", 'Command{"forgotten", "", ""};\n'),
    ("everything_tested.py", "report/cli/commands.cpp", 'OptionDeclaration{"forgotten", "", ""};\n'),
    ("everything_tested.py", "report/cli/commands.cpp", 'OptionDeclaration{"for-gotten", "", ""};\n'),
    ("everything_tested.py", "core/error.h", "  could_not_be_done = 3,\n"),
    ("wording.py", "report/d.cpp", 'say("The operator is lazy");\n'),
    ("wording.py", "ingest/c.cpp", 'say("The work is "\n    "safe");\n'),
    ("wording.py", "core/content/a.cpp", 'say("a total score of 3");\n'),
]


SENTENCE = "Screening, not clearance; a qualified ergonomist decides."
PAGE = ('<div class="strip"><p>' + SENTENCE + '</p><table><tr><th>Lifting</th><td>0.8</td><td>Waters 1994; two hands</td>'
        '</tr></table></div><section><h2>7 Ergonomics and safety</h2><h3>Lifting</h3><p>' + SENTENCE +
        ' Range: r. Source: s. Values: v.</p><table><tr><th>a</th><td>0.8</td></tr></table></section>')

# (what stands in the page, what stands there instead)
PAGE_BREACHES = [(PAGE[:90], PAGE[:90].replace(SENTENCE, "")), ("; two hands", ""), ("Waters 1994", "Waters"),
                 (SENTENCE + " Range", "Range"), ("Range: r.", ""), ("Source: s.", ""), ("Values: v.", ""),
                 ("<th>a</th>", "<th>the lazy one</th>"), ("<th>a</th>", "<th>no risk</th>")]


def page_passes(page):
    """A program that writes this page, whatever it is asked."""
    with tempfile.TemporaryDirectory(prefix="breach-") as place:
        root = Path(place)
        golden = root / "tests/golden/brief_x"
        golden.mkdir(parents=True)
        (golden / "cmd").write_text("brief in --out case\n")
        (golden / "made").write_text("case/casefile.html\n")
        (root / "report").mkdir()
        (root / "report/d.cpp").write_text('text("a text");\n')
        program = root / "program"
        program.write_text("#!/bin/sh\nmkdir case && cat > case/casefile.html <<'PAGE'\n" + page + "\nPAGE\n")
        program.chmod(0o755)
        return subprocess.run([CHECKS / "wording.py", "--docket", program, place], capture_output=True).returncode == 0


def passes(check, added=None):
    with tempfile.TemporaryDirectory(prefix="breach-") as place:
        root = Path(place)
        for name, text in GOOD.items():
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_text(text)
        (root / ".clang-format").write_text("BasedOnStyle: LLVM\n")
        if added:
            path = root / added[0]
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text((path.read_text() if path.exists() else "") + added[1])
        subprocess.run(["git", "init", "-q", place], check=True)
        return subprocess.run([CHECKS / check, place], capture_output=True).returncode == 0


def main():
    wrong = []
    for check in ("layering.py", "format.sh", "everything_tested.py", "wording.py"):
        if not passes(check):
            wrong.append(f"{check} fails on a tree without a breach")
    for check, name, text in BREACHES:
        if passes(check, (name, text)):
            wrong.append(f"{check} does not see in {name}: {text.strip()}")
    if not page_passes(PAGE):
        wrong.append("wording.py fails on a page without a breach")
    for there, instead in PAGE_BREACHES:
        if PAGE.count(there) < 1 or page_passes(PAGE.replace(there, instead)):
            wrong.append(f"wording.py does not see a page with {instead!r} for {there!r}")
    print("\n".join(wrong))
    sys.exit(1 if wrong else 0)


main()
