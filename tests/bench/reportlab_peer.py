#!/usr/bin/python3
"""The peer of sheet_bench: the same pairs of tags on the same pages by Debian's python3-reportlab and python3-qrcode, with their
symbols, texts and cut lines, and a background that is drawn once and used again. Adds its time to the report of sheet_bench.

    reportlab_peer.py --pairs 10000 --add-to build/release/bench-sheet.json
"""

import argparse
import json
import os
import tempfile
import time

import qrcode
import qrcode.util
from reportlab.lib.units import mm
from reportlab.pdfgen import canvas

PAGE = (210 * mm, 297 * mm)
PAIRS_A_PAGE = 4
MODULE = 2.64  # points: 11 dots at 300 a inch
ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"


def number(i):
    """As sheet_bench.cc makes it."""
    text, scattered = "K7", i * 0x9E3779B97F4A7C15 % 2**64
    while len(text) < 10:
        text, scattered = text + ALPHABET[scattered >> 59], scattered * 32 % 2**64
    return text


def symbol(page, payload, x, y):
    code = qrcode.QRCode(version=2, error_correction=qrcode.constants.ERROR_CORRECT_H, border=0)
    code.add_data(qrcode.util.QRData(payload, mode=qrcode.util.MODE_8BIT_BYTE))
    code.make(fit=True)
    path = page.beginPath()
    for row, cells in enumerate(code.modules):
        start = None
        for column, dark in enumerate(cells + [False]):
            if dark and start is None:
                start = column
            elif not dark and start is not None:
                path.rect(x + start * MODULE, y - (row + 1) * MODULE, (column - start) * MODULE, MODULE)
                start = None
    page.drawPath(path, stroke=0, fill=1)


def background(page, name):
    page.beginForm(name)
    page.setLineWidth(1)
    page.roundRect(0, 0, 91 * mm, 63.6 * mm, 4)
    page.setFont("Helvetica", 8)
    for line, words in enumerate(("UNIT", "POCKET", "TURNAROUND", "PART", "CONTAMINATION",
                                  "IDENTIFICATION ONLY - NOT A LOCK-OUT TAG")):
        page.drawString(36 * mm, (30 - 5 * line) * mm, words)
    page.endForm()


def half(page, i, name, x, y):
    page.saveState()
    page.translate(x, y)
    page.doForm("suction" if i % 2 == 0 else "discharge")
    page.restoreState()
    whole = number(i)
    symbol(page, f"CF1.{whole}.{name}1", x + 4, y + 63.6 * mm - 4)
    page.setFont("Courier-Bold", 34)
    for line, part in enumerate((whole[:4], whole[4:8], whole[8:])):
        page.drawString(x + 45 * mm, y + (52 - 10 * line) * mm, part)
    page.setFont("Helvetica-Bold", 9)
    for line, text in enumerate(("U2", f"{i % 8 + 1} HE S1", "TA26", "CV-118-B SP3")):
        page.drawString(x + 60 * mm, y + (30 - 5 * line) * mm, text)


def draw(path, pairs):
    page = canvas.Canvas(path, pagesize=PAGE, pageCompression=1, invariant=1)
    background(page, "suction")
    background(page, "discharge")
    for i in range(pairs):
        y = PAGE[1] - (13.1 + 67.7 * (i % PAIRS_A_PAGE + 1)) * mm
        half(page, i, "BAG", 8.7 * mm, y)
        half(page, i, "BOX", 110 * mm, y)
        page.setDash(2 * mm, 1.5 * mm)
        page.line(105 * mm, y, 105 * mm, y + 67.7 * mm)
        page.setDash()
        if i % PAIRS_A_PAGE == PAIRS_A_PAGE - 1:
            page.showPage()
    page.save()


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--pairs", type=int, required=True)
    parser.add_argument("--add-to", required=True, metavar="REPORT")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "sheet.pdf")
        start = time.perf_counter()
        draw(path, options.pairs)
        seconds = time.perf_counter() - start
        size = os.path.getsize(path)
    print(f"reportlab and qrcode: {options.pairs} pairs in {seconds:.1f} s, {size / 2 / options.pairs:.0f} bytes a tag")
    with open(options.add_to, encoding="utf-8") as report:
        whole = json.load(report)
    whole["benchmarks"].append({"aggregate_name": "median", "run_name": "ReportlabPairs", "time_unit": "s",
                                "real_time": seconds, "bytes_a_tag": size / 2 / options.pairs})
    with open(options.add_to, "w", encoding="utf-8") as report:
        json.dump(whole, report)


if __name__ == "__main__":
    main()
