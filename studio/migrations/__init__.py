"""How the tables came to be. Belongs here: one file for each change, never edited once it is out."""
