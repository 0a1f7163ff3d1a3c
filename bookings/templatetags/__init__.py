"""Words for templates of the bookings. Belongs here: nothing; the tags are in its modules."""
