"""The whole job on one page, for the firm."""
