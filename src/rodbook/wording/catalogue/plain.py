"""What is said as it was given: in the words of a page, of a form, or of another library."""

SENTENCES = {
    "plain.text": "{text:.4000}",
}
