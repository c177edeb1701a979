//! Times of the day and days of the calendar, as a shop writes them: `10:30`, `2026-12-01`, `2026-12-01 10:30`, `mon tue wed`.

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, de};
use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

/// Minutes of an hour, and of a day.
const HOUR: u32 = 60;
const DAY: u32 = 24 * HOUR;
/// Days of 400 years, after which the calendar begins again.
const DAYS_OF_CYCLE: u32 = 146_097;

/// A time of the day, whole minutes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ClockTime(u32);

/// A day of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    year: u32,
    month: u32,
    day: u32,
}

/// A time, of a day that is named or of the day that is planned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Moment {
    /// The day, where it is named.
    pub date: Option<Date>,
    /// The time.
    pub time: ClockTime,
}

/// Days of the week.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Weekdays([bool; 7]);

const WEEK: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

impl ClockTime {
    /// So many minutes after midnight; hours over 24 go round.
    pub const fn of(minutes: u32) -> Self {
        Self(minutes % DAY)
    }

    /// Minutes after midnight; 24:00 is the end of the day.
    pub const fn minutes(self) -> u32 {
        self.0
    }
}

impl Date {
    /// Days since the first of March of the year 0.
    pub const fn number(self) -> u32 {
        // The year begins in March, so that the day that leaps comes last.
        let (year, month) = if self.month > 2 { (self.year, self.month - 3) } else { (self.year - 1, self.month + 9) };
        year * 365 + year / 4 - year / 100 + year / 400 + (153 * month + 2) / 5 + self.day - 1
    }

    /// The day so many days after the first of January 1970.
    #[must_use]
    pub const fn since_1970(days: u32) -> Self {
        Self { year: 1970, month: 1, day: 1 }.plus(days)
    }

    /// So many days later.
    #[must_use]
    pub const fn plus(self, days: u32) -> Self {
        Self::numbered(self.number().saturating_add(days))
    }

    /// The day of a [number](Self::number).
    const fn numbered(number: u32) -> Self {
        let (cycle, days) = (number / DAYS_OF_CYCLE, number % DAYS_OF_CYCLE);
        // Without the days that leap every year has 365.
        let year = (days - days / 1_460 + days / 36_524 - days / (DAYS_OF_CYCLE - 1)) / 365;
        let days = days - (year * 365 + year / 4 - year / 100);
        let month = (5 * days + 2) / 153;
        let (year, day) = (cycle * 400 + year, days - (153 * month + 2) / 5 + 1);
        if month < 10 { Self { year, month: month + 3, day } } else { Self { year: year + 1, month: month - 9, day } }
    }

    /// The day of the week, Monday 0.
    pub const fn weekday(self) -> usize {
        // The first of March of the year 0 is a Wednesday.
        ((self.number() + 2) % 7) as usize
    }
}

const fn days_of(year: u32, month: u32) -> u32 {
    match month {
        2 if year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400)) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

impl Weekdays {
    /// The seven days of a week that begins on a day.
    pub fn from(self, first: usize) -> [bool; 7] {
        std::array::from_fn(|day| self.0.get((first + day) % 7).copied().unwrap_or_default())
    }

    /// Whether none is open.
    pub fn is_none(self) -> bool {
        !self.0.contains(&true)
    }
}

impl FromStr for ClockTime {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let none = || format!("`{text}` is no time of the day such as `10:30`");
        let (hours, minutes) = text.trim().split_once(':').ok_or_else(none)?;
        let digits = |text: &str, most: usize| {
            let are = !text.is_empty() && text.len() <= most && text.bytes().all(|byte| byte.is_ascii_digit());
            if are { text.parse::<u32>().ok() } else { None }
        };
        let (hours, minutes) =
            digits(hours, 2).zip(digits(minutes, 2).filter(|_| minutes.len() == 2)).ok_or_else(none)?;
        let all = hours * HOUR + minutes;
        if minutes < HOUR && all <= DAY { Ok(Self(all)) } else { Err(none()) }
    }
}

impl FromStr for Date {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let none = || format!("`{text}` is no day such as `2026-12-01`: year, month, day");
        let parts: Vec<&str> = text.trim().split('-').collect();
        let [year, month, day] = parts.as_slice() else { return Err(none()) };
        let digits = |text: &str, many: usize| {
            let are = text.len() == many && text.bytes().all(|byte| byte.is_ascii_digit());
            if are { text.parse::<u32>().ok() } else { None }
        };
        let (Some(year), Some(month), Some(day)) = (digits(year, 4), digits(month, 2), digits(day, 2)) else {
            return Err(none());
        };
        match (month, day) {
            _ if year == 0 => Err(none()),
            (1..=12, 1..) if day <= days_of(year, month) => Ok(Self { year, month, day }),
            (1..=12, _) => Err(format!("`{text}` is no day: that month has {} days", days_of(year, month))),
            _ => Err(format!("`{text}` is no day: there is no month {month}")),
        }
    }
}

