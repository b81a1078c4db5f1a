"""What is wrong with days and stretches of them."""

SENTENCES = {
    "days.end_before_begin": "{first} to {last} ends before it begins; write the earlier day first",
}
