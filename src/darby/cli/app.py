"""The commands a plasterer types. Each does one thing and hands the rest to a module of its own."""

from __future__ import annotations

import json
from dataclasses import asdict, replace
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from darby.cli.desk import app as desk
from darby.cli.plain import Plain
from darby.cli.setting import Setting, console, spoken
from darby.words import Verbatim, say

if TYPE_CHECKING:
    from collections.abc import Mapping

    from darby.answers import Answers
    from darby.job import Job, JobError
    from darby.measure.faults import Fault
    from darby.measure.units import System
    from darby.papers import Paper


def _help(code: str) -> str:
    return say(f"cli.help.{code}", language=spoken())


app = typer.Typer(help=_help("darby"), no_args_is_help=True, rich_markup_mode=None, pretty_exceptions_enable=False)
app.add_typer(desk, name="desk")

File = Annotated[Path, typer.Argument(metavar="FILE", help=_help("file"), show_default=False)]
AsJson = Annotated[bool, typer.Option("--json", help=_help("json"))]
Spanish = Annotated[bool, typer.Option("--es", help=_help("es"))]
Metric = Annotated[bool, typer.Option("--metric", help=_help("metric"))]


@app.callback()
def _darby(
    version: Annotated[bool, typer.Option("--version", "-V", help=_help("version"), is_eager=True)] = False,
) -> None:
    if version:
        from darby import __version__

        typer.echo(f"darby {__version__}")
        raise typer.Exit


@app.command(cls=Plain, help=_help("new"))
def new(
    file: Annotated[Path, typer.Argument(metavar="FILE", help=_help("new-file"), show_default=False)],
    firm: Annotated[Path | None, typer.Option("--firm", metavar="FILE", help=_help("firm"), show_default=False)] = None,
) -> None:
    """Write a job file to fill in."""
    from darby.cli.starter import write_starter

    setting = _setting(es=False, metric=False)
    try:
        written = write_starter(file, firm)
    except OSError as error:
        if file.exists():
            _refuse(setting.say("cli.there-already", file=Verbatim(file)))
        _refuse(setting.say("cli.cannot-write", file=Verbatim(error.filename or file)))
    for path in written:
        typer.echo(setting.say("cli.wrote", file=Verbatim(path)))
    typer.echo(setting.say("cli.next-check", file=Verbatim(file)))


@app.command(cls=Plain, help=_help("check"))
def check(file: File, as_json: AsJson = False, es: Spanish = False) -> None:
    """Say everything that is wrong with a job file."""
    job = _load(file, es=es, as_json=as_json)
    setting = _setting(es=es, metric=False, job=job)
    if as_json:
        _print_json({"faults": [], "assumed": [n.code for n in job.assumed], "job_hash": job.hash})
        return
    from darby.cli.tables import print_line, print_lines
    from darby.measure import unit
    from darby.tables.pages import assumed_lines
    from darby.working import Quantity

    out = console()
    print_line(
        out, setting.say("cli.check-good", name=Verbatim(job.name), surfaces=Quantity(len(job.surfaces), unit("walls")))
    )
    print_lines(out, assumed_lines(job.assumed, setting))


@app.command(cls=Plain, help=_help("answer"))
def answer(
    file: File,
    as_json: AsJson = False,
    es: Spanish = False,
    metric: Metric = False,
    stage: Annotated[
        str | None, typer.Option("--stage", metavar="PART", help=_help("stage"), show_default=False)
    ] = None,
) -> None:
    """Say what to do."""
    job = _load(file, es=es, as_json=as_json)
    answers = _answer(job, es=es)
    if stage is not None:
        answers = _with_slow(answers, stage)
    if as_json:
        document = answers.to_json()
        if stage is not None:
            if stage not in document["answers"]:
                _refuse(_no_stage(stage, es=es))
            document = document["answers"][stage]
        _print_json(document)
    else:
        from darby.cli.tables import print_page
        from darby.tables.pages import page_of, pages

        setting = _setting(es=es, metric=metric, job=job)
        wanted = pages(answers, setting) if stage is None else page_of(stage, answers, setting)
        if stage is not None and not wanted and stage not in answers.stages:
            _refuse(_no_stage(stage, es=es))
        out = console()
        for page in wanted:
            print_page(out, page)
    if stage is not None:
        _stop_at_faults(answers, stage, es=es)
    raise typer.Exit(1 if answers.unanswered() else 0)


