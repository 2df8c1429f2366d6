#!/usr/bin/env python3
"""furrow beside numpy and scipy, on the same arrays, in turns, in one run.

    python3 testdata/bench/bench.py             every row
    python3 testdata/bench/bench.py spline 100  rows whose name holds every word

Each row is timed in rounds of one call each, first furrow on one core, then furrow on all cores, then scipy on one core; the ratio is that of the
rounds: its least and its median of 20. Both sides work on arrays in memory that they have seen before. Mean lines are compared away
from the ends, where the two differ by design; of the evaluation every value, and one that differs ends the run. The scripts are in script.py. Text is read by pandas' C engine. Debian: apt-get install python3-scipy python3-pandas.
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
    from scipy import linalg

    from script import catalogue, gaussian_direct, gaussian_fft, robust, thirty
except ImportError:
    if sys.executable != "/usr/bin/python3" and os.path.exists("/usr/bin/python3"):
        os.execv("/usr/bin/python3", ["/usr/bin/python3"] + sys.argv)
    sys.exit("bench.py: numpy, scipy or pandas is missing (Debian: apt-get install python3-scipy python3-pandas)")

ROUNDS = 20
AGREE = 1e-9  # of each value of the evaluation: as far as script.py and furrow may differ
HERE = os.path.dirname(os.path.abspath(__file__))


def surface(n):
    """Turned marks, waves and noise, with deep narrow grooves: invented."""
    rng = np.random.default_rng(1)
    x = np.arange(n)
    z = np.abs((x % 160) / 80 - 1) ** 2 + 0.5 * np.sin(2 * math.pi * x / 5000) + 0.1 * rng.standard_normal(n)
    for at in rng.integers(0, n, n // 2000):
        z[at : at + 12] -= 8
    return z


def spline(z, m):
    n = len(z)
    q = (1 / (2 * math.sin(math.pi / m))) ** 4
    bands = np.empty((3, n))
    bands[0], bands[1], bands[2] = q, -4 * q, 1 + 6 * q
    bands[1, 1] = bands[1, -1] = -2 * q
    bands[2, 0] = bands[2, -1] = 1 + q
    bands[2, 1] = bands[2, -2] = 1 + 5 * q
    return linalg.solveh_banded(bands, z, overwrite_ab=True, check_finite=False)


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


def compare(file, values):
    """The greatest relative difference of the values; both sides have the same ones, and none differs by more than AGREE."""
    with open(file) as f:
        ours = {symbol: float(v) for symbol, v in (line.split() for line in f)}
    if ours.keys() != values.keys():
        sys.exit(f"bench.py: only one side has {sorted(ours.keys() ^ values.keys())}")
    apart = {s: abs(values[s] - v) / abs(v) for s, v in ours.items()}
    far = [s for s, d in apart.items() if not d <= AGREE]
    if far:
        sys.exit("bench.py: " + "; ".join(f"{s} is {ours[s]!r} here, {values[s]!r} by the script" for s in far))
    return max(apart.values())


def rows():
    for n in (10**4, 10**5, 10**6):
        for m in (160, 1600, 16000):
            if n >= 5 * m:
                yield "gaussian", n, m, [gaussian_fft] + ([gaussian_direct] if m * n <= 2 * 10**8 else [])
    for n, m in ((10**4, 1600), (10**5, 1600), (10**6, 16000)):
        yield "spline", n, m, [spline]
    for n, m in ((10**4, 1600), (10**5, 1600), (10**5, 16000)):
        yield "robust", n, m, [robust]
    yield "evaluate", 9601, 1600, [catalogue]
    yield "evaluate beside thirty numbers", 9601, 1600, [thirty]
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
            word = what.split()[0]
            passes = one.run(word, m, file, result)[1]
            every.run(word, m, file)
            differs = ""
            if others == [catalogue]:
                differs = f"{compare(result, catalogue(z, m)):.0e}"
            elif word not in ("evaluate", "text"):
                w, v = np.fromfile(result), others[0](z, m)
                inner = slice(2 * m, n - 2 * m)
                differs = f"{np.abs(w[inner] - v[inner]).max() / np.ptp(z):.0e}"
            times = []
            for _ in range(ROUNDS):
                a = one.run(word, m, file)[0]
                b = every.run(word, m, file)[0]
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
