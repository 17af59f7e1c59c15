"""In which country help has to be found."""

from bot.conversation.says import Slot
from bot.conversation.survey.gazetteer import country_of
from planning.terms.person import Profile


def where(profile: Profile) -> tuple[Slot, ...]:
    """The country that the person named, and the one in which their clock stands, as far as they are known."""
    named = (("country", profile.country), ("here", country_of(profile.tz)))
    return tuple(Slot(name, code) for name, code in named if code)
