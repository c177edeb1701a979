//! The thread: its hole, its depth, the torque on the tap; and its one set-up at the bench.

use super::keys::Tap;
use super::names::{
    BOTTOM_LEFT, BREAKS_AT, DRILL_FOR, EDGE, EDGE_WALL, END_BEHIND, FULL_THREAD, HOLE, HOLE_DEPTH, LEFT_BEHIND,
    MINOR_MAX, MINOR_MIN, PERCENT, TAP_DEPTH, TAP_DRILL, TAP_END, TORQUE, TORQUE_SHORT, TURNS, WALL,
};
use super::sketch;
use crate::handbook::constants::{constant, row};
use crate::handbook::materials::groups::Kind;
use crate::handbook::threads::{hand_taps, insert, insert_zero, tapping as book};
use crate::handbook::{Lead, Material, StateKind, ToolMaterial, set_up_minutes};
use crate::job::State;
use crate::operations::answer::DOUBT_PLAUSIBLE;
use crate::operations::hole_making::tapping::{self, InHole, on_the_tap};
use crate::operations::hole_making::{self, Asks};
use crate::operations::kit::{self, mm};
use crate::operations::{Answer, Bench, Cut, HoldPoint, Instead, Pass, PassKind, SetUp, Station};
use crate::proof::{Check, Dialled, Fact, Keep, Place, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Angle, Decimals, Mm, NewtonMetre, Quantity};
use crate::shop::{self, Gauge};

