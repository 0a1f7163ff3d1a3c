"""Claims about the sentences of `words.rigs`."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

Tree = dict[str, Any]

TRUE: dict[str, Callable[[Tree, Tree], bool]] = {}
OF_NOTES: set[str] = set()
SAID: dict[str, Tree] = {}
CAUTIOUS: dict[str, Tree] = {}
