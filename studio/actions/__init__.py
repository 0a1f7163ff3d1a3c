"""Writes of the house that touch more than one row. Belongs here: nothing but the folder's name."""
