"""What people write: the filters and the whole catalogue for R in numpy and scipy, for bench.py to time and to compare.

catalogue() gives every value that furrow gives without settings, from a trace in µm at a spacing of 0.5 µm: by the definitions in params/README.md, written
anew. It loops where numpy has no way: over the passes of the robust filter, the hills and dales that do not count, and the steps of a bisection.
"""

import math

import numpy as np
from scipy import ndimage, signal, special

ALPHA = math.sqrt(math.log(2) / math.pi)
ALPHA2 = 0.730913428094676
DX = 0.5


def bell(m, alpha, reach):
    u = np.arange(-reach, reach + 1)
    return u, np.exp(-math.pi * (u / (alpha * m)) ** 2)


def gaussian_fft(z, m):
    _, g = bell(m, ALPHA, m)
    return signal.oaconvolve(z, g / g.sum(), "same")


def gaussian_direct(z, m):
    return ndimage.gaussian_filter1d(z, ALPHA * m / math.sqrt(2 * math.pi), radius=m)


def gaussian_ends(z, m):
    """The Gaussian filter whose ends keep straight lines: near them the window is cut off, and a line is fitted in what is left of it."""
    u, g = bell(m, ALPHA, m)
    line = signal.oaconvolve(z, g / g.sum(), "same")
    whole = [np.concatenate(([0], np.cumsum(g * u**k))) for k in range(3)]
    near = z[: 2 * m]
    for side, back in ((near, False), (z[::-1][: 2 * m], True)):
        t0 = signal.oaconvolve(side, g, "same")[:m]
        t1 = signal.oaconvolve(side, -g * u, "same")[:m]
        s0, s1, s2 = (w[-1] - w[m : 0 : -1] for w in whole)
        fit = (s2 * t0 - s1 * t1) / (s0 * s2 - s1 * s1)
        if back:
            line[-m:] = fit[::-1]
        else:
            line[:m] = fit
    return line


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
        w = parabola(s, t)
        r = z - w
        scale = 3 * 1.4826 * np.median(np.abs(r))
        if last and abs(scale - last) <= 1e-3 * last:
            break
        last = scale
        weight = np.clip(1 - (r / scale) ** 2, 0, None) ** 2
    return w


def parabola(s, t):
    a = s[2] * s[4] - s[3] * s[3]
    b = s[2] * s[3] - s[1] * s[4]
    c = s[1] * s[3] - s[2] * s[2]
    return (a * t[0] + b * t[1] + c * t[2]) / (a * s[0] + b * s[1] + c * s[2])


def thirty(z, m):
    """The usual script: thirty numbers, some of them by shorter ways than the standard's."""
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


def catalogue(z, m):
    """Every value of the evaluation, by furrow's symbols."""
    p = gaussian_ends(z, 5)
    x = np.arange(len(p))
    p = p - np.polyval(np.polyfit(x - x.mean(), p, 1), x - x.mean())
    first = (len(z) - 5 * m) // 2
    inside = slice(first, first + 5 * m)
    rough = p - gaussian_ends(p, m)
    r = rough[inside]
    out = heights(r, m)
    slopes(out, rough[first - 3 : first + 5 * m + 3])
    elements(out, r)
    ratios(out, r)
    volumes(out, Curve(r))
    spectrum(out, r)
    features(out, r, rough, first)
    third(out, r.reshape(5, m))
    curve = Curve((p - robust(p, m))[inside])
    core(out, curve)
    probability(out, curve.z)
    return out


def heights(r, m):
    out = {}
    s = r.reshape(-1, m)
    rq = np.sqrt((r * r).mean())
    out["Ra"], out["Rq"], out["Rsk"], out["Rku"] = np.abs(r).mean(), rq, ((r / rq) ** 3).mean(), ((r / rq) ** 4).mean()
    out["Rp"], out["Rv"] = s.max(axis=1).mean(), -s.min(axis=1).mean()
    out["Rz"] = out["Rp"] + out["Rv"]
    out["Rpt"], out["Rvt"] = r.max(), -r.min()
    out["Rt"] = out["Rpt"] + out["Rvt"]
    half = m // 2  # the window holds m steps, both ends included
    span = ndimage.maximum_filter1d(r, m + 1) - ndimage.minimum_filter1d(r, m + 1)
    out["Rzx"] = span[half:-half].max()
    side = np.where(r > 0.5, 1, np.where(r < -0.5, -1, 0))
    side = side[side != 0]
    out["RPc(0.5,-0.5)"] = np.count_nonzero((side[:-1] == 1) & (side[1:] == -1)) / (len(r) * DX) * 1e4
    return out


def slopes(out, r):
    g = np.convolve(r, np.array([1, -9, 45, 0, -45, 9, -1]) / 60, "valid") / DX
    stretch = (np.sqrt(1 + g * g) - 1).mean()
    out["Rdq"], out["Rda"], out["Rdt"] = np.sqrt((g * g).mean()), np.abs(g).mean(), np.abs(g).max()
    out["Rdl"], out["Rdr"] = len(g) * DX * (1 + stretch), 100 * stretch


