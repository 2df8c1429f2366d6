#!/usr/bin/env python3
"""Reads what furrow wrote (written/) with nothing but Python's standard library, and holds it against the trace it was made of.

    python3 outside.py --check [FOLDER]

exits with 1 where something differs. The trace: 50 points, 0.5 um apart, z = ((i*i mod 97) - 48) / 7 um, points 7 and 20 invalid
(SMD cannot say so and has the heights there). Layouts: ISO 5436-2, ISO 25178-71 and -72 as public pages describe them.
"""
import hashlib
import math
import os
import re
import struct
import sys
import xml.etree.ElementTree as ET
import zipfile

N, DX = 50, 0.5
Z = [((i * i) % 97 - 48) / 7 for i in range(N)]
GAPS = {7, 20}
failures = []


def check(ok, what):
    if not ok:
        failures.append(what)


def same(name, got, gaps=GAPS, ulps=0):
    check(len(got) == N, "%s: %d points" % (name, len(got)))
    for i, v in enumerate(got[:N]):
        if i in gaps:
            check(v is None or math.isnan(v), "%s: point %d is %r, not invalid" % (name, i, v))
        else:
            check(v is not None and abs(v - Z[i]) <= ulps * math.ulp(Z[i]), "%s: point %d is %r, want %r" % (name, i, v, Z[i]))


def text(path):
    with open(path, encoding="utf-8") as f:
        lines = f.read().split("\n")
    check(lines[0] == "# spacing [µm]: 0.5" and lines[1] == "x [µm]\tz [µm]", "text: header")
    rows = [line.split("\t") for line in lines[2:] if line]
    check(all(float(r[0]) == i * DX for i, r in enumerate(rows)), "text: x")
    same("text", [float(r[1]) for r in rows])


def smd(path):
    with open(path, "rb") as f:
        data = f.read()
    check(data.endswith(b"\x03\r\n\x1a"), "SMD: end")
    check(all(c < 0x80 for c in data), "SMD: seven bits")
    records = data[:-1].split(b"\x03\r\n")
    check(len(records) == 5 and records[4] == b"", "SMD: %d records" % (len(records) - 1))
    check(all(line.endswith(b"\r") for r in records for line in r.split(b"\n")[:-1]), "SMD: line ends")
    head = records[0].decode().split("\r\n")
    check(head[0].startswith("ISO 5436 - 2000 "), "SMD: revision")
    check(head[1].split() == ["PRF", "1", "ISO5436"], "SMD: feature")
    check(head[2].split() == ["CX", "I", str(N), "um", "1.0e0", "D", "0.5"], "SMD: x axis %r" % head[2])
    check(head[3].split() == ["CZ", "A", str(N), "um", "1.0e0", "D"], "SMD: z axis %r" % head[3])
    same("SMD", [float(v) for v in records[2].split()], gaps=())
    before = data[: data.rindex(records[3] + b"\x03\r\n\x1a")]
    check(int(records[3]) == sum(before) % 65535, "SMD: checksum")


def sdf_text(path):
    with open(path, "rb") as f:
        header, data, trailer, rest = f.read().decode("ascii").split("*\r\n")
    check(rest == "", "SDF text: end")
    lines = header.split("\r\n")
    check(re.match(r"a[A-Za-z]+-1\.\d$", lines[0]), "SDF text: version %r" % lines[0])
    fields = [tuple(p.strip() for p in line.split("=")) for line in lines[1:] if line]
    names = [k for k, _ in fields]
    check(names == ["ManufacID", "CreateDate", "ModDate", "NumPoints", "NumProfiles", "Xscale", "Yscale", "Zscale", "Zresolution",
                    "Compression", "DataType", "CheckType"], "SDF text: fields %r" % names)
    value = dict(fields)
    check(int(value["NumPoints"]) == N and int(value["NumProfiles"]) == 1, "SDF text: counts")
    check(float(value["Xscale"]) == 5e-7 and float(value["Zscale"]) == 1e-6, "SDF text: scales")
    check(re.match(r"\d{12}$", value["CreateDate"]) and re.match(r"\d{12}$", value["ModDate"]), "SDF text: dates")
    same("SDF text", [math.nan if v == "BAD" else float(v) for v in data.split()])


