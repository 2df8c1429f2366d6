#!/usr/bin/env python3
"""Makes text/ and key.json: one small file for each way in which people's text files differ, with what reading it must give.

All hold z = sin(2 pi x/100) + 0.5 cos(2 pi x/50) + 0.2 sin(2 pi x/2000) in micrometres, x = 0, 0.5 ... 20 (41 points), rounded as
printed; the key holds the heights as printed, in micrometres.

    python3 make.py           makes the files anew
    python3 make.py --check   exits with 1 where a file or the key is not what this script makes
"""
import json
import math
import os
import struct
import sys

N, DX = 41, 0.5
X = [i * DX for i in range(N)]


def h(x):
    return math.sin(2 * math.pi * x / 100) + 0.5 * math.cos(2 * math.pi * x / 50) + 0.2 * math.sin(2 * math.pi * x / 2000)


Z = [h(x) for x in X]
key = []
made = {}


def put(name, text, hints=None, z=None, spacing=0.5, encoding="utf-8", ask=None, error=None, line=0, column=0, note=None):
    data = text if isinstance(text, bytes) else text.encode(encoding)
    made[os.path.join("text", name)] = data
    entry = {"file": name}
    if hints:
        entry["hints"] = hints
    if ask:
        entry["ask"] = ask
    elif error:
        entry.update(error=error, line=line, column=column)
    else:
        entry["spacing"] = spacing
        entry["z"] = [None if v is None else v for v in z]
        if note:
            entry["note"] = note
    key.append(entry)


def r(digits, values=Z):
    return [round(v, digits) for v in values]


def rows(sep, fx, fz, end="\n", xs=X, zs=Z):
    return "".join((fx % x) + sep + (fz % z) + end for x, z in zip(xs, zs))


def comma(s):
    return s.replace(".", ",")


UM = {"x_unit": "um", "z_unit": "um"}
HEAD = "x [µm]\tz [µm]\n"

# How numbers are written.
put("number-plain.txt", HEAD + rows("\t", "%.1f", "%.5f"), z=r(5))
put("number-comma.txt", HEAD + comma(rows("\t", "%.1f", "%.5f")), z=r(5))
put("number-padded.txt", "x[um] z[um]\n" + rows(" ", "%12.4f", "%14.6f"), z=r(6))
put("number-exponent.txt", "x/um z/um\n" + rows(" ", "%.6e", "%.8e"), z=[float("%.8e" % v) for v in Z])
put("number-exponent-3.txt", HEAD + rows("\t", "%.1f", "%.6E").replace("E+00", "E+000").replace("E-0", "E-00"), z=[float("%.6E" % v) for v in Z])
put("number-fortran.txt", HEAD + rows("\t", "%.1f", "%.8E").replace("E", "D"), z=[float("%.8E" % v) for v in Z])
put("number-18-digits.txt", HEAD + rows("\t", "%.18e", "%.18e"), z=[float("%.18e" % v) for v in Z])
put("number-plus.txt", HEAD + rows("\t", "%+.1f", "%+.5f"), z=r(5))
down = [-v for v in Z]
put("number-unicode-minus.txt", HEAD + rows("\t", "%.1f", "%.5f", zs=down).replace("-", "\u2212"), z=r(5, down))
small = [v / 1e4 for v in Z]
put("number-minus-zero.txt", HEAD + rows("\t", "%.1f", "%.3f", zs=[-v for v in small]), z=[0.0] * N)
big = [v * 1000 + 12000 for v in Z]
put("number-thousands-comma.txt", "x [µm]\tz [nm]\n" + rows("\t", "%.1f", "%s", zs=["{:,.1f}".format(v) for v in big]), z=[round(v, 1) / 1000 for v in big])
put("number-thousands-point.csv", "x [µm];z [nm]\n" + "".join("%s;%s\n" % (comma("%.1f" % x), "{:,.1f}".format(v).translate({44: 46, 46: 44})) for x, v in zip(X, big)),
    z=[round(v, 1) / 1000 for v in big])
put("number-thousands-nbsp.csv", "x [µm];z [nm]\n" + "".join("%s;%s\n" % (comma("%.1f" % x), comma("{:,.1f}".format(v).replace(",", "\u00a0"))) for x, v in zip(X, big)),
    z=[round(v, 1) / 1000 for v in big])
