"""What the outside checks run docket on, and how."""
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
DOCKET = os.path.abspath(sys.argv[1] if len(sys.argv) > 1 else ROOT / "build/dev/bin/docket")
SETTING = {"LC_ALL": "C.UTF-8", "TZ": "UTC", "PATH": "/usr/bin:/bin", "HOME": os.environ.get("HOME", "/")}


def sample_cases():
    """The workbook of every sample case, by the name of its folder."""
    return {book.parent.name: book for book in sorted((ROOT / "sample-cases").glob("*/*.xlsx"))}


def golden_inputs():
    """The inputs of golden folders whose brief succeeds and needs no options, by name."""
    found = {}
    for command in sorted((ROOT / "tests/golden").glob("brief_*/cmd")):
        folder = command.parent
        words = command.read_text().split()
        plain = {word for word in words if word.startswith("--")} <= {"--out", "--only", "--json"}
        if not (folder / "code").exists() and words[1].startswith("in") and plain:
            found[folder.name] = folder / words[1]
    return found


def run(*words, status=0, setting=None, cwd=None):
    """Runs a program; stops the check where it ends otherwise than it should."""
    done = subprocess.run([str(w) for w in words], env=SETTING | (setting or {}), cwd=cwd, capture_output=True, text=True,
                          timeout=300)
    if done.returncode != status:
        sys.exit(f"{' '.join(map(str, words))}\nended with {done.returncode}:\n{done.stdout}\n{done.stderr}")
    return done.stdout


def brief(source, out, *options):
    run(DOCKET, "brief", source, *options, "--out", out)
    return out


def office_rewrites(workbook, folder):
    """The workbook as LibreOffice writes it after reading it."""
    run("soffice", f"-env:UserInstallation=file://{folder}/profile", "--headless", "--convert-to", "xlsx", "--outdir",
        folder, workbook)
    return folder / Path(workbook).name
