"""Tests of the paper: content as data, drawings as marks, PDFs read back."""
