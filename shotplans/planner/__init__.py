"""Pure planning: brief, sitters, room and kit in, a plan with reasons out. No clock, no chance, no
database."""
