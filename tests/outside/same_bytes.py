#!/usr/bin/python3 -B
"""The same input gives the same bytes: run twice, from another folder, under another time zone and language, and with other
settings of the library that prints."""
import sys
import tempfile
from pathlib import Path

from inputs import DOCKET, golden_inputs, run, sample_cases

wrong = []
inputs = sample_cases() | {k: v for k, v in golden_inputs().items() if k in ("brief_smallest", "brief_zero_variance")}
with tempfile.TemporaryDirectory() as made:
    place = Path(made)
    for name, source in inputs.items():
        first = run(DOCKET, "brief", source, "--out", place / name / "one", "--json")
        again = run(DOCKET, "brief", source, "--out", place / name / "two", "--json", cwd=place,
                    setting={"TZ": "Pacific/Apia", "LC_ALL": "de_DE.UTF-8", "LANG": "de_DE.UTF-8",
                             "QT_SCALE_FACTOR": "2", "QT_FONT_DPI": "300", "HOME": str(place)})
        if first != again:
            wrong.append(f"{name}: what is printed differs")
        files = [sorted(p.name for p in (place / name / run_name).iterdir()) for run_name in ("one", "two")]
        if files[0] != files[1]:
            wrong.append(f"{name}: other files")
        wrong += [f"{name}: {f} differs" for f in files[0]
                  if (place / name / "one" / f).read_bytes() != (place / name / "two" / f).read_bytes()]
print("\n".join(wrong) or f"{len(inputs)} cases gave the same bytes twice")
sys.exit(1 if wrong or not inputs else 0)
