#!/usr/bin/python3
"""Reads the JUnit file of one ctest run. Prints "passed failed skipped" on its only line of stdout; on stderr each
skipped test with the reason that it gave."""

import re
import sys
import xml.etree.ElementTree as ElementTree


def reason(case):
    """What a skipped GoogleTest said: the line behind "Skipped"; else what ctest knows."""
    out = case.findtext("system-out") or ""
    said = re.search(r": Skipped\n(.+)", out)
    mark = case.find("skipped")
    return said.group(1).strip() if said else (mark is not None and mark.get("message") or "not run")


def main(path):
    cases = ElementTree.parse(path).getroot().findall("testcase")
    counts = {"run": 0, "fail": 0, "notrun": 0, "disabled": 0}
    for case in cases:
        counts[case.get("status")] += 1
        if case.get("status") in ("notrun", "disabled"):
            print(f"   skipped: {case.get('name')}: {reason(case)}", file=sys.stderr)
    print(counts["run"], counts["fail"], counts["notrun"] + counts["disabled"])


if __name__ == "__main__":
    main(sys.argv[1])
