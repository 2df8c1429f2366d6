#!/usr/bin/env python3
"""Golden values of general libraries (NumPy, SciPy) for spectra, autocorrelation, pruning and the normal distribution.

    python3 second.py           writes second.json beside this file
    python3 second.py --check   computes anew and compares with second.json, to 1e-10 relative

The profiles are made here from an integer generator, so that the test makes the same ones:
    x0 = seed; x = (1103515245 x + 12345) mod 2^31; u = x / 2^31
"""
import json
import math
import os
import sys

import numpy as np
from scipy import signal, special

HERE = os.path.dirname(os.path.abspath(__file__))


def uniform(seed, n):
    x, out = seed, []
    for _ in range(n):
        x = (1103515245 * x + 12345) % 2**31
        out.append(x / 2**31)
    return out


def profile(seed, n):
    """A running mean of 5 uniform numbers less their middle, plus a wave: exact in the last bit is not needed."""
    u = uniform(seed, n + 4)
    return np.array([sum(u[i:i + 5]) / 5 - 0.5 + 0.1 * math.sin(2 * math.pi * i / 37) for i in range(n)])


def autocorrelation(z):
    n = len(z)
    full = np.correlate(z, z, "full")[n - 1:]
    return [full[k] / (n - k) / (full[0] / n) for k in range(n // 2 + 1)]


def case(seed, n, dx, threshold):
    z = profile(seed, n)
    r = autocorrelation(z)
    f = np.fft.rfft(z)
    frequency, density = signal.periodogram(z, fs=1 / dx, window="boxcar", detrend=False, scaling="density")
    k = 1 + int(np.argmax(np.abs(f[1:])))
    # Far below at both ends, so that a hill at an end is limited by its inner pit alone.
    deep = np.concatenate([[-1000], z, [-1000]])
    peaks, _ = signal.find_peaks(deep, prominence=threshold)
    prominence = signal.peak_prominences(deep, peaks)[0]
    return {
        "seed": seed, "n": n, "dx": dx, "threshold": threshold,
        "autocorrelation": r[:: max(1, n // 40)],
        "amplitude": [float(a) for a in (np.abs(f) / n)[:: max(1, n // 40)]],
        "density": [float(d) for d in density[:: max(1, n // 40)]],
        "wavelength": n * dx / k,
        "peaks": [int(i) for i in peaks - 1],
        "least_prominence": float(prominence.min()),
    }


def features(seed, n, dx):
    """Pruning at 5 % of the total height; five-point heights, densities per mm, curvatures per mm, spacing of all peaks."""
    z = profile(seed, n)
    threshold = 0.05 * (z.max() - z.min())
    # Second derivative from seven points: the weights that are exact for polynomials up to the sixth degree.
    powers = np.vander(np.arange(-3.0, 4.0), increasing=True).T
    weights = np.linalg.solve(powers, [0, 0, 2, 0, 0, 0, 0]) / dx**2

    def kept(y):
        deep = np.concatenate([[-1000], y, [-1000]])
        peaks, _ = signal.find_peaks(deep, prominence=threshold)
        peaks = peaks[(peaks > 1) & (peaks < n)] - 1  # an end of the profile is no peak
        inner = [i for i in peaks if 3 <= i < n - 3]
        bend = [-float(weights @ y[i - 3:i + 4]) * 1000 for i in inner]
        return float(np.mean(np.sort(y[peaks])[-5:])), len(peaks) / (n * dx) * 1000, float(np.mean(bend))

    local, _ = signal.find_peaks(z)
    up, down = kept(z), kept(-z)
    return {
        "seed": seed, "n": n, "dx": dx,
        "R5p": up[0], "R5v": down[0], "Rpd": up[1], "Rvd": down[1], "Rmpc": up[2], "Rmvc": down[2],
        "S": float(np.mean(np.diff(local))) * dx,
    }


def values():
    p = [1e-300, 1e-20, 1e-9, 1e-5, 0.001, 0.02, 0.074, 0.076, 0.2, 0.3, 0.45, 0.5, 0.7, 0.925, 0.95, 0.999, 1 - 1e-9]
    x = [-8.0, -5.0, -3.1, -3.0, -2.0, -1.0, -0.5, -1e-3, 0.0, 0.25, 0.8416212335729143, 1.0, 2.5, 3.0, 3.5]
    return {
        "libraries": "numpy %s, scipy %s" % (np.__version__, __import__("scipy").__version__),
        "cases": [case(1, 400, 0.5, 0.05), case(2, 1009, 1.5, 0.12), case(3, 2 * 997, 0.25, 0.2), case(4, 6000, 2.0, 0.3)],
        "features": [features(5, 300, 1.0), features(6, 1500, 0.5), features(7, 8000, 2.0)],
        "quantile": [[a, float(special.ndtri(a))] for a in p],
        "share": [[a, float(special.ndtr(a))] for a in x],
    }


def same(a, b):
    if isinstance(a, dict):
        return a.keys() == b.keys() and all(same(a[k], b[k]) for k in a if k != "libraries")
    if isinstance(a, list):
        return len(a) == len(b) and all(same(p, q) for p, q in zip(a, b))
    if isinstance(a, (int, float)):
        return abs(a - b) <= 1e-10 * max(abs(a), abs(b)) + 1e-13
    return a == b


if __name__ == "__main__":
    path = os.path.join(HERE, "second.json")
    now = values()
    if "--check" in sys.argv[1:]:
        with open(path) as f:
            if not same(json.load(f), now):
                sys.exit("second.json differs from what the libraries give")
        print("second.json agrees with " + now["libraries"])
    else:
        with open(path, "w") as f:
            json.dump(now, f, indent=1)
            f.write("\n")
