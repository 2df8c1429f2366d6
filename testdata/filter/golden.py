#!/usr/bin/env python3
"""Golden values of the profile filters and forms, by numpy and scipy.

    python3 testdata/filter/golden.py            writes golden.json beside this file
    python3 testdata/filter/golden.py --check    computes anew and compares; exit status 1 on a difference

Every value comes from a routine of numpy or scipy, or from a dense or sparse solution of the defining equation; nothing here
follows the algorithms of the Go package. Debian: apt-get install python3-scipy.
"""

import json
import math
import os
import sys

try:
    import numpy as np
    import scipy
    from scipy import interpolate, ndimage, optimize, signal, sparse
    from scipy.sparse import linalg as splinalg
except ImportError:
    if sys.executable != "/usr/bin/python3" and os.path.exists("/usr/bin/python3"):
        os.execv("/usr/bin/python3", ["/usr/bin/python3"] + sys.argv)
    sys.exit("golden.py: numpy and scipy are missing (Debian: apt-get install python3-scipy)")

N = 150  # points
M = 16.0  # cut-off in samples; the spacing is 1
ALPHA = math.sqrt(math.log(2) / math.pi)
T2 = optimize.brentq(lambda t: math.exp(-t) * (1 + t) - 0.5, 1, 2, xtol=1e-15)
ALPHA2 = math.sqrt(T2 / math.pi)
SIGMA = ALPHA * M / math.sqrt(2 * math.pi)

i = np.arange(N)
Z = ((7 * i * i + 3 * i + 11) % 1009) / 250 + 0.02 * i
GROOVED = Z.copy()
GROOVED[40:46] -= 30
GROOVED[101:104] -= 20
WEIGHT = ((i * 5) % 7) / 6.0
ARC = np.sqrt(900.0**2 - (i - 70.0) ** 2) - 900 + 0.01 * ((7 * i * i + 3 * i + 11) % 1009) / 250


def bell(z, mode, support=1.0):
    """Convolution by ndimage; its sigma is in samples."""
    return ndimage.gaussian_filter1d(z, SIGMA, mode=mode, cval=0.0, radius=int(support * M))


def padded(z, left, right):
    k = np.arange(-int(M), int(M) + 1)
    g = np.exp(-math.pi * (k / (ALPHA * M)) ** 2)
    return np.convolve(np.concatenate([left, z, right]), g / g.sum(), mode="valid")


def regression(z, order, support, delta=None, kernel=None):
    """Weighted least squares at every point, by singular values."""
    alpha = ALPHA2 if order == 2 else ALPHA
    half = int(support * M)
    w = np.empty(N)
    for p in range(N):
        j = np.arange(max(0, p - half), min(N, p + half + 1))
        u = (j - p) / M
        g = np.exp(-math.pi * (u / alpha) ** 2) if kernel is None else kernel(np.abs(j - p))
        if delta is not None:
            g = g * delta[j]
        root = np.sqrt(g)
        basis = np.vander(u, order + 1, increasing=True)
        w[p] = np.linalg.lstsq(basis * root[:, None], z[j] * root, rcond=None)[0][0]
    return w


def robust(z, fit, tolerance=1e-3):
    delta, last = np.ones(N), None
    while True:
        w = fit(z, delta)
        c = 3 * 1.4826 * np.median(np.abs(z - w))
        if last is not None and abs(c - last) <= tolerance * last:
            return w
        last = c
        q = np.minimum(1, ((z - w) / c) ** 2)
        delta = (1 - q) ** 2


def spline(z, tension, delta=None):
    a = 1 / (2 * math.sin(math.pi / M))
    d1 = sparse.diags([-1.0, 1.0], [0, 1], shape=(N - 1, N))
    d2 = sparse.diags([1.0, -2.0, 1.0], [0, 1, 2], shape=(N - 2, N))
    lam = sparse.identity(N) if delta is None else sparse.diags(delta)
    left = lam + tension * a**2 * d1.T @ d1 + (1 - tension) * a**4 * d2.T @ d2
    return splinalg.spsolve(left.tocsc(), lam @ z)


def spline_closed(z):
    k = np.fft.rfftfreq(N)
    a = 1 / (2 * math.sin(math.pi / M))
    return np.fft.irfft(np.fft.rfft(z) / (1 + 16 * a**4 * np.sin(math.pi * k) ** 4), N)


def two_rc(z):
    t = math.tan(math.pi / M) / math.sqrt(3)
    b, a = [1 / (1 + t), -1 / (1 + t)], [1, -(1 - t) / (1 + t)]
    return z - signal.lfilter(b, a, signal.lfilter(b, a, z - z[0]))


def two_rc_zero_phase(z, percent):
    """The kernel is the inverse transform of the response; order 1 by least squares."""
    t = math.tan(math.pi / M) * (1 / math.sqrt(3) if percent == 75 else 1)
    n = 1 << 16
    c = np.cos(2 * math.pi * np.fft.fftfreq(n))
    h = np.fft.ifft(t * t * (1 + c) / (t * t * (1 + c) + 1 - c)).real
    return regression(z, 1, N, kernel=lambda d: np.maximum(h[d], 0))


def disk(r):
    k = np.arange(-int(r), int(r) + 1)
    return np.sqrt(r * r - k * k)


