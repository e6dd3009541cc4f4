"""Tests of the calc sheet."""
