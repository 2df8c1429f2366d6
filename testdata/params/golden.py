#!/usr/bin/env python3
"""Golden values for the parameters, computed with numpy and scipy only.

    python3 golden.py            writes golden.json beside this file
    python3 golden.py --check    computes again and compares with golden.json

The profiles are made with a seeded generator and stored rounded, so that the tests read the same heights.
Debian: apt-get install python3-scipy (made with numpy 1.24 and scipy 1.10).
"""

import json
import pathlib
import sys

import numpy as np
from scipy import integrate, ndimage, optimize, stats

HERE = pathlib.Path(__file__).parent


def profiles():
    """Yields name, heights, spacing, points in a section."""
    rng = np.random.default_rng(20240501)
    white = rng.normal(size=400)
    smooth = ndimage.gaussian_filter1d(rng.normal(size=500), 3.0)
    x = np.arange(600)
    wave = np.sin(2 * np.pi * x / 37.3) + 0.3 * ndimage.gaussian_filter1d(rng.normal(size=600), 1.5)
    plateau = np.minimum(0.2 * rng.normal(size=400), 1.0 + 1.5 * rng.normal(size=400))
    steps = np.round(2 * rng.normal(size=300))
    for name, z, dx in [
        ("white", white, 0.5),
        ("smooth", smooth, 0.25),
        ("wave", wave, 1.0),
        ("plateau", plateau, 0.5),
        ("steps", steps, 2.0),
    ]:
        z = np.round(z - z.mean(), 6)
        yield name, z, dx, len(z) // 5


def material_ratio(z, c):
    """Share of the polyline at or above c, segment by segment."""
    a, b = z[:-1], z[1:]
    lo, hi = np.minimum(a, b), np.maximum(a, b)
    with np.errstate(divide="ignore", invalid="ignore"):
        part = np.clip((hi - c) / (hi - lo), 0, 1)
    return np.where(hi == lo, lo >= c, part).mean()


def material_height(z, p):
    return optimize.brentq(lambda c: material_ratio(z, c) - p, z.min() - 1e-9, z.max() + 1e-9, xtol=1e-14, rtol=8.9e-16)


def gradient(z, dx):
    """Derivative of the polynomial through seven points, at the middle one: weights from the Vandermonde system."""
    k = np.arange(-3, 4)
    weights = np.linalg.solve(np.vander(k, increasing=True).T.astype(float), np.eye(7)[1])
    return np.correlate(z, weights, mode="valid") / dx


def curve(z):
    """Ratios and heights of the material ratio curve, level to both ends."""
    n = len(z)
    s = np.sort(z)[::-1]
    p = (np.arange(n) + 0.5) / n
    return np.r_[0, p, 1], np.r_[s[0], s, s[-1]]


def cut(z, lo, hi):
    """The curve between two ratios."""
    p, h = curve(z)
    inside = (p > lo) & (p < hi)
    q = np.r_[lo, p[inside], hi]
    return q, np.interp(q, p, h)


def core(z):
    n = len(z)
    s = np.sort(z)[::-1]
    p = (np.arange(n) + 0.5) / n
    w = round(0.4 * n)
    drop = s[: n - w] - s[w:]
    i = int(np.flatnonzero(drop <= drop.min() + 1e-9 * (s[0] - s[-1]))[0])
    slope, upper = np.polyfit(p[i : i + w + 1], s[i : i + w + 1], 1)
    lower = upper + slope
    cp, ch = curve(z)
    r1 = 0.0 if upper >= s[0] else np.interp(-upper, -ch, cp)
    r2 = 1.0 if lower <= s[-1] else np.interp(-lower, -ch, cp)
    q, h = cut(z, 0, r1)
    a1 = integrate.trapezoid(h - upper, q)
    q, h = cut(z, r2, 1)
    a2 = integrate.trapezoid(lower - h, q)
    return {
        "Rk": -slope,
        "Rpk": 2 * a1 / r1 if r1 > 0 else 0.0,
        "Rvk": 2 * a2 / (1 - r2) if r2 < 1 else 0.0,
        "Rpkx": max(0.0, s[0] - upper),
        "Rvkx": max(0.0, lower - s[-1]),
        "Rmrk1": 100 * r1,
        "Rmrk2": 100 * r2,
        "Rak1": a1,
        "Rak2": a2,
    }


def volumes(z, p, q):
    def material(r):
        x, h = cut(z, 0, r)
        return integrate.trapezoid(h - h[-1], x)

    def void(r):
        x, h = cut(z, r, 1)
        return integrate.trapezoid(h[0] - h, x)

    return {
        "Rvm(10)": material(p),
        "Rvv(10)": void(p),
        "Rvmp": material(p),
        "Rvmc": material(q) - material(p),
        "Rvvc": void(p) - void(q),
        "Rvvv": void(q),
    }


