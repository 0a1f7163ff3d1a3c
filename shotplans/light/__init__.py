"""Pure physics of light on a set: exposure, sources, falloff, shadow and gear as functions of numbers.

No database, no request, no rule of taste and no wording belongs here; neither does anything of the planner.
"""
