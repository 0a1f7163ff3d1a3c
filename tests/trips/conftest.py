"""What trips share: the demo's studio, as the tests of the plans have it."""

from tests.shotplans.conftest import house, studio

__all__ = ["house", "studio"]
