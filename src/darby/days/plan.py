"""The fewest trips: a greedy plan of one crew on all surfaces side by side, and a bound that no plan beats.

All times are whole seconds, days are ordinals, so nothing is lost in adding. The rule:

- Go on the first working day on which a day's work lowers the least number of trips still to come; if there is no
  such day before everything is ready, go when everything is. Never later than a coat may wait.
- On site, finish what is begun, take what must not wait longer, then the surface with most trips before it. A coat
  that fits a day is not begun where it does not fit the rest of it: then the longest that fits goes first.
- What had to be stopped (a coat longer than a day) goes on the next working day.
- A coat that must follow the same day (double-back) is begun only where its follow-up fits the same day.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from heapq import heappop, heappush
from math import inf

from darby.measure.units import unit

DAY = int(unit("day").scale)


@dataclass(frozen=True, slots=True)
class Task:
    """A coat: crew time, least and most wait before the next [s]; whether it may stop anywhere (lath, beads)."""

    coat: str
    time: int
    least: int = 0
    most: int | None = None
    may_stop: bool = False


@dataclass(frozen=True, slots=True)
class Chain:
    """Coats of one surface in order; ``access`` is the kind it needs set up first ("" = none).

    ``done``: days (ordinals) of the first of them, so many as are done.
    """

    at: str
    tasks: tuple[Task, ...]
    access: str = ""
    done: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Spent:
    """Crew time on one coat in one trip."""

    at: str
    coat: str
    time: int


@dataclass(frozen=True, slots=True)
class DayOut:
    """One trip: ``end`` is when the work is done, counted from the set-up; ``idle`` what of it was waiting."""

    day: int
    spent: tuple[Spent, ...]
    end: int
    idle: int
    after_full: bool
    waited: tuple[str, int] | None
    """(surface, number of the coat that had to wait)."""


@dataclass(frozen=True, slots=True)
class Lag:
    """A most-lag that is not kept: after which coat of which surface; ``impossible``: no plan could keep it."""

    at: str
    number: int
    impossible: bool


@dataclass(slots=True)
class Plan:
    """All trips; first and last day of each (surface, number of coat); most-lags that are not kept."""

    days: list[DayOut] = field(default_factory=list)
    done: dict[tuple[str, int], tuple[int, int]] = field(default_factory=dict)
    set_up: dict[str, int] = field(default_factory=dict)
    lags: list[Lag] = field(default_factory=list)
    bound: int = 0


def over(a: int, b: int) -> int:
    """``a / b`` rounded up."""
    return -(-a // b)


def whole_days(least: int) -> int:
    """Days from the day a coat is done to the first on which the next may go on: 48 h is two days later."""
    return max(1, over(least, DAY))


def window(this: Task, that: Task) -> tuple[int, int]:
    """Earliest and latest start of the follow-up, counted from the start of a coat it must follow the same day.

    It starts where the coat started: the first spot and the last must both have waited long enough and not too long.
    """
    assert this.most is not None
    shift = this.time - that.time
    return max(this.time, this.least, this.least + shift), min(this.most, this.most + shift)


def same_day(task: Task) -> bool:
    """Whether the next coat must follow before the crew goes home."""
    return task.most is not None and task.most < DAY


def longest_first(chain: Chain) -> tuple[object, ...]:
    """Of walls that press alike: what must follow the same day, then the most work.

    Neither a wall's name nor its place in the file moves a day: the name parts only walls that are alike in all else.
    """
    follows = any(same_day(task) for task in chain.tasks)
    return not follows, -sum(t.time for t in chain.tasks), *_content(chain)


def shortest_first(chain: Chain) -> tuple[object, ...]:
    """Of walls that press alike: what must follow the same day, then the least work."""
    follows = any(same_day(task) for task in chain.tasks)
    return not follows, sum(t.time for t in chain.tasks), *_content(chain)


def _content(chain: Chain) -> tuple[object, ...]:
    work = tuple((t.coat, t.time, t.least, -1 if t.most is None else t.most, t.may_stop) for t in chain.tasks)
    return work, chain.done, chain.access, chain.at


ORDERS = (longest_first, shortest_first)
"""Ways to put walls that press alike in order: none is best for every job, so each is tried."""


class _Surface:
    """A chain on its way: which coat is next, how much of it is left, and how many trips it still needs at least."""

    __slots__ = ("access", "at", "began", "i", "later", "left", "must_by", "rest", "stamp", "tasks", "turn", "waited")

    def __init__(self, chain: Chain, tasks: tuple[Task, ...], usable: int, turn: int) -> None:
        self.at, self.access, self.tasks = chain.at, chain.access, tasks
        self.turn = turn  # among those that are alike in what is pressing
        self.i = len(chain.done)
        self.left = tasks[self.i].time
        self.began: int | None = None
        self.must_by: int | None = None
        self.waited: int | None = None
        self.stamp = 0
        self.rest = [0] * len(tasks)  # seconds of the coats that may follow the same day
        self.later = [0] * len(tasks)  # trips that the coats after the next night's wait need
        for i in range(len(tasks) - 2, -1, -1):
            if tasks[i].least >= usable:
                self.later[i] = self.later[i + 1] + max(1, over(tasks[i + 1].time + self.rest[i + 1], usable))
            else:
                self.later[i] = self.later[i + 1]
                self.rest[i] = tasks[i + 1].time + self.rest[i + 1]

    @property
    def block(self) -> int:
        """Seconds up to the next wait over night."""
        return self.left + self.rest[self.i]

    def trips(self, usable: int) -> int:
        """The least number of trips still to come for this surface alone."""
        return max(1, over(self.block, usable)) + self.later[self.i]

    def size(self, usable: int) -> int:
        """How much room the coat asks for in a day: none if it may stop, is begun, or is too long for any day."""
        task = self.tasks[self.i]
        return 0 if task.may_stop or self.began is not None or task.time > usable else self.left

    def need(self, usable: int) -> int:
        """Seconds of work that lower ``trips`` by one."""
        return self.block - (max(1, over(self.block, usable)) - 1) * usable


class Planner:
    """Makes a plan. ``usable`` [s] is the crew's day less set-up; ``patience`` [s] the longest it stands idle."""

    def __init__(
        self,
        chains: Iterable[Chain],
        extras: Iterable[Task],
        set_up: dict[str, int],
        usable: int,
        patience: int,
        on_or_after: Callable[[int], int],
        order: Callable[[Chain], tuple[object, ...]] = longest_first,
    ) -> None:
        self.usable, self.patience, self.on_or_after = usable, patience, on_or_after
        self.plan = Plan()
        self.extras = [(t.coat, t.time) for t in extras]
        self.set_up = dict(set_up)
        self.ready: list[tuple[float, int, int, int, _Surface]] = []  # by what comes first; stale stamps are skipped
        self.sizes: list[tuple[int, int]] = []  # the same by size
        self.by_turn: dict[int, _Surface] = {}
        self.waiting: list[tuple[int, int, _Surface]] = []
        self.due: list[tuple[int, int, int, _Surface]] = []
        self.count: Counter[int] = Counter()  # surfaces by trips still to come
        self.need: Counter[int] = Counter()
        self.apart: Counter[int] = Counter()  # those of them that wait
        self.available = 0
        self.hours = sum(time for _, time in self.extras) + sum(self.set_up.values())
        self.most = 0
        for turn, chain in enumerate(sorted(chains, key=order)):
            self.plan.done.update({(chain.at, n): (day, day) for n, day in enumerate(chain.done)})
            if len(chain.done) < len(chain.tasks):
                surface = _Surface(chain, self._possible(chain), usable, turn)
                self.by_turn[turn] = surface
                self.hours += sum(t.time for t in surface.tasks[surface.i :])
                self._enter(surface)
                self._begin(surface, chain)
        self.plan.bound = self._least()

    def run(self, first: int) -> Plan:
        """Go out day by day from the first working day on or after ``first`` until everything is done."""
        day, after_full = first, bool(self.sizes) or not self.waiting  # what is done already may keep all waiting
        while self.extras or self.sizes or self.waiting:
            day = self._next_day(day)
            self.plan.days.append(_Day(self, day, after_full).run())
            after_full = bool(self.extras or self.sizes)
            day += 1
        return self.plan

    def _begin(self, surface: _Surface, chain: Chain) -> None:
        """Ready at once, or as soon as the last coat that is done lets the next go on."""
        last = surface.tasks[surface.i - 1] if chain.done else None
        if last is not None and last.most is not None:
            surface.must_by = chain.done[-1] + last.most // DAY
        if last is None or not last.least:
            self._make_ready(surface)
            return
        surface.waited = chain.done[-1] + whole_days(last.least)
        self.wait(surface, surface.waited)

    # --- what is still to come ---------------------------------------------------------------------

    def _possible(self, chain: Chain) -> tuple[Task, ...]:
        """The tasks, with a most-lag that no plan can keep noted and taken as a night's wait."""
        tasks = list(chain.tasks)
        for i, (this, that) in enumerate(zip(chain.tasks, chain.tasks[1:], strict=False)):
            if this.most is None or not self._impossible(this, that):
                continue
            self.plan.lags.append(Lag(chain.at, i, impossible=True))
            tasks[i] = Task(this.coat, this.time, max(this.least, self.usable), may_stop=this.may_stop)
        return tuple(tasks)

    def _impossible(self, this: Task, that: Task) -> bool:
        assert this.most is not None
        if not same_day(this):
            return whole_days(this.least) * DAY > this.most if this.least >= self.usable else False
        earliest, latest = window(this, that)
        return earliest > latest or earliest + that.time > self.usable

    def _least(self) -> int:
        """No plan has fewer trips: the hours have to fit, and the surface with most waits has to be come back to."""
        return max(over(self.hours, self.usable), self.most)

    def _enter(self, surface: _Surface) -> None:
        trips = surface.trips(self.usable)
        self.count[trips] += 1
        self.need[trips] += surface.need(self.usable)
        self.most = max(self.most, trips)

    def leave(self, surface: _Surface) -> None:
        """Take a surface out of the sums, before it changes."""
        trips = surface.trips(self.usable)
        self.count[trips] -= 1
        self.need[trips] -= surface.need(self.usable)
        while self.most and not self.count[self.most]:
            self.most -= 1

    def change(self, surface: _Surface, seconds: int) -> None:
        """Work ``seconds`` on the surface's coat."""
        self.leave(surface)
        surface.left -= seconds
        self.hours -= seconds
        self._enter(surface)

    def step_on(self, surface: _Surface) -> None:
        """The coat is done: the next one is to come."""
        self.leave(surface)
        surface.i += 1
        surface.left = surface.tasks[surface.i].time
        surface.began = surface.waited = surface.must_by = None
        self._enter(surface)

    def _make_ready(self, surface: _Surface) -> None:
        trips = surface.trips(self.usable)
        by = inf if surface.must_by is None else surface.must_by
        if surface.began is not None:
            by = 0  # what is begun is finished first
        surface.stamp += 1
        heappush(self.ready, (by, -trips, surface.turn, surface.stamp, surface))
        insort(self.sizes, (surface.size(self.usable), surface.turn))
        self.available += surface.block
        if surface.must_by is not None and surface.began is None:
            heappush(self.due, (surface.must_by, surface.turn, surface.i, surface))

    def put(self, surface: _Surface) -> None:
        """The surface can be worked on now."""
        self._make_ready(surface)

    def _first(self) -> _Surface | None:
        """What comes first of all that is ready."""
        while self.ready:
            _, _, _, stamp, surface = self.ready[0]
            if stamp == surface.stamp:
                return surface
            heappop(self.ready)
        return None

    def take(self, room: int) -> _Surface | None:
        """The surface to work on next: what comes first if it fits the room [s], else the longest that does."""
        surface = self._first()
        if surface is None:
            return None
        if surface.size(self.usable) > room:
            place = bisect_left(self.sizes, (room + 1, -1))
            if not place:
                return None
            surface = self.by_turn[self.sizes[place - 1][1]]
        del self.sizes[bisect_left(self.sizes, (surface.size(self.usable), surface.turn))]
        surface.stamp += 1
        self.available -= surface.block
        return surface

    def wait(self, surface: _Surface, until: int) -> None:
        """The surface's next coat is ready on day ``until``."""
        heappush(self.waiting, (until, surface.turn, surface))
        self.apart[surface.trips(self.usable)] += 1

    # --- when to go --------------------------------------------------------------------------------

    def _next_day(self, after: int) -> int:
        day = self.on_or_after(after)
        while True:
            while self.waiting and self.waiting[0][0] <= day:
                surface = heappop(self.waiting)[-1]
                self.apart[surface.trips(self.usable)] -= 1
                self._make_ready(surface)
            if self.extras or not self.waiting or self._worth_it() or self._begun():
                return day
            later = self.on_or_after(max(day, self.waiting[0][0]))
            if self.sizes and self._due_before(later):
                return day
            day = later

    def _worth_it(self) -> bool:
        """Whether a day's work now lowers the least number of trips still to come."""
        least = self._least()
        by_hours = over(self.hours - min(self.available, self.usable), self.usable) < least
        return by_hours and (self.most < least or (not self.apart[self.most] and self.need[self.most] <= self.usable))

    def _begun(self) -> bool:
        """Whether a coat had to be stopped and left: it would be the first of all that is ready."""
        first = self._first()
        return first is not None and first.began is not None

    def _due_before(self, day: int) -> bool:
        while self.due:
            by, _, number, surface = self.due[0]
            if surface.i == number and surface.began is None:
                return by < day
            heappop(self.due)
        return False


