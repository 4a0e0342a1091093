"""What a picker finds: the very name or number first, then those that have its words."""

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.ui.forms.removal_picker import lines_like


@pytest.mark.parametrize(
    ("typed", "first"), [("clutch cover", "1 clutch cover"), ("2", "2 clutch cover gasket")]
)
def test_the_very_name_goes_before_names_that_have_its_words(store, job_id, typed, first):
    for name in ("clutch cover", "clutch cover gasket", "clutch cover 2"):
        services.strip.log_removal(store, job_id, Entry(name))
    assert lines_like(store, job_id, typed)[1][0][1] == first
