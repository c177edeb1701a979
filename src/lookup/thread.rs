//! `book thread "1/4 BSF"`: what the book holds of one thread.

use super::{Question, Reply, Row, WANTED, wording};
use crate::handbook::threads::insert::Lead;
use crate::handbook::{
    BoltClass, Material, Thread, constants,
    threads::{
        clearance_holes::clearance_holes,
        tap_leads, tapping,
        thread_form::{self, Form},
        thread_strength as strength,
        thread_tolerance::{Grade, Of, tolerance},
    },
};
use crate::operations::Name;
use crate::proof::{At, Mark, Refusal, Source, Worked};
use crate::quantity::{
    Angle, Decimals, Mm, Mm2, Newton, NewtonMetre, Print, Quantity, Ratio, Rounds, Shown, Stress, Tpi, Unit, by_drawer,
    figure,
};
use crate::reading::Problem;
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::Deserialize;

/// What the book holds of one thread: sizes, tapping drill, percentage of thread, loads.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct ThreadAsked {
    /// The thread.
    thread: At<Thread>,
    /// Metal that is tapped, for the torque on the tap.
    material: Option<At<Material>>,
    /// A drill of one's own, for its percentage of thread.
    drill: Option<At<Mm>>,
    /// A percentage of thread, for the drill that leaves it.
    percent: Option<At<Ratio>>,
    /// Strength class of the bolt, for loads and tightening torque.
    class: Option<At<BoltClass>>,
}

const MAJOR: Name<Mm> = Name::new("major_diameter", "major diameter, nominal");
const PITCH: Name<Mm> = Name::new("pitch", "pitch");
const COUNT: Name<Tpi> = Name::new("threads_per_inch", "threads on an inch");
const FLANKS: Name<Angle> = Name::new("flank_angle", "included angle of the flanks");
const PITCH_DIAMETER: Name<Mm> = Name::new("pitch_diameter", "pitch (effective) diameter, basic");
const DEPTH: Name<Mm> = Name::new("thread_depth", "depth of the thread on one side, basic");
const MINOR: Name<Mm> = Name::new("minor_diameter", "minor (core) diameter, basic");
const NUT_MINOR_MIN: Name<Mm> = Name::lower("nut_minor_min", "nut: minor diameter, least");
const NUT_MINOR_MAX: Name<Mm> = Name::upper("nut_minor_max", "nut: minor diameter, most");
const NUT_PITCH_MAX: Name<Mm> = Name::upper("nut_pitch_max", "nut: pitch diameter, most");
const NUT_PITCH_TOLERANCE: Name<Mm> = Name::new("nut_pitch_tolerance", "nut: tolerance of the pitch diameter, grade 6");
const NUT_MINOR_TOLERANCE: Name<Mm> = Name::new("nut_minor_tolerance", "nut: tolerance of the minor diameter, grade 6");
const BOLT_MAJOR_MIN: Name<Mm> = Name::lower("bolt_major_min", "bolt: major diameter, least");
const STRESS_AREA: Name<Mm2> = Name::new("stress_area", "tensile stress area of the bolt");
const NUT_SHEAR: Name<Mm2> = Name::new("nut_shear_area_per_mm", "area that strips in the nut, for each mm engaged");
const DRILL: Name<Mm> = Name::new("tapping_drill", "tapping drill of the list");
const DRILL_ASKED: Name<Mm> = Name::new("drill_asked", "drill asked about");
const PERCENT_OWN: Name<Ratio> =
    Name::new("thread_percent_full_depth", "per cent of thread, basis: full depth of the form");
const PERCENT_BASIC: Name<Ratio> =
    Name::new("thread_percent_three_quarter_h", "per cent of thread, basis: 3/4 H a side (American)");
const PERCENT_ISO: Name<Ratio> =
    Name::new("thread_percent_five_eighths_h", "per cent of thread, basis: 5/8 H a side (ISO 68-1)");
const DRILL_OWN: Name<Mm> =
    Name::new("drill_for_percent_full_depth", "drill for that percentage, full depth of the form");
const DRILL_BASIC: Name<Mm> =
    Name::new("drill_for_percent_three_quarter_h", "drill for that percentage, basis 3/4 H a side (American)");
const DRILL_ISO: Name<Mm> =
    Name::new("drill_for_percent_five_eighths_h", "drill for that percentage, basis 5/8 H a side (ISO 68-1)");
