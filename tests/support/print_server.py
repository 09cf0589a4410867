#!/usr/bin/python3
"""A print server of its own: cupsd (Debian's cups-daemon), with all it has below one folder, on a free port.

    print_server.py FOLDER     starts it, and prints what CUPS_SERVER has to be; it ends by itself after two minutes
    print_server.py FOLDER --stop

It has the queues "office-laser", which keeps each file that it is sent as FOLDER/out/JOB and what was asked for as
FOLDER/out/JOB.options, and "store-roll", which takes no jobs.
"""

import os
import pathlib
import pwd
import shutil
import signal
import socket
import subprocess
import sys
import time

SECONDS = 120
PATH = os.environ.get("PATH", "") + ":/usr/local/sbin:/usr/sbin"
# It refuses to work as root.
USER = "nobody" if os.getuid() == 0 else pwd.getpwuid(os.getuid()).pw_name
FILES = """
FileDevice Yes
Sandboxing relaxed
User {user}
Group {group}
SystemGroup {group}
ServerRoot {folder}/etc
ServerBin {folder}/bin
DataDir {data}
DocumentRoot {folder}
CacheDir {folder}/cache
StateDir {folder}/run
RequestRoot {folder}/spool
TempDir {folder}/spool/tmp
AccessLog {folder}/log
ErrorLog {folder}/log
PageLog {folder}/log
"""
SERVER = """
Listen 127.0.0.1:{port}
Browsing No
WebInterface No
DefaultAuthType None
<Location />
  Order allow,deny
  Allow all
</Location>
<Policy default>
  <Limit All>
    Order allow,deny
    Allow all
  </Limit>
</Policy>
"""
QUEUE = """
<Printer {name}>
Info {about}
DeviceURI keep:/{name}
State Idle
Accepting {accepting}
Shared No
JobSheets none none
OpPolicy default
ErrorPolicy abort-job
</Printer>
"""
# A backend, as cupsd calls it: job, user, title, copies, options, file.
KEEP = """#!/bin/sh
[ $# -ge 6 ] || exit 0
echo "$5" > {folder}/out/$1.options
cp "$6" {folder}/out/$1.new && mv {folder}/out/$1.new {folder}/out/$1
"""


def cupsd():
    found = shutil.which("cupsd", path=PATH)
    if not found:
        sys.exit("print_server: there is no cupsd here (Debian's cups-daemon)")
    return pathlib.Path(found).resolve()


def start_once(folder):
    """The server's name, or None when somebody took the port."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    program, account = cupsd(), pwd.getpwnam(USER)
    system = program.parents[1]
    group = subprocess.run(["id", "-gn", USER], capture_output=True, text=True, check=True).stdout.strip()
    for name in ("etc", "bin/backend", "cache", "run", "spool/tmp", "out"):
        (folder / name).mkdir(parents=True, exist_ok=True)
    if not (folder / "bin/daemon").exists():
        (folder / "bin/daemon").symlink_to(system / "lib/cups/daemon")
    texts = {"etc/cups-files.conf": FILES.format(user=USER, group=group, folder=folder, data=system / "share/cups"),
             "etc/cupsd.conf": SERVER.format(port=port),
             "etc/printers.conf": QUEUE.format(name="office-laser", about="Laser in the office", accepting="Yes") +
                                  QUEUE.format(name="store-roll", about="Roll in the store", accepting="No"),
             "bin/backend/keep": KEEP.format(folder=folder)}
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")
    (folder / "bin/backend/keep").chmod(0o755)
    as_user = []
    if os.getuid() == 0:
        for path in [folder, *folder.rglob("*")]:
            os.chown(path, account.pw_uid, account.pw_gid, follow_symlinks=False)
        # Folders above, which a test's temporary one closes to others.
        folder.parent.chmod(folder.parent.stat().st_mode | 0o011)
        as_user = ["setpriv", "--reuid", str(account.pw_uid), "--regid", str(account.pw_gid), "--clear-groups"]
    server = subprocess.Popen([*as_user, "timeout", str(SECONDS), str(program), "-f", "-c", folder / "etc/cupsd.conf",
                               "-s", folder / "etc/cups-files.conf"],
                              stdin=subprocess.DEVNULL, stdout=open(folder / "said", "a"), stderr=subprocess.STDOUT,
                              start_new_session=True)
    (folder / "pid").write_text(str(server.pid), encoding="ascii")
    for _ in range(500):
        if server.poll() is not None:
            return None
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return f"127.0.0.1:{port}"
        time.sleep(0.01)
    stop(folder)
    return None


def stop(folder):
    pid = int((folder / "pid").read_text(encoding="ascii"))
    try:
        os.killpg(pid, signal.SIGTERM)
    except ProcessLookupError:
        return
    for _ in range(500):
        stat = pathlib.Path("/proc", str(pid), "stat")
        if not stat.exists() or stat.read_text().rsplit(")", 1)[1].split()[0] == "Z":
            return
        time.sleep(0.01)


def main(arguments):
    folder = pathlib.Path(arguments[0]).absolute()
    if "--stop" in arguments:
        stop(folder)
        return 0
    folder.mkdir(parents=True, exist_ok=True)
    for _ in range(3):
        server = start_once(folder)
        if server:
            print(server)
            return 0
    sys.exit("print_server: cupsd does not start: " + (folder / "said").read_text(encoding="utf-8")[-500:])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
