#!/usr/bin/python3
"""A printer that speaks IPP and keeps what it is sent: ippeveprinter, the test printer of CUPS (Debian's cups-ipp-utils).

    file_printer.py FOLDER     starts it, and prints its address; it ends by itself after two minutes
    file_printer.py FOLDER --stop

FOLDER/jobs has the files that came; FOLDER/N.attributes what was asked for with job N, one NAME=VALUE a line. It takes PDF
and PNG on A4 and on rolls up to 110 mm wide; encrypted too, by a certificate that it makes itself, when asked at ipps://.
"""

import os
import pathlib
import shutil
import signal
import socket
import subprocess
import sys
import time

SECONDS = 120
PATH = os.environ.get("PATH", "") + ":/usr/sbin:/usr/bin"
ATTRIBUTES = """
ATTR mimeMediaType document-format-default application/pdf
ATTR mimeMediaType document-format-supported application/pdf,image/png
ATTR integer copies-default 1
ATTR rangeOfInteger copies-supported 1-9
ATTR keyword media-default iso_a4_210x297mm
ATTR keyword media-supported iso_a4_210x297mm
ATTR collection media-size-supported {
    MEMBER integer x-dimension 21000
    MEMBER integer y-dimension 29700
},{
    MEMBER rangeOfInteger x-dimension 2000-11000
    MEMBER rangeOfInteger y-dimension 2000-30000
}
ATTR keyword media-col-supported media-size
ATTR keyword print-scaling-default auto-fit
ATTR keyword print-scaling-supported auto-fit,none
ATTR keyword sides-default one-sided
ATTR keyword sides-supported one-sided
"""
JOB = """#!/bin/sh
env | grep ^IPP_ | sort > "{folder}/$IPP_JOB_ID.attributes.new"
mv "{folder}/$IPP_JOB_ID.attributes.new" "{folder}/$IPP_JOB_ID.attributes"
"""


def program(name):
    found = shutil.which(name, path=PATH)
    if not found:
        sys.exit(f"file_printer: there is no {name} here (scripts/setup test installs it)")
    return found


def start_once(folder):
    """The address, or None when somebody took the port."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    bus = f"unix:path={folder}/bus"
    quiet = {"stdin": subprocess.DEVNULL, "stdout": open(folder / "log", "a"), "stderr": subprocess.STDOUT,
             "start_new_session": True}
    # The printer wants a system bus to announce itself on, and gives up without one; this one has nobody on it.
    daemon = subprocess.Popen(["timeout", str(SECONDS), program("dbus-daemon"), "--session", "--nofork", "--nopidfile",
                               "--nosyslog", f"--address={bus}"], **quiet)
    for _ in range(500):
        if (folder / "bus").exists():
            break
        time.sleep(0.01)
    printer = subprocess.Popen(["timeout", str(SECONDS), program("ippeveprinter"), "-p", str(port), "-n", "localhost",
                                "-K", str(folder / "keys"), "-r", "off", "-k", "-d", str(folder / "jobs"), "-c", str(folder / "job.sh"),
                                "-a", str(folder / "printer.conf"), "Files"],
                               env=os.environ | {"DBUS_SYSTEM_BUS_ADDRESS": bus}, **quiet)
    (folder / "pids").write_text(f"{printer.pid} {daemon.pid}", encoding="ascii")
    for _ in range(500):
        if printer.poll() is not None:
            break
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return f"ipp://localhost:{port}/ipp/print"
        time.sleep(0.01)
    stop(folder)
    return None


def stop(folder):
    for pid in (folder / "pids").read_text(encoding="ascii").split():
        try:
            os.killpg(int(pid), signal.SIGTERM)
        except ProcessLookupError:
            pass
    for _ in range(500):
        if not any(pathlib.Path("/proc", pid).exists() and "Z" not in pathlib.Path("/proc", pid, "stat").read_text().split()[2]
                   for pid in (folder / "pids").read_text(encoding="ascii").split()):
            break
        time.sleep(0.01)
    (folder / "bus").unlink(missing_ok=True)


def main(arguments):
    folder = pathlib.Path(arguments[0]).absolute()
    if "--stop" in arguments:
        stop(folder)
        return 0
    for name in ("jobs", "keys"):
        (folder / name).mkdir(parents=True, exist_ok=True)
    (folder / "printer.conf").write_text(ATTRIBUTES, encoding="ascii")
    (folder / "job.sh").write_text(JOB.format(folder=folder), encoding="ascii")
    (folder / "job.sh").chmod(0o755)
    for _ in range(3):
        address = start_once(folder)
        if address:
            print(address)
            return 0
    sys.exit("file_printer: ippeveprinter does not start: " + (folder / "log").read_text(encoding="utf-8")[-500:])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
