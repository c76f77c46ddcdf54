#!/usr/bin/python3
"""Fails where a verb, an option, a kind of error, a code of an issue or a data fault has no test.

A code is tested where tests/ names it: in a GoogleTest, in a golden folder's cmd, or in its printed JSON. Golden
folders print messages, not codes: a code counts as tested where a test program names it.

    tests/checks/everything_tested.py [ROOT]
"""
import re
import sys
from pathlib import Path

ROOT = Path(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).resolve().parent.parent.parent)


def read(pattern):
    return {p: p.read_text(encoding="utf-8", errors="replace") for p in sorted(ROOT.glob(pattern)) if p.is_file()}


def issue_codes():
    """Codes as ingest writes them: first behind the grade of a defect, or as .code."""
    made = re.compile(r'(?:\b(?:fault|question|warning)\s*\(\s*|\bIssueGrade::\w+,\s*|\bcode\s*=\s*)"([a-z]\w*)"')
    codes = {}
    for path, text in read("ingest/**/*.cpp").items():
        for found in made.finditer(text):
            codes.setdefault(found[1], path)
    return codes


def main():
    tests = "\n".join(text for pattern in ("tests/**/*.cpp", "tests/**/*.py") for text in read(pattern).values())
    commands = "\n".join(read("tests/golden/*/cmd").values())
    statuses = {text.strip() for text in read("tests/golden/*/code").values()}
    missing = []

    for code, path in sorted(issue_codes().items()):
        if f'"{code}"' not in tests:
            missing.append(f"{path.relative_to(ROOT)}: no test names the issue `{code}`")

    table = "\n".join(read("report/cli/*").values())
    verbs = re.findall(r'\bCommand\{"([\w-]+)"', table)
    options = re.findall(r'\bOptionDeclaration\{"([\w-]+)"', table)
    if not verbs or not options:
        missing.append("report/cli/commands.cpp: no verb or no option found; mend this check")
    missing += [f"no golden folder runs `docket {v}`" for v in verbs if not re.search(rf"^{v}\b", commands, re.M)]
    missing += [f"no golden folder uses --{o}" for o in sorted(set(options)) if f"--{o}" not in commands]
    kinds = re.findall(r"^\s*\w+ = (\d),", (ROOT / "core/error.h").read_text(encoding="utf-8"), re.M)
    missing += [f"no golden folder ends with status {k}" for k in kinds if k not in statuses]

    print("\n".join(missing))
    sys.exit(1 if missing else 0)


main()