put("number-undecided.csv", "".join("%d;%s\n" % (i, "{:,.0f}".format(v)) for i, v in enumerate(big)), hints={"x_unit": "um", "z_unit": "nm"}, ask=["decimal"])
put("number-settled.csv", "x [µm];z [nm]\n" + "".join("%d;%s\n" % (i, comma("%.3f" % (v / 10))) for i, v in enumerate(big)),
    spacing=1, z=[round(v / 10, 3) / 1000 for v in big])
put("number-decided.csv", "x [µm];z [nm]\n" + "".join("%d;%s\n" % (i, "{:,.0f}".format(v)) for i, v in enumerate(big)), hints={"decimal": "."},
    spacing=1, z=[round(v) / 1000 for v in big])

# What parts the cells.
put("cells-sep-line.csv", "sep=;\nx [µm];z [µm]\n" + rows(";", "%.1f", "%.5f"), z=r(5))
put("cells-comma.csv", "x_um,z_um\n" + rows(",", "%.1f", "%.5f"), z=r(5))
put("cells-semicolon.csv", "x_um;z_um\n" + rows(";", "%.1f", "%.5f"), z=r(5))
put("cells-eight-blanks.txt", rows("        ", "%.1f", "%.5f"), hints=UM, z=r(5))
put("cells-mixed-blanks.txt", "".join((" " * (i % 3)) + "%.1f%s%.5f\n" % (x, [" ", "\t", " \t  "][i % 3], z) for i, (x, z) in enumerate(zip(X, Z))), hints=UM, z=r(5))
put("cells-trailing-tab.txt", rows("\t", "%.1f", "%.5f", end="\t\r\n"), hints=UM, z=r(5))
put("cells-quoted.csv", '"x [µm]","z [µm]"\n' + "".join('"%s","%s"\n' % (comma("%.1f" % x), comma("%.5f" % z)) for x, z in zip(X, Z)), z=r(5))
put("cells-quoted-names.csv", '"way, ""x"" [µm]","height\nabove the line [µm]"\n' + rows(",", "%.1f", "%.5f"), z=r(5))

# Line ends and blank lines.
put("lines-crlf.txt", HEAD + rows("\t", "%.1f", "%.5f").replace("\n", "\r\n"), z=r(5))
put("lines-cr.txt", (HEAD + rows("\t", "%.1f", "%.5f")).replace("\n", "\r"), z=r(5))
put("lines-blank-first.txt", "\n" + HEAD + rows("\t", "%.1f", "%.5f"), z=r(5))
put("lines-blank-tail.txt", HEAD + rows("\t", "%.1f", "%.5f") + "\n\n  \n", z=r(5))
gap = [None if i in (7, 8) else v for i, v in enumerate(r(5))]
put("lines-blank-inside.txt", "z [µm]\n" + "".join("\n" if v is None else "%.5f\n" % v for v in gap), hints={"spacing": 0.5}, z=gap)
put("lines-blank-skipped.txt", "z [µm]\n" + "".join("%.5f\n\n" % v for v in Z), hints={"spacing": 0.5, "blank_lines": "skip"}, z=r(5))

# Encodings.
head8 = "Höhe über Weg\nx [µm]\tz [µm]\n"
put("encoding-latin1.txt", head8 + rows("\t", "%.1f", "%.5f"), z=r(5), encoding="latin-1")
put("encoding-utf8-mark.txt", "\ufeff" + head8 + rows("\t", "%.1f", "%.5f"), z=r(5))
put("encoding-utf16-le.txt", ("\ufeff" + head8 + rows("\t", "%.1f", "%.5f")).encode("utf-16-le"), z=r(5))
put("encoding-utf16-be.txt", ("\ufeff" + head8 + rows("\t", "%.1f", "%.5f")).encode("utf-16-be"), z=r(5))
put("encoding-utf16-no-mark.txt", ("x [um]\tz [um]\n" + rows("\t", "%.1f", "%.5f")).encode("utf-16-le"), z=r(5))

# Headers.
put("header-none.txt", rows("\t", "%.1f", "%.5f"), ask=["x_unit", "z_unit"])
put("header-title.txt", "Rod 7, trace 3\n" + rows("\t", "%.1f", "%.5f"), hints=UM, z=r(5))
put("header-free-text.txt", "Rod 7\nafter grinding, along the axis\n14 March\n2 passes\nx(mm)\tHeight (nm)\n" +
    rows("\t", "%.4f", "%.2f", xs=[x / 1000 for x in X], zs=[z * 1000 for z in Z]), z=[round(v * 1000, 2) / 1000 for v in Z])
