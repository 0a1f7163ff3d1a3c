"""Tests mirror the tree: the tests of shotplans/planner/codec.py are in tests/planner/test_codec*.py."""
