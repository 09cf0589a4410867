#!/usr/bin/python3
"""What printers and scanners do to a page, done to a picture that `counterfoil print` drew as PNG.

    degrade.py PNG OUT WORD=VALUES...

In the order given; lengths in mm, numbers apart by commas:

    scale=X,Y            larger or smaller from the top left corner on, the paper stays as it is
    shift=X,Y            to the right and down
    column=X,DOTS        so many dots that stay white, down the whole page
    row=Y,DOTS           and across
    blank=X,Y,WIDTH,HEIGHT   a place that stays white
    swap=X,Y,WIDTH,HEIGHT,TO_X,TO_Y   two places of one size change what they show
    tones=DARK,LIGHT     grey values for black and white
    smear=DOTS           dark runs out by so many dots to all sides, with soft edges
    turn=1               the scan lies on its side
"""

import pathlib
import struct
import sys
import zlib

from spoil import HEAD, chunk, chunks


class Page:
    """Rows of grey values, one byte a dot."""

    def __init__(self, png):
        parts = list(chunks(png))
        self.width, self.height, depth, colour = struct.unpack(">IIBB", parts[0][1][:10])
        if not png.startswith(HEAD) or (depth, colour) != (1, 0):
            raise SystemExit("not a picture of black and white dots")
        self.dots_per_mm = next(struct.unpack(">I", data[:4])[0] for kind, data in parts if kind == b"pHYs") / 1000
        raw = zlib.decompress(b"".join(data for kind, data in parts if kind == b"IDAT"))
        stride = 1 + (self.width + 7) // 8
        eight = [bytes(255 * (byte >> bit & 1) for bit in range(7, -1, -1)) for byte in range(256)]
        self.rows = [
            b"".join([eight[b] for b in raw[y * stride + 1:(y + 1) * stride]])[:self.width] for y in range(self.height)
        ]

    def dots(self, mm):
        return round(mm * self.dots_per_mm)

    def scale(self, x, y):
        across = [min(int((i + 0.5) / x), self.width) for i in range(self.width)]
        rows = self.rows + [b"\xff" * self.width]
        done = {}
        out = []
        for i in range(self.height):
            source = min(int((i + 0.5) / y), self.height)
            if source not in done:
                row = rows[source] + b"\xff"
                done = {source: bytes([row[j] for j in across])}
            out.append(done[source])
        self.rows = out

    def shift(self, x, y):
        x, y = self.dots(x), self.dots(y)
        self.rows = ([b"\xff" * self.width] * y + [b"\xff" * x + row[:self.width - x] for row in self.rows])[:self.height]

    def put(self, left, top, patch):
        for y, piece in enumerate(patch, top):
            self.rows[y] = self.rows[y][:left] + piece + self.rows[y][left + len(piece):]

    def piece(self, left, top, width, height):
        return [row[left:left + width] for row in self.rows[top:top + height]]

    def column(self, x, dots):
        self.put(self.dots(x), 0, [b"\xff" * int(dots)] * self.height)

    def row(self, y, dots):
        self.put(0, self.dots(y), [b"\xff" * self.width] * int(dots))

    def blank(self, *box):
        left, top, width, height = map(self.dots, box)
        self.put(left, top, [b"\xff" * width] * height)

    def swap(self, *box):
        left, top, width, height, to_left, to_top = map(self.dots, box)
        here, there = self.piece(left, top, width, height), self.piece(to_left, to_top, width, height)
        self.put(left, top, there)
        self.put(to_left, to_top, here)

    def tones(self, dark, light):
        table = bytes(round(dark + (light - dark) * v / 255) for v in range(256))
        self.rows = [row.translate(table) for row in self.rows]

    def smear(self, dots):
        """The least of neighbours, by shifting; then the mean of nine."""
        for _ in range(int(dots)):
            self.rows = [bytes(map(min, row, row[1:] + row[-1:], row[:1] + row[:-1])) for row in self.rows]
            above, below = self.rows[:1] + self.rows[:-1], self.rows[1:] + self.rows[-1:]
            self.rows = [bytes(map(min, *three)) for three in zip(self.rows, above, below)]
        for _ in range(int(dots)):
            soft = [bytes([(a + b + c) // 3 for a, b, c in zip(row, row[1:] + row[-1:], row[:1] + row[:-1])])
                    for row in self.rows]
            above, below = soft[:1] + soft[:-1], soft[1:] + soft[-1:]
            self.rows = [bytes([(a + b + c) // 3 for a, b, c in zip(*three)]) for three in zip(soft, above, below)]

    def turn(self, _):
        self.rows = [bytes(column) for column in zip(*self.rows[::-1])]
        self.width, self.height = self.height, self.width

    def png(self):
        head = struct.pack(">IIBBBBB", self.width, self.height, 8, 0, 0, 0, 0)
        pixels = zlib.compress(b"".join(b"\0" + row for row in self.rows), 1)
        return HEAD + chunk(b"IHDR", head) + chunk(b"IDAT", pixels) + chunk(b"IEND", b"")


def main(source, target, *changes):
    page = Page(pathlib.Path(source).read_bytes())
    for change in changes:
        word, values = change.split("=")
        getattr(page, word)(*map(float, values.split(",")))
    pathlib.Path(target).write_bytes(page.png())


if __name__ == "__main__":
    main(*sys.argv[1:])