const TORQUE_PLUG: Name<NewtonMetre> = Name::lower("tap_torque_plug", "torque on a hand tap, plug lead");
const TORQUE_BOTTOMING: Name<NewtonMetre> = Name::lower("tap_torque_bottoming", "torque on a hand tap, bottoming lead");
const TORQUE_SHORT: Name<NewtonMetre> =
    Name::lower("tap_torque_short_form", "the same by the short form, blind to the drill");
const BREAKING: Name<Newton> = Name::upper("bolt_force", "load that breaks the bolt");
const PROOF: Name<Stress> = Name::new("proof_stress", "proof stress of the class");
const CLAMPING: Name<Newton> = Name::new("clamping_force", "clamping force at the usual share of proof");
const TORQUE_DRY: Name<NewtonMetre> = Name::new("tightening_torque_dry", "tightening torque, dry");
const TORQUE_OILED: Name<NewtonMetre> = Name::new("tightening_torque_oiled", "tightening torque, oiled");

impl Question for ThreadAsked {
    const PLAIN: Option<&'static str> = Some("thread");

    fn names() -> Vec<(String, String)> {
        Thread::all().map(|thread| (thread.name().to_owned(), thread.row().series.text().to_owned())).collect()
    }

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let thread = self.thread.value;
        let mut reply = Reply::new(wording::thread_title(thread));
        geometry(&mut reply, thread);
        limits(&mut reply, thread);
        reply.put_or_say(&STRESS_AREA, thread.stress_area());
        stripping(&mut reply, thread);
        self.tapping(&mut reply, thread);
        self.bolt(&mut reply, thread);
        leads(&mut reply, thread);
        wanted(&mut reply, thread);
        // Who asks for a torque or a class wants that.
        let more = [self.material.is_some(), self.drill.is_some(), self.percent.is_some(), self.class.is_some()];
        reply.brief = !more.contains(&true);
        reply.note(thread.row().note.clone());
        Ok(reply)
    }
}

/// What one mostly wants: the drill before the tap, the hole for the bolt, the pitch.
fn wanted(reply: &mut Reply, thread: Thread) {
    let mut row = |what: &str, says: String, source: Source| {
        reply.rows.push(Row::words(WANTED, what, says, source));
    };
    let own = || thread.row().source.clone();
    if thread.also_meant().is_some() {
        row(wording::TAKEN, wording::also_meant(thread), own());
    }
    if let (Some(drill), Some(source)) = (thread.tap_drill(), thread.row().drill_source.clone()) {
        let size = drill.number();
        let named = by_drawer(&thread.row().tap_drill_name);
        let named = named.unwrap_or_else(|| format!("{} mm", figure(size)));
        row(wording::TAPPING_DRILL, wording::drill_of_lists(named, drill.band()), source);
        for (basis, height) in tapping::bases(thread.form()) {
            let Ok(left) = percentage(thread, &drill, &height) else { continue };
            let source = Source::fixed("what stands above", Mark::Derived);
            row(wording::THREAD_LEFT, wording::percent_on(left.number(), &basis), source);
        }
    }
    if let Some(holes) = clearance_holes(thread) {
        for (fit, drill) in holes.drills {
            row(&wording::clearance_drill(fit), drill, holes.source.clone());
        }
    }
    let pitch = (thread.pitch().number() * 1e4).round() / 1e4;
    reply.rows.push(Row::figure(
        WANTED,
        wording::THREAD_PITCH,
        (pitch, pitch, Unit::Mm.text()),
        wording::count_of(thread),
        own(),
    ));
    let major = Shown::of(thread.major().number(), None, Unit::Mm, (Decimals::AsTyped, Rounds::Nearest), Print::Both);
    reply.rows.push(Row::words(WANTED, wording::THREAD_MAJOR, major.to_string(), own()));
}

/// A figure of the thread's own row.
fn own<Q: Quantity>(thread: Thread, number: f64, what: &str) -> Worked<Q> {
    figure_of((thread, &thread.row().source), number, what)
}

fn limit_of<Q: Quantity>(thread: Thread, number: f64, what: &str) -> Worked<Q> {
    figure_of((thread, &thread.row().limits_source), number, what)
}

