"""A file of people: one profile or a list of them."""

from bot.forms.profile import profile_from_json
from planning.errors import ProfileError
from planning.terms.person import Profile


def profiles_from_json(value: object) -> tuple[Profile, ...]:
    """The profiles of *value* (parsed JSON). Raises `ProfileError` with all wrong lines and their places."""
    if not isinstance(value, list):
        return (profile_from_json(value),)
    profiles: list[Profile] = []
    lines: list[str] = []
    for place, each in enumerate(value):
        try:
            profiles.append(profile_from_json(each))
        except ProfileError as wrong:
            lines += [f"[{place}].{line}" for line in wrong.lines]
    names = [profile.who for profile in profiles]
    lines += [f'[{place}].who: "{who}" stands there twice' for place, who in enumerate(names) if who in names[:place]]
    if lines or not profiles:
        raise ProfileError(tuple(lines) or ("the list holds no profile",))
    return tuple(profiles)
