"""How the tables of the bookings came to be. Belongs here: what Django writes, and what it cannot write."""
