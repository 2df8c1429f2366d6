#!/usr/bin/env python3
"""A second, independent way through the whole evaluation, written with numpy straight from the definitions: direct sums and dense
loops, no transforms. It shares nothing with the Go code.

    go run ./examples/evaluate -points > trace.tsv        (and the like)
    python3 testdata/evaluate/reference.py trace.tsv      prints the values as JSON
    python3 testdata/evaluate/reference.py --check        runs the command on the demonstration trace and six made surfaces, and compares

Definitions: ISO 16610-21 (kernel, moment criterion), ISO 16610-31 (robust regression, order 2), ISO 21920-2 (parameters) in the reading that
the documentation of the packages states.
"""
import json, os, subprocess, sys, tempfile
import numpy as np

ALPHA = np.sqrt(np.log(2) / np.pi)
LEVEL = 1e-9  # share of the whole height below which two heights of the material ratio curve are one
ALPHA2 = 0.730913428094676  # solves exp(-t)(1+t) = 1/2 with t = pi alpha2^2


def gaussian(z, m):
    """Sampled, normalised kernel, one cut-off each side; ends keep moments up to order 1."""
    half = int(np.floor(m + 1e-12))
    k = np.arange(-half, half + 1)
    s = np.exp(-np.pi * (k / (ALPHA * m)) ** 2)
    n = len(z)
    w = np.empty(n)
    for i in range(n):
        a, b = max(0, i - half), min(n, i + half + 1)
        u = np.arange(a, b) - i
        g = s[u + half]
        zz = z[a:b]
        s0, s1, s2 = g.sum(), (g * u).sum(), (g * u * u).sum()
        t0, t1 = (g * zz).sum(), (g * u * zz).sum()
        det = s0 * s2 - s1 * s1
        w[i] = t0 / s0 if det <= 0 else (t0 * s2 - t1 * s1) / det
    return w


def robust(z, m, tolerance=1e-3, passes=50):
    """Robust Gaussian regression of order 2, Tukey's biweight, support two cut-offs each side."""
    half = int(np.floor(2 * m + 1e-12))
    n = len(z)
    delta = np.ones(n)
    c = None
    for _ in range(passes):
        w = np.empty(n)
        for i in range(n):
            a, b = max(0, i - half), min(n, i + half + 1)
            u = (np.arange(a, b) - i) / m
            g = np.exp(-np.pi * (u / ALPHA2) ** 2) * delta[a:b]
            basis = np.vstack([np.ones_like(u), u, u * u])
            w[i] = np.linalg.solve((basis * g) @ basis.T, (basis * g) @ z[a:b])[0]
        r = z - w
        new = 3 * 1.4826 * np.median(np.abs(r))
        if c is not None and abs(new - c) <= tolerance * c:
            break
        c = new
        delta = np.where(np.abs(r) < c, (1 - (r / c) ** 2) ** 2, 0.0)
    return w


def parabola(z, m):
    """Gaussian regression of order 2: the ends that keep moments up to order 2, support two cut-offs each side."""
    half, n = int(np.floor(2 * m + 1e-12)), len(z)
    w = np.empty(n)
    for i in range(n):
        a, b = max(0, i - half), min(n, i + half + 1)
        u = (np.arange(a, b) - i) / m
        basis = np.vstack([np.ones_like(u), u, u * u])
        g = np.exp(-np.pi * (u / ALPHA2) ** 2)
        w[i] = np.linalg.solve((basis * g) @ basis.T, (basis * g) @ z[a:b])[0]
    return w


def line(z):
    x = np.arange(len(z), dtype=float)
    return np.polyval(np.polyfit(x - x.mean(), z - z.mean(), 1), x - x.mean()) + z.mean()


