"""``identify`` on the command line."""

from drafting.cli import main


def test_a_size_without_an_option_gets_both_that_it_may_have_been(capsys):
    assert main(["identify", ".69", "16"]) == 2
    said = capsys.readouterr().err
    assert "--female .69 --tpi 16" in said
    assert "--male .69 --tpi 16" in said


def test_nothing_that_agrees_needs_a_person(capsys):
    assert main(["identify", "--male", "1.234", "--tpi", "20"]) == 1
    assert "NONE OF THESE" in capsys.readouterr().out


def test_full_says_more_than_the_short_answer(capsys):
    main(["identify", "--female", "0.98"])
    short = capsys.readouterr().out
    main(["identify", "--female", "0.98", "--full"])
    full = capsys.readouterr().out
    assert len(full) > 2 * len(short)
