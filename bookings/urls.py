"""Addresses of the bookings. Belongs here: one line for each page."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