@app.command(cls=Plain, help=_help("why"))
def why(
    file: File,
    key: Annotated[str, typer.Argument(metavar="NUMBER", help=_help("key"), show_default=False)] = "",
    as_json: AsJson = False,
    es: Spanish = False,
    metric: Metric = False,
) -> None:
    """Show the working behind a number."""
    from darby.cli.whys import called, nearest, print_whys

    job = _load(file, es=es, as_json=as_json)
    answers = _answer(job, es=es)
    setting = _setting(es=es, metric=metric, job=job)
    if as_json:
        name, working = called(answers, key), answers.to_json()["working"]
        found = {k: step for k, step in working.items() if not name or k == name or k.startswith(f"{name}/")}
        if found:
            _print_json(found)
            return
    elif print_whys(console(), answers, key, setting):
        return
    elif key:
        from darby.answers import with_later

        if print_whys(console(), with_later(answers), key, setting):
            return
    near = nearest(answers, key)
    perhaps = " " + setting.say("cli.no-step-near", near=Verbatim(", ".join(near))) if near else ""
    _refuse(setting.say("cli.no-step", key=Verbatim(key)) + perhaps)


@app.command("days", cls=Plain, help=_help("days"))
def days(
    files: Annotated[list[Path], typer.Argument(metavar="FILE...", help=_help("days-files"), show_default=False)],
    on: Annotated[str, typer.Option("--on", metavar="DATE", help=_help("days-on"), show_default=False)] = "",
    as_json: AsJson = False,
    es: Spanish = False,
) -> None:
    """List what comes next on all open jobs."""
    from datetime import date

    from darby.cli.days_list import job_files, open_json, print_open

    setting = _setting(es=es, metric=False)
    try:
        day = date.fromisoformat(on) if on else date.today()
    except ValueError:
        _refuse(setting.say("cli.bad-day", found=Verbatim(on)))
    try:
        paths = job_files(files)
    except FileNotFoundError as error:
        _refuse(setting.say("cli.no-jobs-in", folder=Verbatim(error.args[0])))
    named: dict[str, Answers] = {}
    for path in paths:
        try:
            named[str(path)] = _answer(_load(path, es=es), es=es)
        except typer.Exit:  # its faults are said; the other jobs stand
            continue
    if as_json:
        _print_json(open_json(named, day))
    else:
        print_open(console(), named, day, setting)
    raise typer.Exit(2 if len(named) < len(paths) else 0)


@app.command("sum", cls=Plain, help=_help("sum"))
def quick(
    words: Annotated[
        list[str] | None, typer.Argument(metavar="WALL", help=_help("sum-words"), show_default=False)
    ] = None,
    as_json: AsJson = False,
    es: Spanish = False,
    metric: Metric = False,
) -> None:
    """Work one wall in one line."""
    from darby.measure import Unreadable
    from darby.tables.quick import QuickWall, quick_line, quick_wall

    setting = _setting(es=es, metric=metric)
    text = " ".join(words or ())
    try:
        wall: QuickWall = quick_wall(text)
    except Unreadable as error:
        found, allowed = Verbatim(error.fault.found), Verbatim(error.fault.allowed)
        _refuse(setting.say("cli.sum-unreadable", found=found, allowed=allowed))
    if as_json:
        _print_json(wall.plain())
        return
    from darby.cli.tables import print_line

    for line in quick_line(wall, setting):
        print_line(console(), line)


