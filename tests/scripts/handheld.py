"""Boots the handheld's program on the emulated board and gives its two serial ports, its buttons and its panel.

    with Handheld(elf) as handheld:
        handheld.gauge.sendall(b"...")
        handheld.key("set")
        png = handheld.picture()

Python 3.11 or later, standard library only, and qemu-system-arm. To try it by hand, with the program built by
`cargo handheld`: python3 tests/scripts/handheld.py --demo, and in another terminal --send TEXT or --key NAME
"""

import argparse
import atexit
import contextlib
import json
import os
import select
import shutil
import signal
import socket
import struct
import subprocess
import sys
import tempfile
import time
import zlib
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
# The buttons of the board, by the keys of the emulator that stand for them.
KEYS = {"up": "up", "down": "down", "left": "left", "right": "right", "set": "ctrl"}
WIDTH, HEIGHT = 128, 64
# A path of a socket has some hundred bytes at most.
LONGEST_FOLDER = 80
# Where a demonstration is found by whoever wants to send it something; below the folder of what cargo builds.
DEMO = "handheld"
# The last picture of a demonstration, in its folder.
PANEL = "panel.png"


class Handheld:
    """A running handheld. `gauge` and `host` are connected sockets; reading from them ends with TimeoutError after `patience`.

    The emulator never outlives this process by more than `life` seconds, however the process ends.
    """

    def __init__(self, elf, *, patience=10.0, life=300, more=()):
        self.patience = patience
        self.folder = Path(tempfile.mkdtemp(prefix="handheld-", dir=short_folder()))
        self.process = self.gauge = self.host = self.control = None
        self.heard = b""
        atexit.register(self.close)
        try:
            self._boot(Path(elf), life, more)
        except BaseException:
            self.close()
            raise

    def _boot(self, elf, life, more):
        if not elf.is_file():
            raise FileNotFoundError(f"{elf} is missing; this builds it: cargo handheld")
        command = ["qemu-system-arm", "-M", "lm3s6965evb", "-display", "none", "-monitor", "none", "-S"]
        for name in ("gauge", "host"):
            command += ["-chardev", f"socket,id={name},path={self.socket(name)},server=on,wait=off"]
            command += ["-serial", f"chardev:{name}"]
        command += ["-qmp", f"unix:{self.socket('control')},server=on,wait=off"]
        command += ["-semihosting-config", "enable=on,target=native", *more, "-kernel", str(elf.resolve())]
        if shutil.which("timeout"):
            command = ["timeout", "-s", "KILL", str(life), *command]
        with open(self.folder / "log", "wb") as log, open(self.folder / "errors", "wb") as errors:
            # A session of its own, so that all of it can be killed at once.
            self.process = subprocess.Popen(
                command, stdin=subprocess.DEVNULL, stdout=log, stderr=errors, start_new_session=True
            )
        self.gauge, self.host, self.control = map(self._connect, ("gauge", "host", "control"))
        self._answer()
        self.ask("qmp_capabilities")
        # It was held until now, so that its first byte finds somebody listening.
        self.ask("cont")

    def socket(self, name):
        """The path of a port's socket, or of the emulator's control socket."""
        return self.folder / name

    def _connect(self, name):
        deadline = time.monotonic() + self.patience
        while True:
            link = socket.socket(socket.AF_UNIX)
            try:
                link.connect(str(self.socket(name)))
                link.settimeout(self.patience)
                return link
            except OSError:
                link.close()
                if self.process.poll() is not None or time.monotonic() > deadline:
                    raise RuntimeError(f"the emulator did not open {name}: {self.errors()}") from None
            time.sleep(0.01)

    def errors(self):
        """What the emulator complained of."""
        return (self.folder / "errors").read_text(errors="replace").strip() or "it says nothing"

    def _answer(self):
        """The next message of the emulator that is not news."""
        deadline = time.monotonic() + self.patience
        while time.monotonic() < deadline:
            line, end, rest = self.heard.partition(b"\n")
            if not end:
                try:
                    got = self.control.recv(65536)
                except ConnectionError:
                    got = b""
                if not got:
                    raise RuntimeError(f"the emulator ended: {self.errors()}")
                self.heard += got
                continue
            self.heard = rest
            message = json.loads(line)
            if "event" not in message:
                return message
        raise TimeoutError("the emulator does not answer")

    def ask(self, what, **arguments):
        """Has the emulator do something, and returns its answer."""
        self.control.sendall(json.dumps({"execute": what, "arguments": arguments}).encode() + b"\n")
        answer = self._answer()
        if "error" in answer:
            raise RuntimeError(f"{what}: {answer['error'].get('desc')}")
        return answer["return"]

    def key(self, name, hold=0.06):
        """Presses a button and lets it go. The board's lines read pressed until their first event, so that the handheld
        answers when the button is let go; it is given time for that, and for telling two presses apart."""
        for down in (True, False):
            key = {"key": {"type": "qcode", "data": KEYS[name]}, "down": down}
            self.ask("input-send-event", events=[{"type": "key", "data": key}])
            time.sleep(hold)

    def picture(self):
        """What the panel shows, as a PNG of 512 by 256 pixels, four by four for one of the panel."""
        path = self.folder / "picture.png"
        self.ask("screendump", filename=str(path), format="png")
        return path.read_bytes()

    def rows(self):
        """What the panel shows: 64 strings of 128 characters, `#` for lit and `.` for dark."""
        return shrink(*decode(self.picture()))

    def rows_when(self, wanted):
        """What the panel shows once `wanted(rows)` is true."""
        deadline = time.monotonic() + self.patience
        while True:
            rows = self.rows()
            if wanted(rows):
                return rows
            if time.monotonic() > deadline:
                raise TimeoutError("the panel does not show what is wanted:\n" + "\n".join(rows))
            time.sleep(0.02)

    def log(self, elf):
        """The log in words; needs defmt-print and the program that wrote it. None where there is no defmt-print."""
        if not shutil.which("defmt-print"):
            return None
        with open(self.folder / "log", "rb") as log:
            done = subprocess.run(
                ["defmt-print", "-e", str(elf)], stdin=log, capture_output=True, text=True, timeout=self.patience, check=True
            )
        return done.stdout

    def wait(self):
        """The exit code of a program that ends by itself."""
        return self.process.wait(self.patience)

    def close(self):
        """Ends the emulator, by force if need be, and removes what it left. May be called more than once."""
        atexit.unregister(self.close)
        for link in (self.gauge, self.host, self.control):
            if link:
                link.close()
        if self.process:
            # Asked first: so `timeout` passes it on and nobody is left without a parent.
            self.process.terminate()
            try:
                self.process.wait(2)
            except subprocess.TimeoutExpired:
                os.killpg(self.process.pid, signal.SIGKILL)
                self.process.wait()
        shutil.rmtree(self.folder, ignore_errors=True)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()


