"""Measures what the identification costs on the emulated board and holds it below the ceilings of firmware/budgets.toml.

Builds the measuring programs for both thumb targets, runs them in the emulator at a fixed instruction clock, and runs the
same sweep on this machine: every check value of the answers must be the same on all three. Python 3.11 or later, standard
library only. Run: python3 tests/scripts/measure.py

A toolchain other than cargo's default may be named: THUMB_CARGO is the command, THUMB_FLAGS what follows `build`.
"""

import json
import os
import re
import shlex
import subprocess
import sys
import tomllib
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ["-p", "springline-firmware", "--features"]
FEATURES = [*PACKAGE, "board-lm3s6965evb"]
# The board whose memory holds a table of a hundred times the rows.
LARGE = "mps2-an385"
CPUS = {"thumbv7m-none-eabi": "cortex-m3", "thumbv6m-none-eabi": "cortex-m0"}
PATIENCE = 300
# Of the functions on texts only those that report a slip; the others merely stand beside them. Indexing that was not built into
# its caller counts as the panic that it may end in.
PANICS = (
    r"(?:core::(?:(?:panicking|slice::index|option|result|cell)::|str::slice_error|slice::copy_from_slice_impl"
    r"|array::_\$LT\$impl\$u20\$core\.\.ops\.\.index)|_\$LT\$core\.\.ops\.\.range\.\.\w+\$LT\$usize\$GT\$)"
)
# Panics that are not ours: the log's, about its lock and about the file of the host that it writes to; and those of the USB
# libraries, some of which are built into the function that starts the program.
LOG = re.compile(r"_defmt_|semihosting::")
USB = re.compile(r".*(?:usb_device|usbd_serial|rp2040_hal)|rp2040::run::__cortex_m_rt_main")
# The handheld's programs: group of the budgets to target, feature, program and panics of others.
HANDHELDS = {
    "handheld": ("thumbv7m-none-eabi", "handheld-lm3s6965evb", "lm3s6965evb", LOG),
    "handheld-rp2040": ("thumbv6m-none-eabi", "board-rp2040", "rp2040", USB),
}
FUNCTION = re.compile(r"^[0-9a-f]+ <(.*)>:$")
# Tail calls count too.
PANIC_CALL = re.compile(rf"\sb(?:l|\.w|x|lx)?\s.*<{PANICS}")


def run(command, **more):
    """The standard output of a command that must succeed."""
    done = subprocess.run(command, cwd=ROOT, stdout=subprocess.PIPE, text=True, check=False, **more)
    if done.returncode:
        sys.exit(f"{done.stdout}failed with {done.returncode}: {shlex.join(map(str, command))}")
    return done.stdout


def build(target, features, programs):
    """Builds a board's programs."""
    cargo = shlex.split(os.environ.get("THUMB_CARGO", "cargo"))
    flags = shlex.split(os.environ.get("THUMB_FLAGS", ""))
    run([*cargo, "build", *flags, "-q", *features, *programs, "--profile", "firmware", "--target", target])


def figures(text):
    """Lines `name value` as a dictionary."""
    return dict(line.split(maxsplit=1) for line in text.splitlines() if line.count(" ") == 1)


def emulate(elf, cpu, board="lm3s6965evb"):
    """What the measuring program prints on a board."""
    # shift=7 makes one instruction 128 ns, longer than a tick of the board's timer: single instructions are told apart.
    command = ["qemu-system-arm", "-M", board, "-cpu", cpu, "-icount", "shift=7", "-display", "none"]
    command += ["-monitor", "none", "-serial", "none", "-semihosting-config", "enable=on,target=native", "-kernel", elf]
    try:
        text = run(command, stderr=subprocess.DEVNULL, timeout=PATIENCE)
    except subprocess.TimeoutExpired:
        sys.exit(f"the {cpu} did not finish in {PATIENCE} s")
    found = figures(text)
    if "done" not in found:
        sys.exit(f"{text}the {cpu} stopped before the end")
    if board == LARGE:
        # Only ratios are read off it.
        return found
    ticks, known = int(found["known_loop_ticks"]), int(found["known_loop_instructions"])
    if abs(ticks * 80 / 128 - known) > 100:
        sys.exit(f"{known} known instructions took {ticks} ticks: the clock does not count instructions")
    return found


class Tools:
    """The binary tools of the compiler's own toolchain."""

    def __init__(self):
        sysroot = run(["rustc", "--print", "sysroot"]).strip()
        host = re.search(r"^host: (.*)$", run(["rustc", "-vV"]), re.M)[1]
        self.folder = Path(sysroot, "lib", "rustlib", host, "bin")
        if not (self.folder / "llvm-size").exists():
            sys.exit("llvm-size is missing; this would bring it: rustup component add llvm-tools")

    def sections(self, elf):
        """Bytes by section."""
        lines = (line.split() for line in run([self.folder / "llvm-size", "-A", elf]).splitlines())
        return {words[0]: int(words[1]) for words in lines if len(words) == 3 and words[1].isdigit()}

    def flash_and_ram(self, elf):
        """Bytes that are programmed, and bytes of statics."""
        sections = self.sections(elf)
        part = lambda *names: sum(sections.get(name, 0) for name in names)
        return part(".boot2", ".vector_table", ".text", ".rodata", ".data", ".gnu.sgstubs"), part(".data", ".bss", ".uninit")

    def panic_calls(self, elf):
        """The functions that call a panic, once for each call; the panics' own calls of each other do not count."""
        callers, inside = [], ""
        for line in run([self.folder / "llvm-objdump", "-d", "-C", "--no-show-raw-insn", elf]).splitlines():
            if function := FUNCTION.match(line):
                inside = function[1]
            elif PANIC_CALL.search(line) and not re.match(PANICS, inside):
                callers.append(inside)
        return callers


