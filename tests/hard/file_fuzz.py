"""Files of every kind the house takes, spoiled: pictures, tables, lists of names, photometric files, briefs. Belongs
here: spoiling them and handing them to their readers, each of which reads or refuses in words, soon and in little
memory. Not here: forms (`form_fuzz`), in which some of these come."""

from __future__ import annotations

import io
import random
import struct
import tempfile
import time
import traceback
import zlib
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import piexif
from PIL import Image

from bookings import client_list, name_list
from shotplans.planner import codec
from shotplans.records import exif, files, lm63, pictures
from studio import csv_in, kit_list, photos
from tests.records.test_lm63 import AHEAD, LAMBERT, file

SLOWEST_S = 2.0  # of this process's own time
MOST_MEMORY_MB = 500  # more than before: one picture takes 400 (`studio.photos`), what was read before stays a while
BRIEFS = Path(__file__).parents[2] / "fixtures" / "briefs"
CLIENTS = (
    "Name,E-mail,Telephone,Note\nWren Hollis,wren@example.org,01632 960001,\"two\nlines\"\n"
    "Piers Dunmow,,01632 960002,x\n"
)
KIT = "section,code,label,width_m,height_m\npanels,p-1,panel 100 x 200,1.0,2.0\nweights,w-1,sandbag,,\n"
NAMES = "Name;E-mail;Wish\nWren Hollis;wren@example.org;first\nPiers Dunmow;;\nNell Orrin <nell@example.org>\n"
WORDS = (
    b"NaN", b"1e309", b"-1", b"9" * 40, b"9" * 5_000, b"", b"\x00", b"\xff\xfe", b"\xed\xa0\x80", b'"', b"[" * 9_000,
    b"null",
)  # fmt: skip
INTEGERS = (0, 1, 0x7FFFFFFF, 0x80000000, 0xFFFFFFFF, 0xFFFF, 0x10000)


@dataclass
class Found:
    """What came of it."""

    files: int = 0
    outcomes: Counter[str] = field(default_factory=Counter)
    faults: dict[str, str] = field(default_factory=dict)
    slowest_s: float = 0.0
    memory_mb: float = 0.0


