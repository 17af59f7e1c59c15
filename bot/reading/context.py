"""Words whose meaning hangs on their neighbours: "sat" the day and "sat" the verb, "left" the side and "5 left"."""

from re import Pattern
from typing import NamedTuple

from bot.reading.amounts import KM_PER_MILE
from bot.reading.leads import Led, lead, needs, sure
from bot.reading.tags import Item, Letter, Tag, pattern


class Retag(NamedTuple):
    """Items that *pattern* finds (one item each) and whose value is *value* (any if empty) become *tag*."""

    pattern: Pattern[str]
    value: str
    tag: Letter
    new: str
    n: float
    needs: frozenset[Letter]
    lead: frozenset[Letter]


def _retag(text: str, value: str, tag: Letter, new: str = "", n: float = 0.0) -> Retag:
    needed = needs(text)
    return Retag(pattern(text), value, tag, new, n, sure(needed), lead(needed))


_BEFORE_DAY = "[TO DASH ON UNTIL FROM THROUGH DATE MOVE FOR BY OR RETURN STARTING AGO SESSION MISS MISS_IT]"
_AFTER_DAY = "(?:[PARTDAY INSTEAD COLON DASH MISS MISS_IT DONE CLOCK CLOCKISH]|THEN (?:$|STOP|ASK)|NEG [COMMA STOP])"
_OPENS = "(?<=^SELF)|(?<=[STOP COMMA AND]SELF)"
"""As learners put it: "I finish.", "I do 8 minute."""
_AFTER_HALF_DAY = "$|STOP|ASK|COMMA|FILL|INSTEAD|TIMES|BECAUSE|AND|BUT|OR"
_HALF_ALONE = (
    "(?:^|(?<=[STOP COMMA DONE ONLY ABOUT MAX GOT DATE HAVE BECAUSE]))"
    "HALF(?=$|[STOP COMMA BUT BECAUSE DONE FILL THEN ONLY AND BEFORE SELF]|OF DATE|IS ABOUT? SELF)"
)
_BESIDE_A_MILE = "[STOP COMMA DONE ABOUT AND THE DATE]"
_HALF_DONE = "(?:(?<=DONE THE)|(?<=STOPPED))HALF(?=$|[STOP COMMA BUT BECAUSE])"
_AFTER_BACK = "(?=THE IS|$|[STOP COMMA BECAUSE WITH IN BY TALLY QUEST IT FOR SELF])"
RETAGS = (
    _retag("(?<=DONE)WEEKLY(?=NUM|DUR|SESSION|$|STOP)", "", Tag.DATE),
    _retag("HAVE(?=SHARE (?:$|[STOP COMMA BUT BECAUSE] |THE PART))", "", Tag.DONE),
    _retag("BACK(?=IS SENSE)", "", Tag.PART, "back"),
    _retag("(?<=SELF)AMPM", "", Tag.IS),
    _retag("(?<=PART IS)DONE|(?<=PART)DONE", "squeezed", Tag.SENSE, "pain"),
    _retag("(?<=GOT THE ACT)IN(?=$|STOP|COMMA|BUT|AND|BEFORE|DATE|PARTDAY|BECAUSE)", "", Tag.WHOLE),
    _retag("GARMENT(?=IN [NUM DUR])", "run", Tag.ACT, "run"),
    _retag("NEG(?=FROM SIDE? PART)", "", Tag.WELL),
    _retag("(?<=SENSE)GARMENT", "hand", Tag.PART, "hand"),
    _retag("(?<=SENSE)IS(?=$|STOP|COMMA|FILL|DATE|AND|BUT)", "gone", Tag.WELL),
    _retag("(?<=SENSE [IN OF] THE SIDE PART)IS(?=$|STOP|COMMA|FILL|DATE|AND|BUT)", "gone", Tag.WELL),
    _retag("(?<=SENSE [IN OF] THE PART)IS(?=$|STOP|COMMA|FILL|DATE|AND|BUT)", "gone", Tag.WELL),
    _retag("(?<=SENSE)ACT|ACT(?=(?:IS|FILL|ABOUT|WORD|SELF){0,2}SENSE)", "abs", Tag.PART, "stomach"),
    _retag("PART(?=OF THE? SIDE? PART)", "back", Tag.FILL),
    _retag("BACK(?=OF THE? SIDE? PART)", "", Tag.FILL),
    _retag("^WELL(?=THE IS|SELF (?!IS)|IT IS|BECAUSE|DUR|NUM UNIT)", "okay", Tag.FILL),
    _retag("PART(?=PART)", "glute", Tag.FILL),
    _retag("WORD(?=[FROM UNTIL] (?:ON|THE|PARTDAY)? DATE)", "stopping", Tag.OFF),
    _retag("(?<=FROM)PLAN", "", Tag.DATE, "+1"),
    _retag("(?<=PART IS)ILL|(?<=PART)ILL|ILL(?=PART)", "crook", Tag.SENSE, "pain"),
    _retag("FILL(?=[NUM DUR] COMMA? ACT [NUM DUR])", "now", Tag.ACT, "run"),
    _retag("GARMENT(?=COMMA? ABOUT? [DIST DUR] (?!OF? ACT))", "run", Tag.ACT, "run"),
    _retag("(?<=WANT COMMA)SHARE|(?<=WANT)SHARE", "1", Tag.FILL),
    _retag("(?<=NUM)WORD(?=OF? ACT)", "time", Tag.TIMES),
    _retag(f"(?:{_OPENS})WORD(?=$|STOP|COMMA)", "finish", Tag.WHOLE),
    _retag(f"(?:{_OPENS})WORD(?=ABOUT? [DUR DIST] (?:$|[STOP COMMA AND ON IN AT WITH]))", "do", Tag.DONE),
    _retag(f"(?:{_OPENS})WORD(?=ABOUT? [DUR DIST] (?:$|[STOP COMMA AND ON IN AT WITH]))", "make", Tag.DONE),
    _retag("CHANGE(?=THE WORD{1,3} ON THE? SIDE? PART)", "", Tag.SUDDEN),
    _retag("DUR(?=[OF ON] SELF DASH? NUM)", "", Tag.WORD),
    _retag("(?<=SELF DASH)NUM", "", Tag.WORD),
    _retag("SHARE(?=OF PART)", "0.5", Tag.FILL),
    _retag("NUM(?=SENSE)", "0", Tag.NEG),
    _retag("COURSE(?=WORD THE? SIDE)", "worse", Tag.FILL),
    _retag("(?<=REMIND)WORD(?=NUM|CLOCK|CLOCKISH)", "round", Tag.AT),
    _retag("(?<=MOOD [WITH OF ABOUT])SHARE", "1", Tag.WORD),
    _retag("(?<=THE WORD)MOVE(?=STOP|COMMA|AND|BECAUSE|$)", "", Tag.WORD),
    _retag("(?<=[OFF AFTER ON BEFORE])MOVE(?=AT|STOP|COMMA|AND|$)", "", Tag.WORD),
    _retag("(?<=THE)DATE(?=WORD [STOP COMMA AND THEN BUT])", "", Tag.WORD),
    _retag("MISS_IT(?=ABOUT{0,2} (?:QUEST|WORD|GARMENT|THE [WORD PART GARMENT]))", "forgot", Tag.WORD),
    _retag("NUM(?=OFF UNIT)", "", Tag.WORD),
    _retag("(?<=OF)SHARE(?=STOP|COMMA|$)", "1", Tag.WORD),
    _retag("SHARE(?=SENSE)", "0.75", Tag.FILL),
    _retag("SHARE(?=SENSE)", "0.25", Tag.FILL),
    _retag("(?:^|(?<=[SELF IS COMMA STOP]))WELL(?=FROM? DATE [THROUGH TO DASH])", "gone", Tag.OFF),
    _retag("EACH(?=PART)", "1", Tag.SIDE, "both"),
    _retag(f"(?<={_BEFORE_DAY})MAYBE_DAY", "", Tag.DATE),
    _retag("MISS(?!(?:THE|DATE|IS|ONE|FILL){0,3}(?:DATE|SESSION))", "slept", Tag.WORD),
    _retag("(?<=NUM)WORD(?=$|STOP|COMMA)", "flat", Tag.FILL),
    _retag(f"MAYBE_DAY(?={_AFTER_DAY})", "", Tag.DATE),
    _retag("(?<=MAYBE_DAY AND)MAYBE_DAY", "", Tag.DATE),
    _retag("MAYBE_DAY(?=TO DATE|AND DATE|THROUGH DATE|TO MAYBE_DAY|SELF (?:MISS|MISS_IT|DONE|ACT))", "", Tag.DATE),
    _retag("(?:^|(?<=[COMMA STOP]))MAYBE_DAY(?=[DUR DIST NUM] ACT|ACT [DUR DIST])", "", Tag.DATE),
    _retag("MAYBE_DAY(?=[^STOP]{1,8} COMMA MAYBE_DAY)", "", Tag.DATE),
    _retag("(?<=COMMA)MAYBE_DAY(?=[DUR DIST NUM MISS MISS_IT ACT DONE HALF SHARE RATIO WHOLE TICK])", "", Tag.DATE),
    _retag("MAYBE_DAY(?=AMPM|IS [MISS_IT SESSION DUR DIST NUM])", "", Tag.DATE),
    _retag("PLAN(?=DAYS)", "off", Tag.OFF),
    _retag("(?<=[DIST DUR NUM])MAYBE_DAY(?=COMMA|STOP|$)", "", Tag.DATE),
    _retag("(?<=COMMA)MAYBE_DAY(?=GOT|SELF [GOT DONE ACT MISS])", "", Tag.DATE),
    _retag("(?<=[DIST DUR NUM] ACT)MAYBE_DAY(?=[COMMA STOP WITH FILL]|$)", "", Tag.DATE),
    _retag("MAYBE_DAY", "", Tag.WORD),
    _retag(f"(?<=DATE)AMPM(?={_AFTER_HALF_DAY})", "am", Tag.PARTDAY, "morning"),
    _retag(f"(?<=DATE)AMPM(?={_AFTER_HALF_DAY})", "pm", Tag.PARTDAY, "afternoon"),
    _retag("(?:^|(?<=[BUT AND SELF COMMA STOP IS FILL]))WELL(?=$|STOP|COMMA)", "happy", Tag.MOOD, "good"),
    _retag("(?<=PART SENSE)BACK(?=$|STOP|COMMA|FILL)|(?<=SENSE IS)BACK", "", Tag.FILL),
    _retag("(?<=SELF)MOVE(?=$|STOP|COMMA|ABOUT|FILL)", "", Tag.WORD),
    _retag("(?<=THE)UNIT", "yard", Tag.WORD),
    _retag("WEEKLY(?=MOVE|ONE MOVE)", "", Tag.DATE),
    _retag("(?<=[DATE PARTDAY CLOCK])WELL(?=$|[STOP COMMA BECAUSE FOR FILL])", "better", Tag.INSTEAD),
    _retag("(?<=[OF AGO LOW_DAY])MOVE(?=$|[STOP COMMA BECAUSE FILL AND])", "", Tag.WORD),
    _retag("(?<=IS THE)SENSE(?=ASK)", "", Tag.WORD),
    _retag("WORD(?=DONE)", "quarter", Tag.SHARE, "0.25", 0.25),
    _retag("WORD(?=DONE(?:$|STOP|COMMA|BUT))", "third", Tag.SHARE, "0.33", 0.33),
    _retag(
        f"(?:^|(?<={_BESIDE_A_MILE}))UNIT(?=[ACT DONE] (?![NUM DUR])|IN [DUR CLOCKISH NUM])",
        "mile", Tag.DIST, "", KM_PER_MILE,
    ),
    _retag("(?<=CLOCKISH FOR THE)UNIT", "mile", Tag.DIST, "", KM_PER_MILE),
    _retag("(?<=DONE)INTENDED(?=SESSION)", "", Tag.NEG),
    _retag("(?<=CLOCKISH)UNIT(?=$|[STOP COMMA ACT])", "mile", Tag.DIST, "", KM_PER_MILE),
    _retag("PLAN(?=OFF)", "tomorrow", Tag.DATE, "+1"),
    _retag("PART(?=ACT)", "body", Tag.FILL),
    _retag("(?<=DATE)THEN(?=$|STOP|ASK)", "", Tag.INSTEAD),
    _retag("(?<=PART IS)BACK(?=$|STOP|COMMA|FILL)", "", Tag.FILL),
    _retag("TALLY(?=THE? (?:DATE|PARTDAY))", "down", Tag.MOVE),
    _retag("(?<=COMMA)SIDE(?=ON THE? SIDE)", "both", Tag.EACH, "1"),
    _retag("(?<=DONE)ABOUT(?=$|[STOP QUEST COMMA AND BUT])", "", Tag.SHARE, "1", 1.0),
    _retag("(?<=DUR)UNTIL", "up", Tag.TO),
    _retag("(?<=PART)CHANGE(?=$|[STOP COMMA FILL AND])", "nail", Tag.SENSE, "skin"),
    _retag("PART(?=ACT)", "hand", Tag.FILL),
    _retag("ILL(?=ONE)", "", Tag.WORD),
    _retag("PART(?=IN (?:THE|SIDE)* PART)", "body:pain", Tag.SENSE, "pain"),
    _retag("WANT(?=(?:ON|THE|FILL)* DATE)", "resume", Tag.RETURN),
    _retag("(?<=SENSE FROM)ILL", "symptom", Tag.WORD),
    _retag("(?<=TO)COURSE", "eased", Tag.WORD),
    _retag("STUCK(?=SENSE)", "", Tag.NEG),
    _retag("(?<=WORD IS)QUEST(?=FILL|OTHER|THE)|(?<=DUR IS)QUEST", "", Tag.WORD),
    _retag("(?<=PART IS)RECOVERED", "", Tag.WELL),
    _retag("(?<=THE)SENSE(?=WORD)", "unstable", Tag.WORD),
    _retag(_HALF_DONE, "", Tag.SHARE, "0.5", 0.5),
    _retag("SIDE(?=THE (?!PART))", "right", Tag.WORD),
    _retag("(?<=DONE)FILL(?=$|STOP|COMMA|BUT|BECAUSE)", "bit", Tag.SHARE, "0.25", 0.25),
    _retag("FILL(?=PARTDAY FILL? (?:$|COMMA|STOP)|DATE PARTDAY? FILL? (?:$|COMMA|STOP))", "rather", Tag.INSTEAD),
    _retag("(?<=[DATE PARTDAY CLOCK])FILL(?=$|COMMA|STOP|ASK)", "rather", Tag.INSTEAD),
    _retag("STOPPED(?=CLOCK)", "done", Tag.WHOLE),
    _retag("STOPPED(?=(?:WORD{1,2}|PARTDAY|FILL) (?:$|[STOP COMMA AND BUT]))", "after", Tag.WHOLE),
    _retag("(?<=ABOUT)MOVE(?=COMMA|STOP|$)", "", Tag.WORD),
    _retag("(?<=DONE)PART(?=$|STOP|COMMA)", "body", Tag.SHARE, "1", 1.0),
    _retag("(?<=[MISS MISS_IT])WEEKLY(?!AND WEEKLY)", "", Tag.DATE),
    _retag("(?<=[DONE MISS MISS_IT STOPPED FOR OF])WEEKLY(?=ACT|SESSION|ONE|STOP|COMMA|BUT|FILL|$)", "", Tag.DATE),
    _retag("ABOUT", "between", Tag.WORD),
    _retag("(?<=AND)BACK(?=[NUM DUR DIST FOR QUEST ABOUT])", "", Tag.FILL),
    _retag(f"(?<=[WORD ACT PLACE PARTDAY OTHER] AND)BACK{_AFTER_BACK}", "", Tag.FILL),
    _retag("NEG(?=THE|SELF|IT|COMMA)", "no", Tag.NO),
    _retag("(?<![NUM ONE DUR MORE HALF])UNIT(?=ACT|OF|ON|DASH ACT|AT|IN|FOR)", "hour", Tag.DUR, "60", 60.0),
    _retag("PLAN(?=PLACE|THE PLACE)", "", Tag.OFF),
    _retag("(?:^|(?<=[STOP COMMA SELF AND]))SUDDEN(?=THE [DIST DUR])", "", Tag.DONE),
    _retag("(?<=ACT TO THE WORD AND)BACK(?=DATE)|(?<=ACT TO WORD AND)BACK(?=DATE)", "", Tag.FILL),
    _retag("TALLY(?=THE [WORD OTHER]|OTHER|WORD)", "", Tag.SELF),
    _retag("COURSE(?=SUDDEN)", "eased", Tag.FILL),
    _retag("SIDE(?=WORD)", "both", Tag.WORD),
    _retag("(?<=WEIGH IS)MOOD", "", Tag.FILL),
    _retag("PART(?=THE WORD)", "body", Tag.FILL),
    _retag("(?<=THE WORD IS)BACK(?![IS SENSE])", "", Tag.FILL),
    _retag("(?<=FROM DATE IS)MOVE|(?<=AFTER DATE IS)MOVE", "", Tag.WORD),
    _retag("(?<!THE)(?<!SENSE)BACK(?=DATE|ON DATE|THE DATE|ON THE DATE|BY DATE)", "", Tag.RETURN),
    _retag("(?<=[IS AMPM] FILL)BACK(?=AND SELF|SELF|STOP|COMMA|FROM)", "", Tag.FILL),
    _retag("(?<=[DUR DIST UNIT ACT NUM])BACK", "", Tag.FILL),
    _retag("BACK", "", Tag.PART, "back"),
    _retag("(?<=PART IS)SHARE(?=$|STOP|COMMA|FILL|DATE|BUT|AND)", "1", Tag.WELL),
    _retag("(?<=[DUR NUM DIST MORE])SIDE(?!PART|SENSE)", "left", Tag.AGO),
    _retag("(?<=OTHER)MOVE(?=STOP|COMMA|$)", "", Tag.FILL),
    _retag("(?<=THE)THEN(?=WORD)", "", Tag.WORD),
    _retag("(?<=WORD DASH)WANT", "", Tag.WORD),
    _retag("^WEEKLY(?=FILL? [ACT SESSION] [DONE IS STOPPED COLON COMMA MISS MISS_IT NEG])", "", Tag.DATE),
    _retag("PART(?=THE? GARMENT)", "body", Tag.FILL),
    _retag("(?:^|(?<=[STOP COMMA]))LATER(?=SENSE)", "", Tag.PART, "back"),
    _retag("(?<=BECAUSE)WANT(?=$|STOP|COMMA|AND)", "leave", Tag.STOPPED),
    _retag("^SIDE(?=SELF)", "right", Tag.FILL),
    _retag("DONE(?=TO WORD)", "", Tag.WORD),
    _retag("(?<=SURE_KEY)MOVE|(?<=SURE_KEY THE)MOVE", "", Tag.WORD),
    _retag("(?<=SELF)SIDE(?!FILL? PART)|(?<=SELF FILL)SIDE(?!FILL? PART)", "left", Tag.WORD),
    _retag(_HALF_ALONE, "", Tag.SHARE, "0.5", 0.5),
)  # fmt: skip