def crossings(z, threshold_up, threshold_down, width=0.0, of="part"):
    """Alternating significant hills and dales with their borders, smallest insignificant part merged first. The least width, in points, is
    asked of each part, or of each element: then a part does not count where it makes less with one of its neighbours."""
    signs = np.sign(z)
    borders, i, n = [], 0, len(z)
    nz = [k for k in range(n) if signs[k] != 0]
    for a, b in zip(nz, nz[1:]):
        if signs[a] != signs[b]:
            if b == a + 1:
                borders.append(a + z[a] / (z[a] - z[b]))
            else:
                borders.append((a + 1 + b - 1) / 2)
    parts = []
    for a, b in zip(borders, borders[1:]):
        seg = z[int(np.ceil(a)):int(np.floor(b)) + 1]
        up = seg[np.argmax(np.abs(seg))] > 0
        parts.append([a, b, 1 if up else -1, np.abs(seg).max()])
    def small(k):
        p = parts[k]
        if p[3] < (threshold_up if p[2] > 0 else threshold_down):
            return True
        if of == "part":
            return p[1] - p[0] < width
        return any(y[1] - x[0] < width for x, y in zip(parts[max(0, k - 1):k + 1], parts[max(0, k - 1) + 1:k + 2]))
    while True:
        bad = [k for k in range(len(parts)) if small(k)]
        if not bad:
            break
        k = min(bad, key=lambda j: (parts[j][3], j))
        if k == 0 or k == len(parts) - 1:
            del parts[k]
            continue
        l, r = parts[k - 1], parts[k + 1]
        parts[k - 1:k + 2] = [[l[0], r[1], l[2], max(l[3], r[3])]]
    return parts


def elements(z, dx, sections):
    rp = np.mean([s.max() for s in sections])
    rv = np.mean([-s.min() for s in sections])
    parts = crossings(z, 0.1 * rp, 0.1 * rv)
    if len(parts) < 2:
        return float("nan"), float("nan")
    xs = [(b[1] - a[0]) * dx for a, b in zip(parts, parts[1:])]
    zt = [a[3] + b[3] for a, b in zip(parts, parts[1:])]
    return float(np.mean(xs)), float(np.mean(zt))


