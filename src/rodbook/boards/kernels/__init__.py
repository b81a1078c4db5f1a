"""Loops that are compiled: everything here is plain numbers and arrays, without any notion of sheets or pieces."""
