"""Makes of a program for the RP2040 board the file that the board takes when it is copied onto it.

Reads an ELF, refuses one that the board could not start, and writes a UF2: blocks of 512 bytes that each carry 256 and say where
in the flash they belong. Run: python3 tests/scripts/uf2.py [ELF [UF2]]; without names it takes what `cargo handheld-rp2040`
built and writes beside it. Python 3.11 or later, standard library only.

The format is the published UF2 specification, README.md in commit 059a3f0e of its repository; the family is in utils/uf2families.json
there. The address shows a maker's name and is withheld.
"""

import json
import struct
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

# The flash, as in firmware/boards/rp2040/memory.x, and the memory in which a stack may begin.
FLASH = range(0x1000_0000, 0x1020_0000)
RAM = range(0x2000_0000, 0x2004_2000)
# What the part's ROM loads and runs first; its last four bytes are a check value (data sheet, 2.8.1.3.1).
BOOT = 256
# What is programmed at once, and what is erased at once. Of a sector that is written in part, the part's ROM may leave
# some of it unwritten (data sheet, erratum E14): sectors are filled up.
PAGE, SECTOR = 256, 4096
ERASED = 0xFF

MAGIC = (0x0A324655, 0x9E5D5157, 0x0AB16F30)
HAS_FAMILY = 0x2000
FAMILY = 0xE48BFF56
# Bytes of a block's data, of which a page takes the first.
DATA = 476

ELF32_LITTLE = b"\x7fELF\x01\x01\x01"
EXECUTABLE, ARM, LOAD = 2, 40, 1


class Unfit(Exception):
    """Why a program cannot be put onto the board."""


def check_value(data):
    """CRC-32 with the highest bit first, from all ones, the result as it is (CRC-32/MPEG-2)."""
    value = 0xFFFFFFFF
    for byte in data:
        value ^= byte << 24
        for _ in range(8):
            value = (value << 1 ^ 0x04C11DB7 if value >> 31 else value << 1) & 0xFFFFFFFF
    return value


def segments(elf):
    """Address in the flash and bytes of each piece that is loaded, in the order of addresses."""
    try:
        if not elf.startswith(ELF32_LITTLE):
            raise Unfit("no ELF of 32 bits, little endian")
        kind, machine = struct.unpack_from("<2H", elf, 16)
        if (kind, machine) != (EXECUTABLE, ARM):
            raise Unfit(f"no program for this processor: kind {kind}, machine {machine}")
        (table,) = struct.unpack_from("<I", elf, 28)
        size, count = struct.unpack_from("<2H", elf, 42)
        headers = [struct.unpack_from("<6I", elf, table + size * at) for at in range(count)]
    except struct.error as error:
        raise Unfit("cut short amid its headers") from error
    found = []
    for kind, offset, _, address, length, _ in headers:
        # What has no bytes in the file is made by the program itself.
        if kind != LOAD or not length:
            continue
        data = elf[offset : offset + length]
        if len(data) != length:
            raise Unfit(f"cut short: of {length} bytes for {address:#010x} there are {len(data)}")
        if address not in FLASH or address + length > FLASH.stop:
            raise Unfit(f"{length} bytes for {address:#010x} do not lie in the flash")
        found.append((address, data))
    found.sort()
    for (address, data), (following, _) in zip(found, found[1:]):
        if address + len(data) > following:
            raise Unfit(f"two pieces overlap at {following:#010x}")
    return found


def sectors(found):
    """Every sector that is written, in the order of addresses, erased where there is nothing."""
    written = {}
    for address, data in found:
        for at, byte in enumerate(data, address):
            start = at - at % SECTOR
            if start not in written:
                written[start] = bytearray([ERASED]) * SECTOR
            written[start][at - start] = byte
    return written


def starts(written):
    """Raises an error for a program that the part's ROM would not start, or that would not come far."""
    first = written.get(FLASH.start)
    if first is None:
        raise Unfit("nothing at the beginning of the flash")
    (told,) = struct.unpack_from("<I", first, BOOT - 4)
    if told != check_value(first[: BOOT - 4]):
        raise Unfit(f"the first {BOOT} bytes do not have the check value that the part's ROM asks for")
    stack, reset = struct.unpack_from("<2I", first, BOOT)
    # Aligned to eight bytes; its first use is below it, so that it may be the end of the memory. The address of code is odd.
    if stack - 1 not in RAM or stack % 8 or reset not in FLASH or not reset % 2:
        raise Unfit(f"no vectors at {FLASH.start + BOOT:#010x}: stack {stack:#010x}, reset {reset:#010x}")


def blocks(written):
    """The file."""
    pages = [(start + at, data[at : at + PAGE]) for start, data in written.items() for at in range(0, SECTOR, PAGE)]
    out = bytearray()
    for number, (address, page) in enumerate(pages):
        header = (*MAGIC[:2], HAS_FAMILY, address, PAGE, number, len(pages), FAMILY)
        out += struct.pack("<8I", *header) + bytes(page).ljust(DATA, bytes([ERASED])) + struct.pack("<I", MAGIC[2])
    return bytes(out)


def convert(elf):
    """The file for a program; raises Unfit for one that the board could not start."""
    written = sectors(segments(elf))
    starts(written)
    return blocks(written)


def built():
    """What `cargo handheld-rp2040` builds."""
    command = ["cargo", "metadata", "--no-deps", "--format-version", "1"]
    metadata = json.loads(subprocess.run(command, cwd=ROOT, stdout=subprocess.PIPE, check=True).stdout)
    return Path(metadata["target_directory"], "thumbv6m-none-eabi", "firmware", "rp2040")


def main(names):
    """Converts one file."""
    if len(names) > 2:
        sys.exit("usage: uf2.py [ELF [UF2]]")
    source = Path(names[0]) if names else built()
    target = Path(names[1]) if len(names) > 1 else source.with_suffix(".uf2")
    try:
        elf = source.read_bytes()
    except OSError as error:
        sys.exit(f"{error}; this builds the program: cargo handheld-rp2040")
    try:
        file = convert(elf)
    except Unfit as error:
        sys.exit(f"{source}: {error}")
    target.write_bytes(file)
    loaded = sum(len(data) for _, data in segments(elf))
    print(f"{loaded:,} bytes of flash in {len(file) // 512} blocks of 512: {target}")


if __name__ == "__main__":
    main(sys.argv[1:])
