"""The light: physics, planning, and later sheets and records. Knows the studio and the bookings; nobody knows it."""
