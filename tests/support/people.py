"""People for the tests. All of them are invented."""

Json = dict[str, object]


def ada(**changes: object) -> Json:
    """A runner who walks twenty minutes and has four days a week. Invented."""
    profile: Json = {
        "who": "ada",
        "called": "Ada",
        "tz": "Europe/London",
        "coach": "kim",
        "days": {"mon": "07:00", "wed": "18:30", "fri": "07:00", "sun": "09:00"},
        "begin": "2026-03-02",
        "walk_min": 20,
        "race": {"date": "2026-11-01", "km": 21.0975},
        "age": 44,
        "sex": "f",
        "height_cm": 168,
        "weight_kg": 104,
    }
    return profile | changes


def kim() -> Json:
    """A coach. Invented."""
    return {"who": "kim", "role": "coach", "called": "Kim", "tz": "Europe/London"}
