"""Tests of the bookings."""