def parts(r):
    """The hills and dales between crossings of the line: where they begin and end, and their heights, those of dales below 0."""
    change = np.flatnonzero((r[1:] > 0) != (r[:-1] > 0))
    at = change + r[change] / (r[change] - r[change + 1])
    begin = np.concatenate(([0], change + 1))
    high, low = np.maximum.reduceat(r, begin), np.minimum.reduceat(r, begin)
    return np.concatenate(([0], at)), np.concatenate((at, [len(r) - 1])), np.where(high > 0, high, low)


def elements(out, r):
    begin, end, height = (list(v[1:-1]) for v in parts(r))  # those at the ends are not complete
    hill, dale = 0.1 * out["Rp"], 0.1 * out["Rv"]
    small = [i for i, h in enumerate(height) if (h if h > 0 else -h * hill / dale) < hill]
    before, behind = list(range(-1, len(height) - 1)), list(range(1, len(height) + 1))
    there = [True] * len(height)
    for i in sorted(small, key=lambda i: abs(height[i])):
        if not there[i]:
            continue
        there[i] = False
        left, right = before[i], behind[i]
        if left >= 0 and right < len(height):  # its neighbours become one
            keep, drop = (right, left) if abs(height[right]) > abs(height[left]) else (left, right)
            begin[keep], end[keep], there[drop] = begin[left], end[right], False
            left, right = (before[left], keep) if keep == right else (keep, behind[right])
        if left >= 0:
            behind[left] = right
        if right < len(height):
            before[right] = left
    begin, end, height = (np.array(v)[np.array(there)] for v in (begin, end, height))
    wide, tall = (end[1:] - begin[:-1]) * DX, np.abs(height[1:]) + np.abs(height[:-1])
    out["Rsm"], out["Rsmx"], out["Rsmq"] = wide.mean(), wide.max(), wide.std()
    out["Rc"], out["Rcx"], out["Rcq"] = tall.mean(), tall.max(), tall.std()
    out["Rpc"] = 1e4 / out["Rsm"]


def ratios(out, r):
    low, high = np.minimum(r[:-1], r[1:]), np.maximum(r[:-1], r[1:])
    steep = np.where(high > low, high - low, 1)
    falling = np.sort(r)[::-1]

    def ratio(c):
        return np.where(low >= c, 1, np.clip((high - c) / steep, 0, 1)).mean()

    def height(p):  # the ratio grows evenly between two heights of points
        above, below = 0, len(falling) - 1
        while below - above > 1:
            middle = (above + below) // 2
            above, below = (middle, below) if ratio(falling[middle]) < p else (above, middle)
        a, b = ratio(falling[above]), ratio(falling[below])
        return falling[above] + (p - a) / (b - a) * (falling[below] - falling[above])

    out["Rmr(0)"], out["Rmr(5;1)"] = 100 * ratio(0), 100 * ratio(height(0.05) - 1)
    out["Rmc(50)"], out["Rdc(10,80)"] = height(0.5), height(0.1) - height(0.8)


class Curve:
    """Heights, falling, over the share of the points; flat for half a point at both ends."""

    def __init__(self, r):
        self.z = np.sort(r)[::-1]
        n = len(self.z)
        self.x = np.concatenate(([0], (np.arange(n) + 0.5) / n, [1]))
        self.y = np.concatenate((self.z[:1], self.z, self.z[-1:]))
        self.sum = np.concatenate(([0], np.cumsum(np.diff(self.x) * (self.y[1:] + self.y[:-1]) / 2)))

    def height(self, p):
        return np.interp(p, self.x, self.y)

    def share(self, height):
        return np.interp(-height, -self.z, self.x[1:-1])

    def above(self, p, level):
        """The area between curve and level from 0 to p."""
        i = np.searchsorted(self.x, p, "right") - 1
        return self.sum[i] + (self.y[i] + self.height(p)) / 2 * (p - self.x[i]) - level * p

    def below(self, p, level):
        return self.above(p, level) - self.above(1, level)


def volumes(out, c):
    a, b = c.height(0.1), c.height(0.8)
    out["Rvm(10)"] = out["Rvmp"] = c.above(0.1, a)
    out["Rvv(10)"], out["Rvvv"] = c.below(0.1, a), c.below(0.8, b)
    out["Rvmc"], out["Rvvc"] = c.above(0.8, b) - out["Rvmp"], out["Rvv(10)"] - out["Rvvv"]