/// A figure of the row of a thread, by a source.
fn figure_of<Q: Quantity>((thread, source): (Thread, &Source), number: f64, what: &str) -> Worked<Q> {
    let says = format!("{}: {what} {} {}", thread.name(), figure(number), Q::UNIT);
    Worked::row(Q::new(number), says, source.clone())
}

fn geometry(reply: &mut Reply, thread: Thread) {
    reply.put(&MAJOR, &thread.major());
    reply.put(&PITCH, &thread.pitch());
    if let Some(count) = thread.row().tpi {
        reply.put(&COUNT, &own(thread, count, COUNT.means));
    }
    reply.put_or_say(&FLANKS, tapping::flank_angle(thread.form()));
    reply.put_or_say(&PITCH_DIAMETER, thread.pitch_diameter());
    reply.put_or_say(&MINOR, thread.minor_diameter());
    // A form of 60 degrees has no one depth: its crests and roots are cut off unlike on bolt and nut.
    if matches!(thread.form(), Form::Whitworth | Form::Ba | Form::Cycle) {
        let depth = thread.pitch_diameter().and_then(|pitch| thread_form::thread_depth(&thread.major(), &pitch));
        reply.put_or_say(&DEPTH, depth);
    }
}

/// The limits where a row was read; where none was, that is said.
fn limits(reply: &mut Reply, thread: Thread) {
    let names = [&NUT_MINOR_MIN, &NUT_MINOR_MAX, &NUT_PITCH_MAX, &BOLT_MAJOR_MIN];
    let mut lacking = Vec::new();
    for (name, limit) in names.into_iter().zip(thread.row().limits) {
        match limit {
            Some(limit) => reply.put(name, &limit_of(thread, limit, name.means)),
            None => lacking.push(name.means),
        }
    }
    if !lacking.is_empty() {
        reply.note(wording::no_limits(&lacking));
    }
    if thread.form() == Form::Iso {
        for (name, of) in [(&NUT_PITCH_TOLERANCE, Of::Pitch), (&NUT_MINOR_TOLERANCE, Of::Minor)] {
            reply.put_or_say(name, tolerance(of, thread.major().number(), thread.pitch().number(), Grade::Six));
        }
    }
}

/// The area that strips in the nut, where the limits that it stands on were read.
fn stripping(reply: &mut Reply, thread: Thread) {
    let [_, _, Some(pitch_max), Some(major_min)] = thread.row().limits else {
        reply.note(wording::NO_STRIPPING);
        return;
    };
    let (pitch_max, major_min) =
        (limit_of(thread, pitch_max, NUT_PITCH_MAX.means), limit_of(thread, major_min, BOLT_MAJOR_MIN.means));
    let one = Worked::assumed(Mm::new(1.0), "one millimetre engaged");
    let half = thread.form().half_angle();
    let area = match half == 30.0 {
        true => strength::nut_shear_area(&thread.pitch(), &one, &major_min, &pitch_max),
        false => {
            let says = format!("half the flank angle: {} deg", figure(half));
            let half = Worked::row(Angle::new(half), says, Source::fixed(thread.form().standard(), Mark::Read));
            strength::shear_area_any_form(&thread.pitch(), &one, &major_min, &pitch_max, &half)
        }
    };
    reply.put_or_say(&NUT_SHEAR, area);
    reply.note(wording::NO_BOLT_STRIPPING);
}

impl ThreadAsked {
    fn tapping(&self, reply: &mut Reply, thread: Thread) {
        let listed = thread.tap_drill();
        match &listed {
            Some(drill) => reply.put(&DRILL, drill),
            None => reply.note(wording::NO_TAP_DRILL),
        }
        let asked = self.drill.as_ref().map(Worked::from);
        if let Some(drill) = &asked {
            reply.put(&DRILL_ASKED, drill);
        }
        self.for_percentage(reply, thread);
        let Some(drill) = asked.or(listed) else { return };
        for (basis, height) in tapping::bases(thread.form()) {
            let (name, _) = named(&basis);
            reply.put_or_say(name, percentage(thread, &drill, &height));
        }
        if tapping::bases(thread.form()).len() > 1 {
            reply.note(wording::TWO_BASES);
        }
        let torque = self.material.as_ref().map(|material| torque_on_tap(reply, thread, material, &drill));
        if let Some(Err(refusal)) = torque {
            reply.refuse(TORQUE_PLUG.means, refusal);
        }
    }

