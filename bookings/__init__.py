"""Clients, sittings and the calendar. Belongs here: promises to people. Knows the studio and nothing of
light."""
