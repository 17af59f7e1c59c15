"""Several processes share the work: leases, tries, what is never sent, and the time zone data of due times.

Only columns and a table are added, so that a process of the version before goes on working on the same tables.
"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    op.add_column("due", sa.Column("held_until", sa.Text(), nullable=True))
    op.add_column("outbox", sa.Column("tries", sa.Integer(), nullable=False, server_default="0"))
    op.add_column("outbox", sa.Column("held_until", sa.Text(), nullable=True))
    op.add_column("outbox", sa.Column("parked", sa.Text(), nullable=True))
    op.add_column("clock", sa.Column("zones", sa.Text(), nullable=True))
    op.add_column("inbox", sa.Column("edits", sa.Text(), nullable=True))
    op.create_table(
        "route",
        sa.Column("door", sa.String(length=40), nullable=False),
        sa.Column("chat", sa.String(length=200), nullable=False),
        sa.Column("process", sa.String(length=40), nullable=False),
        sa.Column("until", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("door", "chat", name=op.f("pk_route")),
    )
    op.create_index(op.f("ix_route_process"), "route", ["process"])
    unsent = sa.text("NOT sent")
    columns = ["door", "chat", "id"]
    op.create_index("ix_outbox_chat", "outbox", columns, sqlite_where=unsent, postgresql_where=unsent)
