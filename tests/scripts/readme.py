"""Runs the commands that README.md shows, so that what a reader tries first works.

Every line of a fenced `sh` block is run, but for those that would run everything, this script included. A command must
succeed and print something; one that stays until it is told to go must say that it is there, and the rest is run beside it.
Run: python3 tests/scripts/readme.py
"""

import re
import subprocess
import sys
import threading
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BLOCK = re.compile(r"^```sh\n(.*?)^```", re.M | re.S)
NOT_HERE = {"tests/run"}
# A command that stays, and the word that it says last once it is there.
STAYS, THERE = "--demo", "keys"
PATIENCE = 600


def commands(text):
    """Every command of the page, without its comment."""
    lines = (line.split(" #")[0].strip() for block in BLOCK.findall(text) for line in block.splitlines())
    return [line for line in lines if line and line not in NOT_HERE]


def start(command):
    """Starts a command that stays; None when it goes before it says that it is there."""
    stays = subprocess.Popen(["bash", "-c", command], cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    timer = threading.Timer(PATIENCE, stays.kill)
    timer.start()
    there = any(line.startswith(THERE) for line in stays.stdout)
    timer.cancel()
    return stays if there else None


def main():
    """Runs them all; reports each that fails."""
    failed = 0
    staying = []
    found = commands((ROOT / "README.md").read_text(encoding="utf-8"))
    for command in found:
        if STAYS in command:
            stays = start(command)
            staying += [stays] if stays else []
            failed += not stays
            print(command if stays else f"went at once: {command}")
            continue
        done = subprocess.run(["bash", "-c", command], cwd=ROOT, capture_output=True, text=True, check=False)
        if done.returncode or not done.stdout.strip():
            failed += 1
            print(f"failed with {done.returncode}: {command}\n{done.stdout}{done.stderr}")
    for stays in staying:
        # An empty line ends it.
        stays.communicate("\n", timeout=60)
        failed += stays.returncode != 0
    print(f"{len(found) - failed} of {len(found)} commands of README.md work")
    return 1 if failed or not found else 0


if __name__ == "__main__":
    sys.exit(main())