def _picture(kind: str, *, size: tuple[int, int] = (96, 64), **values: object) -> bytes:
    shade = np.add.outer(np.arange(size[1]), np.arange(size[0])).astype(np.uint8)
    out = io.BytesIO()
    Image.fromarray(np.stack([shade, shade // 2, 255 - shade], axis=-1)).save(out, kind, **values)
    return out.getvalue()


def _odd_exif() -> bytes:
    told = {
        "0th": {piexif.ImageIFD.Orientation: 9, piexif.ImageIFD.Make: b"\x00\xff" * 20},
        "Exif": {
            piexif.ExifIFD.ExposureTime: (1, 0), piexif.ExifIFD.FNumber: (0, 0), piexif.ExifIFD.ISOSpeedRatings: 65535,
            piexif.ExifIFD.DateTimeOriginal: b"0000:00:00 25:61:61", piexif.ExifIFD.OffsetTimeOriginal: b"+99:99",
            piexif.ExifIFD.ShutterSpeedValue: (-2147483648, 1), piexif.ExifIFD.ApertureValue: (4294967295, 1),
        },
    }  # fmt: skip
    return piexif.dump(told)


def bomb(width: int, height: int) -> bytes:
    """A PNG of few bytes that claims so many grey points, and has them where so many are read."""
    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    packer, parts = zlib.compressobj(1), []
    for _ in range(height if width * height <= photos.MOST_PIXELS else 10):
        parts.append(packer.compress(bytes(1 + width)))
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    data = b"".join([*parts, packer.flush()])
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", data) + chunk(b"IEND", b"")


def claim(width: int, height: int) -> bytes:
    """A PNG in colour, with a mask, of which nothing but the head is there."""
    head = struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0)
    body = b"IHDR" + head
    ends = b"".join(struct.pack(">I", len(d)) + k + d + struct.pack(">I", zlib.crc32(k + d))
                    for k, d in ((b"IDAT", zlib.compress(bytes(width))), (b"IEND", b"")))  # fmt: skip
    return b"\x89PNG\r\n\x1a\n" + struct.pack(">I", len(head)) + body + struct.pack(">I", zlib.crc32(body)) + ends


def dearest() -> Iterator[bytes]:
    """Of each kind about the largest picture that is taken."""
    for kind, mode, side, values in (
        ("JPEG", "RGB", 7_550, {"progressive": True, "subsampling": 0}), ("PNG", "RGB", 8_100, {"compress_level": 1}),
        ("PNG", "RGBA", 5_700, {"compress_level": 1}), ("WEBP", "RGB", 4_990, {"lossless": True, "method": 0}),
        ("JPEG", "L", 10_900, {}),
    ):  # fmt: skip
        out = io.BytesIO()
        Image.new(mode, (side, side)).save(out, kind, **values)
        yield out.getvalue()


def pictures_whole() -> list[bytes]:
    plain = [_picture("JPEG"), _picture("JPEG", progressive=True), _picture("PNG"), _picture("WEBP"), _picture("TIFF")]
    return [*plain, _picture("JPEG", exif=_odd_exif()), _picture("PNG", exif=_odd_exif()), _picture("GIF")]


def _read_photo(raw: bytes) -> str:
    try:
        return f"kept {photos.made_anew(raw).width > 0}"
    except photos.NoPicture as error:
        return error.code


def _read_frame(raw: bytes) -> str:
    piece = files.read_piece(io.BytesIO(raw))
    assert len(piece.digest) == 64
    with suppress(exif.Unread):
        exif.read_camera(piece)
    if piece.kind is not files.Kind.JPEG:
        return "no JPEG"
    try:
        look, samples = pictures.look(io.BytesIO(raw))
        pictures.small_copy(samples)
        return f"seen {look.samples > 0}"
    except pictures.NoPicture:
        return "refused"


def _read_table(read: Callable[[Path], Iterator[object]]) -> Callable[[bytes], str]:
    def reader(raw: bytes) -> str:
        with tempfile.NamedTemporaryFile(suffix=".csv") as kept:
            kept.write(raw)
            kept.flush()
            try:
                return f"rows {sum(1 for _ in read(Path(kept.name))) > 0}"
            except csv_in.Unreadable as error:
                return "refused" if str(error) else "refused without a word"
    return reader


def _clients(path: Path) -> Iterator[object]:
    yield from client_list.rows(path, client_list.shape(path))


def _kit(path: Path) -> Iterator[object]:
    found = csv_in.shape(csv_in.head(path, kit_list.known_headings()))
    yield from csv_in.rows(path, found)


def _read_names(raw: bytes) -> str:
    return f"faults {len(name_list.read(name_list.decoded(raw), most=200).faults) > 0}"


def _read_photometry(raw: bytes) -> str:
    try:
        found = lm63.read_lm63(raw)
        assert np.isfinite(found.flux_lm)
        return f"read {len(found.shares) > 0}"
    except lm63.Unreadable:
        return "refused"


def _read_brief(raw: bytes) -> str:
    try:
        return codec.fingerprint(codec.read_request(raw)) and "read"
    except codec.Unreadable as error:
        return "refused" if error.faults else "refused without a word"


KINDS: dict[str, tuple[Callable[[], list[bytes]], Callable[[bytes], str]]] = {
    "photo": (pictures_whole, _read_photo),
    "frame": (pictures_whole, _read_frame),
    "clients": (lambda: [CLIENTS.encode(), CLIENTS.encode("utf-16")], _read_table(_clients)),
    "kit": (lambda: [KIT.encode(), KIT.replace(",", "\t").encode("cp1252")], _read_table(_kit)),
    "names": (lambda: [NAMES.encode(), NAMES.replace(";", "\t").encode("utf-16")], _read_names),
    "photometry": (lambda: [file(AHEAD, LAMBERT), file((0, 90), [[9, 1]] * 3, (0, 45, 90))], _read_photometry),
    "brief": (lambda: [path.read_bytes() for path in sorted(BRIEFS.glob("*.json"))], _read_brief),
}  # fmt: skip


def spoiled(raw: bytes, others: list[bytes], chance: random.Random) -> bytes:
    """One to six things done to a file, at places drawn by chance."""
    found = bytearray(raw)
    for _ in range(chance.choice((1, 1, 1, 2, 3, 6))):
        at = chance.randrange(len(found) + 1)
        if chance.random() < 0.3:
            at = min(at, chance.randrange(200))  # heads say what the rest is
        end = at + chance.choice((1, 2, 4, 16, 300))
        how = chance.randrange(9)
        if how == 0:
            del found[at:]
        elif how == 1:
            del found[at:end]
        elif how == 2:
            found[at:at] = found[at:end] * chance.choice((1, 3, 50))
        elif how == 3:
            found[at:at] = chance.choice(WORDS)
        elif how == 4:
            found[at : at + 4] = struct.pack(chance.choice((">I", "<I")), chance.choice(INTEGERS))
        elif how == 5:
            other = chance.choice(others)
            found[at:] = other[chance.randrange(len(other)) :]
        elif how == 6:
            word = chance.choice(bytes(found).split() or [b" "])
            found = bytearray(bytes(found).replace(word, chance.choice(WORDS), 1))
        else:
            found[at : at + 1] = bytes([chance.randrange(256)])
    return bytes(found)


def fuzz(*, each: int, number: int, heavy: bool) -> Found:
    """Each kind of file `each` times; the same number spoils the same. `heavy`: pictures as large as any taken, too."""
    found, before = Found(), _peak_mb(afresh=True)
    large = list(dearest()) if heavy else []
    _peak_mb(afresh=True)  # making them took as much as reading them may
    for kind, (whole, reader) in KINDS.items():
        chance, there = random.Random(f"{kind} {number}"), whole()
        for raw in there:
            _hand(kind, reader, raw, found)
        for _ in range(each):
            _hand(kind, reader, spoiled(chance.choice(there), there, chance), found)
    for width, height in [(200_000, 200_000), (65_000, 1_900)] + [(11_000, 10_900)] * heavy:
        _hand("bomb", _read_photo, bomb(width, height), found)
    _hand("bomb", _read_photo, claim(8_000, 8_000), found)
    for raw in large:
        _hand("large", _read_photo, raw, found)
        if raw.startswith(b"\xff\xd8"):
            _hand("large", _read_frame, raw, found)
    found.memory_mb = _peak_mb() - before
    return found


def _hand(kind: str, reader: Callable[[bytes], str], raw: bytes, found: Found) -> None:
    found.files += 1
    began = time.process_time()
    try:
        outcome = reader(raw)
    except Exception as error:  # whatever it is: a reader has no other way out than its own refusal
        last = traceback.extract_tb(error.__traceback__)[-1]
        outcome = "crash"
        told = f"{raw[:120]!r}\n{''.join(traceback.format_exception(error)[-5:])}"
        where = f"{last.filename.rsplit('/', 1)[-1]}:{last.lineno}"
        found.faults.setdefault(f"{kind}: {type(error).__name__} at {where}", told)
    took = time.process_time() - began
    found.slowest_s = max(found.slowest_s, took)
    found.outcomes[f"{kind}: {outcome}"] += 1
    if took > SLOWEST_S and kind not in ("bomb", "large"):
        found.faults.setdefault(f"{kind}: slow", f"{took:.1f} s for {len(raw)} bytes {raw[:120]!r}")
    if "without a word" in outcome:
        found.faults.setdefault(f"{kind}: {outcome}", repr(raw[:120]))


def _peak_mb(*, afresh: bool = False) -> float:
    """The most memory this process has held; `afresh`, since now: what the tests before took says nothing of ours."""
    if afresh:
        Path("/proc/self/clear_refs").write_text("5")
    status = Path("/proc/self/status").read_text()
    return int(status.split("VmHWM:")[1].split()[0]) / 1024
