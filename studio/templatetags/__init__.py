"""Words for templates. Belongs here: nothing but the folder's name."""
