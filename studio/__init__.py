"""The house: settings, rooms, people and kit. Belongs here: what is true of the studio itself. Knows no
other app."""
