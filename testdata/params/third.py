#!/usr/bin/env python3
"""Golden values of general libraries (NumPy, SciPy) for motifs, for the older heights and for counts.

    python3 third.py           writes roughness/selfcheck/third.json
    python3 third.py --check   computes anew and compares with third.json, to 1e-10 relative

The motif profiles are straight lines between the corners stored with them. Their depths lie so close together that no
two motifs can merge (none is below 60 % of what the merged one would have), and none is outstanding; so the motifs are
what lies between neighbouring peaks, and the parameters are means and deviations of plain lists. The other profiles
come from the integer generator of second.py.
"""
import json
import os
import sys

sys.dont_write_bytecode = True

import numpy as np
from scipy import ndimage, optimize, signal

from second import HERE, profile, same


def corners(seed):
    """Peaks and pits in turn, as points and heights; the peaks go up and down in waves of four to six."""
    rng = np.random.default_rng(seed)
    peaks = [-1.0]
    for _ in range(9):
        for low, high in ((-1, 0), (0, -1)):
            n = int(rng.integers(2, 4))
            inner = low + (high - low) * np.arange(1, n + 1) / (n + 0.001)
            peaks.extend(inner + rng.uniform(-0.05, 0.05, n))
    x, z = [0], [-3.0]
    for i, h in enumerate(peaks):
        x.append(x[-1] + int(rng.integers(20, 40)))
        z.append(float(h))
        x.append(x[-1] + int(rng.integers(20, 40)))
        beside = (h + peaks[i + 1]) / 2 if i + 1 < len(peaks) else h
        z.append(float(beside - (3.5 if rng.random() < 0.5 else 4.5)))
    return x, [round(h, 6) for h in z]


def chain(z, at):
    """Both depths of all motifs between neighbouring peaks of a line through the places at, and their widths."""
    peaks, pits = signal.find_peaks(z)[0], signal.find_peaks(-z)[0]
    pits = pits[(pits > peaks[0]) & (pits < peaks[-1])]
    assert len(pits) == len(peaks) - 1
    depths = np.concatenate([z[peaks[:-1]] - z[pits], z[peaks[1:]] - z[pits]])
    return depths, np.diff(at[peaks]), peaks


def motifs(seed, dx):
    x, h = corners(seed)
    at = np.arange(x[-1] + 1)
    z = np.interp(at, x, h)
    depths, widths, peaks = chain(z, at * dx)
    left, right = depths[:len(widths)], depths[len(widths):]
    lesser = np.minimum(right[:-1], left[1:])  # a peak is outstanding when it is so on both sides
    assert depths.min() / depths.max() > 0.6 and lesser.max() < depths.mean() + 1.6 * depths.std()
    wave, length, _ = chain(z[peaks], peaks * dx)
    assert wave.min() / wave.max() > 0.6 and widths.max() <= 500 and length.max() <= 2500
    return {"x": x, "h": h, "dx": dx, "values": {
        "R": depths.mean(), "AR": widths.mean(), "Rx": depths.max(), "Nr": len(widths),
        "SR": depths.std(), "SAR": widths.std(),
        "W": wave.mean(), "AW": length.mean(), "Wx": wave.max(), "Wte": np.ptp(z[peaks]), "Nw": len(length),
        "SW": wave.std(), "SAW": length.std(),
    }}


def excursions(z):
    """Heights of the parts above zero and depths of those below, greatest first."""
    def of(y):
        label, n = ndimage.label(y > 0)
        return np.sort(ndimage.maximum(y, label, range(1, n + 1)))[::-1]
    return of(z), of(-z)


def ten(z):
    hills, dales = excursions(z)
    return hills[:5].mean() + dales[:5].mean()


def third(z):
    hills, dales = excursions(z)
    return hills[2] + dales[2]


def ratio(z, c):
    """Share of the polyline at or above c."""
    a, b = np.minimum(z[:-1], z[1:]), np.maximum(z[:-1], z[1:])
    return np.clip((b - c) / (b - a), 0, 1).mean()


def height(z, p):
    return optimize.brentq(lambda c: ratio(z, c) - p, z.min() - 1, z.max() + 1, xtol=1e-14)


def passes(z, upper, lower):
    """How often the profile is above the upper level and next, of the two, below the lower one."""
    side = np.where(z > upper, 1, np.where(z < lower, -1, 0))
    side = side[side != 0]
    return int(np.sum((side[:-1] == 1) & (side[1:] == -1)))


def older(seed, n, dx):
    z = profile(seed, n)
    sections = z.reshape(5, n // 5)
    powers = np.vander(np.arange(-3.0, 4.0), increasing=True).T
    g = np.correlate(z, np.linalg.solve(powers, [0, 1, 0, 0, 0, 0, 0]), mode="valid") / dx
    ra, rq = np.abs(z).mean(), np.sqrt(np.mean(z**2))
    stretch = np.hypot(1, g).mean()
    per = 10000 / (n * dx)
    return {"seed": seed, "n": n, "dx": dx, "values": {
        "jis-b0601-2013 RzJIS": np.mean([ten(s) for s in sections]),
        "jis-b0601-1982 Rz": np.mean([ten(signal.detrend(s)) for s in sections]),
        "iso-4287 R3z": np.mean([third(s) for s in sections]),
        "iso-4287 R3zm": np.max([third(s) for s in sections]),
        "asme-b46.1 Rpm": sections.max(axis=1).mean(),
        "asme-b46.1 Rmax": np.ptp(sections, axis=1).max(),
        "jis-b0601-1994 Ry": np.ptp(sections, axis=1).mean(),
        "jis-b0601-1982 Rmax": np.ptp(sections, axis=1).mean(),
        "jis-b0601-2013 Ra75": ra,
        "asme-b46.1 λa": 2 * np.pi * ra / np.abs(g).mean(),
        "asme-b46.1 λq": 2 * np.pi * rq / np.sqrt(np.mean(g**2)),
        "iso-4287 Lo": n * dx * stretch,
        "iso-4287 lr": stretch,
        "asme-b46.1 tp(0.2)": 100 * ratio(z, z.max() - 0.2),
        "asme-b46.1 Htp(10,80)": height(z, 0.1) - height(z, 0.8),
        "iso-21920 RPc(0.05,-0.05)": per * passes(z, 0.05, -0.05),
        "asme-b46.1 Pc(0.03,-0.06)": per * passes(z, 0.03, -0.06),
        "asme-b46.1 HSC(0.1)": per * ndimage.label(z > 0.1)[1],
    }}


def plain(v):
    """The same with numbers of the language instead of the library's."""
    if isinstance(v, dict):
        return {k: plain(x) for k, x in v.items()}
    if isinstance(v, list):
        return [plain(x) for x in v]
    return v.item() if isinstance(v, np.generic) else v


def values():
    return plain({
        "libraries": "numpy %s, scipy %s" % (np.__version__, __import__("scipy").__version__),
        "motifs": [motifs(11, 1.0), motifs(12, 2.0), motifs(13, 0.5)],
        "older": [older(21, 2000, 0.5), older(22, 5000, 2.0), older(23, 1500, 1.0)],
    })


if __name__ == "__main__":
    path = os.path.join(HERE, "..", "..", "roughness", "selfcheck", "third.json")
    now = values()
    if "--check" in sys.argv[1:]:
        with open(path) as f:
            if not same(json.load(f), now):
                sys.exit("third.json differs from what the libraries give")
        print("third.json agrees with " + now["libraries"])
    else:
        with open(path, "w") as f:
            json.dump(now, f, ensure_ascii=False, separators=(",", ":"))
            f.write("\n")
