//! Which thread is this? Every thread of the book against a diameter and a pitch that were measured.
//!
//! A bolt's major diameter lies a little under nominal, a nut's minor diameter a little over basic. Where limits were read they
//! are the spread of the thread; else a share of the pitch is taken. The distance is the reading's departure from the middle of
//! that spread, in units of the root-sum-square of the reading's doubt and half the spread.

use super::series::Thread;
use super::tapping::flank_angle;
use crate::formula;
use crate::handbook::constants::{constant, row};
use crate::handbook::table::cited;
use crate::in_order::InOrder;
use crate::proof::{Refusal, Worked};
use crate::quantity::{Mm, Quantity, Ratio, figure};

formula! {
    /// A diameter that lies a share of the pitch under another.
    under_by_pitch(D: Mm = "the diameter" in 0.1..=300.0, k: Ratio = "the share of the pitch" in 0.0..=1.0,
        P: Mm = "the pitch" in 0.05..=12.0)
        -> d: Mm { D - k * P }
    source Own "spread of the thread as a share of its pitch"
}
formula! {
    /// A diameter that lies a share of the pitch over another.
    over_by_pitch(D: Mm = "the diameter" in 0.1..=300.0, k: Ratio = "the share of the pitch" in 0.0..=1.0,
        P: Mm = "the pitch" in 0.05..=12.0)
        -> d: Mm { D + k * P }
    source Own "spread of the thread as a share of its pitch"
}
formula! {
    /// How far a reading lies from the middle of what it can be, in units of the combined doubt.
    distance(x: Mm = "the reading" in 0.01..=400.0, low: Mm = "the least that it can be" in 0.01..=400.0,
        high: Mm = "the most that it can be" in 0.01..=400.0, U: Mm = "the doubt of the reading" in 0.0..=50.0)
        -> z: Ratio { sqrt(sq(x - (low + high) / 2.0) / (sq(U) + sq((high - low) / 2.0))) }
    source Own "departure over the root-sum-square of the reading's doubt and half the spread"
}
formula! {
    /// Two distances together.
    both_distances(z_d: Ratio = "the distance of the diameter" in 0.0..=1e6, z_P: Ratio = "the distance of the pitch" in 0.0..=1e6)
        -> z: Ratio { sqrt(sq(z_d) + sq(z_P)) }
    source Own "root-sum-square of the two distances"
}
formula! {
    /// Length over so many pitches.
    length_over(n: Ratio = "the pitches counted" in 1.0..=100.0, P: Mm = "the pitch" in 0.05..=12.0)
        -> l: Mm { n * P }
    source Derived "one pitch a thread"
}

/// Which side of the thread was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The crests of a bolt: its major diameter.
    Bolt,
    /// The crests of a nut: its minor diameter.
    Nut,
}

/// A thread with its distances from what was measured.
#[derive(Debug)]
pub struct Match {
    /// The thread.
    pub thread: Thread,
    /// The least and the most that the diameter can be.
    pub spread: (Worked<Mm>, Worked<Mm>),
    /// Distance of the diameter, where it was measured.
    pub diameter: Option<Worked<Ratio>>,
    /// Distance of the pitch, where it was measured.
    pub pitch: Option<Worked<Ratio>>,
    /// Both together.
    pub distance: Worked<Ratio>,
}

/// Every thread whose distance is within what the table of constants lists, the nearest first.
///
/// # Errors
/// [`Refusal::NotGiven`] where neither was measured, [`Refusal::Outside`] for what is no thread of a workshop.
pub fn matches(side: Side, diameter: Option<&Worked<Mm>>, pitch: Option<&Worked<Mm>>) -> Result<Vec<Match>, Refusal> {
    if diameter.is_none() && pitch.is_none() {
        return Err(Refusal::NotGiven { what: "a diameter or a pitch", key: "diameter" });
    }
    let listed = row("thread-match-listed")?.value;
    let mut all = Thread::all().map(|thread| matched(thread, side, diameter, pitch)).collect::<Result<Vec<_>, _>>()?;
    all.retain(|m| m.distance.number() <= listed);
    all.order_by(|a, b| a.distance.number().total_cmp(&b.distance.number()));
    Ok(all)
}

fn matched(
    thread: Thread,
    side: Side,
    diameter: Option<&Worked<Mm>>,
    pitch: Option<&Worked<Mm>>,
) -> Result<Match, Refusal> {
    let spread = spread(thread, side)?;
    let diameter = diameter.map(|d| distance(&bare(d), &spread.0, &spread.1, &doubt(d))).transpose()?;
    let own = thread.pitch();
    let pitch = pitch.map(|p| distance(&bare(p), &own, &own, &doubt(p))).transpose()?;
    let distance = match (&diameter, &pitch) {
        (Some(d), Some(p)) => both_distances(&capped(d), &capped(p))?,
        (Some(one), None) | (None, Some(one)) => one.clone(),
        (None, None) => return Err(Refusal::NotGiven { what: "a diameter or a pitch", key: "diameter" }),
    };
    Ok(Match { thread, spread, diameter, pitch, distance })
}

/// The reading without its doubt, which enters as a figure of its own.
fn bare(reading: &Worked<Mm>) -> Worked<Mm> {
    reading.nominal("its doubt enters as a figure of its own")
}

fn doubt(reading: &Worked<Mm>) -> Worked<Mm> {
    Worked::exact(Mm::new(reading.plus_minus()), reading.origin().clone())
}

