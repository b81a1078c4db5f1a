"""Sample jobs of an invented firm, and its book, as they would lie on a disk; `rodbook.job.files` hands them out."""
