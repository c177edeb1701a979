//! What must be done with each part: the rows that every output is made from.

use crate::proof::{Keep, Verdict};
use crate::quantity::{Print, Unit};
use crate::shop::Paper;

/// What must be done with the parts of some jobs, given together.
#[derive(Clone, Debug)]
pub struct Decided {
    /// The jobs' names.
    pub jobs: Vec<String>,
    /// The engines.
    pub engines: Vec<String>,
    /// The day of the first job that has one.
    pub date: Option<String>,
    /// The shop's name.
    pub shop: Option<String>,
    /// Units of print.
    pub print: Print,
    /// Paper of the page.
    pub paper: Paper,
    /// The features in the order of the files: those inspected, then those that operations judge.
    pub rows: Vec<Row>,
    /// What was assumed.
    pub assumed: Vec<String>,
    /// Lines of the log that are not whole, quoted.
    pub log_faults: Vec<String>,
}

impl Decided {
    /// What is ordered or taken out of a drawer, in the order of the rows, one line an item.
    pub fn orders(&self) -> Vec<&Order> {
        let mut all: Vec<&Order> = Vec::new();
        for order in self.rows.iter().flat_map(|row| &row.orders) {
            if !all.contains(&order) {
                all.push(order);
            }
        }
        all
    }
}

/// A feature, and what must be done with it.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The part.
    pub part: String,
    /// What was looked at.
    pub feature: String,
    /// What was found; none where nobody measured it.
    pub found: Option<Size>,
    /// Its limits.
    pub limits: Vec<Limit>,
    /// What it is when new, from and to, in the unit of the limits.
    pub new: Option<(f64, f64)>,
    /// How far inside the nearest limit it is at its worst end; negative is outside.
    pub margin: Option<f64>,
    /// How it stands; none where it was not judged.
    pub verdict: Option<Verdict>,
    /// What must be done.
    pub decision: Decision,
    /// Why.
    pub why: Vec<Why>,
    /// The sheets by which it is done.
    pub sheets: Vec<String>,
    /// What it takes.
    pub orders: Vec<Order>,
}

/// A size found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    /// The figure.
    pub number: f64,
    /// Its doubt (k = 2).
    pub plus_minus: f64,
    /// The unit of it, of the limits and of the margin.
    pub unit: Unit,
    /// Whether it was written down after the work.
    pub as_left: bool,
}

/// A limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// On which side it must stay.
    pub keep: Keep,
    /// The limit.
    pub number: f64,
    /// Its unit.
    pub unit: Unit,
}

/// What must be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Decision {
    /// It is used again as it is.
    Reuse,
    /// Nobody knows whether it is inside: measure it better. Until then what would be done if it were outside.
    Doubtful(Box<Cure>),
    /// It is put right, or another takes its place.
    Cure(Cure),
    /// It was not measured.
    Measure,
    /// Another of the size that its mate now has.
    Follows(String),
}

/// How what is worn is put right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cure {
    /// By an operation that is proven.
    Proven(String),
    /// By an operation that is doubtful.
    Doubtful(String),
    /// By an operation that nobody has planned yet.
    Unplanned(String),
    /// By an operation that fails as it is planned, if it is planned anew.
    Anew(String),
    /// By an operation that is planned for what is no more, if it is planned anew.
    Otherwise(String),
    /// This operation was done, and fails as it was left.
    Failed(String),
    /// Nobody says what puts it right.
    Unsaid,
    /// Nothing puts it right: another part.
    Replace,
}

/// A line of the log: its number, and the job whose log it is where several are given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The number.
    pub n: u32,
    /// The job.
    pub job: Option<String>,
}

