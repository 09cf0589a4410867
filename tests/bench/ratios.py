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
    """The medians' rows, by name and arguments without the flags that Google Benchmark adds."""
    out = {}
    for run in json.loads(pathlib.Path(path).read_text(encoding="utf-8"))["benchmarks"]:
        if run.get("aggregate_name") == "median":
            flags = r"/(real_time|process_time|manual_time|repeats:\d+|iterations:\d+|min_time:[\d.]+)"
            out[re.sub(flags, "", run["run_name"])] = run | {"ns": run["real_time"] * NANOSECONDS[run["time_unit"]]}
    return out


def human(ns):
    unit = next((u for u in ("s", "ms", "us") if ns >= NANOSECONDS[u]), "ns")
    return f"{ns / NANOSECONDS[unit]:.3g} {unit}"


def compare(runs, ours, baseline):
    """For each set of arguments: what it is, both times in words, and the value that is held to the bound."""
    for name in (name for name in runs if name == ours or name.startswith(ours + "/")):
        if baseline.startswith("="):
            yield f"{name} {baseline[1:]}", human(runs[name]["ns"]), "", runs[name].get(baseline[1:])
            continue
        bare = next((b for b in (baseline + name[len(ours):], baseline) if b in runs), None)  # one may serve for all
        label = f"{name} / {bare or baseline}"
        if bare:
            yield label, human(runs[name]["ns"]), human(runs[bare]["ns"]), runs[name]["ns"] / runs[bare]["ns"]
        else:
            yield label, human(runs[name]["ns"]), "", None


def main(reports):
    measured = {re.search(r"bench-(\w+)\.json$", report)[1]: medians(report) for report in reports}
    table, wrong = [("", "ours", "baseline", "ratio", "at most", "")], 0
    for line in (pathlib.Path(__file__).parent / "ratios.txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("#") or line.split()[0] not in measured:
            continue
        program, ours, baseline, bound = line.split()
        for label, mine, bare, value in list(compare(measured[program], ours, baseline)) or [(ours, "", "", None)]:
            verdict = "not measured" if value is None else "OVER" if bound != "-" and value > float(bound) else ""
            wrong += bool(verdict)
            table.append((f"{program} {label}", mine, bare, "" if value is None else f"{value:.4g}", bound, verdict))
    widths = [max(len(row[i]) for row in table) for i in range(len(table[0]))]
    for row in table:
        cells = (cell.rjust(width) if i else cell.ljust(width) for i, (cell, width) in enumerate(zip(row, widths)))
        print("  ".join(cells).rstrip())
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
