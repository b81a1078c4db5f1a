"""Overview: where a job stands and what needs attention."""
