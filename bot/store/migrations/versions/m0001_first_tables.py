"""The first tables."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    op.create_table(
        "attempt",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("mark", sa.String(length=64), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_attempt")),
    )
    with op.batch_alter_table("attempt", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_attempt_mark"), ["mark"], unique=False)

    op.create_table(
        "button",
        sa.Column("id", sa.String(length=64), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=True),
        sa.Column("opens", sa.Text(), nullable=True),
        sa.Column("shown_at", sa.Text(), nullable=False),
        sa.Column("used", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_button")),
    )
    with op.batch_alter_table("button", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_button_who"), ["who"], unique=False)

    op.create_table(
        "clock",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_clock")),
    )
    op.create_table(
        "inbox",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("door", sa.String(length=40), nullable=False),
        sa.Column("transport_id", sa.Text(), nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("sender", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=True),
        sa.Column("press", sa.Text(), nullable=True),
        sa.Column("file", sa.Text(), nullable=True),
        sa.Column("done", sa.Boolean(), nullable=False),
        sa.Column("dead", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_inbox")),
        sa.UniqueConstraint("door", "transport_id", name=op.f("uq_inbox_door")),
    )
    with op.batch_alter_table("inbox", schema=None) as batch_op:
        batch_op.create_index("ix_inbox_done", ["done", "id"], unique=False)

    op.create_table(
        "outbox",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("door", sa.String(length=40), nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("about", sa.Text(), nullable=False),
        sa.Column("buttons", sa.Text(), nullable=False),
        sa.Column("files", sa.Text(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("sent", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_outbox")),
        sa.UniqueConstraint("key", name=op.f("uq_outbox_key")),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("outbox", schema=None) as batch_op:
        batch_op.create_index("ix_outbox_sent", ["sent", "door", "id"], unique=False)

    op.create_table(
        "person",
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("profile", sa.Text(), nullable=True),
        sa.Column("draft", sa.Text(), nullable=True),
        sa.Column("question", sa.Text(), nullable=True),
        sa.Column("snooze", sa.Text(), nullable=True),
        sa.Column("marks", sa.Text(), nullable=False),
        sa.Column("since", sa.Text(), nullable=True),
        sa.Column("consent_at", sa.Text(), nullable=True),
        sa.Column("stale", sa.Boolean(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("last_id", sa.Text(), nullable=True),
        sa.Column("role", sa.Text(), nullable=True),
        sa.Column("coach", sa.Text(), nullable=True),
        sa.Column("waiting_since", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("who", name=op.f("pk_person")),
    )
    with op.batch_alter_table("person", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_person_coach"), ["coach"], unique=False)

    op.create_table(
        "tombstone",
        sa.Column("mark", sa.String(length=64), nullable=False),
        sa.Column("erased_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("mark", name=op.f("pk_tombstone")),
    )
    op.create_table(
        "address",
        sa.Column("door", sa.String(length=40), nullable=False),
        sa.Column("chat", sa.String(length=200), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("used_at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_address_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("door", "chat", name=op.f("pk_address")),
    )
    with op.batch_alter_table("address", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_address_who"), ["who"], unique=False)

    op.create_table(
        "clearance",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("told_by", sa.Text(), nullable=False),
        sa.Column("from_id", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_clearance_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_clearance")),
        sa.UniqueConstraint("who", "from_id", name=op.f("uq_clearance_who")),
    )
    op.create_table(
        "due",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("ordinal", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("rank", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_due_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_due")),
        sa.UniqueConstraint("who", "kind", name=op.f("uq_due_who")),
    )
    with op.batch_alter_table("due", schema=None) as batch_op:
        batch_op.create_index("ix_due_at", ["at", "rank", "who"], unique=False)

    op.create_table(
        "entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("status", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=True),
        sa.Column("minutes", sa.Float(), nullable=True),
        sa.Column("km", sa.Float(), nullable=True),
        sa.Column("share", sa.Float(), nullable=True),
        sa.Column("effort", sa.Float(), nullable=True),
        sa.Column("planned_on", sa.Date(), nullable=True),
        sa.Column("from_id", sa.Text(), nullable=False),
        sa.Column("kept_by", sa.Text(), nullable=False),
        sa.Column("gone_by", sa.Text(), nullable=True),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_entry_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_entry")),
        sa.UniqueConstraint("who", "kept_by", "place", name=op.f("uq_entry_who")),
    )
    with op.batch_alter_table("entry", schema=None) as batch_op:
        batch_op.create_index("ix_entry_who_on", ["who", "on"], unique=False)

    op.create_table(
        "fixed",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("session", sa.Text(), nullable=True),
        sa.Column("from_id", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_fixed_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_fixed")),
    )
    with op.batch_alter_table("fixed", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_fixed_who"), ["who"], unique=False)

    op.create_table(
        "flag",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("part", sa.Text(), nullable=False),
        sa.Column("side", sa.Text(), nullable=True),
        sa.Column("colour", sa.Text(), nullable=False),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("cleared_on", sa.Date(), nullable=True),
        sa.Column("from_id", sa.Text(), nullable=False),
        sa.Column("cleared_id", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_flag_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_flag")),
        sa.UniqueConstraint("who", "part", "side", "since", "from_id", name=op.f("uq_flag_who")),
    )
    with op.batch_alter_table("flag", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_flag_who"), ["who"], unique=False)

    op.create_table(
        "hold",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("codes", sa.Text(), nullable=False),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("from_id", sa.Text(), nullable=False),
        sa.Column("lifted_on", sa.Date(), nullable=True),
        sa.Column("lifted_by", sa.Text(), nullable=True),
        sa.Column("lifted_id", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_hold_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_hold")),
        sa.UniqueConstraint("who", "from_id", name=op.f("uq_hold_who")),
    )
    op.create_table(
        "invite",
        sa.Column("mark", sa.String(length=64), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=True),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("made_at", sa.Text(), nullable=True),
        sa.Column("used_at", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_invite_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("mark", name=op.f("pk_invite")),
    )
    with op.batch_alter_table("invite", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_invite_who"), ["who"], unique=False)

    op.create_table(
        "notice",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("coach", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("from_id", sa.Text(), nullable=False),
        sa.Column("passed_to", sa.Text(), nullable=True),
        sa.Column("seen_at", sa.Text(), nullable=True),
        sa.Column("seen_by", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_notice_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_notice")),
        sa.UniqueConstraint("who", "from_id", name=op.f("uq_notice_who")),
    )
    with op.batch_alter_table("notice", schema=None) as batch_op:
        batch_op.create_index("ix_notice_coach", ["coach", "seen_at"], unique=False)
        batch_op.create_index(batch_op.f("ix_notice_passed_to"), ["passed_to"], unique=False)

    op.create_table(
        "pause",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("first", sa.Date(), nullable=False),
        sa.Column("last", sa.Date(), nullable=True),
        sa.Column("ill", sa.Boolean(), nullable=False),
        sa.Column("fever", sa.Boolean(), nullable=False),
        sa.Column("from_id", sa.Text(), nullable=False),
        sa.Column("ended_id", sa.Text(), nullable=True),
        sa.Column("meant_last", sa.Date(), nullable=True),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_pause_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pause")),
        sa.UniqueConstraint("who", "from_id", name=op.f("uq_pause_who")),
    )
    op.create_table(
        "plan",
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("begin", sa.Date(), nullable=False),
        sa.Column("may_start", sa.Boolean(), nullable=False),
        sa.Column("fits", sa.Boolean(), nullable=False),
        sa.Column("earliest_race", sa.Date(), nullable=True),
        sa.Column("race_day", sa.Text(), nullable=True),
        sa.Column("warnings", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_plan_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("who", name=op.f("pk_plan")),
    )
    op.create_table(
        "session",
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("week", sa.Integer(), nullable=False),
        sa.Column("at", sa.Time(), nullable=False),
        sa.Column("purpose", sa.Text(), nullable=False),
        sa.Column("effort_low", sa.Integer(), nullable=False),
        sa.Column("effort_high", sa.Integer(), nullable=False),
        sa.Column("segments", sa.Text(), nullable=False),
        sa.Column("after", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_session_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("who", "on", name=op.f("pk_session")),
    )
    op.create_table(
        "week",
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("monday", sa.Date(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("strength", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_week_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("who", "number", name=op.f("pk_week")),
    )
    op.create_table(
        "weight",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("kg", sa.Float(), nullable=False),
        sa.Column("from_id", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["who"], ["person.who"], name=op.f("fk_weight_who"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_weight")),
        sa.UniqueConstraint("who", "from_id", name=op.f("uq_weight_who")),
    )
