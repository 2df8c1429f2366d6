#!/usr/bin/env python3
"""furrow beside numpy and scipy, on the same arrays, in turns, in one run.

    python3 testdata/bench/bench.py             every row
    python3 testdata/bench/bench.py spline 100  rows whose name holds every word

Each row is timed in rounds of one call each, first furrow on one core, then furrow on all cores, then scipy on one core; the ratio is that of the
rounds: its least and its median of 20. Both sides work on arrays in memory that they have seen before. The results are compared away from
the ends, where the two differ by design. Text is read by pandas' C engine. Debian: apt-get install python3-scipy python3-pandas.
"""

import io
import math
import os
import subprocess
import sys
import tempfile
import time

for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(name, "1")
try:
    import numpy as np
    import pandas
    from scipy import linalg, ndimage, signal
except ImportError:
    if sys.executable != "/usr/bin/python3" and os.path.exists("/usr/bin/python3"):
        os.execv("/usr/bin/python3", ["/usr/bin/python3"] + sys.argv)
    sys.exit("bench.py: numpy, scipy or pandas is missing (Debian: apt-get install python3-scipy python3-pandas)")

ROUNDS = 20
ALPHA = math.sqrt(math.log(2) / math.pi)
ALPHA2 = 0.730913428094676
HERE = os.path.dirname(os.path.abspath(__file__))


