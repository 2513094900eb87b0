from pathlib import Path

import pytest

from tests.kb.rules.samples import Sample, findings_of, samples

ALL = tuple(samples())


@pytest.mark.parametrize("sample", [sample for sample in ALL if sample.good], ids=str)
def test_a_good_sample_is_met_with_silence(sample: Sample, tmp_path: Path) -> None:
    assert findings_of(sample, tmp_path) == ()


@pytest.mark.parametrize("sample", [sample for sample in ALL if not sample.good], ids=str)
def test_a_bad_sample_causes_exactly_what_it_says(sample: Sample, tmp_path: Path) -> None:
    own = [finding for finding in findings_of(sample, tmp_path) if finding.rule == sample.rule]

    assert len(own) == sample.count, "\n".join(map(str, own))
