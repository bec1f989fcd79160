"""Briefs, and every text that was saved of them."""

import sqlalchemy as sa
from alembic import op

revision = "1"
down_revision = None


def upgrade() -> None:
    op.create_table(
        "brief",
        sa.Column("number", sa.Integer, primary_key=True),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("title", sa.String, nullable=False),
        sa.Column("place", sa.String, nullable=False),
        sa.Column("use", sa.String, nullable=False),
        sa.Column("changed", sa.String(32), nullable=False),
        sa.Column("set_aside", sa.Boolean, nullable=False),
        sa.Column("copied_from", sa.Integer, nullable=True),
        sqlite_autoincrement=True,
    )
    op.create_index("brief_by_change", "brief", ["changed"])
    op.create_table(
        "revision",
        sa.Column("brief", sa.Integer, sa.ForeignKey("brief.number"), primary_key=True),
        sa.Column("version", sa.Integer, primary_key=True),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("saved", sa.String(32), nullable=False),
        sa.Column("back_to", sa.Integer, nullable=True),
    )
