#!/usr/bin/python3
"""Turns modules of a symbol over, as rust and dirt do, in a picture that `counterfoil print` drew as PNG.

    spoil.py PNG LEFT TOP SIDE PERCENT [ROWS]

Of the symbol of 25 x 25 modules at LEFT, TOP, SIDE pixels wide, that part of the modules, none of its function patterns;
the same ones each time. The picture is written over, cut off below ROWS if that is given.
"""

import pathlib
import random
import struct
import sys
import zlib

MODULES = 25
HEAD = b"\x89PNG\r\n\x1a\n"


def chunks(png):
    at = len(HEAD)
    while at < len(png):
        length, = struct.unpack(">I", png[at:at + 4])
        yield png[at + 4:at + 8], png[at + 8:at + 8 + length]
        at += 12 + length


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def is_pattern(row, column):
    """Finder patterns with their white border, timing patterns, the alignment pattern of version 2."""
    corner = (row < 9 and (column < 9 or column > 15)) or (row > 15 and column < 9)
    return corner or row == 6 or column == 6 or (15 < row < 21 and 15 < column < 21)


def spoil(png, left, top, side, percent, kept_rows=None):
    if not png.startswith(HEAD):
        raise SystemExit("no PNG")
    parts = list(chunks(png))
    width, height, depth, colour = struct.unpack(">IIBB", parts[0][1][:10])
    if (depth, colour) != (1, 0):
        raise SystemExit("not a picture of black and white dots")
    rows = bytearray(zlib.decompress(b"".join(data for kind, data in parts if kind == b"IDAT")))
    stride = 1 + (width + 7) // 8
    if any(rows[y * stride] for y in range(height)):
        raise SystemExit("a row is filtered")
    chance = random.Random(1)
    places = [(row, column) for row in range(MODULES) for column in range(MODULES) if not is_pattern(row, column)]
    for row, column in chance.sample(places, len(places) * percent // 100):
        for y in range(top + row * side // MODULES, top + (row + 1) * side // MODULES):
            for x in range(left + column * side // MODULES, left + (column + 1) * side // MODULES):
                rows[y * stride + 1 + x // 8] ^= 0x80 >> x % 8
    height = min(height, kept_rows or height)
    parts[0] = (b"IHDR", struct.pack(">II", width, height) + parts[0][1][8:])
    kept = [chunk(kind, data) for kind, data in parts if kind not in (b"IDAT", b"IEND")]
    pixels = zlib.compress(bytes(rows[:height * stride]))
    return HEAD + b"".join(kept) + chunk(b"IDAT", pixels) + chunk(b"IEND", b"")


def main():
    if len(sys.argv) not in (6, 7):
        raise SystemExit(__doc__)
    path = pathlib.Path(sys.argv[1])
    path.write_bytes(spoil(path.read_bytes(), *(int(word) for word in sys.argv[2:])))


if __name__ == "__main__":
    main()
