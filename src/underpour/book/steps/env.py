"""What alembic walks the steps with: the connection that it was handed."""

from alembic import context

context.configure(connection=context.config.attributes["connection"])
context.run_migrations()