def target_figures(tools, folder, target):
    """Everything that is measured for one target."""
    elfs = {name: folder / target / "firmware" / name for name in ("measure", "bare", "empty")}
    found = emulate(elfs["measure"], CPUS[target])
    bare, empty = tools.flash_and_ram(elfs["bare"]), tools.flash_and_ram(elfs["empty"])
    found["code_bytes"] = bare[0] - empty[0] - int(found["image_bytes"])
    found["static_ram_bytes"] = bare[1] - empty[1]
    calls = tools.panic_calls(elfs["bare"])
    found["panic_calls"] = len(calls)
    found["stack"] = max(int(value) for key, value in found.items() if key.endswith("_stack") and key != "ready_stack")
    return found, calls


def handheld_figures(tools, elf, board, others):
    """Bytes of the handheld's program, its statics and stack together, and the panics that are ours."""
    flash, statics = tools.flash_and_ram(elf)
    stack = max(int(value) for key, value in board.items() if key.startswith("panel") and key.endswith("_stack"))
    calls = [call for call in tools.panic_calls(elf) if not others.match(call)]
    found = {"flash_bytes": flash, "static_ram_bytes": statics, "ram_and_stack_bytes": statics + stack}
    return {**found, "panic_calls": len(calls)}, calls


def table(budgets, measured):
    """Prints figure, measured, ceiling; returns how many are exceeded or missing."""
    wrong = 0
    for group, ceilings in budgets.items():
        source = measured[group]
        print(f"\n{group:34} {'measured':>10} {'ceiling':>10}")
        for name, ceiling in ceilings.items():
            value = source.get(name)
            verdict = "MISSING" if value is None else "" if int(value) <= ceiling else "EXCEEDED"
            wrong += bool(verdict)
            where = source.get(f"{name}_at")
            note = f"  at {where} in" if where else ""
            print(f"  {name:32} {'-' if value is None else value:>10} {ceiling:>10}{note}  {verdict}".rstrip())
        for name, value in source.items():
            if name.endswith(("_worst", "_median")) and name not in ceilings:
                print(f"  {name:32} {value:>10} {'-':>10}")
    return wrong


def same_answers(answers):
    """Compares the check values of all machines; returns how many differ."""
    names = [name for name in answers["this machine"] if name.endswith("_answers")]
    differing = [name for name in names if len({found.get(name) for found in answers.values()}) != 1]
    for name in differing:
        print(f"{name} differs:", ", ".join(f"{where} {found.get(name)}" for where, found in answers.items()))
    print(f"\n{len(names) - len(differing)} of {len(names)} sweeps give the same answers on {', '.join(answers)}")
    return len(differing) if names else 1


def main():
    """Builds, runs, compares."""
    budgets = tomllib.loads((ROOT / "firmware" / "budgets.toml").read_text())
    tools = Tools()
    metadata = json.loads(run(["cargo", "metadata", "--no-deps", "--format-version", "1"]))
    folder = Path(metadata["target_directory"])
    for target in CPUS:
        build(target, FEATURES, ["--bins"])
    host = run(["cargo", "run", "-q", "--release", *FEATURES, "--bin", "measure"], stderr=subprocess.DEVNULL)
    with ThreadPoolExecutor() as pool:
        results = dict(zip(CPUS, pool.map(lambda target: target_figures(tools, folder, target), CPUS)))
    measured = {target: found for target, (found, _) in results.items()}
    for group, (target, feature, program, others) in HANDHELDS.items():
        build(target, [*PACKAGE, feature], ["--bin", program])
        results[group] = handheld_figures(tools, folder / target / "firmware" / program, measured[target], others)
    # Last, because it takes the place of the small board's program.
    target, cpu = next(iter(CPUS.items()))
    build(target, [*PACKAGE, f"board-{LARGE}"], ["--bin", "measure"])
    growth = emulate(folder / target / "firmware" / "measure", cpu, LARGE)
    growth = {name: value for name, value in growth.items() if name.startswith("growth_")}
    first = next(iter(measured.values()))
    image = {name: value for name, value in first.items() if name.startswith("image_")}
    unnamed = sorted(set(image) - set(budgets["image"]))
    handhelds = {group: results[group][0] for group in HANDHELDS}
    wrong = table(budgets, {"image": image, **measured, **handhelds, "growth": growth})
    for name in unnamed:
        print(f"{name} {image[name]} has no ceiling in firmware/budgets.toml")
    for target, (_, calls) in results.items():
        for call in sorted(set(calls)):
            print(f"{target} can panic in {call}")
    wrong += len(unnamed) + same_answers({"this machine": figures(host), **measured})
    print(f"{wrong} figures are not as they should be" if wrong else "every figure is within its ceiling")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
