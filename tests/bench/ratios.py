#!/usr/bin/python3
"""Prints the table of ratios from Google Benchmark's JSON reports (medians of real time), as tests/bench/ratios.txt pairs
them. Exit code 1 when one is over its bound or was not measured.

    ratios.py build/release/bench-ledger.json ...
"""

import json
import pathlib
import re
import sys

NANOSECONDS = {"ns": 1, "us": 1e3, "ms": 1e6, "s": 1e9}


def medians(path):
    """Real time in ns, by name and arguments without the flags that Google Benchmark adds."""
    out = {}
    for run in json.loads(pathlib.Path(path).read_text(encoding="utf-8"))["benchmarks"]:
        if run.get("aggregate_name") == "median":
            name = re.sub(r"/(real_time|process_time|repeats:\d+|min_time:[\d.]+)", "", run["run_name"])
            out[name] = run["real_time"] * NANOSECONDS[run["time_unit"]]
    return out


def human(ns):
    unit = next((u for u in ("s", "ms", "us") if ns >= NANOSECONDS[u]), "ns")
    return f"{ns / NANOSECONDS[unit]:.3g} {unit}"


def main(reports):
    measured = {re.search(r"bench-(\w+)\.json$", report)[1]: medians(report) for report in reports}
    table, wrong = [("", "ours", "baseline", "ratio", "at most", "")], 0
    for line in (pathlib.Path(__file__).parent / "ratios.txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("#") or line.split()[0] not in measured:
            continue
        program, ours, baseline, bound = line.split()
        times = measured[program]
        pairs = [(name, baseline + name[len(ours):]) for name in times if name == ours or name.startswith(ours + "/")]
        if not pairs:
            table.append((f"{program} {ours}", "not measured", "", "", bound, "FAILED"))
            wrong += 1
        for mine, bare in pairs:
            if bare not in times:
                bare = baseline  # one baseline for all arguments
            if bare not in times:
                table.append((f"{program} {mine}", human(times[mine]), "not measured", "", bound, "FAILED"))
                wrong += 1
                continue
            ratio = times[mine] / times[bare]
            over = bound != "-" and ratio > float(bound)
            wrong += over
            table.append((f"{program} {mine} / {bare}", human(times[mine]), human(times[bare]), f"{ratio:.2f}", bound,
                          "OVER" if over else ""))
    widths = [max(len(row[i]) for row in table) for i in range(len(table[0]))]
    for row in table:
        print("  ".join(cell.ljust(w) if i == 0 else cell.rjust(w) for i, (cell, w) in enumerate(zip(row, widths))).rstrip())
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
