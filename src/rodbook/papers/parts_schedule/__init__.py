"""Every part with its working, for the bench."""