def elements(z, hill, dale):
    """Hills and dales between crossings; the lowest that does not count is taken out, again and again."""
    off = np.flatnonzero(z != 0)
    border = []
    for i, j in zip(off[:-1], off[1:]):
        if (z[i] > 0) != (z[j] > 0):
            border.append(i + z[i] / (z[i] - z[j]) if j == i + 1 else (i + j) / 2)
    parts = []
    for a, b in zip(border[:-1], border[1:]):
        inside = z[int(np.ceil(a)) : int(np.floor(b)) + 1]
        parts.append([a, b, inside[np.argmax(np.abs(inside))]])
    while True:
        small = [k for k, p in enumerate(parts) if abs(p[2]) < (hill if p[2] > 0 else dale)]
        if not small:
            break
        k = min(small, key=lambda k: (abs(parts[k][2]), k))
        if k == 0 or k == len(parts) - 1:
            del parts[k]
            continue
        left, right = parts[k - 1], parts[k + 1]
        top = max(left[2], right[2], key=abs)
        parts[k - 1 : k + 2] = [[left[0], right[1], top]]
    spacing = np.array([q[1] - p[0] for p, q in zip(parts[:-1], parts[1:])])
    height = np.array([abs(p[2]) + abs(q[2]) for p, q in zip(parts[:-1], parts[1:])])
    return spacing, height


def values(z, dx, section):
    sections = z[: 5 * section].reshape(5, section)
    g = gradient(z, dx)
    window = section + 1
    v = {
        "Ra": np.abs(z).mean(),
        "Rq": np.sqrt(np.mean(np.square(z))),
        "Rsk": np.mean(z**3) / np.mean(z**2) ** 1.5,
        "Rku": np.mean(z**4) / np.mean(z**2) ** 2,
        "Rp": sections.max(axis=1).mean(),
        "Rv": -sections.min(axis=1).mean(),
        "Rz": np.ptp(sections, axis=1).mean(),
        "Rt": np.ptp(z),
        "Rzx": np.ptp(np.lib.stride_tricks.sliding_window_view(z, window), axis=1).max(),
        "Rdq": np.sqrt(np.mean(g**2)),
        "Rda": np.abs(g).mean(),
        "Rdt": np.abs(g).max(),
        "Rdr": 100 * (np.hypot(1, g).mean() - 1),
        "Rdl": dx * np.hypot(1, g).mean() * len(z),
        "Rpt": z.max(),
        "Rvt": -z.min(),
        "Rmr(0.1)": 100 * material_ratio(z, 0.1),
        "Rmr(5,0.3)": 100 * material_ratio(z, material_height(z, 0.05) - 0.3),
        "Rmc(30)": material_height(z, 0.3),
        "Rdc(10,80)": material_height(z, 0.1) - material_height(z, 0.8),
    }
    if abs(z.mean()) < 1e-6:
        # scipy's moments are about the mean, which the rounding of the heights moved off zero by less than 1e-6.
        assert abs(stats.skew(z) - v["Rsk"]) < 1e-4 and abs(stats.kurtosis(z, fisher=False) - v["Rku"]) < 1e-4
    v.update(core(z))
    v.update(volumes(z, 0.1, 0.8))
    spacing, height = elements(z, 0.1 * v["Rp"] * (1 - 1e-12), 0.1 * v["Rv"] * (1 - 1e-12))
    v.update({
        "Rsm": spacing.mean() * dx,
        "Rpc": 1e4 / (spacing.mean() * dx),
        "Rsmx": spacing.max() * dx,
        "Rsmq": spacing.std() * dx,
        "Rc": height.mean(),
        "Rcx": height.max(),
        "Rcq": height.std(),
    })
    return {k: float(x) for k, x in v.items()}


def build():
    return [
        {
            "name": name,
            "dx": dx,
            "section": section,
            "z": [float(h) for h in z],
            "values": values(z, dx, section),
            # Quantiles by Hazen's rule are heights of the curve through (i-1/2)/N.
            "quantiles": {str(p): float(np.quantile(z, 1 - p / 100, method="hazen")) for p in (1, 10, 25, 50, 80, 99)},
        }
        for name, z, dx, section in profiles()
    ]


def main():
    path = HERE / "golden.json"
    new = build()
    if "--check" not in sys.argv[1:]:
        path.write_text(json.dumps(new, indent=None, separators=(",", ":")).replace('{"name"', '\n{"name"') + "\n")
        return
    old = json.loads(path.read_text())
    for a, b in zip(old, new, strict=True):
        assert a["name"] == b["name"] and a["z"] == b["z"], a["name"] + ": the heights differ"
        for key, want in {**a["values"], **a["quantiles"]}.items():
            got = {**b["values"], **b["quantiles"]}[key]
            assert abs(got - want) <= 1e-9 * max(1, abs(want)), f"{a['name']} {key}: {got}, stored {want}"
    print(f"golden.json holds {sum(len(a['values']) + len(a['quantiles']) for a in old)} values, all found again")


if __name__ == "__main__":
    main()