@app.command(cls=Plain, help=_help("papers"))
def papers(
    file: File,
    into: Annotated[Path, typer.Option("--into", metavar="FOLDER", help=_help("into"))] = Path("papers"),
    also: Annotated[
        list[str] | None, typer.Option("--with", metavar="PART", help=_help("papers-with"), show_default=False)
    ] = None,
    es: Spanish = False,
) -> None:
    """Write the papers."""
    from darby.papers import NotOurs, each_paper, not_made, write_set

    job = _load(file, es=es)
    answers = _answer(job, es=es)
    if es:
        answers = replace(answers, job=job.spoken("es"))
    setting = _setting(es=es, metric=False, job=job)
    asked = _no_papers()
    if also:
        from darby.papers.filled.on_request import ALL, ON_REQUEST, on_request  # slow stages, which no other run loads

        wrong = next((name for name in also if name not in (*ON_REQUEST, ALL)), None)
        if wrong is not None:
            _refuse(setting.say("cli.no-stage", found=Verbatim(wrong), allowed=", ".join((*ON_REQUEST, ALL))))
        answers, asked = on_request(answers, also)
    folder = into / file.stem
    try:
        more = (named for papers in asked.values() for named in papers.items())
        names = write_set(chain(each_paper(answers), more), folder)
    except NotOurs as error:
        others = Verbatim(", ".join(error.names))
        _refuse(setting.say("cli.not-ours", folder=Verbatim(error.folder), names=others))
    except OSError as error:
        _refuse(setting.say("cli.cannot-write", file=Verbatim(error.filename or folder)))
    for name in names:
        typer.echo(setting.say("cli.wrote", file=Verbatim(folder / name.name)))
    missing = list(not_made(answers, setting.language))
    missing += [setting.say(f"cli.not-made.{stage}") for stage, papers in asked.items() if not papers]
    for said in missing:
        typer.echo(said, err=True)
    for stage in asked:
        _stop_at_faults(answers, stage, es=es)
    raise typer.Exit(1 if missing or answers.unanswered() else 0)


@app.command(cls=Plain, help=_help("rules"))
def rules(
    words: Annotated[
        list[str] | None, typer.Argument(metavar="WORDS", help=_help("rules-words"), show_default=False)
    ] = None,
    show: Annotated[
        str | None, typer.Option("--show", metavar="FIGURE", help=_help("show"), show_default=False)
    ] = None,
    as_json: AsJson = False,
    es: Spanish = False,
    metric: Metric = False,
) -> None:
    """List, search and show the rule book."""
    from darby.cli.rules import print_rules

    setting = _setting(es=es, metric=metric)
    if not print_rules(console(), words or (), show, setting, as_json=as_json):
        _refuse(setting.say("cli.no-rule", found=Verbatim(show or " ".join(words or ()))))


@app.command(cls=Plain, help=_help("ask"))
def ask(
    words: Annotated[list[str], typer.Argument(metavar="WORDS", help=_help("ask-words"), show_default=False)],
    file: Annotated[Path | None, typer.Option("--job", metavar="FILE", help=_help("job"), show_default=False)] = None,
    at: Annotated[str, typer.Option("--at", metavar="WALL", help=_help("at"), show_default=False)] = "",
    as_json: AsJson = False,
    es: Spanish = False,
    metric: Metric = False,
) -> None:
    """Answer a question, or find a fault."""
    from darby.cli.ask import asked, plain, print_asked

    job = _load(file, es=es, as_json=as_json) if file is not None else None
    answers = _answer(job, es=es) if job is not None else None
    setting = _setting(es=es, metric=metric, job=job)
    try:
        told, setting = asked(words, answers, setting, es=es, at=at)
    except KeyError:
        allowed = Verbatim(", ".join(s.id for s in job.surfaces) if job is not None else "-")
        _refuse(setting.say("ask.no-wall", found=Verbatim(at), allowed=allowed))
    if as_json:
        _print_json(plain(told, setting))
    else:
        print_asked(console(), told, answers, setting)
    raise typer.Exit(0 if told.filled is not None else 1)