put("header-hash.txt", "# device: lathe bench\n# dx [um]: 0.5\n# points: 41\n# unit z: um\n" + rows("   ", "%.4f", "%.6f"), z=r(6))
put("header-hash-names.txt", "# Rod 7\n#x-position [mm]; height [um]\n" + rows("\t", "%.4f", "%.5f", xs=[x / 1000 for x in X]), z=r(5))
put("header-semicolons.txt", "; Rod 7\n; 817.099976\n; 41\n" + rows("        ", "%.3f", "%.5f"), hints=UM, z=r(5))
put("header-key-value.txt", "name = rod 7\nx unit = um\nz unit = nm\nspacing = 0.5 um\n" + rows("\t", "%.1f", "%.2f", zs=[z * 1000 for z in Z]), z=[round(v * 1000, 2) / 1000 for v in Z])
put("header-key-value-one-column.txt", "Points=41\nStep size=0.5 µm\nZ unit=µm\n" + "".join("%.5f\n" % v for v in Z), z=r(5))
put("header-positions.txt", "Rod 7\n14 March\nnone\n817.1\n-1.0\n41\n" + rows("   ", "%.3f", "%.5f"), hints=UM, z=r(5))
put("header-results.txt", "Rod 7\nRa (um)\tRz (um)\n0.4213\t2.871\nx (um)\tz (um)\n" + rows("\t", "%.1f", "%.5f"), z=r(5))
put("header-slash.txt", "x/mm z/µm\n" + rows(" ", "%.4f", "%.5f", xs=[x / 1000 for x in X]), z=r(5))
put("header-unit-row.txt", "x;z\nmm;µm\n" + rows(";", "%.4f", "%.5f", xs=[x / 1000 for x in X]), z=r(5))
put("header-misspelt.txt", "X(mm)\tMeasured heigth (nm)\n" + rows("\t", "%.4f", "%.2f", xs=[x / 1000 for x in X], zs=[z * 1000 for z in Z]), z=[round(v * 1000, 2) / 1000 for v in Z])

# Columns.
put("columns-z-only.txt", "".join("%.5f\n" % v for v in Z), hints={"spacing": 0.5, "z_unit": "um"}, z=r(5))
put("columns-z-only-asks.txt", "".join("%.5f\n" % v for v in Z), ask=["spacing", "z_unit"])
two = [v + 3 for v in Z]
put("columns-several-z.txt", "x (um)\tz1 (um)\tz2 (um)\n" + "".join("%.1f\t%.5f\t%.5f\n" % t for t in zip(X, Z, two)), hints={"z_column": 3}, z=r(5, two))
put("columns-several-z-asks.txt", "x (um)\tz1 (um)\tz2 (um)\n" + "".join("%.1f\t%.5f\t%.5f\n" % t for t in zip(X, Z, two)), ask=["z_column"])
put("columns-pairs.txt", "x (um)\tz (um)\tx (um)\tz (um)\n" + "".join("%.1f\t%.5f\t%.1f\t%.5f\n" % (x, a, x, b) for x, a, b in zip(X, Z, two)), hints={"trace": 2}, z=r(5, two))
put("columns-pairs-asks.txt", "x (um)\tz (um)\tx (um)\tz (um)\n" + "".join("%.1f\t%.5f\t%.1f\t%.5f\n" % (x, a, x, b) for x, a, b in zip(X, Z, two)), ask=["trace"])
put("columns-pairs-empty.csv", "x (um);z (um);;x (um);z (um)\n" + "".join("%.1f;%.5f;;%.1f;%.5f\n" % (x, a, x, b) for x, a, b in zip(X, Z, two)), hints={"trace": 2}, z=r(5, two))
put("columns-index.csv", "No.,Height (µm)\n" + "".join("%d,%.5f\n" % (i + 1, z) for i, z in enumerate(Z)), hints={"spacing": 0.5}, z=r(5))
put("columns-index-asks.csv", "No.,Height (µm)\n" + "".join("%d,%.5f\n" % (i + 1, z) for i, z in enumerate(Z)), ask=["spacing"])
put("columns-counter-encoder.txt", "No.;encoder;x (mm);z (µm)\n" + "".join("%d;%d;%.4f;%.5f\n" % (i, 4000 + 3 * i, x / 1000, z) for i, (x, z) in enumerate(zip(X, Z))), z=r(5))
put("columns-text.csv", "time;x (mm);z (µm)\n" + "".join("10:%02d;%.4f;%.5f\n" % (i, x / 1000, z) for i, (x, z) in enumerate(zip(X, Z))), hints={"x_column": 2, "z_column": 3}, z=r(5))
put("columns-one-row.txt", ";".join("%.5f" % v for v in Z) + "\n", hints={"heights": "rows", "spacing": 0.5, "z_unit": "um"}, z=r(5))
put("columns-one-row-asks.txt", ";".join("%.5f" % v for v in Z) + "\n", ask=["heights"])
put("columns-eight-per-line.txt", "".join("%10.5f" % v + ("\n" if i % 8 == 7 else "") for i, v in enumerate(Z)) + "\n", hints={"heights": "rows", "spacing": 0.5, "z_unit": "um"}, z=r(5))
put("columns-slope.txt", "x (mm)\tslope (mrad)\n" + rows("\t", "%.4f", "%.6f", xs=[x / 1000 for x in X], zs=[2.0] * N), hints={"integrate": True},
    z=[math.tan(0.002) * x for x in X])