    /// The drill for a percentage of thread that is asked for, on each basis.
    fn for_percentage(&self, reply: &mut Reply, thread: Thread) {
        let Some(percent) = self.percent.as_ref().map(Worked::from) else { return };
        for (basis, height) in tapping::bases(thread.form()) {
            let (_, name) = named(&basis);
            let drill = tapping::drill_for_percentage(&thread.major(), &percent, &height, &thread.pitch());
            reply.put_or_say(name, drill);
        }
    }

    /// Loads and tightening torques of a bolt of the class asked.
    fn bolt(&self, reply: &mut Reply, thread: Thread) {
        let Some(class) = &self.class else { return };
        if let Err(refusal) = bolt(reply, thread, class) {
            reply.refuse(BREAKING.means, refusal);
        }
    }
}

/// What percentage and drill are called on a basis.
fn named(basis: &str) -> (&'static Name<Ratio>, &'static Name<Mm>) {
    match basis {
        "3/4H a side" => (&PERCENT_BASIC, &DRILL_BASIC),
        "5/8H a side" => (&PERCENT_ISO, &DRILL_ISO),
        _ => (&PERCENT_OWN, &DRILL_OWN),
    }
}

/// The percentage of thread on a basis; where the lists of drills disagree, with the band that gives.
fn percentage(thread: Thread, drill: &Worked<Mm>, height: &Worked<Ratio>) -> Result<Worked<Ratio>, Refusal> {
    tapping::thread_percentage(&thread.major(), drill, height, &thread.pitch())
}

fn torque_on_tap(reply: &mut Reply, thread: Thread, material: &Material, drill: &Worked<Mm>) -> Result<(), Refusal> {
    let force = tapping::specific_force(material)?;
    let half = tapping::flank_angle(thread.form())?;
    let half = half.scaled(0.5, "half of it");
    let fine = thread.row().series.is_fine();
    for (name, lead) in [(&TORQUE_PLUG, Lead::Plug), (&TORQUE_BOTTOMING, Lead::Bottoming)] {
        let factor = tapping::hand_tap_factor(lead, material.kind(), fine)?;
        reply.put_or_say(name, tapping::tap_torque(&half, &force, &factor, &thread.major(), drill));
    }
    reply.put_or_say(&TORQUE_SHORT, tapping::tap_torque_short(&force, &thread.pitch(), &thread.major()));
    reply.note(wording::TAP_TORQUE_SPREAD);
    Ok(())
}

fn bolt(reply: &mut Reply, thread: Thread, class: &BoltClass) -> Result<(), Refusal> {
    let area = thread.stress_area()?;
    let diameter = thread.major();
    reply.put_or_say(&BREAKING, strength::bolt_load(&area, &class.tensile(diameter.number())?));
    let Some(proof) = class.proof(diameter.number())? else {
        reply.note(wording::NO_PROOF);
        return Ok(());
    };
    reply.put(&PROOF, &proof);
    let share = constants::constant::<Ratio>("clamping-share-of-proof")?;
    let clamping = strength::clamping_by_proof(&share, &proof, &area)?;
    reply.put(&CLAMPING, &clamping);
    for (name, factor) in [(&TORQUE_DRY, "nut-factor-dry"), (&TORQUE_OILED, "nut-factor-oiled")] {
        reply.put(name, &strength::torque_short(&constants::constant(factor)?, &diameter, &clamping)?);
    }
    reply.note(wording::ENGINE_DATA_FIRST);
    Ok(())
}

fn leads(reply: &mut Reply, thread: Thread) {
    let pitch = thread.pitch();
    for form in tap_leads::all().iter().filter(|form| form.standard != "insert tap") {
        let threads = |k: f64| Worked::row(Ratio::new(k), format!("{} threads", figure(k)), form.source());
        let length = |k: f64| tap_leads::lead_length(&threads(k), &pitch).map(|l| l.number());
        let (Ok(low), Ok(high)) = (length(form.threads_low), length(form.threads_high)) else { continue };
        let says = wording::lead(form.threads_low, form.threads_high, &form.purpose, &form.note);
        let what = format!("{} {}", form.standard, form.lead);
        reply.rows.push(Row::figure(wording::LEADS, what, (low, high, "mm"), says, form.source()));
    }
}