/// Very far is far enough.
fn capped(far: &Worked<Ratio>) -> Worked<Ratio> {
    far.at_most(1e6, "as far as it is told")
}

/// The least and the most that the diameter measured can be: limits where they were read, else a share of the pitch.
fn spread(thread: Thread, side: Side) -> Result<(Worked<Mm>, Worked<Mm>), Refusal> {
    let [minor_min, minor_max, _, major_min] = thread.row().limits;
    let read = |number: f64, what: &str| {
        let says = format!("{}: {what} {} mm", thread.name(), figure(number));
        Worked::row(Mm::new(number), says, thread.row().limits_source.clone())
    };
    match side {
        Side::Bolt => {
            let nominal = thread.major();
            let least = match major_min {
                Some(least) => read(least, "bolt major diameter least"),
                None => under_by_pitch(&nominal, &share("bolt-major-under-nominal")?, &thread.pitch())?,
            };
            Ok((least, nominal))
        }
        Side::Nut => match (minor_min, minor_max) {
            (Some(least), Some(most)) => {
                Ok((read(least, "nut minor diameter least"), read(most, "nut minor diameter most")))
            }
            _ => {
                let basic = thread.minor_diameter()?;
                let most = over_by_pitch(&basic, &share("nut-minor-over-basic")?, &thread.pitch())?;
                Ok((basic, most))
            }
        },
    }
}

/// The far end of a spread as a share of the pitch.
fn share(name: &'static str) -> Result<Worked<Ratio>, Refusal> {
    let row = row(name)?;
    let far = row.high.unwrap_or(row.value);
    let says = format!("{}: up to {} P", name.replace('-', " "), figure(far));
    Ok(Worked::row(Ratio::new(far), says, cited(row.source, row.seen)))
}

/// A measurement that tells two threads apart, with the figure of each.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Decides {
    /// Length over so many pitches, mm.
    Length {
        /// Pitches.
        over: f64,
        /// Of the first.
        one: f64,
        /// Of the other.
        other: f64,
    },
    /// Form gauge: included angle of the flanks, degrees.
    Flanks {
        /// Of the first.
        one: f64,
        /// Of the other.
        other: f64,
    },
    /// Diameter over the crests: the nearer ends of the two spreads, mm.
    Diameter {
        /// Of the first.
        one: f64,
        /// Of the other.
        other: f64,
    },
}

/// What would tell two threads apart, given the doubt with which a diameter is read; nothing where nothing would.
///
/// # Errors
/// As [`matches()`].
pub(crate) fn deciding(one: &Match, other: &Match, doubt: f64) -> Result<Vec<Decides>, Refusal> {
    let mut all = Vec::new();
    let (a, b) = (&one.spread, &other.spread);
    let apart = [(a.0.number(), b.1.number()), (a.1.number(), b.0.number())];
    // One spread lies wholly above the other by more than both readings' doubts.
    let above = apart.first().filter(|(low, high)| low - high > 2.0 * doubt);
    let below = apart.last().filter(|(high, low)| low - high > 2.0 * doubt);
    if let Some(&(one, other)) = above.or(below) {
        all.push(Decides::Diameter { one, other });
    }
    let over = constant::<Ratio>("pitch-length-threads")?;
    let (l, m) = (length_over(&over, &one.thread.pitch())?, length_over(&over, &other.thread.pitch())?);
    if (l.number() - m.number()).abs() > 2.0 * row("pitch-length-doubt")?.value {
        all.push(Decides::Length { over: over.number(), one: l.number(), other: m.number() });
    }
    let (f, g) = (flank_angle(one.thread.form())?.number(), flank_angle(other.thread.form())?.number());
    if f != g {
        all.push(Decides::Flanks { one: f, other: g });
    }
    Ok(all)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Cause;

    fn measured(mm: f64, half: f64) -> Worked<Mm> {
        Worked::assumed(Mm::new(mm), "measured").with_doubt(Cause::Named("it"), half)
    }

    #[test]
    fn quarter_inch_threads_and_m6_are_told_apart() {
        let found = matches(Side::Bolt, Some(&measured(6.33, 0.02)), Some(&measured(25.4 / 26.0, 0.019))).unwrap();
        let names: Vec<&str> = found.iter().map(|m| m.thread.name()).collect();
        assert_eq!(&names[..2], ["1/4 BSF", "1/4-26 BSC"]);
        for near in ["1/4-28 UNF", "M6"] {
            assert!(names.contains(&near), "{near}: {names:?}");
        }
        let cycle = deciding(&found[0], &found[1], 0.02).unwrap();
        assert_eq!(cycle, [Decides::Flanks { one: 55.0, other: 60.0 }]);
        let m6 = found.iter().find(|m| m.thread.name() == "M6").unwrap();
        assert!(matches!(deciding(&found[0], m6, 0.02).unwrap()[0], Decides::Diameter { .. }));
    }

    #[test]
    fn a_worn_crest_is_still_its_own_thread() {
        for name in ["M8", "1/4 BSF", "2 BA", "3/8-16 UNC", "1/2 BSW"] {
            let thread: Thread = name.parse().unwrap();
            for share in [0.0, 0.1, 0.2] {
                let d = measured(thread.major().number() - share * thread.pitch().number(), 0.01);
                let found = matches(Side::Bolt, Some(&d), Some(&measured(thread.pitch().number(), 0.02))).unwrap();
                assert!(
                    found.iter().take(3).any(|m| m.thread == thread && m.distance.number() < 1.3),
                    "{name} at {share}"
                );
            }
        }
    }
}
