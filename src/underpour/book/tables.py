"""The tables of the book as they stand now. How an older book comes to them is in ``steps``."""

from __future__ import annotations

from sqlalchemy import Boolean, Column, ForeignKey, Index, Integer, MetaData, String, Table, Text

FORM = "3"  # the newest step

METADATA = MetaData()

BRIEFS = Table(
    "brief",
    METADATA,
    Column("number", Integer, primary_key=True),
    Column("version", Integer, nullable=False),  # number of the revision that stands
    Column("title", String, nullable=False),
    Column("place", String, nullable=False),
    Column("use", String, nullable=False),
    Column("searched", String, nullable=False),  # title, place and use, letters folded
    Column("changed", String(32), nullable=False),  # UTC, as ISO 8601 writes it
    Column("set_aside", Boolean(create_constraint=False), nullable=False),
    Column("copied_from", Integer, nullable=True),  # number of the brief it was copied from
    Index("brief_by_change", "changed"),
    sqlite_autoincrement=True,  # a number is never given twice
)

REVISIONS = Table(
    "revision",
    METADATA,
    Column("brief", Integer, ForeignKey("brief.number"), primary_key=True),
    Column("version", Integer, primary_key=True),  # counted from 1
    Column("text", Text, nullable=False),
    Column("saved", String(32), nullable=False),
    Column("back_to", Integer, nullable=True),  # the revision whose text was taken up again
    Column("sitting", String(64), nullable=True),  # whose next saving may take its place; nobody's once it was seen
    Column("since", String(32), nullable=True),  # when that sitting's first text of this step was saved, UTC
)
