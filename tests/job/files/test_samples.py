"""The samples that come with Rodbook, and the face of the package."""

import importlib.resources

import pytest

import rodbook.job.files as face
from rodbook.job.checks import check_job
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_names, sample_text


def test_every_sample_job_goes_with_the_sample_book():
    book = parse_book(sample_book_text())
    assert len(sample_names()) >= 3
    for name in sample_names():
        assert check_job(parse_job(sample_text(name), book), book) == []


def test_every_file_among_the_samples_is_handed_out():
    files = [file.name for file in importlib.resources.files("rodbook.job.samples").iterdir()]
    assert sorted(name for name in files if name.endswith(".toml")) == sorted(
        ["book.toml", *(f"{name}.toml" for name in sample_names())]
    )


@pytest.mark.parametrize("name", ["", "book", "stare", "../stair", "\n"])
def test_a_sample_that_is_none_is_told(told, name):
    (line,) = told(sample_text, name)
    assert line.startswith("there is no sample ")
    assert "stair" in line


def test_the_face_is_sorted_and_whole():
    assert list(face.__all__) == sorted(face.__all__, key=lambda name: (not name.isupper(), name))
    assert all(hasattr(face, name) for name in face.__all__)
