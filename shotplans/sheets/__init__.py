"""Paper and drawings: what a plan looks like in print, from the plan's document alone; nothing here queries."""