def sdf_binary(path):
    with open(path, "rb") as f:
        data = f.read()
    version, maker, created, modified, points, profiles, xs, ys, zs, zr, packed, kind, sums = struct.unpack("<8s10s12s12sHHddddBBB", data[:81])
    check(version == b"bISO-1.0" and created.isdigit() and modified.isdigit(), "SDF binary: head")
    check((points, profiles, xs, ys, zs, zr, packed, kind, sums) == (N, 1, 5e-7, 0, 1e-6, -1, 0, 7, 0), "SDF binary: fields")
    same("SDF binary", struct.unpack("<%dd" % N, data[81:81 + 8 * N]))


def elements(node, path=""):
    for child in node:
        yield path + child.tag
        yield from elements(child, path + child.tag + "/")


def x3p(path):
    z = zipfile.ZipFile(path)
    check(z.testzip() is None, "X3P: archive")
    main = z.read("main.xml")
    check(z.read("md5checksum.hex") == hashlib.md5(main).hexdigest().encode() + b" *main.xml\n", "X3P: checksum of main.xml")
    root = ET.fromstring(main)
    check(root.tag == "{http://www.opengps.eu/2008/ISO5436_2}ISO5436_2", "X3P: root %r" % root.tag)
    axis = lambda a: ["Record1/Axes/" + a] + ["Record1/Axes/%s/%s" % (a, e) for e in ("AxisType", "DataType", "Increment", "Offset")]
    want = (["Record1", "Record1/Revision", "Record1/FeatureType", "Record1/Axes"] + axis("CX") + axis("CY") + axis("CZ") +
            ["Record2"] + ["Record2/" + e for e in (
                "Date", "Creator", "Instrument", "Instrument/Manufacturer", "Instrument/Model", "Instrument/Serial", "Instrument/Version",
                "CalibrationDate", "ProbingSystem", "ProbingSystem/Type", "ProbingSystem/Identification", "Comment")] +
            ["Record3"] + ["Record3/" + e for e in (
                "MatrixDimension", "MatrixDimension/SizeX", "MatrixDimension/SizeY", "MatrixDimension/SizeZ", "DataLink", "DataLink/PointDataLink",
                "DataLink/MD5ChecksumPointData", "DataLink/ValidPointsLink", "DataLink/MD5ChecksumValidPoints")] +
            ["Record4", "Record4/ChecksumFile", "VendorSpecificID"])
    check(list(elements(root)) == want, "X3P: elements %r" % list(elements(root)))
    get = lambda p: root.find(p).text
    for p in ("Record2/Date", "Record2/CalibrationDate"):
        check(re.match(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)?$", get(p)), "X3P: %s" % p)
    check(get("Record2/ProbingSystem/Type") in ("Contacting", "NonContacting", "Software"), "X3P: probing system")
    check(get("Record1/FeatureType") == "PRF" and get("Record1/Axes/CX/AxisType") == "I" and get("Record1/Axes/CZ/AxisType") == "A", "X3P: axes")
    check(float(get("Record1/Axes/CX/Increment")) == 5e-7, "X3P: increment")
    check([get("Record3/MatrixDimension/Size" + a) for a in "XYZ"] == [str(N), "1", "1"], "X3P: size")
    data, valid = z.read(get("Record3/DataLink/PointDataLink")), z.read(get("Record3/DataLink/ValidPointsLink"))
    check(hashlib.md5(data).hexdigest() == get("Record3/DataLink/MD5ChecksumPointData").lower(), "X3P: checksum of the points")
    check(hashlib.md5(valid).hexdigest() == get("Record3/DataLink/MD5ChecksumValidPoints").lower(), "X3P: checksum of the mask")
    same("X3P", [v * 1e6 for v in struct.unpack("<%dd" % N, data)], ulps=1)
    bits = [valid[i // 8] >> (i % 8) & 1 for i in range(8 * len(valid))]
    check([i for i, b in enumerate(bits) if not b] == sorted(GAPS), "X3P: mask")


def main():
    args = [a for a in sys.argv[1:] if a != "--check"]
    folder = args[0] if args else os.path.join(os.path.dirname(os.path.abspath(__file__)), "written")
    for name, read in (("trace.txt", text), ("trace.smd", smd), ("trace-text.sdf", sdf_text), ("trace-binary.sdf", sdf_binary), ("trace.x3p", x3p)):
        try:
            read(os.path.join(folder, name))
        except Exception as e:  # a file that cannot be read at all is a difference too
            failures.append("%s: %s: %s" % (name, type(e).__name__, e))
    for f in failures:
        print(f)
    print("outside reader: %s" % ("%d differences" % len(failures) if failures else "all five files read as written"))
    sys.exit(1 if failures else 0)


main()
