"""Tests uf2.py against the specification of the format and the data sheet of the part.

Files are taken apart here by the tables of the specification (README.md in commit 059a3f0e of its repository) with nothing of the
program's own; the family is that of utils/uf2families.json there. Programs are ELFs put together byte by byte.
Run: python3 tests/scripts/uf2_test.py
"""

import contextlib
import io
import struct
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
import uf2

START = 0x1000_0000
VECTORS = struct.pack("<2I", 0x2004_0000, START + 0x1C1)


def boot():
    """A first piece whose check value is right."""
    body = bytes(at * 7 & 0xFF for at in range(252))
    return body + struct.pack("<I", uf2.check_value(body))


def elf(*pieces, magic=b"\x7fELF\x01\x01\x01", kind=2, machine=40, loads=1):
    """A program of pieces: physical address, bytes, and the virtual address where it is another."""
    head = 52 + 32 * len(pieces)
    out = magic.ljust(16, b"\0") + struct.pack("<2H5I6H", kind, machine, 1, START + 0x1C1, 52, 0, 0, 52, 32, len(pieces), 40, 0, 0)
    for address, data, *virtual in pieces:
        at = virtual[0] if virtual else address
        out += struct.pack("<8I", loads, head, at, address, len(data), len(data), 5, 4)
        head += len(data)
    return out + b"".join(data for _, data, *_ in pieces)


def program(*more):
    """A program that starts, and more pieces."""
    return elf((START + 256, VECTORS), (START, boot()), *more)


