"""One script, two hands: what somebody of the house does at a page, said once and done twice, quickly without a browser
and truly in one. Belongs here: hands, and the reading of a page they share. Not here: what is done (`tests/trips/week`,
`tests/browser/tasks`)."""
