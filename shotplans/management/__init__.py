"""Commands of the light. Belongs here: one file for each, with its messages and its exit status."""
