"""Who saved a text in one sitting, and since when: what was saved within it stands in the history once."""

import sqlalchemy as sa
from alembic import op

revision = "3"
down_revision = "2"


def upgrade() -> None:
    op.add_column("revision", sa.Column("sitting", sa.String(64), nullable=True))
    op.add_column("revision", sa.Column("since", sa.String(32), nullable=True))
