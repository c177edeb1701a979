//! Readings round a circle: how far the work stands out at each, where its centre is, and what moves it.

use super::Vector;

/// Work that turns off its centre, as it is seen along its axis: the first jaw up, angles the way the clock goes.
#[derive(Clone, Debug, PartialEq)]
pub struct Polar {
    /// The readings.
    pub reads: Vec<Spoke>,
    /// Where the centre of the work is from that of the spindle: towards the first jaw, and across, mm.
    pub centre: Vector,
    /// How far off it may be, mm.
    pub allowed: f64,
    /// What holds and moves it.
    pub grips: Vec<Grip>,
    /// What is said of it, over and under.
    pub says: [Vec<String>; 2],
}

/// One reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Spoke {
    /// Where, degrees.
    pub degrees: f64,
    /// How far the work stands out there over the mean of all, mm.
    pub over: f64,
    /// The same as it is written.
    pub says: String,
}

/// A jaw, or a place where the work is moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Grip {
    /// Where, degrees.
    pub degrees: f64,
    /// The number on the jaw; nothing where there is no jaw.
    pub number: Option<u8>,
    /// Which way it goes, where it moves.
    pub goes: Option<Goes>,
    /// What is done there, in lines.
    pub says: Vec<String>,
}

/// Which way something goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Goes {
    /// Towards the axis.
    In,
    /// Away from it.
    Out,
}