class _Day:
    """One day on site, from the end of the set-up to the end of the working day."""

    def __init__(self, planner: Planner, day: int, after_full: bool) -> None:
        self.all, self.day, self.after_full = planner, day, after_full
        self.t = self.idle = self.end = 0
        self.spent: dict[tuple[str, str], int] = {}
        self.reserved: list[tuple[int, int, int, _Surface]] = []  # start, turn, end
        self.soon: list[tuple[int, int, _Surface]] = []  # ready later today
        self.blocked: list[_Surface] = []  # a pair that does not fit any more today
        self.waited: tuple[int, int, str, int] | None = None  # day, turn; surface, coat

    def run(self) -> DayOut:
        """Work until the day is full or nothing is ready."""
        while (self.reserved or self.t < self.all.usable) and self._act():
            pass
        for surface in self.blocked:
            self.all.put(surface)
        for _, _, surface in self.soon:
            self.all.wait(surface, self.day + 1)
        waited = None if self.waited is None else self.waited[2:]
        spent = tuple(Spent(at, coat, time) for (at, coat), time in self.spent.items())
        return DayOut(self.day, spent, self.end, self.idle, self.after_full, waited)

    def _act(self) -> bool:
        """Do the next thing; False if there is nothing more today."""
        while self.soon and self.soon[0][0] <= self.t:
            self.all.put(heappop(self.soon)[-1])
        if self.reserved and self.reserved[0][0] <= self.t:
            _, _, _, follower = heappop(self.reserved)
            self._work(follower, follower.left)
            return True
        limit = self.reserved[0][0] if self.reserved else self.all.usable
        if self._before_coats(limit):
            return True
        surface = self.all.take(limit - self.t)
        if surface is None:
            return self._stand()
        self._one(surface, limit)
        return True

    def _stand(self) -> bool:
        """Wait for what is ready later today: always for a coat that must follow, else only as long as is worth it."""
        if self.reserved:
            until = self.reserved[0][0]
            if self.soon:
                until = min(until, self.soon[0][0])
        elif self.soon and self.soon[0][0] - self.t <= self.all.patience:
            until = self.soon[0][0]
        else:
            return False
        self.idle += until - self.t
        self.t = until
        return True

    def _before_coats(self, limit: int) -> bool:
        """Protect, mask and the like come before everything."""
        if not self.all.extras:
            return False
        what, left = self.all.extras.pop(0)
        time = min(left, limit - self.t)
        self._spend("", what, time)
        self.all.hours -= time
        if time < left:
            self.all.extras.insert(0, (what, left - time))
        return True

    def _one(self, surface: _Surface, limit: int) -> None:
        left = self.all.set_up.get(surface.access, 0)
        if surface.access and surface.access not in self.all.plan.set_up:
            self.all.plan.set_up[surface.access] = self.day
        if left:
            time = min(left, limit - self.t)
            self._spend("", surface.access, time)
            self.all.hours -= time
            self.all.set_up[surface.access] -= time
            self.all.put(surface)
            return
        task = surface.tasks[surface.i]
        if not same_day(task) or surface.i + 1 == len(surface.tasks):
            self._work(surface, min(surface.left, limit - self.t))
            return
        start = self._slot(surface, limit)
        if start is None:
            self.blocked.append(surface)
            return
        that = surface.tasks[surface.i + 1]
        self._work(surface, surface.left, follow=start)
        heappush(self.reserved, (start, surface.turn, start + that.time, surface))

    def _slot(self, surface: _Surface, limit: int) -> int | None:
        """When today the follow-up can start, if the coat starts now; None if it does not fit."""
        this, that = surface.tasks[surface.i], surface.tasks[surface.i + 1]
        if self.t + this.time > limit:
            return None
        earliest, latest = window(this, that)
        start = self.t + earliest
        for begin, _, end, _ in sorted(self.reserved, key=lambda r: r[0]):
            if start < end and begin < start + that.time:
                start = end
        return start if start <= self.t + latest and start + that.time <= self.all.usable else None

    def _spend(self, at: str, coat: str, time: int) -> None:
        self.spent[at, coat] = self.spent.get((at, coat), 0) + time
        self.t += time
        if time:
            self.end = self.t

    def _work(self, surface: _Surface, time: int, follow: int | None = None) -> None:
        """Work on the surface's coat; ``follow`` is the reserved start of the coat that must come after it."""
        number = surface.i
        if surface.began is None:
            surface.began = self.t
            self.all.plan.done[surface.at, number] = (self.day, self.day)
            self._note_start(surface)
        self.all.change(surface, time)
        self._spend(surface.at, surface.tasks[number].coat, time)
        self.all.plan.done[surface.at, number] = (self.all.plan.done[surface.at, number][0], self.day)
        if surface.left:
            self.all.put(surface)
        elif number + 1 == len(surface.tasks):
            self.all.leave(surface)
        else:
            self.all.step_on(surface)
            if follow is None:
                self._afterwards(surface, surface.tasks[number])

    def _note_start(self, surface: _Surface) -> None:
        if surface.must_by is not None and self.day > surface.must_by:
            self.all.plan.lags.append(Lag(surface.at, surface.i - 1, impossible=False))
        if surface.waited is not None and (self.waited is None or (surface.waited, surface.turn) > self.waited[:2]):
            self.waited = (surface.waited, surface.turn, surface.at, surface.i - 1)

    def _afterwards(self, surface: _Surface, done: Task) -> None:
        """The coat before is done: the next is ready at once, later today, or on another day."""
        if done.most is not None:
            surface.must_by = self.day + done.most // DAY
        ready = self.t + done.least
        if not done.least:
            self.all.put(surface)
            return
        if done.least < self.all.usable and ready < self.all.usable:
            heappush(self.soon, (ready, surface.turn, surface))
            return
        surface.waited = self.day + whole_days(done.least)
        self.all.wait(surface, surface.waited)