def _that_day(items: list[Item]) -> None:
    """`busy on tuesday, so I skipped that day`: the day named before."""
    named: Item | None = None
    for place, item in enumerate(items):
        if item.tag is Tag.DATE and item.value != THAT_DAY:
            named = item
        elif item.tag is Tag.DATE:
            value = named.value if named else ""
            items[place] = item._replace(tag=Tag.DATE if named else Tag.FILL, value=value, n=named.n if named else 0.0)


THAT_DAY = "that_day"


_LED = Led(retag.lead for retag in RETAGS)


def in_context(items: list[Item]) -> list[Item]:
    """*items* with each such word given the tag that it has here."""
    line = "".join([item.tag for item in items])
    if Tag.DATE in line:
        _that_day(items)
        line = "".join([item.tag for item in items])
    there, values = set(line), {item.value for item in items}
    for number in _LED.due(there):
        retag = RETAGS[number]
        if (retag.value and retag.value not in values) or not retag.needs <= there:
            continue
        for hit in retag.pattern.finditer(line):
            place = hit.start()
            old = items[place]
            if not retag.value or retag.value == old.value:
                items[place] = Item(retag.tag, retag.new or old.value, old.first, old.last, retag.n or old.n)
                line = line[:place] + retag.tag + line[place + 1 :]
                there.add(retag.tag)
                values.add(items[place].value)
    return items
