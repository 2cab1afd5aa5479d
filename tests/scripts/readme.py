"""Runs the commands that README.md shows, so that what a reader tries first works.

Every line of a fenced `sh` block is run, but for those that would run everything, this script included. A command must
succeed and print something. Run: python3 tests/scripts/readme.py
"""

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BLOCK = re.compile(r"^```sh\n(.*?)^```", re.M | re.S)
NOT_HERE = {"tests/run"}


def commands(text):
    """Every command of the page, without its comment."""
    lines = (line.split(" #")[0].strip() for block in BLOCK.findall(text) for line in block.splitlines())
    return [line for line in lines if line and line not in NOT_HERE]


def main():
    """Runs them all; reports each that fails."""
    failed = 0
    found = commands((ROOT / "README.md").read_text(encoding="utf-8"))
    for command in found:
        done = subprocess.run(["bash", "-c", command], cwd=ROOT, capture_output=True, text=True, check=False)
        if done.returncode or not done.stdout.strip():
            failed += 1
            print(f"failed with {done.returncode}: {command}\n{done.stdout}{done.stderr}")
    print(f"{len(found) - failed} of {len(found)} commands of README.md work")
    return 1 if failed or not found else 0


if __name__ == "__main__":
    sys.exit(main())
