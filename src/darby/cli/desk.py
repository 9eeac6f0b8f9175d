"""`darby desk`: serve it, copy it, put a copy back. Django is loaded only here, when it is asked for."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, NoReturn

import typer

from darby.cli.plain import Plain
from darby.cli.setting import spoken
from darby.words import Verbatim, say

PORT = 8642


def _help(code: str) -> str:
    return say(f"cli.help.{code}", language=spoken())


app = typer.Typer(help=_help("desk"), rich_markup_mode=None, invoke_without_command=True)
Data = Annotated[Path | None, typer.Option("--data", metavar="FOLDER", help=_help("desk-data"), show_default=False)]


@app.callback()
def desk(
    context: typer.Context,
    data: Data = None,
    port: Annotated[int, typer.Option("--port", metavar="PORT", min=0, max=65535, help=_help("desk-port"))] = PORT,
    share: Annotated[bool, typer.Option("--share", help=_help("desk-share"))] = False,
    name: Annotated[str, typer.Option("--name", metavar="NAME", help=_help("desk-name"), show_default=False)] = "",
    no_browser: Annotated[bool, typer.Option("--no-browser", help=_help("desk-no-browser"))] = False,
) -> None:
    """Serve the desk on this machine."""
    from darby.desk.home import Home, usual

    home = Home(data.resolve()) if data is not None else usual()
    context.obj = home
    if context.invoked_subcommand is not None:
        return
    from darby.desk.open_now import IsOpen
    from darby.desk.serving import serve
    from darby.desk.sharing.network import NoNetwork

    try:
        serve(home, port=port, browser=not no_browser, say=_say, share=share, name=name)
    except KeyboardInterrupt:
        raise typer.Exit from None
    except NoNetwork:
        _refuse("desk.share.no-network")
    except IsOpen:
        _refuse("desk.put-back-now", folder=Verbatim(home.folder))
    except OSError as error:
        _refuse("desk.cannot-serve", why=Verbatim(error.strerror or error), folder=Verbatim(home.folder))


@app.command("backup", cls=Plain, help=_help("desk-backup"))
def backup(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(metavar="FILE", help=_help("desk-file"), show_default=False)],
) -> None:
    """Copy everything into one file."""
    from darby.desk.backup import NoBackup
    from darby.desk.backup import backup as copy

    try:
        copy(context.obj, file)
    except NoBackup as error:
        _refuse(error.code, **{name: Verbatim(value) for name, value in error.values.items()})
    except OSError as error:
        _refuse("cli.cannot-write", file=Verbatim(error.filename or file))
    _say("cli.wrote", str(file))


@app.command("restore", cls=Plain, help=_help("desk-restore"))
def restore(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(metavar="FILE", help=_help("desk-file"), show_default=False)],
) -> None:
    """Put a copy back."""
    from darby.desk.backup import NoBackup
    from darby.desk.backup import restore as put_back
    from darby.desk.open_now import IsOpen

    try:
        before = put_back(context.obj, file)
    except NoBackup as error:
        _refuse(error.code, **{name: Verbatim(value) for name, value in error.values.items()})
    except IsOpen:
        _refuse("desk.is-open", folder=Verbatim(context.obj.folder))
    except OSError as error:
        _refuse("cli.cannot-write", file=Verbatim(error.filename or file))
    _say("desk.restored", str(file))
    if before is not None:
        _say("desk.stood-before", str(before))


def _say(code: str, value: str) -> None:
    typer.echo(say(code, {"file": Verbatim(value)}, spoken()) if code else value)


def _refuse(code: str, **values: object) -> NoReturn:
    typer.echo(say(code, values, spoken()), err=True)
    raise typer.Exit(2)
