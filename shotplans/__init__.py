"""The light: physics, planning, paper, records and their pages. Knows the studio and the bookings; nobody knows it."""
