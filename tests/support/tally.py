#!/usr/bin/python3
"""Reads the JUnit file of one ctest run. Prints "passed failed skipped" on its only line of stdout; on stderr each
test that did not pass, a skipped one with the reason that it gave."""

import re
import sys
import xml.etree.ElementTree as ElementTree


def reason(case):
    """What a skipped GoogleTest said: the line behind "Skipped"; else what ctest knows."""
    out = case.findtext("system-out") or ""
    said = re.search(r": Skipped\n(.+)", out)
    mark = case.find("skipped")
    return said.group(1).strip() if said else mark.get("message") if mark is not None else case.get("status")


def main(path):
    passed = failed = skipped = 0
    for case in ElementTree.parse(path).getroot().findall("testcase"):
        mark = case.find("skipped")
        by_itself = mark is not None and (mark.get("message") or "").startswith("SKIP_")
        if case.get("status") == "run":
            passed += 1
        elif by_itself or case.get("status") == "disabled":
            skipped += 1
            print(f"   skipped: {case.get('name')}: {reason(case)}", file=sys.stderr)
        else:  # "notrun" without having skipped itself: its program is missing, and that is no pass
            failed += 1
            print(f"   failed: {case.get('name')}: {reason(case)}", file=sys.stderr)
    print(passed, failed, skipped)


if __name__ == "__main__":
    main(sys.argv[1])
