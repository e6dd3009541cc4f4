"""`ask`: the open questions of a job in their order, what each answer does, and answers written into the job file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ..console import COLOR, EXIT_STATUS, STATUS, answer, say, waiting, width
from ..errors import BeamcheckError
from .talk import Stopped, asked, at_a_terminal, in_short, line_of

if TYPE_CHECKING:
    from ..checks.core.asking.open_questions import OpenQuestion, WorkedAnswer
    from ..checks.core.asking.question import PlausibleAnswer
    from ..checks.core.result import JobResult
    from ..checks.pieces import Memory
    from ..jobfile.keep import JobFile

WHO = click.Choice(["tape", "camera", "meter", "you", "supplier", "grader", "engineer", "department"])
MEASURED = ("length", "percent", "force")  # a number that is typed is the measure itself
SECONDS = 3.0  # for what answers do; what is not tried by then is not shown
MOST_EVIDENCE = 15_000_000  # bytes


@click.command("ask", short_help="Go through the open questions; answers go into the job file.", epilog=EXIT_STATUS)
@click.argument("job", metavar="JOB.toml")
@click.option("--who", type=WHO, help="Only what these can answer: tape, camera, meter, grader, engineer ...")
@click.option("--print", "print_", is_flag=True, help="Print the questions as a page for pen and paper; ask nothing.")
@click.option(
    "--answer", "given", multiple=True, metavar="ID=VALUE", help="Answer a question by its id; again for each."
)
@click.option("--by", default="", metavar="NAME", help="Who found it out: a name or a role.")
@click.option("--evidence", default="", metavar="FILE", help="Photo or paper for it; it is copied into photos/.")
@click.option("--document", default="", metavar="NAME", help="With --answer: the letter that rules on it.")
@click.option(
    "--up-to", "up_to", multiple=True, metavar="PART=FORCE", help="With --document: the forces that it covers."
)
@click.option("--ask/--no-ask", "talk", default=None, help="Ask; by default at a terminal only.")
@COLOR
def ask(
    job: str, who: str | None, print_: bool, given: Sequence[str], by: str, evidence: str, document: str,
    up_to: Sequence[str], talk: bool | None, color: str,
) -> int:  # fmt: skip
    """Go through the open questions of JOB.toml, first what settles most for the least trouble.

    An answer is written at once: the value where it belongs, and an [[answer]] that says how it is known. Only the
    lines that are touched change; the file as it was stays beside it as JOB.toml.1.
    """
    from ..checks.pieces import Memory
    from ..jobfile.keep import open_job_file

    file, memory = open_job_file(job), Memory()  # one memory: after an answer only what it touches is worked out
    talking = (at_a_terminal() if talk is None else talk) and not print_ and not given
    open_before: set[str] = set()
    for text in given:
        file = _given(file, text, by, evidence, document, up_to, memory, open_before)
    with waiting(f"what answers to {job} would do"):
        result = _checked(file, memory, what_ifs=talking or print_)
    if talking:
        try:
            return _talk(file, result, who, by, color, memory)
        except Stopped:
            return _stopped(file, memory)
    if given:
        answer(result, job, color)
    else:
        say("\n".join(_page(result, who)) + "\n")
    return STATUS[result.verdict]


def _checked(file: JobFile, memory: Memory, *, what_ifs: bool) -> JobResult:
    from ..checks.job import check_job
    from ..model.reading.reader import read_job_text

    job = read_job_text(file.text, str(file.path))
    seconds = SECONDS if what_ifs else None
    return check_job(job, text=file.text, name=file.path.name, what_ifs=what_ifs, seconds=seconds, memory=memory)


def _open(result: JobResult, who: str | None) -> list[OpenQuestion]:
    return [one for one in result.questions if one.state != "idle" and who in (None, one.question.who)]


def _page(result: JobResult, who: str | None) -> Iterator[str]:
    """The questions on paper, with room to write."""
    from ..checks.core.asking.question_words import WHO as FULLY
    from ..checks.core.asking.question_words import place_of
    from ..sheet.terminal.look import CAUTION, hung, line

    columns = min(max(width(), 40), 100)
    found = _open(result, who)
    yield from hung("", f"{result.title}: {len(found)} open {'question' if len(found) == 1 else 'questions'}", columns)
    for number, one in enumerate(found, start=1):
        yield ""
        yield from hung(f"{number:>2}  ", one.question.ask, columns)
        yield from hung("    ", f"for {', '.join(one.pieces)}; {FULLY[one.question.who]}; id {one.id}", columns)
        for text in _does(one):
            yield from hung("    - ", text, columns)
        if one.question.evidence:
            yield from hung("    ", f"with it: {line(one.question.evidence)}", columns)
        yield from hung("    ", f"goes into {place_of(one)}", columns)
        yield "    answer ____________________  by ______________  date __________"
    yield ""
    yield from hung("", CAUTION, columns)


def _does(one: OpenQuestion) -> Iterator[str]:
    """Each plausible answer, with what it does where that was tried."""
    if not one.answers:
        yield from (answer.says for answer in one.question.answers)
    elif len(one.answers) < len(one.question.answers):  # the time was over
        tried = {worked.answer.says: worked for worked in one.answers}
        for answer in one.question.answers:
            yield _done(tried[answer.says]) if answer.says in tried else f"{answer.says}   not tried"
        return
    yield from map(_done, one.answers)
    if one.threshold:
        yield one.threshold


def _done(worked: WorkedAnswer) -> str:
    effects = "   ".join(f"{effect.piece} {_mark(effect.verdict)}" for effect in worked.effects)
    says = "; ".join(dict.fromkeys(effect.says for effect in worked.effects))
    return f"{worked.answer.says}   {effects}   {says}".rstrip()


def _mark(verdict: str) -> str:
    return {"passes": "ok", "fails": "NO"}.get(verdict, "?")


def _talk(file: JobFile, result: JobResult, who: str | None, by: str, color: str, memory: Memory) -> int:
    from ..checks.core.asking.question import RULING
    from ..sheet.terminal.look import hung

    later: set[str] = set()
    total = len(_open(result, who))
    if not total:
        say("No open question" + (f" for {who}" if who else "") + ".\n\n")
        answer(result, str(file.path), color)
        return STATUS[result.verdict]
    say(f"{total} questions, first what settles most for the least trouble.\n")
    say("Enter: later    w: why    q: stop (what is written stays written)\n")
    while waiting_ := [one for one in _open(result, who) if one.id not in later]:
        one = waiting_[0]
        columns = min(max(width(), 40), 100)
        left = len(waiting_)
        say(f"\n{left} open   {_who(one)}{'   for ' + ', '.join(one.pieces)}\n")
        say("\n".join(hung("", one.question.ask, columns)) + "\n")
        numbered = one.question.kind not in MEASURED
        for number, text in enumerate(_does(one), start=1):
            say("\n".join(hung(f"   {number if numbered else '-'}  ", text, columns)) + "\n")
        if not one.question.answers and one.question.field != RULING:
            say("   r  an engineer has ruled on it in writing\n")
        made = _answered(file, one, by, columns)
        if made is None:
            later.add(one.id)
            continue
        file, by = made
        with waiting("checking"):
            result = _checked(file, memory, what_ifs=True)
        say(_now(result))
    say("\n")
    answer(result, str(file.path), color)
    return STATUS[result.verdict]


def _who(one: OpenQuestion) -> str:
    from ..sheet.terminal.short import WHO as SHORTLY

    return SHORTLY[one.question.who]


def _answered(file: JobFile, one: OpenQuestion, by: str, columns: int) -> tuple[JobFile, str] | None:
    """The file with the answer that is typed; None for later. What cannot be read there is asked again."""
    from ..checks.core.asking.question import RULING
    from ..jobfile.answer import with_answer
    from ..sheet.terminal.look import hung

    while True:
        text = line_of("what was ruled, in writing: " if one.question.field == RULING else "answer: ")
        if text == "":
            return None
        if text.casefold() == "w":
            told = f"{one.question.why} Goes into {one.question.field}." + (
                f" With it: {one.question.evidence}." if one.question.evidence else ""
            )
            say("\n".join(hung("  ", told, columns)) + "\n")
            continue
        try:
            if one.question.field == RULING:
                made, who = _ruled(file, one, text)
                break
            if text.casefold() == "r" and not one.question.answers:
                made, who = _ruled(file, one, line_of("what was ruled, in writing: "))
                break
            picked = _picked(one, text)
            with_answer(
                file.text, one.question, picked, by="a trial", on=date.today().isoformat(), source=str(file.path)
            )
        except BeamcheckError as error:
            say(f"  {in_short(error)}\n")
            continue
        who = line_of(f"who found it out{f' ({by})' if by else ''}: ") or by
        photo = asked("photo or paper, file name (Enter: none): ", lambda name: _kept(name, file, one.id))
        try:
            made = with_answer(file.text, one.question, picked, by=who, evidence=photo, source=str(file.path))
        except BeamcheckError as error:
            say(f"  {in_short(error)}\n")
            continue
        break
    return _saved(file, made), who


def _ruled(file: JobFile, one: OpenQuestion, says: str) -> tuple[str, str]:
    """The text with a ruling, and who ruled: which document, and up to which forces."""
    from ..jobfile.answer import with_ruling

    by = line_of("name and license of the engineer, or the department: ")
    document = line_of("document, such as letters/R1-ridge.pdf: ")
    up_to = {}
    for part, force in one.question.forces.items():
        come = f"{abs(force):,.0f} lb"
        up_to[part] = _pounds(line_of(f"{part}: {come} come; it covers up to, lb: "))
    made = with_ruling(file.text, one.question, says=says, by=by, document=document, up_to=up_to, source=str(file.path))
    return made, by


def _pounds(text: str) -> str:
    return f"{text} lb" if text.replace(",", "").replace(".", "").isdigit() else text


def _picked(one: OpenQuestion, text: str) -> PlausibleAnswer:
    """A plausible answer by its number or words, or what was typed, as the field is measured."""
    from ..jobfile.answer import answer_of
    from ..situations.spoken import spoken_amount, spoken_length

    kind = one.question.kind
    if text.isdecimal() and kind not in MEASURED and 1 <= int(text) <= len(one.question.answers):
        return one.question.answers[int(text) - 1]
    if kind == "yes-no" and text.casefold() in ("y", "n"):
        text = {"y": "yes", "n": "no"}[text.casefold()]
    if any(text.casefold() == answer.says.casefold() for answer in one.question.answers):
        return answer_of(one.question, text)
    if kind == "length":
        text = spoken_length(text, feet=False, none=True)
    elif kind == "percent":
        text = spoken_amount(text, "moisture", "%")
    elif kind == "force" and text.replace(",", "").isdigit():
        per_area = any("psf" in answer.says for answer in one.question.answers)
        text = f"{text} {'psf' if per_area else 'lb'}"
    return answer_of(one.question, text)


def _given(
    file: JobFile, text: str, by: str, evidence: str, document: str, up_to: Sequence[str], memory: Memory,
    open_before: set[str],
) -> JobFile:  # fmt: skip
    """An answer of the command line, `ID=VALUE`; with a document what was ruled on it there.

    `open_before` gathers the questions that were open: one that an answer before it has settled is told, and left.
    """
    from ..errors import UnknownName
    from ..jobfile.answer import with_answer, with_ruling

    name, equals, value = text.partition("=")
    if not equals:
        raise click.BadParameter(f"{text!r} is not of the form ID=VALUE", param_hint="--answer")
    if not by:
        raise click.UsageError('--by says who found it out, such as --by "the carpenter"')
    result = _checked(file, memory, what_ifs=False)
    open_before.update(one.id for one in result.questions)
    for one in result.questions:
        if one.id == name.strip() and document:
            forces = {
                part.strip(): _pounds(force.strip()) for part, _, force in (each.partition("=") for each in up_to)
            }
            made = with_ruling(
                file.text, one.question, says=value.strip(), by=by, document=document, up_to=forces,
                source=str(file.path),
            )  # fmt: skip
            return _saved(file, made)
        if one.id == name.strip():
            photo = _kept(evidence, file, one.id)
            made = with_answer(
                file.text, one.question, _picked(one, value.strip()), by=by, evidence=photo, source=str(file.path)
            )
            return _saved(file, made)
    if name.strip() in open_before:
        say(f"  left      {name.strip()}: an answer before it has settled it\n")
        return file
    raise UnknownName("open question", name, [one.id for one in result.questions])


def _saved(file: JobFile, made: str) -> JobFile:
    from ..jobfile.keep import save
    from ..jobfile.layout import changed_lines

    after = save(file, made)
    for number, text in changed_lines(file.text, made):
        if text.strip():
            say(f"  written   line {number:<5}{text.strip()[:60]}\n")
    return after


def _kept(name: str, file: JobFile, question: str) -> str:
    """Evidence copied beside the job without the place where it was taken, with its digest; '' for none."""
    from ..jobfile.kept_files import keep

    if not name:
        return ""
    source = Path(name).expanduser()
    try:
        if source.stat().st_size > MOST_EVIDENCE:
            raise BeamcheckError(f"{name} is larger than {MOST_EVIDENCE / 1e6:g} MB")
        data = source.read_bytes()
    except OSError as error:
        raise BeamcheckError(f"{name}: {error.strerror}; Enter where there is none") from None
    return keep(file.path.parent, question, data).evidence


def _now(result: JobResult) -> str:
    counts = {kind: sum(piece.verdict == kind for piece in result.pieces) for kind in ("fails", "refer", "passes")}
    left = len([one for one in result.questions if one.state != "idle"])
    marks = "  ".join(f"{piece.name} {_mark(piece.verdict)}" for piece in result.pieces[:6])
    said = f"{counts['fails']} fail, {counts['refer']} wait, {counts['passes']} pass. {left} questions left."
    return f"  {marks}   now {said}\n"


def _stopped(file: JobFile, memory: Memory) -> int:
    from ..jobfile.keep import BEFORE, open_job_file

    now = open_job_file(file.path)
    if now.digest == file.digest:
        say("Stopped: no answer was written.\n")
    else:
        say(f"Stopped. What was answered is in {file.path}; before the last answer: {file.path.name}{BEFORE}\n")
    return STATUS[_checked(now, memory, what_ifs=False).verdict]
