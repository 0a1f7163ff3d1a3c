"""Camera files: a thousand heads in a folder, and the histogram of a 45-megapixel JPEG beside a plain full decode.

What belongs here: making the files, the limits they must keep, and how much memory reading takes.
"""

from __future__ import annotations

import io
import tempfile
import time
import tracemalloc
from pathlib import Path

import numpy as np
from PIL import Image

from shotplans.records import exif, pictures
from shotplans.records.files import read_piece
from tests.bench.timing import best_seconds
from tests.records import filming

HEADS, MOST_HEADS_S, MOST_HEAP_MB = 1000, 5.0, 16.0
WIDE, HIGH, MOST_LOOK_S = 8256, 5504, 0.5


def report() -> bool:
    """Print both figures against their limits; whether they keep them."""
    with tempfile.TemporaryDirectory() as folder:
        heads = _heads(Path(folder))
    return _look() and heads


def _heads(folder: Path) -> bool:
    body = filming.jpeg(exif=filming.entries(note=b"n" * 50_000)) + bytes(3_000_000)
    for n in range(HEADS):
        (folder / f"LQ_{n:04d}.JPG").write_bytes(body)
    started = time.perf_counter()
    _read(folder, HEADS)
    seconds = time.perf_counter() - started
    tracemalloc.start()
    _read(folder, 100)
    first = tracemalloc.get_traced_memory()[1]
    tracemalloc.reset_peak()
    _read(folder, HEADS)
    last = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    kept = seconds <= MOST_HEADS_S and last / 1e6 <= MOST_HEAP_MB
    print(f"{HEADS} JPEG heads of 3 MB files: {seconds:.2f} s (limit {MOST_HEADS_S:.0f} s)")
    print(f"most memory for 100: {first / 1e6:.1f} MB, for {HEADS}: {last / 1e6:.1f} MB (limit {MOST_HEAP_MB:.0f} MB)")
    return kept


def _read(folder: Path, count: int) -> None:
    for path in sorted(folder.iterdir())[:count]:
        with path.open("rb") as file:
            piece = read_piece(file)
        assert exif.read_camera(piece).f_number == 8.0
        assert piece.digest


def _look() -> bool:
    chance = np.random.default_rng(3)
    small = Image.fromarray(chance.integers(40, 220, (HIGH // 16, WIDE // 16, 3)).astype(np.uint8))
    out = io.BytesIO()
    small.resize((WIDE, HIGH), Image.Resampling.BICUBIC).save(out, "JPEG", quality=92)
    ours = best_seconds(lambda: pictures.look(io.BytesIO(out.getvalue())))
    whole = best_seconds(lambda: Image.open(io.BytesIO(out.getvalue())).convert("RGB").histogram())
    look = pictures.look(io.BytesIO(out.getvalue()))[0]
    print(
        f"histogram of {WIDE * HIGH / 1e6:.0f} megapixels ({len(out.getvalue()) / 1e6:.0f} MB): {ours:.2f} s from "
        f"{look.samples / 1e6:.1f} million means of {look.reduced} x {look.reduced} pixels (limit {MOST_LOOK_S} s); "
        f"a plain full decode with its histogram {whole:.2f} s, {whole / ours:.1f} times as long"
    )
    return ours <= MOST_LOOK_S