@app.command(cls=Plain, help=_help("pocket"))
def pocket(
    firm: Annotated[Path | None, typer.Option("--firm", metavar="FILE", help=_help("firm"), show_default=False)] = None,
    into: Annotated[Path, typer.Option("--into", metavar="FILE", help=_help("pocket-into"))] = Path("pocket.html"),
    prices: Annotated[bool, typer.Option("--prices", help=_help("pocket-prices"))] = False,
    es: Spanish = False,
) -> None:
    """Write the pocket sheet."""
    from darby.job import JobError
    from darby.pocket import MOST_BYTES, TooLarge, write_sheet
    from darby.rulebook import BookError

    setting = _setting(es=es, metric=False)
    if prices and firm is None:
        _refuse(setting.say("pocket.prices-need-firm"))
    try:
        write_sheet(into, firm, language=setting.language, prices=prices)
    except JobError as error:
        _refuse_faults(error, firm or into, es=es)
    except BookError as error:
        _refuse(setting.say("cli.book", why=str(error)))
    except TooLarge as error:
        _refuse(setting.say("pocket.too-large", size=str(error.size), most=str(MOST_BYTES)))
    except OSError:
        _refuse(setting.say("cli.cannot-write", file=Verbatim(into)))
    typer.echo(setting.say("cli.wrote", file=Verbatim(into)))
    if prices:
        typer.echo(setting.say("pocket.prices.warning"))
    typer.echo(setting.say("pocket.next", file=Verbatim(into.name)))


@app.command(cls=Plain, help=_help("schema"))
def schema(firm: Annotated[bool, typer.Option("--firm", help=_help("schema-firm"))] = False) -> None:
    """Print the JSON Schema of a job file."""
    from darby.job import schema as job_schema

    _print_json(job_schema("firm" if firm else "job"))


def _setting(*, es: bool, metric: bool, job: Job | None = None) -> Setting:
    system: System = "metric" if metric else job.system if job is not None else "us"
    return Setting("es" if es else spoken(), system)


def _load(file: Path, *, es: bool, as_json: bool = False) -> Job:
    """The job, or every fault of it on standard error and exit 2."""
    from darby.job import JobError, load

    try:
        return load(file)
    except JobError as error:
        _refuse_faults(error, file, es=es, as_json=as_json)


def _refuse_faults(error: JobError, file: Path, *, es: bool, as_json: bool = False) -> NoReturn:
    """Every fault on standard error, and exit 2."""
    setting = _setting(es=es, metric=False)
    if as_json:
        _print_json({"faults": [asdict(f) for f in error.faults]})
    from darby.cli.tables import print_line

    out = console(err=True)
    for fault in error.faults:
        print_line(out, fault_line(fault, setting), hang=4)
    print_line(out, setting.say("cli.faults", count=str(len(error.faults)), file=Verbatim(file)))
    raise typer.Exit(2) from None


def fault_line(fault: Fault, setting: Setting) -> str:
    """One fault in words: where, what was found, what is allowed, what is nearest."""
    said = setting.say(fault.code, place=Verbatim(fault.place), found=Verbatim(fault.found), allowed=fault.allowed)
    nearest = setting.say("job.nearest", nearest=Verbatim(fault.nearest)) if fault.nearest else ""
    return f"{said} {nearest}".rstrip()


def _answer(job: Job, *, es: bool) -> Answers:
    from darby.answers import answer as answer_job
    from darby.rulebook import BookError

    try:
        return answer_job(job)
    except BookError as error:
        _refuse(_setting(es=es, metric=False, job=job).say("cli.book", why=str(error)))


def _no_papers() -> dict[str, Mapping[str, Paper | bytes]]:
    return {}


def _with_slow(answers: Answers, stage: str) -> Answers:
    """The answers, the slow stages run too if ``stage`` is one of them."""
    from darby.answers import STAGES, with_later

    slow = any(s.name == stage and s.pace == "later" for s in STAGES)
    return with_later(answers) if slow else answers


def _stop_at_faults(answers: Answers, stage: str, *, es: bool) -> None:
    """What stopped a slow stage on standard error, and exit 2: a piece longer than any bar, readings in one line."""
    from darby.cli.tables import print_line
    from darby.tables.laid import laid_faults

    found = laid_faults(answers, stage)
    setting = _setting(es=es, metric=False)
    for fault in found:
        print_line(console(err=True), fault_line(fault, setting), hang=4)
    if found:
        raise typer.Exit(2)


def _no_stage(stage: str, *, es: bool) -> str:
    from darby.answers import STAGES

    return _setting(es=es, metric=False).say(
        "cli.no-stage", found=Verbatim(stage), allowed=", ".join(s.name for s in STAGES)
    )


def _refuse(message: str) -> NoReturn:
    typer.echo(message, err=True)
    raise typer.Exit(2)


def _print_json(document: object) -> None:
    typer.echo(json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False))
