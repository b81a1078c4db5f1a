"""What papers share: the frame of a page, cautions, rows in words."""
