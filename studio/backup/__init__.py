"""Everything the studio has in one file, and back. Belongs here: what travels (`tables`, `files`), the file itself
(`packing`, sealed by `sealing`), asking whether a file is whole (`checking`), putting it into an empty studio
(`loading`), and what of it all is told (`faults`). Not here: the command lines."""