impl Tap {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let material = hole_making::metal(bench, answer)?;
        let tap = ("tap-hard-enough", self.thread.place);
        hole_making::hard_enough(bench, &material, ToolMaterial::Hss, tap, answer)?;
        kit::name_thread(&self.thread, answer);
        let hole = answer.read(bench, "hole", Gauge::Inside, &self.hole)?;
        let hole = answer.record(&HOLE, hole);
        self.limits(bench, &hole, answer)?;
        let lead = self.lead(answer);
        let depth: Worked<Mm> = (&self.depth).into();
        let pitch = self.thread.value.pitch();
        let deep = answer.record(&TAP_DEPTH, insert::tap_depth(&depth, &lead.threads()?, &pitch)?);
        answer.record(&TURNS, insert::turns(&deep, &pitch)?);
        let end = answer.record(&TAP_END, self.end(bench, &deep, lead)?);
        self.comes_out(bench, (&end, &depth), answer)?;
        self.beside(bench, answer)?;
        let wall = self.thread_in_metal(bench, &depth, answer)?;
        self.threads_enough(bench, (&material, &depth, wall.as_ref()), answer)?;
        self.room(bench, (&deep, &end, &pitch), answer)?;
        self.as_left(bench, &depth, answer)?;
        self.reaches(bench, (&deep, &end), lead, answer);
        let torque = self.torque(bench, &material, (&hole, lead), answer)?;
        let asks = Asks { torque: torque.as_ref(), across: &self.thread.value.major(), grabs: false };
        hole_making::held(bench, self.hold.as_ref(), &asks, answer)?;
        self.drawer(bench, lead, answer);
        self.set_up_of(bench, lead, answer)
    }

    /// Behind a hole that goes through the tap's end stands out by its lead: the wall is as thick as the thread is deep, or thicker.
    fn comes_out(
        &self,
        bench: &Bench,
        (end, depth): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "what-is-behind";
        if !self.goes_through() {
            answer.does_not_apply(&[ID]);
            return Ok(());
        }
        let out = answer.record(&END_BEHIND, insert::behind_wall(end, depth)?);
        let beyond = (self.beyond.as_ref(), self.depth.place);
        hole_making::behind(bench, ID, (&out, &LEFT_BEHIND), beyond, answer)
    }

    /// Thread enough for a screw that is drawn up: what is shorter strips. Nobody said how strong the screw is: doubtful at most.
    fn threads_enough(
        &self,
        bench: &Bench,
        (metal, depth, wall): (&Material, &Worked<Mm>, Option<&Worked<Mm>>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let share = match metal.kind() {
            Kind::Aluminium | Kind::Magnesium | Kind::Plastic | Kind::Sintered => "threads-enough-soft",
            Kind::GreyIron => "threads-enough-iron",
            _ => "threads-enough",
        };
        let least = self.thread.value.major().scaled(row(share)?.value, "a screw that is drawn up, in diameters");
        let mut judge = |of: &Worked<Mm>, about: &'static str, place: Place| {
            let check = Check::judge("threads-enough", of, Keep::AtLeast, &least, bench.guard()).about(about);
            answer.check(check.not_worse_than(Verdict::Doubtful).at(place));
        };
        judge(depth, FULL_THREAD.key, self.depth.place);
        // A thread right through is no longer than its wall, which may be thinner than it was read.
        if let (true, Some((wall, at))) = (self.goes_through(), wall.zip(self.wall.as_ref())) {
            judge(wall, WALL.key, at.place);
        }
        Ok(())
    }

    /// A hole that goes through has no more thread than its wall is thick: the wall as read.
    fn thread_in_metal(
        &self,
        bench: &Bench,
        depth: &Worked<Mm>,
        answer: &mut Answer,
    ) -> Result<Option<Worked<Mm>>, Refusal> {
        const ID: &str = "thread-in-metal";
        if !self.goes_through() {
            answer.does_not_apply(&[ID]);
            return Ok(None);
        }
        let wall = answer.read_if(bench, "wall", Gauge::Depth, self.wall.as_ref())?;
        let Some((wall, at)) = wall.zip(self.wall.as_ref()) else {
            answer.not_checked(&[ID], &["wall"]);
            return Ok(None);
        };
        let wall = answer.record(&WALL, wall);
        // A thread tapped right through is as deep as the wall, whatever that is within its reading.
        let deep = wall.nominal("a thread right through ends with its wall").shifted(1e-6, "as deep as it");
        let check = Check::judge(ID, &deep, Keep::AtLeast, depth, bench.guard());
        answer.check(check.about(WALL.key).at(at.place));
        Ok(Some(wall))
    }

    /// Metal beside the thread: what is too thin bulges, or splits as the screw is tightened.
    fn beside(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let edge = answer.read_if(bench, "edge", Gauge::FromCentre, self.edge.as_ref())?;
        let edge = edge.map(|edge| answer.record(&EDGE, edge));
        let Some((edge, at)) = edge.zip(self.edge.as_ref()) else {
            answer.not_checked(&["edge-wall"], &["edge"]);
            return Ok(());
        };
        hole_making::edge_wall(bench, &EDGE_WALL, (&edge, at.place), &self.thread.value.major(), answer)
    }

    /// The lead of the last tap: plug, if nobody says.
    fn lead(&self, answer: &mut Answer) -> Lead {
        let lead = self.lead.as_ref().map_or(Lead::Plug, |at| at.value);
        if self.lead.is_none() {
            answer.assume_words(Words::of("lead").with("value", lead.text()));
        }
        answer.fact("lead", lead.text());
        lead
    }

    /// The hole against the minor limits of the thread: too small breaks the tap, too wide leaves no thread.
    fn limits(&self, bench: &Bench, hole: &Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
        let thread = self.thread.value;
        if let Some(drill) = thread.tap_drill() {
            answer.record(&TAP_DRILL, drill);
        }
        let basis = book::bases(thread.form()).into_iter().next();
        if let Some((_, height)) = &basis {
            let (major, pitch) = (thread.major(), thread.pitch());
            answer.record(&PERCENT, book::thread_percentage(&major, hole, height, &pitch)?);
            let usual = constant("percent-of-thread-usual")?;
            let drill = book::drill_for_percentage(&major, &usual, height, &pitch)?;
            // A hole wider than the thread may be leaves less of it than is asked, whatever the percentage.
            let most = thread.minor_limit_most();
            answer.record(
                &DRILL_FOR,
                match &most {
                    Some(most) => drill.at_most(most.number(), "the greatest minor diameter of the thread"),
                    None => drill,
                },
            );
        }
        let [least, most] = [thread.minor_limit_least(), thread.minor_limit_most()];
        if let (Some(least), Some(most)) = (least, most) {
            let (least, most) = (answer.record(&MINOR_MIN, least), answer.record(&MINOR_MAX, most));
            self.between(bench, hole, (&least, &most), Verdict::Proven, answer);
            return Ok(());
        }
        // No table here says how wide the hole of such a thread may be: a full thread and half of one bound what is worth a trial.
        let most = match &basis {
            Some((_, height)) => {
                let least = constant("percent-of-thread-least")?;
                book::drill_for_percentage(&thread.major(), &least, height, &thread.pitch())?
            }
            None => thread.pitch_diameter()?,
        };
        self.between(bench, hole, (&thread.minor_diameter()?, &most), Verdict::Doubtful, answer);
        Ok(())
    }

    /// The hole between two sizes, judged no better than so.
    fn between(
        &self,
        bench: &Bench,
        hole: &Worked<Mm>,
        (least, most): (&Worked<Mm>, &Worked<Mm>),
        best: Verdict,
        answer: &mut Answer,
    ) {
        for (id, keep, limit) in [("hole-not-small", Keep::AtLeast, least), ("hole-not-wide", Keep::AtMost, most)] {
            let check = Check::judge(id, hole, keep, limit, bench.guard()).not_better_than(best);
            let check = answer.check(check.about(HOLE.key).at(self.hole.place));
            if best != Verdict::Proven {
                check.remedy(Words::of("no-limits-of-the-hole"));
            }
        }
    }

    /// Where the tap's end comes: a small one stands on its male centre, unless it is a bottoming tap or the shop says that it has
    /// none.
    fn end(&self, bench: &Bench, deep: &Worked<Mm>, lead: Lead) -> Result<Worked<Mm>, Refusal> {
        let major = self.thread.value.major();
        let centred: Vec<bool> = self
            .taps_of(bench, lead)
            .map(|tap| tap.male_centre.as_ref().map_or(lead != Lead::Bottoming, |at| at.value))
            .collect();
        let has = centred.iter().any(|has| *has) || centred.is_empty() && lead != Lead::Bottoming;
        if !has || major.number() > insert::rule("male-centre-largest")?.number() {
            return Ok(deep.clone());
        }
        insert_zero::tap_end(deep, &insert::male_centre(&major)?)
    }

    /// The taps of the drawer for this thread that have such a lead: one whose lead nobody wrote down is a plug tap.
    fn taps_of<'a>(&self, bench: &Bench<'a>, lead: Lead) -> impl Iterator<Item = &'a shop::Tap> + use<'a> {
        let taps = bench.shop.into_iter().flat_map({
            let thread = self.thread.value;
            move |shop| shop.taps(thread)
        });
        taps.filter(move |tap| tap.lead.as_ref().map_or(Lead::Plug, |at| at.value) == lead)
    }

    /// Room under the tap's end, so much as the chips want: a tap that meets the bottom breaks. Where only its male centre would
    /// meet it, it may stand in the cone that the drill left.
    fn room(
        &self,
        bench: &Bench,
        (deep, end, pitch): (&Worked<Mm>, &Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "room-under-the-tap";
        let Some(at) = self.hole_depth.as_ref() else {
            match self.goes_through() {
                true => answer.does_not_apply(&[ID]),
                false => answer.not_checked(&[ID], &["hole-depth"]),
            }
            return Ok(());
        };
        let depth = answer.read(bench, "hole-depth", Gauge::Depth, at)?;
        let depth = answer.record(&HOLE_DEPTH, depth);
        if self.goes_through() {
            answer.does_not_apply(&[ID]);
            return Ok(());
        }
        let left = answer.record(&BOTTOM_LEFT, insert::metal_left(&depth, end)?);
        let under_the_lead = insert::metal_left(&depth, deep)?;
        let clear = pitch.scaled(insert::rule("end-clearance")?.number(), "so many pitches under the lead");
        let ends = ((&left, &clear), (&under_the_lead, &clear));
        let check = Check::judge_two(ID, ends.0, Keep::AtLeast, ends.1, bench.guard());
        let check = answer.check(check.about(BOTTOM_LEFT.key).at(at.place));
        if !check.is_proven() {
            let short = clear.number() - left.worst_number(Side::Low, bench.guard());
            check.remedy(Words::of("less-thread").with("by", mm(short)));
            if end.number() > deep.number() {
                check.remedy(Words::of("no-male-centre"));
            }
        }
        Ok(())
    }

    /// The thread as deep as it was found to be full. Short of what was asked it can be cut on; one that is as deep as its hole, or
    /// deeper, was misread: the tap's lead fills the end. A turn more or less is what can be counted.
    fn as_left(&self, bench: &Bench, asked: &Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
        let Some(left) = bench.left(&FULL_THREAD)? else {
            answer.record(&FULL_THREAD, asked.clone());
            return Ok(());
        };
        answer.fact(FULL_THREAD.key, mm(asked.number()));
        let left = answer.record(&FULL_THREAD, left);
        let least = asked.shifted(-self.thread.value.pitch().number(), "a turn less");
        let hole = self.hole_depth.as_ref().filter(|_| !self.goes_through());
        let room = hole.and(answer.value(BOTTOM_LEFT.key)).map_or(0.0, |room| room.number);
        let most = asked.shifted(room.max(self.thread.value.pitch().number()), "to the bottom of its hole");
        let wide = most.number() - least.number();
        let held = [(Keep::AtLeast, least, "cut-on-to"), (Keep::AtMost, most, "deeper-than-its-hole")];
        for (keep, limit, words) in held {
            let check = Check::judge(DOUBT_PLAUSIBLE.id, &left, keep, &limit, bench.guard());
            if check.is_proven() {
                continue;
            }
            let check = match keep {
                Keep::AtLeast => check.not_worse_than(Verdict::Doubtful).unfinished(FULL_THREAD.key),
                Keep::AtMost => check.fails_beyond(wide),
            };
            let check = check.about(FULL_THREAD.key).with("key", FULL_THREAD.key);
            let check = check.with("doubt", Fact::mm(left.plus_minus())).at(self.depth.place);
            let check = kit::asked_as(check, "left-as-asked");
            answer.check(check.past_finer_reading()).remedy(Words::of(words).with("asked", mm(asked.number())));
        }
        Ok(())
    }

    /// Does the tap go so deep? By what was measured of the one in the drawer; else what the thread of a hand tap is long is proven,
    /// and what lies deeper is not known.
    fn reaches(&self, bench: &Bench, (deep, end): (&Worked<Mm>, &Worked<Mm>), lead: Lead, answer: &mut Answer) {
        const ID: &str = "tap-reaches";
        let of_lead = self.taps_of(bench, lead);
        let measured =
            of_lead.filter_map(|tap| tap.reach.as_ref()).max_by(|a, b| a.value.number().total_cmp(&b.value.number()));
        let check = match (measured, hand_taps::thread_length(&self.thread.value.major())) {
            (Some(reach), _) => Check::judge(ID, end, Keep::AtMost, &reach.into(), bench.guard()),
            (None, Ok(known)) => {
                Check::judge(ID, deep, Keep::AtMost, &known, bench.guard()).not_worse_than(Verdict::Doubtful)
            }
            (None, Err(_)) => return answer.not_checked(&[ID], &["reach of the tap"]),
        };
        answer.check(check.about(TAP_DEPTH.key).at(self.depth.place));
    }

    /// Torque on the tap against what breaks its core, both at their worst ends; a worn tap asks more.
    fn torque(
        &self,
        bench: &Bench,
        material: &Material,
        (hole, lead): (&Worked<Mm>, Lead),
        answer: &mut Answer,
    ) -> Result<Option<Worked<NewtonMetre>>, Refusal> {
        const ID: &str = "tap-stands-it";
        let thread = self.thread.value;
        let (half, fine) = (Angle::new(thread.form().half_angle()), thread.row().series.is_fine());
        let half = Worked::assumed(half, "half the flank angle of the form");
        let (major, pitch) = (thread.major(), thread.pitch());
        let Some(on_tap) = on_the_tap(&InHole { material, half, pitch, fine, lead, across: [&major, hole] })? else {
            answer.assume_words(Words::of("no-tap-torque"));
            answer.not_checked(&[ID], &["material"]);
            return Ok(None);
        };
        answer.record(&TORQUE_SHORT, on_tap.short);
        if self.worn.is_none() {
            answer.assume_words(Words::of("worn"));
        }
        let worn = self.worn.as_ref().is_none_or(|at| at.value);
        let torque = if worn { tapping::blunt(&on_tap.sharp)? } else { on_tap.sharp };
        let torque: Worked<NewtonMetre> = answer.record(&TORQUE, torque);
        let breaks = answer.record(&BREAKS_AT, tapping::breaks_at(&major)?);
        let check = Check::judge(ID, &torque, Keep::AtMost, &breaks, bench.guard());
        let check = answer.check(check.about(TORQUE.key).at(self.hole.place));
        if !check.is_proven() {
            for id in ["sharp-tap", "wider-hole", "taper-first"] {
                check.remedy(Words::of(id));
            }
        }
        Ok(Some(torque))
    }

    /// What the drawer lacks is a doubt and a line on the missing list.
    fn drawer(&self, bench: &Bench, lead: Lead, answer: &mut Answer) {
        const ID: &str = "tap-in-drawer";
        if bench.shop.is_none() {
            return answer.no_shop(&[ID]);
        }
        // A bottoming tap starts no thread: a plug tap goes before it.
        let first = (lead == Lead::Bottoming).then_some(Lead::Plug);
        let wanted = first.into_iter().chain([lead]).filter(|lead| self.taps_of(bench, *lead).next().is_none());
        let missing = answer.missing.len();
        for lead in wanted {
            answer.missing.push(Words::of("tap").with("thread", self.thread.value.name()).with("lead", lead.text()));
        }
        let verdict = if answer.missing.len() == missing { Verdict::Proven } else { Verdict::Doubtful };
        answer.check(Check::of_kind(ID, verdict).at(self.thread.place));
    }

    /// Taps of the drawer for the same thread with another lead, where it has none of the one that is asked for.
    pub(super) fn other_leads(&self, bench: &Bench) -> Vec<(Words, Instead)> {
        let own = self.lead.as_ref().map_or(Lead::Plug, |at| at.value);
        if self.taps_of(bench, own).next().is_some() {
            return Vec::new();
        }
        let others = [Lead::Taper, Lead::Plug, Lead::Bottoming].into_iter().filter(|lead| *lead != own);
        let owned = others.filter(|lead| self.taps_of(bench, *lead).next().is_some());
        let name = |lead: Lead| Words::of("tap-of").with("thread", self.thread.value.name()).with("lead", lead.text());
        owned.map(|lead| (name(lead), Instead::Lead(lead))).collect()
    }

    fn set_up_of(&self, bench: &Bench, lead: Lead, answer: &mut Answer) -> Result<(), Refusal> {
        let through = self.goes_through();
        let mut set_up = SetUp::at("tap", Station::Bench);
        // No tap is left standing in its hole.
        set_up.pause = false;
        set_up.hold.push(kit::held_in(self.hold.as_ref(), "in-the-vice").into());
        set_up.hold.extend(kit::trued(self.hold.as_ref()).map(Into::into));
        let size = answer.value(HOLE.key).map_or(0.0, |hole| hole.number);
        let gauge = kit::gauge_used(bench, size, Gauge::Inside, true);
        set_up.hold_at(Words::of("measure-the-hole"), HoldPoint::of(HOLE.key, 1, gauge, bench.guard()));
        hole_making::try_the_grip(&mut set_up, self.hold.as_ref(), answer);
        set_up.step("break-the-mouth").step("start-square");
        if lead == Lead::Bottoming {
            set_up.step("plug-first");
        }
        let depth = answer.value(TAP_DEPTH.key).map_or(0.0, |deep| deep.number);
        let tool = Words::of("tap-of").with("thread", self.thread.value.name()).with("lead", lead.text());
        let turns = answer.value(TURNS.key).map(|turns| Dialled::Turns { turns: turns.number });
        let passes = vec![Pass { kind: PassKind::Depth, depth, dial: turns, leaves: None }];
        let minutes = set_up_minutes::start("hole, tapping")?;
        let pitch = self.thread.value.pitch().number();
        let cut = Cut { tool, spindle: None, feed: Some(pitch), passes, minutes };
        set_up.cut(Words::of(if through { "tap-it-through" } else { "tap-it" }), cut);
        set_up.step("when-it-springs").step("clean-thread").step("try-gauge");
        set_up.sketch = sketch::hole(self, answer);
        set_up.takes(set_up_minutes::start("thread, setting up")?);
        set_up.needs = match self.hole.value.address() {
            Some(address) => vec![State::of_operation(&address.owner(), StateKind::Drilled)],
            None => kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]),
        };
        set_up.leaves = vec![kit::of_this(bench, StateKind::Tapped)];
        set_up.warns(&["tap-snaps", "swarf"]);
        let found = kit::found(answer, HOLE.key);
        // Its limits stand at the hold point, the gauge's doubt taken off.
        set_up.blanks.push(kit::read_with(kit::blank("hole-found", found, None), 1, bench, Gauge::Inside));
        let deep = kit::aimed(answer, FULL_THREAD.key).map(|deep| deep.to(Decimals::Exactly(2)));
        let left = kit::blank("thread-left", None, deep).left_as(&FULL_THREAD);
        set_up.blanks.push(kit::read_with(left, 1, bench, Gauge::Depth));
        answer.set_ups.push(set_up);
        Ok(())
    }
}