def grey(z, structure, *steps):
    for step in steps:
        if step == "dilate":
            z = ndimage.grey_dilation(z, size=len(structure), structure=structure, mode="constant", cval=-1e300)
        else:
            z = ndimage.grey_erosion(z, size=len(structure), structure=structure, mode="constant", cval=1e300)
    return z


def total_line(z):
    centred = np.column_stack([i - i.mean(), z - z.mean()])
    v = np.linalg.svd(centred, full_matrices=False)[2][0]
    return z.mean() + v[1] / v[0] * (i - i.mean())


def polynomial(z, degree):
    return np.polynomial.Legendre.fit(i, z, degree)(i)


def circle(z, radius=None):
    def rest(p):
        r = radius if radius else p[2]
        return np.hypot(i - p[0], z - p[1]) - r

    p = optimize.least_squares(rest, [70.0, -900.0, 900.0][: 2 if radius else 3], x_scale=[1, 1, 1][: 2 if radius else 3],
                               xtol=1e-15, ftol=1e-15, gtol=1e-15).x
    r = radius if radius else p[2]
    return p[1] + np.sqrt(r * r - (i - p[0]) ** 2)


def valley(z):
    w1 = regression(z, 1, 1)
    return regression(np.maximum(z, w1), 1, 1)


def linear_ends(z):
    k = np.arange(int(M)) + 1
    fit = int(M / 2)
    a, b = np.polyfit(np.arange(fit), z[:fit], 1)
    c, d = np.polyfit(np.arange(fit), z[-fit:], 1)
    return padded(z, a * -k[::-1] + b, c * (fit - 1 + k) + d)


def cases():
    ones = np.ones(N)
    odd = np.pad(Z, int(M), mode="reflect", reflect_type="odd")
    yield "gaussian retain", regression(Z, 1, 1)
    yield "gaussian retain-0", bell(Z, "constant") / bell(ones, "constant")
    yield "gaussian retain-2", regression(Z, 2, 2)
    yield "gaussian zero", bell(Z, "constant")
    yield "gaussian linear", linear_ends(Z)
    yield "gaussian line-symmetric", bell(Z, "mirror")
    yield "gaussian point-symmetric", padded(Z, odd[: int(M)], odd[-int(M):])
    yield "gaussian support 0.5", regression(Z, 1, 0.5)
    yield "gaussian closed", bell(Z, "wrap")
    for order in range(3):
        support = 2 if order == 2 else 1
        yield f"regression order {order} weighted", regression(Z, order, support, WEIGHT)
        yield f"robust order {order}", robust(GROOVED, lambda z, d, o=order, s=support: regression(z, o, s, d))
    yield "spline", spline(Z, 0)
    yield "spline tension", spline(Z, 0.62524)
    yield "spline weighted", spline(Z, 0, WEIGHT)
    yield "spline closed", spline_closed(Z)
    yield "robust spline", robust(GROOVED, lambda z, d: spline(z, 0, d))
    yield "two-rc", two_rc(Z)
    yield "two-rc-zero-phase 75", two_rc_zero_phase(Z, 75)
    yield "two-rc-zero-phase 50", two_rc_zero_phase(Z, 50)
    yield "valley suppression", valley(GROOVED)
    yield "disk closing", grey(GROOVED, disk(12.5), "dilate", "erode")
    yield "disk opening", grey(GROOVED, disk(12.5), "erode", "dilate")
    yield "disk alternating", grey(GROOVED, disk(12.5), "dilate", "erode", "erode", "dilate")
    yield "segment closing", grey(GROOVED, np.zeros(13), "dilate", "erode")
    yield "segment opening", grey(GROOVED, np.zeros(13), "erode", "dilate")
    yield "form mean", np.full(N, Z.mean())
    yield "form line", polynomial(Z, 1)
    yield "form total line", total_line(Z)
    yield "form polynomial 5", polynomial(Z, 5)
    yield "form circle", circle(ARC)
    yield "form circle 900", circle(ARC, 900.0)


def main():
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "golden.json")
    made = {name: [float(f"{v:.13g}") for v in w] for name, w in cases()}
    if sys.argv[1:] == ["--check"]:
        with open(path, encoding="utf-8") as f:
            kept = json.load(f)
        bad = 0
        for name in sorted(set(kept) | set(made)):
            a, b = kept.get(name), made.get(name)
            if a is None or b is None or len(a) != len(b):
                bad += 1
                print(f"golden.py: {name}: only in the file" if b is None else f"golden.py: {name}: not in the file")
                continue
            worst = max(abs(p - q) for p, q in zip(a, b))
            if not worst <= 1e-8:
                bad += 1
                print(f"golden.py: {name}: off by {worst:.3g}")
        print(f"golden.py: {len(made)} cases computed with scipy {scipy.__version__}, {bad} differ")
        sys.exit(1 if bad else 0)
    if sys.argv[1:]:
        sys.exit(__doc__)
    with open(path, "w", encoding="utf-8") as f:
        f.write("{\n" + ",\n".join(f"{json.dumps(n)}: {json.dumps(w)}" for n, w in made.items()) + "\n}\n")
    print(f"golden.py: {len(made)} cases written, scipy {scipy.__version__}")


if __name__ == "__main__":
    main()