put("columns-slope-asks.txt", "x (mm)\tslope (mrad)\n" + rows("\t", "%.4f", "%.6f", xs=[x / 1000 for x in X], zs=[2.0] * N), ask=["integrate"])
area = "x (um) y (um) z (um)\n" + "".join("%.1f %d %.5f\n" % (x, y, z + y) for y in range(3) for x, z in zip(X, Z))
put("columns-triples.txt", area, hints={"row": 2}, z=r(5, [v + 1 for v in Z]))
put("columns-triples-column.txt", area, hints={"column": 3}, spacing=1, z=r(5, [Z[2], Z[2] + 1, Z[2] + 2]))
put("columns-triples-asks.txt", area, ask=["row"])
matrix = "".join(" ".join("%.5f" % (z + y) for z in Z) + "\n" for y in range(5))
put("columns-matrix.txt", matrix, hints={"heights": "matrix", "row": 2, "spacing": 0.5, "z_unit": "um"}, z=r(5, [v + 1 for v in Z]))
put("columns-matrix-column.txt", matrix, hints={"heights": "matrix", "column": 2, "spacing": 2, "z_unit": "um"}, spacing=2, z=r(5, [Z[1] + y for y in range(5)]))

# What a single column begins with.
put("first-spacing.txt", "0.5\n" + "".join("%.5f\n" % v for v in Z), hints={"first": "spacing"}, z=r(5))
put("first-length-count.txt", "0.0205\n41\n" + "".join("%.5f\n" % v for v in Z), hints={"first": "length-count"}, z=r(5))
put("first-span-count.txt", "0.02\n41\n" + "".join("%.5f\n" % v for v in Z), hints={"first": "span-count"}, z=r(5))

# Several traces below each other.
put("traces-headers.txt", "x (um);z (um)\n" + rows(";", "%.1f", "%.5f") + "x (um);z (um)\n" + rows(";", "%.1f", "%.5f", zs=two), hints={"trace": 2}, z=r(5, two))
put("traces-headers-asks.txt", "x (um);z (um)\n" + rows(";", "%.1f", "%.5f") + "x (um);z (um)\n" + rows(";", "%.1f", "%.5f", zs=two), ask=["trace"])
put("traces-blank.txt", rows(" ", "%.1f", "%.5f") + "\n\n" + rows(" ", "%.1f", "%.5f", zs=two), hints=dict(UM, trace=2), z=r(5, two))
put("traces-blank-asks.txt", rows(" ", "%.1f", "%.5f") + "\n\n" + rows(" ", "%.1f", "%.5f", zs=two), hints=UM, ask=["trace"])

# x.
put("x-half-span.txt", HEAD + rows("\t", "%.1f", "%.5f", xs=[x - 10 for x in X]), z=r(5))
put("x-offset.txt", HEAD + rows("\t", "%.1f", "%.5f", xs=[x + 1e6 for x in X]), z=r(5))
thirds = [i * 0.29064 for i in range(N)]
put("x-rounded.txt", HEAD + rows("\t", "%.3f", "%.5f", xs=thirds), spacing=round(thirds[-1], 3) / 40, z=r(5))
single, acc = [], 0.0
for _ in range(N):
    single.append(acc)
    acc = struct.unpack("f", struct.pack("f", acc + struct.unpack("f", struct.pack("f", 0.1))[0]))[0]
