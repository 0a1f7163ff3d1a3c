"""Writes: each a named action in one transaction, refusing with a sentence fit to show."""
