"""What can be done with bookings. Belongs here: nothing but the folder's name."""
