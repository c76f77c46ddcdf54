#!/usr/bin/env python3
"""Times the curves of question B beside R's optim and scipy's curve_fit, in one run, and prints the ratios.

    run.py PROGRAM     PROGRAM is the built curve_speed; needs Rscript and python3-scipy. No test: nothing fails here.
"""
import pathlib
import subprocess
import sys
import tempfile

here = pathlib.Path(__file__).parent


def printed(*command):
    out = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    return {line.split()[0]: [float(x) for x in line.split()[1:]] for line in out.splitlines()}


with tempfile.TemporaryDirectory() as place:
    times = str(pathlib.Path(place) / "times.csv")
    ours = printed(sys.argv[1], times)
    r = printed("Rscript", str(here / "optim.R"), times)
    scipy = printed("/usr/bin/python3", str(here / "curve_fit.py"), times)
print(f"six curves, profiles, averaged, 2,000 cycles: {ours['mixture'][0]:.1f} ms; five fits and one profile by optim: "
      f"{r['optim'][0]:.0f} ms; ratio {r['optim'][0] / ours['mixture'][0]:.0f}")
print(f"one power curve with a floor, 5,000 points: {ours['fit'][0]:.1f} ms; curve_fit: {scipy['curve_fit'][0]:.1f} ms; "
      f"ratio {scipy['curve_fit'][0] / ours['fit'][0]:.1f}")
print("found", ours["found"], "and", scipy["found"])
