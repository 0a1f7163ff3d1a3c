"""Seeing the light before it is built: contours over a group, light by distance, eyes with catchlights, a head."""