impl FromStr for Moment {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        match text.trim().split_once(' ') {
            Some((date, time)) => Ok(Self { date: Some(date.parse()?), time: time.parse()? }),
            None => Ok(Self { date: None, time: text.parse()? }),
        }
    }
}

impl FromStr for Weekdays {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let mut days = [false; 7];
        for word in text.split([' ', ',']).filter(|word| !word.is_empty()) {
            let known = WEEK.iter().position(|day| day.eq_ignore_ascii_case(word));
            let slot = known.and_then(|day| days.get_mut(day));
            *slot.ok_or_else(|| format!("`{word}` is no day of the week such as `mon`"))? = true;
        }
        Ok(Self(days))
    }
}

impl fmt::Display for ClockTime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}:{:02}", self.0 / HOUR, self.0 % HOUR)
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.date.map_or(Ok(()), |date| write!(f, "{date} "))?;
        self.time.fmt(f)
    }
}

macro_rules! of_text {
    ($($Type:ident $name:literal $pattern:literal),+ $(,)?) => {$(
        impl<'de> Deserialize<'de> for $Type {
            fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                String::deserialize(from)?.parse().map_err(de::Error::custom)
            }
        }

        impl JsonSchema for $Type {
            fn inline_schema() -> bool {
                true
            }
            fn schema_name() -> Cow<'static, str> {
                $name.into()
            }
            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({ "type": "string", "pattern": $pattern })
            }
        }
    )+};
}

of_text! {
    ClockTime "ClockTime" "^[0-9]{1,2}:[0-9]{2}$",
    Date "Date" "^[0-9]{4}-[0-9]{2}-[0-9]{2}$",
    Moment "Moment" "^([0-9]{4}-[0-9]{2}-[0-9]{2} )?[0-9]{1,2}:[0-9]{2}$",
    Weekdays "Weekdays" "^((mon|tue|wed|thu|fri|sat|sun)[ ,]*)+$",
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_as_they_are_printed() {
        for (text, minutes) in [("08:00", 480), ("0:05", 5), ("23:59", 1439), ("24:00", 1440)] {
            assert_eq!(text.parse::<ClockTime>().unwrap().minutes(), minutes, "{text}");
        }
        assert_eq!(ClockTime::of(485).to_string(), "08:05");
        assert_eq!(ClockTime::of(1441).to_string(), "00:01");
        for none in ["8", "8:5", "08:60", "24:01", "-1:00", "08:00:00", "+8:00", ""] {
            assert!(none.parse::<ClockTime>().is_err(), "{none}");
        }
    }

    #[test]
    fn days_of_the_calendar_go_on_and_have_their_day_of_the_week() {
        let day = |text: &str| text.parse::<Date>().unwrap();
        // Read off a printed calendar: 1 January 2000 a Saturday, 29 February 2024 a Thursday, 30 November 2026 a Monday.
        assert_eq!([day("2000-01-01").weekday(), day("2024-02-29").weekday(), day("2026-11-30").weekday()], [5, 3, 0]);
        assert_eq!(day("2024-02-28").plus(2), day("2024-03-01"));
        assert_eq!(day("2026-12-31").plus(1), day("2027-01-01"));
        let mut date = day("1999-03-01");
        for days in 0..=DAYS_OF_CYCLE {
            assert_eq!(day("1999-03-01").plus(days), date);
            date = match date {
                Date { year, month: 12, day: 31 } => Date { year: year + 1, month: 1, day: 1 },
                Date { year, month, day } if day == days_of(year, month) => Date { year, month: month + 1, day: 1 },
                Date { day, .. } => Date { day: day + 1, ..date },
            };
        }
        assert_eq!(day("2027-03-01").number() - day("2026-03-01").number(), 365);
        for none in ["2026-02-29", "2100-02-29", "2026-13-01", "26-01-01", "2026-1-1", "0000-01-01", "today"] {
            assert!(none.parse::<Date>().is_err(), "{none}");
        }
    }

    #[test]
    fn a_moment_may_name_its_day() {
        let moment = "2026-12-01 10:30".parse::<Moment>().unwrap();
        assert_eq!((moment.to_string(), moment.time.minutes()), ("2026-12-01 10:30".into(), 630));
        assert_eq!("10:30".parse::<Moment>().unwrap().date, None);
        assert!("2026-12-01".parse::<Moment>().is_err() && "noon".parse::<Moment>().is_err());
    }

    #[test]
    fn a_week_may_begin_on_any_day() {
        let days = "mon tue, sat".parse::<Weekdays>().unwrap();
        assert_eq!(days.from(5), [true, false, true, true, false, false, false]);
        assert!("".parse::<Weekdays>().unwrap().is_none() && "moon".parse::<Weekdays>().is_err());
    }
}
