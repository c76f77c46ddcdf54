"""One power curve with a floor to 5,000 simulated points by scipy's curve_fit, on ln y. Prints milliseconds."""
import sys
import time

import numpy
from scipy.optimize import curve_fit

data = numpy.loadtxt(sys.argv[1], delimiter=",", skiprows=1)
n, ln_y = data[:, 0], numpy.log(data[:, 1])


def work():
    return curve_fit(lambda x, c, a, b: numpy.log(c + a * x**-b), n, ln_y, p0=[45, 45, 0.5],
                     bounds=([0, 0, 1e-3], [numpy.inf, numpy.inf, 3]))[0]


times = []
for _ in range(9):
    start = time.perf_counter()
    found = work()
    times.append(1000 * (time.perf_counter() - start))
print("curve_fit", sorted(times)[4])
print("found", *found)
