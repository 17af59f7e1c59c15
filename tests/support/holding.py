"""Whether what a scenario expects holds of what came."""

from collections.abc import Callable, Iterator

from tests.support.scenarios import Condition, Counted, Told

Json = dict[str, object]
NOT_THERE = object()


def holds(condition: Condition, found: object) -> bool:
    """Whether *condition* holds of what was *found* at its path."""
    if condition.op in ("no", "there"):
        return (found is NOT_THERE) == (condition.op == "no")
    return found is not NOT_THERE and COMPARED[condition.op](found, condition.value)


def _has(found: object, wanted: object) -> bool:
    if isinstance(found, str):
        return str(wanted) in found
    return isinstance(found, list) and wanted in found


def _between(found: object, wanted: object) -> bool:
    assert isinstance(wanted, tuple)
    return isinstance(found, int | float) and wanted[0] <= found <= wanted[1]


def _ordered(order: Callable[[float, float], bool]) -> Callable[[object, object], bool]:
    def both(found: object, wanted: object) -> bool:
        assert isinstance(wanted, int | float)
        return isinstance(found, int | float) and order(found, wanted)

    return both


COMPARED: dict[str, Callable[[object, object], bool]] = {
    "=": lambda found, wanted: found == wanted,
    "!=": lambda found, wanted: found != wanted,
    "<": _ordered(lambda a, b: a < b),
    "<=": _ordered(lambda a, b: a <= b),
    ">": _ordered(lambda a, b: a > b),
    ">=": _ordered(lambda a, b: a >= b),
    "has": _has,
    "lacks": lambda found, wanted: not _has(found, wanted),
    "in": _between,
}


def at_path(value: object, path: str) -> object:
    """What stands at *path*; "run" of a session: its minutes of running; "labels": those of the buttons."""
    for name in path.split("."):
        if name == "#":
            value = len(value) if isinstance(value, list) else NOT_THERE
        elif name == "run" and isinstance(value, dict):
            value = sum(each["minutes"] for each in value["segments"] if each["do"] == "run")
        elif isinstance(value, list) and name.lstrip("-").isdigit():
            value = value[int(name)] if int(name) < len(value) else NOT_THERE
        elif isinstance(value, dict):
            value = value.get(name, NOT_THERE)
        else:
            return NOT_THERE
    return value


def facts_of(message: Json) -> Json:
    """The `about` of a message, with its text and the labels of its buttons."""
    about, buttons = message["about"], message.get("buttons", [])
    assert isinstance(about, dict)
    assert isinstance(buttons, list)
    labels = [each["label"] for each in buttons]
    files = message.get("files", [])
    assert isinstance(files, list)
    return {**about, "text": message["text"], "labels": labels, "files": [each["type"] for each in files]}


def faults(told: list[Told], counted: list[Counted], came: list[Json], data: Json) -> Iterator[str]:
    """What does not hold, one line for each."""
    for chat in dict.fromkeys(each.chat for each in told if each.chat != "data"):
        wanted = [each for each in told if each.chat == chat and each.kind is not None]
        got = [facts_of(each) for each in came if each["chat"] == chat]
        if len(wanted) != len(got):
            yield f"{chat} got {[each['kind'] for each in got]}, wanted {[each.kind for each in wanted]}"
        for one, facts in zip(wanted, got, strict=False):
            yield from _of_message(one, facts)
    for one in told:
        if one.chat == "data":
            yield from _unmet(one.conditions, data)
    for count in counted:
        kinds = [facts_of(each)["kind"] for each in came if each["chat"] == count.chat]
        if kinds.count(count.kind) != count.count:
            yield f"{count.chat} got {kinds}, wanted {count.count} {count.kind}"


def _of_message(wanted: Told, facts: Json) -> Iterator[str]:
    also = facts.get("also", [])
    assert isinstance(also, list)
    if facts["kind"] != wanted.kind or not set(wanted.also) <= set(also):
        yield f"{wanted.chat} got {facts['kind']} {also}, wanted {wanted.kind} {list(wanted.also)}: {facts}"
    yield from _unmet(wanted.conditions, facts)


def _unmet(conditions: tuple[Condition, ...], value: Json) -> Iterator[str]:
    for each in conditions:
        found = at_path(value, each.path)
        if not holds(each, found):
            shown = "not there" if found is NOT_THERE else found
            yield f"{each.path} {each.op} {each.value}, but it is {shown}: {value}"
