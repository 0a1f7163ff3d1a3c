"""Commands of the house. Belongs here: nothing but the folder's name."""
