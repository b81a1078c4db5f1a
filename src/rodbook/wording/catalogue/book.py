"""What book has to say."""

SENTENCES = {
    "book.trim_missing": "a leaf that lies on within trim needs the trim's section",
}
