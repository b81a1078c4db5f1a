"""What is drawn: parts, fronts, layouts, openings, bars over days."""
