"""Commands of the bookings. Belongs here: nothing but the folder's name."""
