"""Open a store: find it, bring its schema up to date, refuse one that is newer than the program."""

from importlib.resources import as_file, files
from pathlib import Path

from sqlalchemy import URL, Connection, inspect, text
from sqlalchemy.exc import DBAPIError

from cupwright.errors import Refused
from cupwright.store.engine import WRITING, database_url, durable_engine
from cupwright.store.sql import SqlStore

FILE_NAME = "cupwright.sqlite3"

# The newest migration. Kept here so that a start with nothing to migrate need not load Alembic.
HEAD = "0005"

_PRIVATE_FOLDER = 0o700


def open_store(where: str | Path) -> SqlStore:
    """The store in a data folder, or at a database's URL.

    Parameters
    ----------
    where : str or Path
        A folder (made if it is missing, readable by its owner alone), or a URL that has "://" in it.

    Raises
    ------
    Refused
        If the place cannot be used, is not durable, or was written by a newer program.
    """
    url = database_url(where) if isinstance(where, str) and "://" in where else _url_in(Path(where))
    try:
        engine = durable_engine(url)
        with engine.connect().execution_options(**{WRITING: True}) as connection, connection.begin():
            bring_up_to_date(connection)
    except DBAPIError as fault:
        raise Refused(
            f"The data at {_said(url)} cannot be opened: {fault.orig}.",
            todo="Check the place, or restore a backup.",
        ) from fault
    return SqlStore(engine)


def bring_up_to_date(connection: Connection) -> None:
    """Run the migrations that are missing, inside the caller's transaction: all or none."""
    if revision(connection) == HEAD:
        return
    from alembic import command
    from alembic.config import Config
    from alembic.util import CommandError

    with as_file(files("cupwright.store") / "migrations") as folder:
        config = Config()
        config.set_main_option("script_location", str(folder).replace("%", "%%"))
        config.attributes["connection"] = connection
        try:
            command.upgrade(config, "head")
        except CommandError:
            raise Refused(
                "The data was written by a newer version of this program.", todo="Update the program first."
            ) from None


def revision(connection: Connection) -> str | None:
    """Which migration the schema stands at, or None for an empty database."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    return connection.execute(text("SELECT version_num FROM alembic_version")).scalar()


def _url_in(folder: Path) -> URL:
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=_PRIVATE_FOLDER)
    except OSError as fault:
        raise Refused(
            f"The data folder {folder} cannot be used: {fault.strerror}.", todo="Choose another with --data."
        ) from None
    return URL.create("sqlite", database=str(folder / FILE_NAME))


def _said(url: URL) -> str:
    """The place as a message may show it: without the password."""
    return url.database or "" if url.get_backend_name() == "sqlite" else url.render_as_string()
