"""What papers have to say."""

SENTENCES = {
    "papers.cut_list_does_not_fit": "the cut list of {sheet} does not fit its layout: {told} cuts told, {drawn} drawn",
    "papers.folder_is_a_file": "{folder!r} can't take the papers: it, or what it lies in, is a file; name a folder",
    "papers.folder_not_permitted": "{folder!r} can't take the papers: its permissions do not let you write there",
    "papers.folder_not_written": "{folder!r} can't take the papers: {reason}",
    "papers.layouts_numbered": "they are numbered 1 to {last}",
    "papers.letter_missing": (
        "{name}: the papers' lettering, {font}, has no {missing!r}, which stands in the job or the book; write it"
        " with other letters"
    ),
    "papers.no_layouts": "no board of this job is laid out",
    "papers.no_such_folder_name": "{folder!r} can't take the papers: no folder can have such a name",
    "papers.no_such_layout": "there is no layout of that number; {hint}",
    "papers.no_such_page": "{name} has pages 1 to {last}, not {page}",
    "papers.not_set_out": "it is not set out, so there is nothing to draw",
    "papers.not_typeset": "{name}: it could not be typeset: {reason}",
    "papers.not_typeset_cleanly": "a paper could not be typeset cleanly: {warnings:semi}",
    "papers.paper_is_a_folder": (
        "{folder!r} can't take the papers: there is a folder with the name of one of them; move it away"
    ),
    "papers.unknown_paper": "there is no paper {name!r}; there are {names}",
}