def spectrum(out, r):
    n = len(r)
    size = 3 * n // 2  # no shift up to half the length wraps round
    power = np.abs(np.fft.rfft(r, size)) ** 2
    f = np.fft.irfft(power, size)[: n // 2 + 1] / np.arange(n, n - n // 2 - 1, -1)
    f /= f[0]
    k = int(np.argmax(f <= 0.2))
    out["Ral"] = (k - 1 + (f[k - 1] - 0.2) / (f[k - 1] - f[k])) * DX
    out["Rsw"] = DX * n / (int(np.argmax(np.abs(np.fft.rfft(r))[1:])) + 1)


def features(out, r, rough, first):
    """Hills and dales lower than a twentieth of the total height are taken away: what is left are the extremes so prominent. The ends are none: what stands
    first or last counts by its other side."""
    ends = np.sign(r[[0, -1]] - r[[1, -2]]) * 1e9
    open_ended = np.concatenate((ends[:1], r, ends[1:]))
    for side, five, density, curvature in ((1, "R5p", "Rpd", "Rmpc"), (-1, "R5v", "Rvd", "Rmvc")):
        tops, _ = signal.find_peaks(side * open_ended, prominence=0.05 * out["Rt"])
        tops -= 1
        out[five] = np.sort(side * r[tops])[-5:].mean()
        out[density] = len(tops) / (len(r) * DX) * 1000
        z = rough[first + tops + np.arange(-3, 4)[:, None]]
        out[curvature] = -side * (np.array([2, -27, 270, -490, 270, -27, 2]) @ z).mean() / 180 / DX**2 * 1000
    out["R10z"] = out["R5p"] + out["R5v"]


def third(out, sections):
    each = []
    for r in sections:
        height = np.sort(parts(r)[2])
        if height[2] < 0 < height[-3]:
            each.append(height[-3] - height[2])
    out["R3z"], out["R3zm"] = np.mean(each), np.max(each)


def core(out, c):
    z, n = c.z, len(c.z)
    wide = round(0.4 * n)
    drop = z[:-wide] - z[wide:]
    i = int(np.argmax(drop <= drop.min() + 1e-9 * (z[0] - z[-1])))
    x = (np.arange(i, i + wide + 1) + 0.5) / n
    slope, middle = np.polyfit(x - x.mean(), z[i : i + wide + 1], 1)
    upper, lower = middle - slope * x.mean(), middle + slope * (1 - x.mean())
    one, two = c.share(upper), c.share(lower)
    out["Rk"], out["Rpkx"], out["Rvkx"] = upper - lower, z[0] - upper, lower - z[-1]
    out["Rmrk1"], out["Rmrk2"] = 100 * one, 100 * two
    out["Rak1"], out["Rak2"] = c.above(one, upper), c.below(two, lower)
    out["Rpk"], out["Rvk"] = 2 * out["Rak1"] / one, 2 * out["Rak2"] / (1 - two)


def probability(out, z):
    n = len(z)
    reach = min(3.0, special.ndtri((n - 0.5) / n))
    steps = int(reach / 0.05 + 1e-9)
    s = np.arange(-steps, steps + 1) * 0.05
    y = np.interp(s, special.ndtri((np.arange(n) + 0.5) / n), z)
    bend = meets(conic(s, y), 0)
    middle = int(np.searchsorted(s, bend))
    second = np.diff(y, 2)  # at the points 1 ...
    quarter = len(s) // 4
    a, b = max(1, middle - quarter), min(len(s) - 1, middle + quarter + 1)
    far = np.flatnonzero(np.abs(second) > max(6 * second[a - 1 : b - 1].std(), 1e-9 * (y[0] - y[-1]))) + 1
    ends = far[far < a].max(initial=0), far[far >= b].min(initial=len(s) - 1) + 1
    s, y = s[slice(*ends)], y[slice(*ends)]
    fit = conic(s, y)
    plateau, dale = s <= meets(fit, -1) + 5e-8, s >= meets(fit, 1) - 5e-8
    (a, b), (c, d) = np.polyfit(s[plateau], y[plateau], 1), np.polyfit(s[dale], y[dale], 1)
    out["Rpq"], out["Rvq"], out["Rmq"] = -a, -c, 100 * special.ndtr((d - b) / (a - c))


def conic(s, y):
    """The hyperbola a·u² + b·uv + c·v² + d·u - v + e = 0 through the curve in the unit square."""
    u, v = (s - s[0]) / (s[-1] - s[0]), (y - y[-1]) / (y[0] - y[-1])
    a, b, c, d, e = np.linalg.lstsq(np.stack((u * u, u * v, v * v, u, np.ones_like(u)), axis=1), v, rcond=None)[0]
    centre = np.linalg.solve([[2 * a, b], [b, 2 * c]], [-d, 1])
    value = (d * centre[0] - centre[1]) / 2 + e
    return (a, b, c), centre, value, s[0], s[-1] - s[0]


def meets(fit, side):
    """Where the line between the asymptotes (0), or the one that halves its angle with an asymptote three times (-1, 1), meets the curve."""
    (a, b, c), centre, value, s0, ds = fit
    slopes = np.roots([c, b, a])
    unit = lambda v: v / np.hypot(*v)
    plateau, dale = unit(np.array([-1, -slopes.max()])), unit(np.array([1, slopes.min()]))
    way = unit(plateau + dale)
    for _ in range(3 * abs(side)):
        way = unit(way + (plateau if side < 0 else dale))
    form = a * way[0] ** 2 + b * way[0] * way[1] + c * way[1] ** 2
    return s0 + ds * (centre[0] + np.sqrt(max(0, -value / form)) * way[0])