def short_folder():
    """Where temporary folders go, unless their paths would be too long for sockets."""
    return "/tmp" if len(tempfile.gettempdir()) > LONGEST_FOLDER else None


def decode(png):
    """Width, height, bytes in a pixel, and rows of a PNG of eight bits a sample, as the emulator writes it."""
    if png[:8] != b"\x89PNG\r\n\x1a\n":
        raise ValueError("not a PNG")
    at, packed, header = 8, b"", None
    while at < len(png):
        length, kind = struct.unpack_from(">I4s", png, at)
        body = png[at + 8 : at + 8 + length]
        header = struct.unpack(">IIBBBBB", body) if kind == b"IHDR" else header
        packed += body if kind == b"IDAT" else b""
        at += 12 + length
    width, height, depth, color, *_, interlaced = header
    samples = {0: 1, 2: 3, 6: 4}.get(color)
    if depth != 8 or interlaced or not samples:
        raise ValueError(f"a PNG of {depth} bits in colours of kind {color}")
    return width, height, samples, unfiltered(zlib.decompress(packed), width * samples, samples)


def unfiltered(data, stride, step):
    """The rows of a PNG; each byte was written as the difference from a guess made of its neighbours."""
    rows, above = [], bytearray(stride)
    for at in range(0, len(data), stride + 1):
        kind, row = data[at], bytearray(data[at + 1 : at + 1 + stride])
        for x in range(stride):
            left, up = row[x - step] if x >= step else 0, above[x]
            corner = above[x - step] if x >= step else 0
            nearest = min((left, up, corner), key=lambda near: abs(left + up - corner - near))
            row[x] = row[x] + (0, left, up, (left + up) // 2, nearest)[kind] & 0xFF
        rows.append(row)
        above = row
    return rows


def shrink(width, height, samples, rows):
    """One character for each pixel of the panel."""
    across, down = width // WIDTH, height // HEIGHT
    return ["".join("#" if row[x * across * samples] else "." for x in range(WIDTH)) for row in rows[::down]]


def target():
    """The folder of what cargo builds."""
    command = ["cargo", "metadata", "--no-deps", "--format-version", "1"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    return Path(json.loads(done.stdout)["target_directory"])


def blocks(rows):
    """A picture as lines of text, two of the panel's rows in each; what is lit is full."""
    pairs = zip(rows[::2], rows[1::2])
    return ["".join(" ▀▄█"[(up == "#") + 2 * (low == "#")] for up, low in zip(*pair)) for pair in pairs]


def main():
    """Boots the handheld for somebody who wants to try it, or sends something to the one that is running."""
    parser = argparse.ArgumentParser(description="The handheld on the emulated board.")
    what = parser.add_mutually_exclusive_group(required=True)
    what.add_argument("--demo", action="store_true", help="boot, and say where its sockets are")
    what.add_argument("--send", metavar="TEXT", help="send the running one a line as its gauge would, and show its panel")
    what.add_argument("--key", choices=KEYS, help="press a button of the running one, and show its panel")
    parser.add_argument("--elf", type=Path, help="the program, if it is not where cargo puts it")
    parser.add_argument("--life", type=int, default=3600, help="seconds until it is ended (default 3600)")
    told = parser.parse_args()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    folder = target()
    if not told.demo:
        return visit(folder / DEMO, told)
    elf = told.elf or folder / "thumbv7m-none-eabi" / "firmware" / "lm3s6965evb"
    with Handheld(elf, life=told.life) as handheld, found(folder / DEMO, handheld.folder):
        # The ports take one guest each.
        handheld.gauge.close()
        handheld.host.close()
        print(f"gauge    {handheld.socket('gauge')}")
        print(f"host     {handheld.socket('host')}")
        print(f"pictures {handheld.folder / PANEL}, a new one every second")
        print("keys     a line with up, down, left, right or set; an empty line ends it", flush=True)
        serve(handheld)
    return 0


@contextlib.contextmanager
def found(place, folder):
    """Lets the demonstration be found while it runs."""
    place.unlink(missing_ok=True)
    place.symlink_to(folder, target_is_directory=True)
    try:
        yield
    finally:
        place.unlink(missing_ok=True)


def visit(place, told):
    """Sends a line or a key to the running demonstration and prints what its panel shows then."""
    before = shown(place)
    if before is None:
        print("no handheld is running; this boots one: cargo handheld && python3 tests/scripts/handheld.py --demo", file=sys.stderr)
        return 1
    if told.key:
        (place / "pressed").write_text(told.key)
    else:
        with socket.socket(socket.AF_UNIX) as gauge:
            # Through the link the path may be too long.
            gauge.connect(str(place.resolve() / "gauge"))
            gauge.sendall(told.send.encode() + b"\r\n")
    # Pictures come every second; the second of two is surely younger than what was sent.
    for _ in range(2):
        shown(place, younger=True)
    print("\n".join(blocks(shown(place))))
    return 0


def shown(place, younger=False):
    """The panel's picture of the running demonstration; None where none runs."""
    path = place / PANEL
    try:
        seen = path.stat().st_mtime_ns
        deadline = time.monotonic() + 10
        while younger and path.stat().st_mtime_ns == seen and time.monotonic() < deadline:
            time.sleep(0.05)
        return shrink(*decode(path.read_bytes()))
    except FileNotFoundError:
        return None


def serve(handheld):
    """Presses what is typed or asked for, and keeps a picture."""
    pressed = handheld.folder / "pressed"
    while handheld.process.poll() is None:
        # Put in place whole, so that nobody finds half of one.
        fresh = handheld.folder / "fresh.png"
        fresh.write_bytes(handheld.picture())
        fresh.replace(handheld.folder / PANEL)
        if pressed.exists():
            key = pressed.read_text()
            pressed.unlink()
            if key in KEYS:
                handheld.key(key)
        if not select.select([sys.stdin], [], [], 1.0)[0]:
            continue
        line = sys.stdin.readline().strip()
        if line in KEYS:
            handheld.key(line)
        elif not line:
            return
        else:
            print(f"no such key: {line}")
    print(f"it ended with {handheld.process.returncode}: {handheld.errors()}")


if __name__ == "__main__":
    try:
        sys.exit(main())
    except KeyboardInterrupt:
        pass
