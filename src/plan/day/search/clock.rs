//! The open minutes of the shop: stretches of a day between breaks, and the days that are open.

/// Whole minutes; as a time, from midnight of the first day.
pub type Minute = u32;

/// Minutes of a day.
pub const DAY: Minute = 1440;

/// When the shop is open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clock {
    /// Open stretches of an open day, in order, min from midnight.
    stretches: Vec<(Minute, Minute)>,
    /// Which days of the week are open, beginning with the first day.
    week: [bool; 7],
    /// Days that are closed beside, counted from the first day.
    closed: Vec<Minute>,
    /// Whether every day is open.
    every_day: bool,
    longest: Minute,
    open_in_a_day: Minute,
    /// The first stretch that ends after each minute of an open day: it is asked for some hundred thousand times.
    after: Vec<(Minute, Minute)>,
}

impl Clock {
    /// Every day the same stretches; none where no stretch is left.
    pub fn daily(stretches: Vec<(Minute, Minute)>) -> Option<Self> {
        Self::new(stretches, [true; 7], Vec::new())
    }

    /// Stretches of a day, days of the week beginning with the first day, and days closed beside, counted from the first.
    /// None where no minute would be open.
    pub fn new(mut stretches: Vec<(Minute, Minute)>, week: [bool; 7], closed: Vec<Minute>) -> Option<Self> {
        stretches.retain(|(from, to)| from < to && *to <= DAY);
        stretches.sort_unstable();
        let longest = stretches.iter().map(|(from, to)| to - from).max()?;
        let open_in_a_day = stretches.iter().map(|(from, to)| to - from).sum();
        let mut after = Vec::with_capacity(DAY as usize);
        stretches.iter().for_each(|stretch| after.resize(after.len().max(stretch.1 as usize), *stretch));
        let every_day = week == [true; 7] && closed.is_empty();
        week.contains(&true).then_some(Self { stretches, week, closed, every_day, longest, open_in_a_day, after })
    }

    /// The stretches of an open day.
    pub fn stretches(&self) -> &[(Minute, Minute)] {
        &self.stretches
    }

    /// The longest stretch, min.
    pub const fn longest(&self) -> Minute {
        self.longest
    }

    /// Whether a day is open, counted from the first.
    pub fn is_open_on(&self, day: Minute) -> bool {
        self.every_day || self.week.get((day % 7) as usize).is_some_and(|open| *open) && !self.closed.contains(&day)
    }

    /// The first stretch that ends after a time, from its start or that time.
    pub fn stretch(&self, time: Minute) -> (Minute, Minute) {
        let (mut day, mut into) = (time / DAY, time % DAY);
        loop {
            if self.is_open_on(day)
                && let Some((from, to)) = self.after.get(into as usize)
            {
                return (day * DAY + into.max(*from), day * DAY + to);
            }
            (day, into) = (day + 1, 0);
        }
    }

    /// The first opening of a day after that of a time.
    pub fn opening(&self, time: Minute) -> Minute {
        self.stretch((time / DAY + 1) * DAY).0
    }

    /// The closing of the day of a time.
    pub fn closing(&self, time: Minute) -> Minute {
        time / DAY * DAY + self.stretches.last().map_or(0, |(_, to)| *to)
    }

    /// So many open minutes from a time, put down over breaks: start and end.
    pub fn run(&self, time: Minute, minutes: Minute) -> (Minute, Minute) {
        if minutes == 0 {
            return (time, time);
        }
        let (mut from, mut to) = self.stretch(time);
        let (start, mut left) = (from, minutes);
        while from + left > to {
            left -= to - from;
            (from, to) = self.stretch(to);
        }
        (start, from + left)
    }

    /// The earliest block of so many minutes from a time. One that may not be put down stands in one stretch, unless none is
    /// as long.
    pub fn fit(&self, time: Minute, minutes: Minute, may_pause: bool) -> (Minute, Minute) {
        if may_pause || minutes > self.longest {
            return self.run(time, minutes);
        }
        let (mut from, mut to) = self.stretch(time);
        while from + minutes > to {
            (from, to) = self.stretch(to);
        }
        (from, from + minutes)
    }

    /// The open stretches between two times, each given to `take`.
    pub fn idle(&self, from: Minute, to: Minute, mut take: impl FnMut((Minute, Minute))) {
        let mut time = from;
        while time < to {
            let (start, end) = self.stretch(time);
            if start >= to {
                break;
            }
            take((start, end.min(to)));
            time = end;
        }
    }

    /// Open minutes between two times.
    pub fn open_between(&self, from: Minute, to: Minute) -> Minute {
        self.open_before(to).saturating_sub(self.open_before(from))
    }

    /// Open minutes before a time, from the first midnight.
    pub fn open_before(&self, time: Minute) -> Minute {
        let (day, into) = (time / DAY, time % DAY);
        let days = if self.every_day { day } else { (0..day).filter(|day| self.is_open_on(*day)).count() as Minute };
        let today = self.stretches.iter().map(|(from, to)| into.min(*to).saturating_sub(*from)).sum::<Minute>();
        days * self.open_in_a_day + if self.is_open_on(day) { today } else { 0 }
    }
}