def read(file):
    """Address, data of each block, by the specification; everything that it asks for is looked at."""
    assert len(file) % 512 == 0, "whole blocks"
    found = []
    for number in range(len(file) // 512):
        block = file[512 * number :][:512]
        words = struct.unpack("<8I", block[:32])
        assert words[0] == 0x0A324655 and words[1] == 0x9E5D5157, "first magic numbers"
        assert block[508:] == bytes([0x30, 0x6F, 0xB1, 0x0A]), "final magic number"
        assert words[2] == 0x00002000, "the family is there, and no other flag"
        assert words[3] % 256 == 0 and words[4] == 256, "payloads of a page"
        assert words[5] == number and words[6] == len(file) // 512, "numbers from 0, and how many"
        assert words[7] == 0xE48BFF56, "the family of the part"
        assert set(block[32 + 256 : 508]) == {0xFF}, "padding"
        found.append((words[3], block[32 : 32 + 256]))
    return found


class Format(unittest.TestCase):
    """What is in a file."""

    def test_one_block_is_spelled_out(self):
        """The first block, byte by byte."""
        header = bytes.fromhex("5546320a 57515d9e 00200000 00000010 00010000 00000000 10000000 56ff8be4")
        wanted = header + boot() + b"\xff" * 220 + bytes.fromhex("306fb10a")
        self.assertEqual(uf2.convert(program())[:512], wanted)

    def test_every_byte_is_where_it_was_linked(self):
        """Pieces at odd places and across sectors are found again, and nothing else."""
        pieces = [
            (START + 0x1C0, bytes(range(256)) * 20),
            (START + 0x2003, b"\x00odd"),
            # Data that the program copies into RAM: what counts is where it is kept.
            (START + 0x5FFF, b"\x11\x22", 0x2000_0000),
            (0x101F_FFF8, b"the last"),
        ]
        wanted = {}
        for address, data, *_ in [(START, boot()), (START + 256, VECTORS), *pieces]:
            wanted.update(enumerate(data, address))
        found = {}
        for address, data in read(uf2.convert(program(*pieces))):
            self.assertFalse(address in found, "a page twice")
            found.update(enumerate(data, address))
        for address, byte in found.items():
            self.assertEqual(byte, wanted.pop(address, 0xFF), hex(address))
        self.assertEqual(wanted, {}, "bytes that no block has")

    def test_sectors_are_whole_and_in_order(self):
        """The part's ROM may drop pages of a sector that is written in part (data sheet, erratum E14)."""
        file = uf2.convert(program((START + 0x7100, b"x"), (START + 0x3FFF, b"yz")))
        wanted = [start + page for start in (0, 0x3000, 0x4000, 0x7000) for page in range(0, 4096, 256)]
        self.assertEqual([address - START for address, _ in read(file)], wanted)

    def test_pieces_without_bytes_are_not_in_it(self):
        """Memory that the program clears by itself, and notes that nobody loads."""
        self.assertEqual(uf2.convert(program((0x2000_0000, b""))), uf2.convert(program()))
        with self.assertRaisesRegex(uf2.Unfit, "beginning"):
            uf2.convert(elf((START, boot()), (START + 256, VECTORS), loads=4))

    def test_the_check_value_is_that_of_the_catalogue(self):
        """CRC-32/MPEG-2 of "123456789", in the library crc-catalog; its parameters are those of the data sheet, 2.8.1.3.1."""
        self.assertEqual(uf2.check_value(b"123456789"), 0x0376E6E7)


class Refusals(unittest.TestCase):
    """What is no program for the board."""

    def refused(self, file, why):
        """Holds that a program is refused, and for which reason."""
        with self.assertRaisesRegex(uf2.Unfit, why):
            uf2.convert(file)

    def test_addresses_outside_the_flash(self):
        """In RAM, in the ROM, in front, behind, and across the end."""
        for address in (0x2000_0000, 0, START - 1, 0x1020_0000, 0x101F_FFFF, 0xFFFF_FFFF):
            self.refused(program((address, b"ab")), "flash")
        uf2.convert(program((0x101F_FFFE, b"ab")))

    def test_pieces_that_overlap(self):
        """Neither can be meant."""
        self.refused(program((START + 0x1000, b"abc"), (START + 0x1002, b"d")), "overlap")
        self.refused(program((START + 4, b"d")), "overlap")
        uf2.convert(program((START + 0x1000, b"abc"), (START + 0x1003, b"d")))

    def test_files_that_are_no_program_for_it(self):
        """Other formats, other processors, and what was not linked."""
        pieces = [(START, boot()), (START + 256, VECTORS)]
        self.refused(b"UF2\n" * 100, "ELF")
        self.refused(elf(*pieces, magic=b"\x7fELF\x02\x01\x01"), "ELF")
        self.refused(elf(*pieces, magic=b"\x7fELF\x01\x02\x01"), "ELF")
        self.refused(elf(*pieces, kind=1), "kind 1")
        self.refused(elf(*pieces, machine=243), "machine 243")

    def test_files_that_were_cut_short(self):
        """At any length."""
        whole = program((START + 0x1000, b"abcdefgh"))
        uf2.convert(whole)
        for length in range(len(whole)):
            self.refused(whole[:length], "ELF|cut short")

    def test_programs_that_would_not_start(self):
        """Without a first piece, with a bit of it wrong, without vectors."""
        self.refused(elf((START + 256, VECTORS)), "check value")
        self.refused(elf((START + 0x1000, VECTORS)), "beginning")
        for bit in range(0, 256 * 8, 37):
            wrong = bytearray(boot())
            wrong[bit // 8] ^= 1 << bit % 8
            self.refused(elf((START, bytes(wrong)), (START + 256, VECTORS)), "check value")
        self.refused(elf((START, boot())), "vectors")
        good = (0x2004_0000, START + 0x1C1)
        for vectors in [(0x2004_2008, good[1]), (0x2000_0000, good[1]), (0x2003_FFFC, good[1]), (good[0], START + 0x1C0), (good[0], 0x2000_0001)]:
            self.refused(elf((START, boot()), (START + 256, struct.pack("<2I", *vectors))), "vectors")


class Command(unittest.TestCase):
    """The program as it is called."""

    def test_a_file_is_written_or_none(self):
        """Beside the program, with its size told; for one that is unfit there is no file."""
        with tempfile.TemporaryDirectory() as folder:
            source, target = Path(folder, "fit"), Path(folder, "fit.uf2")
            source.write_bytes(program())
            said = io.StringIO()
            with contextlib.redirect_stdout(said):
                uf2.main([str(source)])
            self.assertEqual(target.read_bytes(), uf2.convert(program()))
            self.assertIn("264 bytes of flash in 16 blocks", said.getvalue())
            source = Path(folder, "unfit")
            source.write_bytes(elf((START, boot())))
            for names in ([str(source)], [str(Path(folder, "missing"))], ["a", "b", "c"]):
                with self.assertRaises(SystemExit) as ended:
                    uf2.main(names)
                self.assertTrue(ended.exception.code)
            self.assertEqual({path.name for path in Path(folder).iterdir()}, {"fit", "fit.uf2", "unfit"})


if __name__ == "__main__":
    unittest.main()
