#!/usr/bin/python3
"""Several pictures that `counterfoil print` drew as PNG, in one file as scanners make them.

    scans.py OUT PNG...

OUT ends in .pdf (each page one grey picture) or in .tif (pages without compression).
"""

import pathlib
import struct
import sys
import zlib

from degrade import Page


def pdf(pages):
    objects = [b"<</Type/Catalog/Pages 2 0 R>>", b""]
    kids = []
    for page in pages:
        width, height = page.width / page.dots_per_mm / 25.4 * 72, len(page.rows) / page.dots_per_mm / 25.4 * 72
        pixels = zlib.compress(b"".join(page.rows))
        first = len(objects) + 1
        drawing = b"%.3f 0 0 %.3f 0 0 cm/Scan Do" % (width, height)
        objects += [
            b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 %.3f %.3f]/Contents %d 0 R/Resources<</XObject<</Scan %d 0 R>>>>>>" %
            (width, height, first + 1, first + 2),
            b"<</Length %d>>stream\n%s\nendstream" % (len(drawing), drawing),
            b"<</Type/XObject/Subtype/Image/Width %d/Height %d/ColorSpace/DeviceGray/BitsPerComponent 8"
            b"/Filter/FlateDecode/Length %d>>stream\n%s\nendstream" %
            (page.width, len(page.rows), len(pixels), pixels)
        ]
        kids.append(b"%d 0 R" % first)
    objects[1] = b"<</Type/Pages/Count %d/Kids[%s]>>" % (len(kids), b" ".join(kids))
    out, places = b"%PDF-1.4\n", []
    for number, body in enumerate(objects, 1):
        places.append(len(out))
        out += b"%d 0 obj%s\nendobj\n" % (number, body)
    table = b"".join(b"%010d 00000 n \n" % place for place in places)
    return out + b"xref\n0 %d\n0000000000 65535 f \n%strailer<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n" % (
        len(objects) + 1, table, len(objects) + 1, len(out))


def tiff(pages):
    out = b"II*\0" + struct.pack("<I", 0)
    link = 4  # where the place of the next directory goes
    for page in pages:
        pixels = b"".join(page.rows)
        start = len(out)
        resolution = start + len(pixels)
        resolution += resolution % 2
        directory = resolution + 8
        out += pixels.ljust(resolution - start, b"\0") + struct.pack("<II", round(page.dots_per_mm * 25400), 1000)
        entries = [(256, 4, page.width), (257, 4, len(page.rows)), (258, 3, 8), (259, 3, 1), (262, 3, 1), (273, 4, start),
                   (277, 3, 1), (278, 4, len(page.rows)), (279, 4, len(pixels)), (282, 5, resolution),
                   (283, 5, resolution), (296, 3, 2)]
        out += struct.pack("<H", len(entries)) + b"".join(struct.pack("<HHII", tag, kind, 1, value)
                                                          for tag, kind, value in entries) + b"\0\0\0\0"
        out = out[:link] + struct.pack("<I", directory) + out[link + 4:]
        link = len(out) - 4
    return out


def main():
    if len(sys.argv) < 3:
        raise SystemExit(__doc__)
    pages = [Page(pathlib.Path(path).read_bytes()) for path in sys.argv[2:]]
    target = pathlib.Path(sys.argv[1])
    target.write_bytes(pdf(pages) if target.suffix == ".pdf" else tiff(pages))


if __name__ == "__main__":
    main()
