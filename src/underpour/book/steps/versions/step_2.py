"""What is searched, with its letters folded: SQLite itself folds those of English only."""

import sqlalchemy as sa
from alembic import op

revision = "2"
down_revision = "1"


def upgrade() -> None:
    op.add_column("brief", sa.Column("searched", sa.String, nullable=False, server_default=""))
    brief = sa.table("brief", *(sa.column(name) for name in ("number", "title", "place", "use", "searched")))
    book = op.get_bind()
    for row in book.execute(sa.select(brief)).all():
        folded = f"{row.title}\n{row.place}\n{row.use}".casefold()
        book.execute(sa.update(brief).where(brief.c.number == row.number).values(searched=folded))
