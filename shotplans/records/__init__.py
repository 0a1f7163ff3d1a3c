"""Pure readers of what comes back from the set. Belongs here: text typed from a meter, and its
distance from a target."""