def surface(n):
    """Turned marks, waves and noise, with deep narrow grooves: invented."""
    rng = np.random.default_rng(1)
    x = np.arange(n)
    z = np.abs((x % 160) / 80 - 1) ** 2 + 0.5 * np.sin(2 * math.pi * x / 5000) + 0.1 * rng.standard_normal(n)
    for at in rng.integers(0, n, n // 2000):
        z[at : at + 12] -= 8
    return z


def bell(m, alpha, reach):
    u = np.arange(-reach, reach + 1)
    return u, np.exp(-math.pi * (u / (alpha * m)) ** 2)


def gaussian_fft(z, m):
    _, g = bell(m, ALPHA, m)
    return signal.oaconvolve(z, g / g.sum(), "same")


def gaussian_direct(z, m):
    return ndimage.gaussian_filter1d(z, ALPHA * m / math.sqrt(2 * math.pi), radius=m)


def spline(z, m):
    n = len(z)
    q = (1 / (2 * math.sin(math.pi / m))) ** 4
    bands = np.empty((3, n))
    bands[0], bands[1], bands[2] = q, -4 * q, 1 + 6 * q
    bands[1, 1] = bands[1, -1] = -2 * q
    bands[2, 0] = bands[2, -1] = 1 + q
    bands[2, 1] = bands[2, -2] = 1 + 5 * q
    return linalg.solveh_banded(bands, z, overwrite_ab=True, check_finite=False)


def robust(z, m, passes=50):
    """Robust Gaussian regression of order 2 by its moments."""
    u, g = bell(m, ALPHA2, 2 * m)
    kernels = [g * (u / m) ** k for k in range(5)]
    weight, last = np.ones_like(z), 0
    for _ in range(passes):
        # correlations: the kernels of odd powers change their sign
        s = [(-1) ** k * signal.oaconvolve(weight, kernels[k], "same") for k in range(5)]
        heavy = weight * z
        t = [(-1) ** k * signal.oaconvolve(heavy, kernels[k], "same") for k in range(3)]
        a = s[2] * s[4] - s[3] * s[3]
        b = s[2] * s[3] - s[1] * s[4]
        c = s[1] * s[3] - s[2] * s[2]
        w = (a * t[0] + b * t[1] + c * t[2]) / (a * s[0] + b * s[1] + c * s[2])
        r = z - w
        scale = 3 * 1.4826 * np.median(np.abs(r))
        if last and abs(scale - last) <= 1e-3 * last:
            break
        last = scale
        weight = np.clip(1 - (r / scale) ** 2, 0, None) ** 2
    return w


def evaluate(z, m):
    """The usual script: about thirty numbers of the ninety that furrow gives with their constructions."""
    x = np.arange(len(z))
    z = z - np.polyval(np.polyfit(x, z, 1), x)
    _, g = bell(5, ALPHA, 5)
    p = np.convolve(z, g / g.sum(), "same")
    first = (len(z) - 5 * m) // 2
    r = (p - gaussian_fft(p, m))[first : first + 5 * m]
    out = {}
    sections = r.reshape(5, m)
    out["Ra"], out["Rq"] = np.abs(sections).mean(), np.sqrt((sections**2).mean(axis=1)).mean()
    out["Rsk"], out["Rku"] = (sections**3).mean() / out["Rq"] ** 3, (sections**4).mean() / out["Rq"] ** 4
    out["Rp"], out["Rv"] = sections.max(axis=1).mean(), -sections.min(axis=1).mean()
    out["Rz"], out["Rt"] = out["Rp"] + out["Rv"], np.ptp(r)
    slope = np.convolve(r, [1 / 60, -9 / 60, 45 / 60, 0, -45 / 60, 9 / 60, -1 / 60], "valid") / 0.5
    out["Rdq"], out["Rda"], out["Rdr"] = np.sqrt((slope**2).mean()), np.abs(slope).mean(), np.hypot(1, slope).mean() - 1
    up = np.flatnonzero((r[:-1] < 0) & (r[1:] >= 0))
    out["Rsm"] = np.diff(up).mean() * 0.5
    out["Rc"] = np.mean([np.ptp(r[a:b]) for a, b in zip(up, up[1:])])
    k = robust(p, m)[first : first + 5 * m]
    curve = np.sort(p[first : first + 5 * m] - k)[::-1]
    n = len(curve)
    wide = int(0.4 * n)
    drop = curve[:-wide] - curve[wide:]
    i = int(np.argmin(drop))
    share = np.arange(i, i + wide) / n
    a, b = np.polyfit(share, curve[i : i + wide], 1)
    top, low = b, a + b
    out["Rk"] = top - low
    out["Rmrk1"], out["Rmrk2"] = np.searchsorted(-curve, -top) / n, np.searchsorted(-curve, -low) / n
    out["Rpk"] = 2 * np.sum(np.clip(curve - top, 0, None)) / n / max(out["Rmrk1"], 1e-9)
    out["Rvk"] = 2 * np.sum(np.clip(low - curve, 0, None)) / n / max(1 - out["Rmrk2"], 1e-9)
    for level in (10, 20, 50, 80):
        out[f"Rmr{level}"] = curve[int(level / 100 * n)]
    out["Vmp"] = np.sum(np.clip(curve - curve[n // 10], 0, None)) / n
    out["Vvv"] = np.sum(np.clip(curve[8 * n // 10] - curve, 0, None)) / n
    power = np.abs(np.fft.rfft(r, 2 * n)) ** 2
    acf = np.fft.irfft(power)[:n]
    out["Ral"] = np.argmax(acf < 0.2 * acf[0]) * 0.5
    amplitude = np.abs(np.fft.rfft(r))
    out["Rsw"] = 0.5 * n / max(1, int(np.argmax(amplitude[1:])) + 1)
    return out


def text(data, _):
    return pandas.read_csv(io.BytesIO(data), sep="\t", engine="c")


class Furrow:
    """A process of furrow that answers requests."""

    def __init__(self, program, cores):
        environment = dict(os.environ, GOMAXPROCS=str(len(cores)))
        self.process = subprocess.Popen([program], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=environment)
        os.sched_setaffinity(self.process.pid, cores)

    def run(self, *words):
        self.process.stdin.write(" ".join(str(w) for w in words) + "\n")
        self.process.stdin.flush()
        seconds, passes = self.process.stdout.readline().split()
        return float(seconds), int(passes)


def rows():
    for n in (10**4, 10**5, 10**6):
        for m in (160, 1600, 16000):
            if n >= 5 * m:
                yield "gaussian", n, m, [gaussian_fft] + ([gaussian_direct] if m * n <= 2 * 10**8 else [])
    for n, m in ((10**4, 1600), (10**5, 1600), (10**6, 16000)):
        yield "spline", n, m, [spline]
    for n, m in ((10**4, 1600), (10**5, 1600), (10**5, 16000)):
        yield "robust", n, m, [robust]
    yield "evaluate", 9601, 1600, [evaluate]
    yield "text", 10**6, 0, [text]


def main(words):
    cores = sorted(os.sched_getaffinity(0))
    with tempfile.TemporaryDirectory() as folder:
        program = os.path.join(folder, "bench")
        subprocess.run(["go", "build", "-o", program, "."], cwd=HERE, check=True)
        one, every = Furrow(program, cores[:1]), Furrow(program, cores)
        os.sched_setaffinity(0, cores[:1])
        print(f"numpy {np.__version__}; ratios furrow / scipy: least and median of {ROUNDS}; {len(cores)} cores")
        print("| what | points | cut-off, points | furrow, one core | scipy | one core | all cores | differs by |")
        print("|---|---|---|---|---|---|---|---|")
        for what, n, m, others in rows():
            if not all(w in f"{what} {n} {m}" for w in words):
                continue
            z = surface(n)
            file, result = os.path.join(folder, f"{n}.bin"), os.path.join(folder, "result")
            if what == "text":
                file = os.path.join(folder, "table.txt")
                with open(file, "w") as f:
                    f.write("x [mm]\tz [µm]\n")
                    f.writelines(f"{i * 0.0005:.4f}\t{v:.5f}\n" for i, v in enumerate(z))
                with open(file, "rb") as f:
                    z = f.read()
            else:
                z.tofile(file)
            passes = one.run(what, m, file, result)[1]
            every.run(what, m, file)
            differs = ""
            if what not in ("evaluate", "text"):
                w, v = np.fromfile(result), others[0](z, m)
                inner = slice(2 * m, n - 2 * m)
                differs = f"{np.abs(w[inner] - v[inner]).max() / np.ptp(z):.0e}"
            times = []
            for _ in range(ROUNDS):
                a = one.run(what, m, file)[0]
                b = every.run(what, m, file)[0]
                best = math.inf
                for f in others:
                    begin = time.perf_counter()
                    f(z, m)
                    best = min(best, time.perf_counter() - begin)
                times.append((a, b, best))
            t = np.array(times)
            least, median = t.min(axis=0), np.median(t, axis=0)
            ratio = lambda k: f"{least[k] / least[2]:.2f}, {np.median(t[:, k] / t[:, 2]):.2f}"
            name = what if passes == 1 else f"{what}, {passes} passes"
            print(f"| {name} | {n} | {m} | {median[0] * 1e3:.3g} ms | {median[2] * 1e3:.3g} ms | {ratio(0)} | {ratio(1)} | {differs} |", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
