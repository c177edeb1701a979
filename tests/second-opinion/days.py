"""Days planned a second time by a general-purpose constraint solver: late minutes, finish, better rules broken, minutes of change-over,
pairs turned round, in this order. The model stands on its own: no order is timed one set-up after the other, change-overs are minutes
taken out of gaps between pieces of work of the hands.

venv/bin/python days.py DAYS.json       # writes days.csv beside it
"""

import json
import sys
import zlib
from concurrent.futures import ProcessPoolExecutor

from ortools.sat.python import cp_model

from common import package, write

DAY = 1440
DAYS = 6
LIMIT_S = 120


class Open:
    """Open stretches, and the open minutes before each: work of the hands is counted in these."""

    def __init__(self, hours):
        self.stretches, done = [], 0
        for day in range(DAYS):
            for start, end in hours:
                self.stretches.append((day * DAY + start, day * DAY + end, done))
                done += end - start
        self.all = done
        self.longest = max(end - start for start, end in hours)

    def before(self, clock):
        """Open minutes before a time of the clock."""
        return sum(max(0, min(clock, end) - start) for start, end, _ in self.stretches)


class Planned:
    """One day as a model of whole numbers."""

    def __init__(self, day):
        self.day = day
        self.ups = day["set_ups"]
        self.ids = [up["id"] for up in self.ups]
        self.open = Open(day["hours"])
        self.horizon = DAYS * DAY
        self.model = cp_model.CpModel()
        self.hands()
        self.order()
        self.rules()
        self.machines()
        self.rooms()
        self.wanted()

    def at(self, name):
        return self.ids.index(name)

    def clock_and_open(self, name, is_end):
        """A time in minutes of the clock and in open minutes, in one stretch; a start lies before its end, an end behind its start."""
        model = self.model
        clock = model.new_int_var(0, self.horizon, f"{name} clock")
        minutes = model.new_int_var(0, self.open.all, f"{name} open")
        within = []
        for start, end, before in self.open.stretches:
            here = model.new_bool_var(f"{name} in {start}")
            low, high = (1, end - start) if is_end else (0, end - start - 1)
            model.add_linear_constraint(minutes, before + low, before + high).only_enforce_if(here)
            model.add(clock == minutes + start - before).only_enforce_if(here)
            within.append(here)
        model.add_exactly_one(within)
        return clock, minutes, within

    def hands(self):
        model = self.model
        self.start, self.end, self.from_, self.till, self.over, self.within = [], [], [], [], [], []
        for up in self.ups:
            start, opened, within = self.clock_and_open(f"{up['id']} start", False)
            end, closed, within_too = self.clock_and_open(f"{up['id']} end", True)
            model.add(closed == opened + up["hands"])
            if not up.get("pause") and up["hands"] <= self.open.longest:
                for one, other in zip(within, within_too):
                    model.add(one == other)
            over = end + up.get("tail", 0)
            for at, (first, _, _) in enumerate(self.open.stretches):
                if up.get("watched"):
                    closing = first // DAY * DAY + max(end for _, end in self.day["hours"])
                    model.add(over <= closing).only_enforce_if(within_too[at])
            self.within.append((within, within_too))
            self.start.append(start)
            self.end.append(end)
            self.from_.append(opened)
            self.till.append(closed)
            self.over.append(over)
            model.add(start >= up.get("not-before", 0))
            if "at" in up:
                model.add(start == up["at"])
        clock, minutes, within = self.clock_and_open("last", True)
        self.last = minutes, clock, within
        self.first = self.day.get("from", self.day["hours"][0][0])
        for start in self.start:
            model.add(start >= self.first)

    def order(self):
        """Which comes before which, and the place of each; the gap before each place."""
        model, all_ = self.model, range(len(self.ups))
        self.comes = {}
        for one in all_:
            for other in range(one):
                first = model.new_bool_var(f"{one} before {other}")
                self.comes[one, other], self.comes[other, one] = first, first.negated()
        for (one, other), first in self.comes.items():
            model.add(self.from_[other] >= self.till[one]).only_enforce_if(first)
        self.place = [[model.new_bool_var(f"{one} at {at}") for at in all_] for one in all_]
        for one in all_:
            model.add_exactly_one(self.place[one])
            model.add_exactly_one(self.place[other][one] for other in all_)
            before = sum(self.comes[other, one] for other in all_ if other != one)
            model.add(sum(at * self.place[one][at] for at in all_) == before)
        self.gap_from, self.gap_to = [], []
        for at in all_:
            begin = model.new_int_var(0, self.open.all, f"gap {at} from")
            end = model.new_int_var(0, self.open.all, f"gap {at} to")
            if at == 0:
                model.add(begin == self.open.before(self.first))
            for one in all_:
                model.add(end == self.from_[one]).only_enforce_if(self.place[one][at])
                if at > 0:
                    model.add(begin == self.till[one]).only_enforce_if(self.place[one][at - 1])
            self.gap_from.append(begin)
            self.gap_to.append(end)

    def rules(self):
        model = self.model
        self.fetcher = {self.at(load): self.at(by) for load, by in self.day.get("fetched_by", [])}
        for before, after, rest in self.day.get("needs", []):
            model.add(self.start[self.at(after)] >= self.over[self.at(before)] + rest)
        for first, then in self.day.get("at_once", []):
            model.add(self.start[self.at(then)] == self.end[self.at(first)])
            # What is hot is not put down: both stand in one stretch.
            stretches = [*self.within[self.at(first)], *self.within[self.at(then)]]
            for literals in zip(*stretches):
                for one, other in zip(literals, literals[1:]):
                    model.add(one == other)
        for load, other, rest in self.day.get("apart", []):
            load, other = self.at(load), self.at(other)
            by = self.fetcher.get(load)
            # Out and at rest as soon as it is fetched, though what fetched it goes on by itself.
            cold = [self.over[load] + rest] if by is None else [self.over[by], self.end[by] + rest]
            either = model.new_bool_var("apart")
            model.add(self.end[other] <= self.start[load]).only_enforce_if(either)
            for end in cold:
                model.add(self.start[other] >= end).only_enforce_if(either.negated())
        for own in self.day.get("holds", []):
            by, riders = self.at(own["by"]), [self.at(rider) for rider in own["riders"]]
            for barred in (self.at(one) for one in own["barred"]):
                # Before what stays in its machine, or behind the last that needs it there.
                behind = self.comes[barred, by].negated()
                for rider in riders:
                    model.add_implication(behind, self.comes[rider, barred])
        for load, by in self.fetcher.items():
            if self.ups[load].get("tail", 0) > 0 and self.ups[load]["machine"] in self.day["room"]:
                day_of = [model.new_int_var(0, DAYS, "day") for _ in range(2)]
                model.add_division_equality(day_of[0], self.over[load] - 1, DAY)
                model.add_division_equality(day_of[1], self.start[by], DAY)
                model.add(day_of[0] == day_of[1])

    def machines(self):
        """Change-overs: so many minutes taken out of the gaps before the set-up and behind the last on its machine."""
        model, all_ = self.model, range(len(self.ups))
        self.change = []
        taken = [[] for _ in all_]
        for machine in {up["machine"] for up in self.ups} - set(self.day["room"]):
            on = [one for one in all_ if self.ups[one]["machine"] == machine]
            costs = self.day["rig"].get(machine, {})
            freed = {}
            for one in on:
                if self.ups[one].get("tail_holds"):
                    freed[one] = self.open_after(self.over[one])
                    for other in on:
                        if other != one:
                            model.add(self.start[other] >= self.over[one]).only_enforce_if(self.comes[one, other])
            for one in on:
                holding = self.ups[one].get("holding")
                cost = costs.get(holding, 0)
                if holding is None or cost == 0:
                    continue
                # What stood on the machine before: the last that held something, or what it began with.
                held = [other for other in on if other != one and self.ups[other].get("holding")]
                last = {other: model.new_bool_var(f"{other} stood before {one}") for other in held}
                none = model.new_bool_var(f"nothing stood before {one}")
                model.add_exactly_one([*last.values(), none])
                for other, is_last in last.items():
                    model.add_implication(is_last, self.comes[other, one])
                    model.add_implication(none, self.comes[one, other])
                    for third in held:
                        if third != other:
                            both = [self.comes[other, third].negated(), self.comes[third, one].negated(), is_last.negated()]
                            model.add_bool_or(both)
                differ = [is_last for other, is_last in last.items() if self.ups[other]["holding"] != holding]
                if self.day["rigged"].get(machine) != holding:
                    differ.append(none)
                needed = sum(differ) if differ else 0
                pieces = [model.new_int_var(0, cost, f"change for {one} in gap {at}") for at in all_]
                model.add(sum(pieces) == cost * needed)
                self.change.append(cost * needed)
                for at in all_:
                    taken[at].append(pieces[at])
                    for place in range(at):
                        model.add(pieces[at] == 0).only_enforce_if(self.place[one][place])
                    for other in on:
                        if other == one:
                            continue
                        for place in range(at, len(self.ups)):
                            model.add(pieces[at] == 0).only_enforce_if(
                                [self.place[other][place], self.comes[other, one]]
                            )
                        if other in freed:
                            some = model.new_bool_var("some of it")
                            model.add(pieces[at] == 0).only_enforce_if(some.negated())
                            model.add(pieces[at] <= self.gap_to[at] - freed[other]).only_enforce_if(
                                [some, self.comes[other, one]]
                            )
        for at in all_:
            model.add(sum(taken[at]) <= self.gap_to[at] - self.gap_from[at])
        # Said once more, so that the solver sees it at once: the hands are one, and all of it is theirs.
        spans = [
            model.new_interval_var(self.from_[one], up["hands"], self.till[one], "hands") for one, up in enumerate(self.ups)
        ]
        model.add_no_overlap(spans)
        last, clock, _ = self.last
        model.add_max_equality(last, self.till)
        model.add_max_equality(clock, self.end)
        model.add(last >= self.open.before(self.first) + sum(up["hands"] for up in self.ups) + sum(self.change))

    def open_after(self, clock):
        """Open minutes before a time that may lie where nothing is open."""
        model = self.model
        minutes = model.new_int_var(0, self.open.all, "open after")
        within, till = [], 0
        for start, end, before in self.open.stretches:
            shut, here = model.new_bool_var("shut"), model.new_bool_var("here")
            model.add_linear_constraint(clock, till, start).only_enforce_if(shut)
            model.add(minutes == before).only_enforce_if(shut)
            model.add_linear_constraint(clock, start, end).only_enforce_if(here)
            model.add(minutes == clock - start + before).only_enforce_if(here)
            within += [shut, here]
            till = end
        model.add_bool_or(within)
        return minutes

    def rooms(self):
        """Ovens and freezers: as much inside as they hold, at one setting."""
        model = self.model
        for room, places in self.day["room"].items():
            lie = []
            for one, up in enumerate(self.ups):
                if not up.get("tail", 0):
                    continue
                out = self.start[self.fetcher[one]] if one in self.fetcher else self.over[one]
                if up["machine"] == room:
                    lie.append((self.start[one], out, up.get("places", 1), up.get("holding")))
                if up.get("beside") == room:
                    lie.append((self.start[one], out, 1, None))
            for own in self.day.get("inside", []):
                if own["machine"] == room:
                    by = own["fetched_by"]
                    out = model.new_int_var(0, self.horizon, "out")
                    model.add(out == (self.start[self.at(by)] if by is not None else own["over"]))
                    if by is not None:
                        model.add(self.start[self.at(by)] < ((own["over"] - 1) // DAY + 1) * DAY)
                    lie.append((0, out, 1, own["holding"]))
            spans = []
            for begin, out, _, _ in lie:
                size = model.new_int_var(0, self.horizon, "lies so long")
                spans.append(model.new_interval_var(begin, size, out, "lies"))
            model.add_cumulative(spans, [own[2] for own in lie], places)
            for one, own in enumerate(lie):
                for other in range(one):
                    if lie[other][3] != own[3]:
                        model.add_no_overlap([spans[one], spans[other]])

    def wanted(self):
        model = self.model
        late = []
        for one, up in enumerate(self.ups):
            if "due" in up:
                by = model.new_int_var(0, self.horizon, "late")
                model.add(by >= self.end[one] - up["due"])
                late.append(by)
        finish = model.new_int_var(0, 2 * self.horizon, "finish")
        for one, up in enumerate(self.ups):
            model.add(finish >= (self.over[one] if up.get("watched") else self.end[one]))
        better = [self.comes[self.at(then), self.at(first)] for first, then in self.day.get("better", [])]
        order = [self.at(name) for name in self.day.get("order_before", self.ids)]
        turned = [self.comes[order[other], order[one]] for other in range(len(order)) for one in range(other)]
        self.levels = [sum(late), finish, sum(better), sum(self.change), sum(turned)]

    def solve(self):
        """Level by level: what is reached of one is held for the next. None where nothing can be; whether all were proven."""
        found, proven = [], True
        for level in self.levels:
            if isinstance(level, int):
                found.append(level)
                continue
            self.model.minimize(level)
            solver = cp_model.CpSolver()
            solver.parameters.num_workers = 1
            solver.parameters.random_seed = 1
            solver.parameters.max_time_in_seconds = LIMIT_S
            status = solver.solve(self.model)
            if status == cp_model.INFEASIBLE:
                return None, True
            if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
                return None, False
            proven = proven and status == cp_model.OPTIMAL
            found.append(round(solver.objective_value))
            self.model.add(level <= found[-1])
        return found, proven


def line(day):
    """A row of the result: the day by its name and the sum of its text, and the five figures."""
    text = json.dumps(day, separators=(",", ":"), ensure_ascii=False)
    found, proven = Planned(day).solve()
    state = "impossible" if found is None and proven else "proven" if proven else "not proven"
    row = [day["name"], f"{zlib.crc32(text.encode()):08x}", state, *(found or [""] * 5)]
    print(*row, flush=True)
    return row


if __name__ == "__main__":
    with open(sys.argv[1], encoding="utf-8") as file:
        days = json.load(file)
    with ProcessPoolExecutor(2) as pool:
        lines = list(pool.map(line, days))
    columns = ["day", "crc32", "state", "late_min", "finish_min", "better_broken", "change_over_min", "turned"]
    write("days.csv", [package("ortools")], columns, lines)
