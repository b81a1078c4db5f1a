"""Standard sizes against packing, as it is typed."""

from rodbook.job.files import sample_text


def test_each_number_of_sizes_is_a_line_and_the_job_s_is_marked(rodbook, tmp_path):
    job = tmp_path / "job.toml"
    job.write_text(sample_text("converted-store"))
    lines = rodbook("sizes", job).out.splitlines()
    numbered = [line.split() for line in lines if line.split() and line.split()[0].isdecimal()]
    assert [int(words[0]) for words in numbered] == list(range(3, 14))
    assert [words[0] for words in numbered if words[-2:] == ["this", "job"]] == ["3"]
    assert numbered[0][1] == "298.1"


def test_a_job_whose_openings_are_still_to_be_framed_has_none_to_weigh(rodbook, tmp_path):
    job = tmp_path / "job.toml"
    job.write_text(sample_text("timber-house"))
    assert "No opening of this job stands yet" in rodbook("sizes", job).out