def sampled(z, dx, sections, of):
    """RSm and Rc of ISO 4287: 10 % of the mean Rz, 1 % of the section; elements of two parts, each in the section in which it begins; the
    mean of each section, then of those that have one. of: what the 1 % are asked of, "part", "element" or "none"."""
    n = len(sections[0])
    least = 0.1 * np.mean([s.max() - s.min() for s in sections])
    parts = crossings(z, least, least, 0.0 if of == "none" else 0.01 * n, of)
    xs, zt = [[] for _ in sections], [[] for _ in sections]
    for a, b in zip(parts[::2], parts[1::2]):
        k = int(a[0] // n)
        xs[k].append((b[1] - a[0]) * dx)
        zt[k].append(a[3] + b[3])
    mean = lambda s: float(np.mean([np.mean(k) for k in s if k])) if any(s) else float("nan")
    return mean(xs), mean(zt)


def ratio(z, c):
    """Share of the polyline at or above c."""
    lo, hi = np.minimum(z[:-1], z[1:]), np.maximum(z[:-1], z[1:])
    share = np.where(c <= lo, 1.0, np.where(c > hi, 0.0, (hi - c) / np.where(hi > lo, hi - lo, 1.0)))
    return 100 * share.mean()


def inverse(z, p):
    lo, hi = z.min(), z.max()
    if p <= 0:
        return hi
    if p >= 100:
        return lo
    for _ in range(200):
        c = (lo + hi) / 2
        if ratio(z, c) <= p:
            hi = c
        else:
            lo = c
    return (lo + hi) / 2


def core(z):
    n = len(z)
    s = np.sort(z)[::-1]
    p = (np.arange(n) + 0.5) / n
    w = int(round(0.4 * n))
    d = s[:n - w] - s[w:]
    i = int(np.nonzero(d <= d.min() + 1e-9 * (s[0] - s[-1]))[0][0])
    height = s[0] - s[-1]
    b, a = np.polyfit(p[i:i + w + 1] - p[i], s[i:i + w + 1] - s[i], 1)
    a += s[i] - b * p[i]
    upper, lower = a, a + b
    # A level window is a plateau: its own height is both limits, and what the arithmetic before left on it decides nothing.
    if -b <= LEVEL * height:
        first, last = i, i + w
        while first > 0 and s[first - 1] - s[i] <= LEVEL * height:
            first -= 1
        while last < n - 1 and s[i] - s[last + 1] <= LEVEL * height:
            last += 1
        s = s.copy()
        s[first:last + 1] = s[first:last + 1].mean()
        upper = lower = s[first]
    # The curve is constant from 0 to the first and from the last point to 1, linear between.
    pp, ss = np.concatenate([[0], p, [1]]), np.concatenate([[s[0]], s, [s[-1]]])
    def cross(c):
        if c >= s[0]:
            return 0.0
        if c <= s[-1]:
            return 1.0
        k = np.nonzero(ss <= c)[0][0]
        return pp[k - 1] + (ss[k - 1] - c) / (ss[k - 1] - ss[k]) * (pp[k] - pp[k - 1])
    m1, m2 = cross(upper), cross(lower)
    if upper == lower:  # where the plateau begins and where it ends; at the ends of the curve it takes all that is there
        m1 = 0.0 if first == 0 else p[first]
        m2 = 1.0 if last == n - 1 else p[last]
    def area(lo, hi, level, sign):
        q = np.concatenate([[lo], pp[(pp > lo) & (pp < hi)], [hi]])
        v = sign * (np.interp(q, pp, ss) - level)
        return float(np.sum((v[1:] + v[:-1]) / 2 * np.diff(q)))
    rpk = 2 * area(0, m1, upper, 1) / m1 if m1 > 0 else 0.0
    rvk = 2 * area(m2, 1, lower, -1) / (1 - m2) if m2 < 1 else 0.0
    return upper - lower, rpk, rvk, 100 * m1, 100 * m2


def gradient(z, dx):
    return (z[6:] - 9 * z[5:-1] + 45 * z[4:-2] - 45 * z[2:-4] + 9 * z[1:-5] - z[:-6]) / (60 * dx)


def chain(z, dx, long=800.0, short=2.5):
    """Primary profile, its mean line, and the section length in points."""
    if dx <= short / 4:
        z = gaussian(z, short / dx)
    p = z - line(z)
    return p, gaussian(p, long / dx), int(round(long / dx))


def sections(z, n, count=5):
    """The part of z in the sections, in the middle, an odd point left over at the end."""
    start = (len(z) - count * n) // 2
    e = z[start:start + count * n]
    return start, e, [e[i * n:(i + 1) * n] for i in range(count)]


def evaluate(z, dx, long=800.0):
    p, w, n = chain(z, dx, long)
    r = p - w
    k = p - robust(p, long / dx)
    start, e, secs = sections(r, n)
    rq = np.sqrt(np.mean(e ** 2))
    window = int(np.floor(long / dx + 1e-9)) + 1
    view = np.lib.stride_tricks.sliding_window_view(e, window)
    rsm, rc = elements(e, dx, secs)
    rk, rpk, rvk, m1, m2 = core(sections(k, n)[1])
    g = gradient(r[start - 3:start + len(e) + 3], dx)
    return {
        "Ra": np.mean(np.abs(e)), "Rq": rq, "Rsk": np.mean(e ** 3) / rq ** 3, "Rku": np.mean(e ** 4) / rq ** 4,
        "Rp": np.mean([s.max() for s in secs]), "Rv": np.mean([-s.min() for s in secs]),
        "Rz": np.mean([s.max() - s.min() for s in secs]), "Rzx": (view.max(axis=1) - view.min(axis=1)).max(),
        "Rt": e.max() - e.min(), "Rpt": e.max(), "Rvt": -e.min(), "Rsm": rsm, "Rc": rc, "Rdq": np.sqrt(np.mean(g ** 2)),
        "Rmr(0.5)": ratio(e, 0.5 - 1e-12 * np.abs(z).max()), "Rmc(10)": inverse(e, 10), "Rdc(10,80)": inverse(e, 10) - inverse(e, 80),
        "Rk": rk, "Rpk": rpk, "Rvk": rvk, "Rmrk1": m1, "Rmrk2": m2,
    }


def waviness(z, dx):
    """W of ISO 21920: one section, all that is left."""
    p, w, _ = chain(z, dx)
    e = w - gaussian(w, 2500 / dx)
    return {"Wa": np.mean(np.abs(e)), "Wq": np.sqrt(np.mean(e ** 2)), "Wz": e.max() - e.min(), "Wt": e.max() - e.min()}


def older_waviness(z, dx):
    """W of ISO 4287: sampling lengths as long as the cut-off."""
    p, w, n = chain(z, dx)
    _, e, secs = sections(w - gaussian(w, 2500 / dx), n)
    return {"Wa": np.mean([np.mean(np.abs(s)) for s in secs]), "Wz": np.mean([s.max() - s.min() for s in secs]), "Wt": e.max() - e.min()}


def primary(z, dx):
    p, _, _ = chain(z, dx)
    return {"Pa": np.mean(np.abs(p)), "Pq": np.sqrt(np.mean(p ** 2)), "Pt": p.max() - p.min(), "Pz": p.max() - p.min(), "Psk": np.mean(p ** 3) / np.mean(p ** 2) ** 1.5}


def older(z, dx, of="part"):
    """ISO 4287: values of the sections, then their mean; the Rk family behind the valley suppression of ISO 13565-1."""
    p, w, n = chain(z, dx)
    _, e, secs = sections(p - w, n)
    _, v, _ = sections(p - gaussian(np.maximum(p, w), 800 / dx), n)
    rk, rpk, rvk, m1, m2 = core(v)
    rsm, rc = sampled(e, dx, secs, of)
    q = [np.sqrt(np.mean(s ** 2)) for s in secs]
    return {"Ra": np.mean([np.mean(np.abs(s)) for s in secs]), "Rq": np.mean(q), "Rsk": np.mean([np.mean(s ** 3) / a ** 3 for s, a in zip(secs, q)]),
            "Rz": np.mean([s.max() - s.min() for s in secs]), "Rt": e.max() - e.min(), "RSm": rsm, "Rc": rc, "RPc": 1e4 / rsm,
            "Rk": rk, "Rpk": rpk, "Rvk": rvk, "Mr1": m1, "Mr2": m2}


def element_width(z, dx):
    rsm, rc = sampled(*section_arguments(z, dx), "element")
    return {"RSm": rsm, "Rc": rc, "RPc": 1e4 / rsm}


def no_width(z, dx):
    rsm, rc = sampled(*section_arguments(z, dx), "none")
    return {"RSm": rsm, "Rc": rc, "RPc": 1e4 / rsm}


def section_arguments(z, dx):
    p, w, n = chain(z, dx)
    _, e, secs = sections(p - w, n)
    return e, dx, secs


def cutoff_only(z, dx):
    """A stated cut-off leaves the filter of the Rk family to the edition: the robust one at that cut-off."""
    p, w, n = chain(z, dx, 250.0)
    k = sections(p - robust(p, 250 / dx), n)[1]
    rk, rpk, rvk, m1, m2 = core(k)
    return {"Ra": np.mean(np.abs(sections(p - w, n)[1])), "Rk": rk, "Rpk": rpk, "Rvk": rvk, "Rmrk1": m1, "Rmrk2": m2}


def retain2(z, dx):
    p, _, n = chain(z, dx)
    _, e, secs = sections(p - parabola(p, 800 / dx), n)
    return {"Ra": np.mean(np.abs(e)), "Rz": np.mean([s.max() - s.min() for s in secs]), "Rt": e.max() - e.min()}


def jis1982(z, dx):
    """Ten-point height of JIS B 0601:1982: no filter, five peaks and five valleys about the least-squares line of each section."""
    _, _, secs = sections(z - line(z), int(round(800 / dx)))
    values = []
    for s in secs:
        s = s - line(s)
        s = s[s != 0]
        runs = np.split(s, np.nonzero(np.sign(s[1:]) != np.sign(s[:-1]))[0] + 1)
        up = sorted((r.max() for r in runs if r[0] > 0), reverse=True)[:5]
        down = sorted((-r.min() for r in runs if r[0] < 0), reverse=True)[:5]
        if len(up) == 5 and len(down) == 5:
            values.append(np.mean(up) + np.mean(down))
    return {"Rz": np.mean(values) if values else None}


def worn(z, dx):
    """The Rk family on the heights as they are."""
    rk, rpk, rvk, m1, m2 = core(z)
    return {"Rk": rk, "Rpk": rpk, "Rvk": rvk, "Rmrk1": m1, "Rmrk2": m2}


def surfaces():
    """Six made surfaces, 4.8 mm long: name -> heights and spacing in µm. All are invented."""
    rng = np.random.Generator(np.random.PCG64(7))
    def ground(n, smooth):
        z = np.convolve(rng.standard_normal(n + 8 * smooth), np.hanning(2 * smooth + 1), "same")[4 * smooth:4 * smooth + n]
        return z / z.std()
    dx, n = 2.0, 2400
    x = np.arange(n) * dx
    honed = np.minimum(0.15 * ground(n, 3), 1.0) - 2.5 * np.maximum(0, ground(n, 6) - 1.4)
    flat = np.maximum(0, ground(n, 5) - np.quantile(ground(n, 5), 0.6))
    return {
        "ground, fine points": (0.4 * ground(4800, 4) + 0.3 * np.sin(np.arange(4800) / 700), 1.0),
        "ground, tilted": (0.6 * ground(n, 3) + 0.004 * x + 2e-7 * (x - 2000) ** 2, dx),
        "honed": (honed, dx),
        "turned": (np.mod(x, 240.0) * (240.0 - np.mod(x, 240.0)) / -6400 + 0.02 * ground(n, 2), dx),
        "waves": (np.sin(x / 37) + 0.3 * np.sin(x / 9.1) + 2 * np.sin(x / 600), dx),
        "worn flat with pits": (-1.5 * flat + 1e-4 * x, dx),
    }


CASES = [
    ("settings.json", evaluate), ("waviness.json", waviness), ("primary.json", primary), ("older.json", older), ("older-waviness.json", older_waviness),
    ("width-element.json", element_width), ("width-none.json", no_width), ("cutoff-only.json", cutoff_only), ("retain-2.json", retain2),
    ("jis-1982.json", jis1982), ("worn.json", worn),
]


def check():
    here = os.path.dirname(os.path.abspath(__file__))
    root = os.path.dirname(os.path.dirname(here))
    count = bad = 0
    with tempfile.TemporaryDirectory() as work:
        command = os.path.join(work, "evaluate")
        subprocess.run(["go", "build", "-o", command, "./examples/evaluate"], cwd=root, check=True)
        def run(*a):
            done = subprocess.run([command, *a], cwd=work, capture_output=True, text=True)
            if done.returncode > 1:  # 1: read, but without a value
                sys.exit(done.stderr)
            return done.stdout
        rows = [l.split("\t") for l in run("-points").splitlines()]
        z, dx = np.array([float(v) for _, v in rows]), float(rows[1][0]) - float(rows[0][0])
        traces = [("the demonstration trace", z, dx, ())]
        for name, (z, dx) in surfaces().items():
            path = os.path.join(work, "%d.txt" % len(traces))
            with open(path, "w") as f:
                f.write("".join("%r\n" % float(v) for v in z))
            hints = os.path.join(work, "%d.json" % len(traces))
            with open(hints, "w") as f:
                json.dump({"z_unit": "µm", "z_column": 1, "spacing": dx}, f)
            traces.append((name, z, dx, ("-text", hints, path)))
        for title, z, dx, arguments in traces:
            for name, reference in CASES:
                got = {v["symbol"]: v["value"] for v in json.loads(run("-settings", os.path.join(here, name), "-json", *arguments))["values"]}
                for symbol, value in reference(z, dx).items():
                    count += 1
                    # 1e-9: direct sums against transforms, and the stop of the robust filter's iteration.
                    if value is None or value != value:
                        agree = got.get(symbol, 0) is None
                    else:
                        agree = got.get(symbol) is not None and abs(got[symbol] - value) <= 1e-9 * max(1, abs(value))
                    if not agree:
                        print("%s: %s: %s: command %s, numpy %s" % (title, name, symbol, got.get(symbol), value))
                        bad = 1
    print("%d values of %d traces compared with numpy, %s" % (count, len(traces), "some differ" if bad else "all within 1e-9"))
    return bad


if __name__ == "__main__":
    if sys.argv[1:] == ["--check"]:
        sys.exit(check())
    data = np.loadtxt(sys.argv[1], delimiter="\t")
    print(json.dumps(evaluate(data[:, 1], data[1, 0] - data[0, 0]), indent=1))