/// A reason.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// Inside at the worst end, by the margin.
    Inside,
    /// Inside by so much at the middle, outside at the worst end.
    MiddleInside(f64),
    /// Outside at the middle, by so much.
    Outside(f64),
    /// It has more metal than a new one, by so much.
    MoreThanNew(f64),
    /// It is many times the least that it may be: likelier a slip of the decimal point.
    FarOff,
    /// Its only limit stands on the side to which it does not wear: what it is never passed by.
    AgainstWear(Keep),
    /// The figure rests on what fails or was not said.
    RestsOn(String),
    /// The figure is what this operation plans to leave: nobody has measured it.
    Planned(String),
    /// Nobody measured it.
    NotMeasured,
    /// It was read before this operation was done: which, the entry of the log that tells of it, and the address of what that has.
    DoneSince(String, Line, Option<String>),
    /// It was read before this operation, which moves it.
    MovedBy(String),
    /// This operation found it before it was done, and is not proven as it was left: which, and the entry of the log.
    FoundBefore(String, Line),
    /// The figure is what this operation left of it, the last that the log tells of.
    LeftLast(String, Line),
    /// It is what this operation left of it, to another size: which, the entry, and how it stands as it was left.
    Rebored(String, Line, Verdict),
    /// It was read after this operation was done, and has more metal than the log says that left: which, the entry, and what was left.
    CameBack(String, Line, f64),
    /// By the log this operation fails.
    FailsByLog(String),
    /// The check was not made for want of these keys.
    Lacks(Vec<&'static str>),
    /// It could not be worked out.
    NotWorked(String),
    /// It is as good as on its limit: no instrument decides it.
    OnTheLimit,
    /// To know, it is measured to so much or better, and with which instrument of the shop.
    MeasureTo(f64, Option<String>),
    /// The same where nobody says what it was read with, and this instrument of the shop would decide.
    NameWhatRead(f64, String),
    /// The same where nobody says what it was read with, nor what sort of size it is.
    SayWhatRead(f64),
    /// What would settle it.
    Settles(String),
    /// What the remedy that is taken chooses: what, and which.
    Chooses(String, String),
    /// The check of a proven remedy that is nearest to its limit: remedy, what it asks, its margin.
    Nearest(String, String, f64, Unit),
    /// A check that leaves a remedy doubtful or makes it fail: remedy, what was asked, its state, what would mend it.
    Checked(String, String, Verdict, Option<String>),
    /// What a remedy leaves does not lie inside the limits: remedy, and the size at its worst.
    LeavesIt(String, f64, Unit),
    /// These remedies take metal off, and metal is what lacks.
    TakesOff(Vec<String>),
    /// A remedy that leaves another feature of the part outside its limits: which.
    Spends(String),
    /// A remedy is not planned by what was found of another feature of the part: remedy, and which.
    NotByOther(String, String),
    /// A remedy goes by a size of a part that is replaced: remedy, and which.
    GoesByReplaced(String, String),
    /// A remedy is planned for less wear than was found: remedy, and the wear that it takes off.
    TakesOffLess(String, f64, Unit),
    /// A remedy is planned by another reading than what was found: remedy, and that reading.
    PlannedBy(String, f64, Unit),
    /// What was found may at its worst end lie beyond what a remedy is planned for: remedy, that end, on which side of what, and the unit.
    BeyondPlan(String, f64, (Keep, f64), Unit),
    /// With another mate a remedy that fails would be proven: what, and which.
    ProvenInstead(String, String),
    /// A remedy that could not be worked out.
    Refused(String, String),
    /// Other features of the part decide over it.
    SeeAlso(Vec<String>),
    /// The part is replaced for these features: nothing of the old one is put right.
    GoesWith(Vec<String>),
    /// The other half of its pair is replaced: which part.
    PartnerGoes(String),
    /// It was read after this operation was done, which should have put it right: which, and the entry.
    DoneAlready(String, Line),
    /// It was read on the day on which this operation was done: which, the entry, and the address of what the log has.
    OfOneDay(String, Line, Option<String>),
    /// Once that work was done it is never used again.
    NeverAgain,
    /// This operation makes its bore for another one, of this size.
    ForAnother(String, f64),
    /// It follows from what is done with this feature.
    After(String),
    /// No usual remedy is known for a feature of that name, and its part is worked on by these operations.
    NoUsual(Vec<String>),
    /// An operation without a feature could put right each of these: which, and what features.
    OneOf(String, Vec<String>),
}

/// What is ordered or taken out of a drawer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Order {
    /// What.
    pub item: String,
    /// Its size as it is marked, where it has one.
    pub size: Option<String>,
    /// How many.
    pub count: u32,
    /// For which part.
    pub part: String,
    /// Whether it lies in a drawer.
    pub in_drawer: bool,
}

impl Row {
    /// Whether nothing more has to be known before it is done.
    pub fn is_settled(&self) -> bool {
        matches!(
            self.decision,
            Decision::Reuse | Decision::Follows(_) | Decision::Cure(Cure::Proven(_) | Cure::Replace)
        )
    }

    /// Whether this operation is what puts it right.
    pub(super) fn is_put_right_by(&self, word: &str) -> bool {
        matches!(&self.decision, Decision::Cure(Cure::Proven(own) | Cure::Doubtful(own)) if own == word)
    }

    /// Whether the part does not go back as it is.
    pub(super) fn is_cut_or_replaced(&self) -> bool {
        matches!(self.decision, Decision::Cure(_))
    }
}
