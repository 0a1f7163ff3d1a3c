"""A week at Lindenmere Portraits, Monday to Saturday, as a script of steps by role: each signs in and reaches
everything by the links and buttons of their own pages, and reads paper where their work has paper. Belongs here: the
story, a day a file, and what it must come to. Not here: how a step is done (`tests.hands`, `tests.browser.hand`)."""
