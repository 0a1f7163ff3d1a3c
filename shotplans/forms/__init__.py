"""What pages ask for. Belongs here: fields and their sentences; not here: rules of the house (actions)."""
