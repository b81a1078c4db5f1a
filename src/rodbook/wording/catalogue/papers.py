"""What papers has to say."""

SENTENCES = {
    "papers.no_layout": "there is no layout of that number; {there}",
    "papers.not_set_out_so_nothing": "it is not set out, so there is nothing to draw",
    "papers.no_paper": "there is no paper {name!r}; there are {names}",
    "papers.pages_to_not": "{name} has pages 1 to {pages}, not {page}",
    "papers.cut_list_does_not_fit": "the cut list of {sheet} does not fit its layout: {told} cuts told, {drawn} drawn",
    "papers.could_not_typeset": "{name}: it could not be typeset: {message}",
    "papers.paper_could_not_typeset_cleanly": "a paper could not be typeset cleanly: {told}",
    "papers.papers_lettering_no_which_stands": (
        "{name}: the papers' lettering, {font}, has no {missing!r}, which stands in the job or the book; write it"
        " with other letters"
    ),
}