put("x-single-precision.txt", HEAD + rows("\t", "%.9f", "%.5f", xs=single), spacing=float("%.9f" % single[-1]) / 40, z=r(5))
put("x-jitter.txt", HEAD + rows("\t", "%.4f", "%.5f", xs=[x + (0 if i in (0, N - 1) else 0.009 * math.sin(5 * i)) for i, x in enumerate(X)]), z=r(5))
put("x-falling.txt", HEAD + rows("\t", "%.1f", "%.5f", xs=X[::-1], zs=Z[::-1]), z=r(5))
put("x-uneven.txt", HEAD + rows("\t", "%.4f", "%.5f", xs=[x * (1 + x / 100) for x in X]), error="uneven", line=3, column=1)
put("x-repeated.txt", HEAD + rows("\t", "%.1f", "%.5f", xs=X[:9] + X[8:]), error="repeated", line=11, column=1)
put("x-turns.txt", HEAD + rows("\t", "%.1f", "%.5f", xs=X[:9] + X[7::-1] + X), error="turns", line=11, column=1)
put("x-metre.txt", "x [m]\tz [m]\n" + rows("\t", "%.9e", "%.9e", xs=[x * 1e-6 for x in X], zs=[z * 1e-6 for z in Z]), z=[float("%.9e" % v) for v in Z])
put("x-inch.txt", "x [in]\tz [µin]\n" + rows("\t", "%.8f", "%.4f", xs=[i * 0.0001 for i in range(N)], zs=[v / 0.0254 for v in Z]), spacing=2.54,
    z=[round(v / 0.0254, 4) * 0.0254 for v in Z])

# Invalid points.
words = ["", "NaN", "NA", "n/a", "BAD", "***", "-", "1.#QNAN", "#N/A"]
lost = [None if 5 <= i < 5 + len(words) else v for i, v in enumerate(r(5))]
put("missing-words.csv", "x_um,z_um\n" + "".join("%.1f,%s\n" % (x, words[i - 5] if v is None else "%.5f" % v) for i, (x, v) in enumerate(zip(X, lost))), z=lost)
put("missing-sentinel.csv", "x_um,z_um\n" + "".join("%.1f,%s\n" % (x, ["-32768", "9999.0"][i % 2] if v is None else "%.5f" % v) for i, (x, v) in enumerate(zip(X, lost))),
    hints={"missing": ["-32768", "9999"]}, z=lost)
put("missing-all.csv", "x_um,z_um\n" + "".join("%.1f,NaN\n" % x for x in X), z=[None] * N)

# What is wrong.
put("wrong-letter.csv", "x_um,z_um\n" + rows(",", "%.1f", "%.5f").replace("5.0,", "5.0,o", 1), error="number", line=12, column=5)
put("wrong-marks.csv", "x_um;z_um\n" + comma(rows(";", "%.1f", "%.5f", xs=X[:20])) + rows(";", "%.1f", "%.5f", xs=X[20:], zs=Z[20:]), error="number", line=22, column=1)
put("wrong-cells.csv", "x_um,z_um\n" + rows(",", "%.1f", "%.5f", end="\n").replace("\n5.0,", "\n5.0,1,", 1), error="cells", line=12, column=7)
put("wrong-inf.csv", "x_um,z_um\n" + rows(",", "%.1f", "%.5f") + "20.5,inf\n", error="number", line=43, column=6)
put("wrong-huge.csv", "x_um,z_um\n" + rows(",", "%.1f", "%.5f") + "20.5,1e400\n", error="number", line=43, column=6)

made["key.json"] = ("[\n" + ",\n".join(json.dumps(e, ensure_ascii=False) for e in key) + "\n]\n").encode("utf-8")
here = os.path.dirname(os.path.abspath(__file__))
different = []
for name, data in made.items():
    path = os.path.join(here, name)
    if "--check" in sys.argv:
        if not os.path.exists(path) or open(path, "rb").read() != data:
            different.append(name)
    else:
        with open(path, "wb") as f:
            f.write(data)
extra = [n for n in os.listdir(os.path.join(here, "text")) if os.path.join("text", n) not in made]
for name in different + extra:
    print("not as made:", name)
print("%d files" % len(key))
sys.exit(1 if different or extra else 0)
