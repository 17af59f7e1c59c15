"""A file of people: one profile or a list of them."""

from collections.abc import Iterator

from bot.forms.profile import profile_from_json
from planning.errors import ProfileError
from planning.terms.person import Profile


def each_profile(value: object) -> Iterator[tuple[str, Profile | None, tuple[str, ...]]]:
    """Each profile of *value* (parsed JSON) in order: its place ("[2]." in a list, else nothing), the profile or None,
    and the lines of what is wrong with it, its place before each."""
    for index, each in enumerate(value if isinstance(value, list) else [value]):
        place = f"[{index}]." if isinstance(value, list) else ""
        try:
            yield place, profile_from_json(each), ()
        except ProfileError as wrong:
            yield place, None, tuple(f"{place}{line}" for line in wrong.lines)


def profiles_from_json(value: object) -> tuple[Profile, ...]:
    """The profiles of *value* (parsed JSON). Raises `ProfileError` with all wrong lines and their places."""
    profiles: list[Profile] = []
    lines: list[str] = []
    for _, profile, wrong in each_profile(value):
        lines += wrong
        profiles += [profile] if profile else []
    names = [profile.who for profile in profiles]
    lines += [f'[{place}].who: "{who}" stands there twice' for place, who in enumerate(names) if who in names[:place]]
    if lines or not profiles:
        raise ProfileError(tuple(lines) or ("the list holds no profile",))
    return tuple(profiles)
