"""How many standard sizes, and what a size more or fewer would do to the packers."""
