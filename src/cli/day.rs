//! `setover day JOB…`: the set-ups of jobs in the best order of the day.

use super::load::Inputs;
use super::sheets::{beside_the_page, one_to_standard_output, write_page};
use super::{Stop, json_text, leave, print};
use crate::files::read_text;
use crate::plan::Plan;
use crate::plan::day::{Asked, Day, day};
use crate::proof::Verdict;
use crate::quantity::{ClockTime, Date};
use crate::reading::Problem;
use crate::sheet::day_html::day_html;
use crate::sheet::terminal::{self, Reasons};
use crate::sheet::{day_json, layout};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What is printed.
#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum DayFormat {
    /// For a person at a terminal.
    Text,
    /// For a program.
    Json,
    /// For a browser.
    Html,
}

#[derive(clap::Args)]
pub(super) struct DayArguments {
    /// Job files.
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    #[command(flatten)]
    look: super::Look,
    /// The day, as in 2026-12-01; left out, that of the job.
    #[arg(long, value_name = "DATE")]
    date: Option<Date>,
    /// When the hands begin, as in 13:20; left out, when the shop opens.
    #[arg(long, value_name = "TIME")]
    from: Option<ClockTime>,
    /// When the shop closes, as in 16:30; left out, as the shop file says.
    #[arg(long, value_name = "TIME")]
    to: Option<ClockTime>,
    /// How many days are printed.
    #[arg(long, value_name = "DAYS", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=60))]
    days: u32,
    /// Set-ups that are done, by the ids of their sheets, with the time where it is known, as in 3.1,3.3@10:02.
    #[arg(long, value_name = "IDS", value_delimiter = ',')]
    done: Vec<String>,
    /// The set-up that is in hand.
    #[arg(long, value_name = "ID")]
    at_work: Option<String>,
    /// The order before: the JSON of an earlier day. Nothing moves against it without cause.
    #[arg(long, value_name = "FILE")]
    like: Option<PathBuf>,
    /// What a machine carries when the day begins, as in "belt lathe=soft-jaws 58 mm".
    #[arg(long, value_name = "MACHINE=WHAT")]
    rigged: Vec<String>,
    /// A rule of order that is left out.
    #[arg(long, value_name = "RULE")]
    leave_out: Vec<String>,
    /// Why each set-up stands where it stands; with an id, all that binds that one.
    #[arg(long, value_name = "ID", num_args = 0..=1, default_missing_value = "")]
    why: Option<String>,
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: DayFormat,
    /// Writes the page of the day as well; `-` is standard output.
    #[arg(short, long, value_name = "FILE.pdf")]
    output: Option<PathBuf>,
    /// Replaces the file even where this program did not write what is there.
    #[arg(long, requires = "output")]
    force: bool,
    /// With the sheets behind the page, in the order of the day.
    #[arg(long, requires = "output")]
    with_sheets: bool,
    /// Doubtful counts as failing, and minutes that nobody knows are refused.
    #[arg(long)]
    strict: bool,
}

pub(super) fn run(arguments: &DayArguments) -> Result<ExitCode, Stop> {
    let output = arguments.output.as_deref();
    one_to_standard_output(output, arguments.format == DayFormat::Text)?;
    let mut inputs = Inputs::printing(arguments.look.units);
    let plans = inputs.jobs(&arguments.jobs, arguments.look.shop.as_deref());
    if let (Some(from), Some(to)) = (arguments.from, arguments.to)
        && to <= from
    {
        return Err(Stop::Arguments(format!("--to {to} is not after --from {from}")));
    }
    let asked = asked(arguments).map_err(|problem| inputs.problems.push(problem)).ok();
    let planned = match asked {
        Some(asked) if inputs.problems.is_empty() => {
            day(&plans, &asked).map_err(|problems| inputs.problems.extend(problems)).ok()
        }
        _ => None,
    };
    if let Some(day) = planned.as_ref().filter(|_| arguments.strict) {
        inputs.problems.extend(not_known(day));
    }
    let files = std::mem::take(&mut inputs.files);
    let Some(day) = inputs.settle(planned)? else { return Ok(ExitCode::from(2)) };
    if let Some(path) = &arguments.output {
        write(&plans, &day, (path, arguments.with_sheets, arguments.force), &files)?;
    }
    let reasons = match arguments.why.as_deref() {
        None => Reasons::None,
        Some("") => Reasons::All,
        Some(id) => Reasons::Of(id.to_owned()),
    };
    match arguments.format {
        DayFormat::Json => print(&json_text(&day_json::output(&day))?)?,
        DayFormat::Html => print(&day_html(&day).map_err(|fault| Stop::Page(fault.to_string()))?)?,
        DayFormat::Text => {
            beside_the_page(&terminal::day(&day, &reasons).ok_or_else(|| no_line(&day, &reasons))?, output)?;
        }
    }
    let doubtful = day.lines.iter().any(|line| line.verdict == Verdict::Doubtful);
    let fails = !day.is_whole() || (arguments.strict && doubtful);
    leave((plans, day));
    Ok(ExitCode::from(u8::from(fails)))
}

/// What is asked, out of the words of the command line.
fn asked(arguments: &DayArguments) -> Result<Asked, Problem> {
    let none = |says: String| Problem::new(None, says);
    let done = |word: &String| match word.split_once('@') {
        Some((id, at)) => Ok((id.to_owned(), Some(at.parse().map_err(none)?))),
        None => Ok((word.clone(), None)),
    };
    let rigged = |word: &String| {
        let (machine, what) = word.split_once('=').ok_or_else(|| {
            none(format!("`{word}` is no machine and what it carries, such as `belt lathe=soft-jaws 58 mm`"))
        })?;
        let (machine, what) = (machine.trim(), what.trim());
        if machine.is_empty() || what.is_empty() {
            return Err(none(format!(
                "`{word}` does not say what is on which machine: `belt lathe=soft-jaws 58 mm`, or `belt lathe=bare`"
            )));
        }
        Ok((machine.to_owned(), what.to_owned()))
    };
    Ok(Asked {
        date: arguments.date,
        from: arguments.from,
        to: arguments.to,
        days: arguments.days,
        done: arguments.done.iter().map(done).collect::<Result<_, Problem>>()?,
        at_work: arguments.at_work.clone(),
        like: arguments.like.as_deref().map(like).transpose()?.unwrap_or_default(),
        rigged: arguments.rigged.iter().map(rigged).collect::<Result<_, Problem>>()?,
        leave_out: arguments.leave_out.clone(),
    })
}

/// The ids of an earlier day, in their order.
fn like(path: &Path) -> Result<Vec<String>, Problem> {
    let text = read_text(path).map_err(|fault| Problem::new(None, fault.to_string()))?;
    let none = || Problem::new(None, format!("{}: this is no day in JSON", path.display()));
    let day: serde_json::Value = serde_json::from_str(&text).map_err(|_| none())?;
    let lines = day.get("lines").and_then(serde_json::Value::as_array).ok_or_else(none)?;
    let id = |line: &serde_json::Value| Some(line.get("id")?.as_str()?.to_owned());
    lines.iter().map(|line| id(line).ok_or_else(none)).collect()
}

/// Set-ups whose minutes nobody knows, where that is refused.
fn not_known(day: &Day) -> Vec<Problem> {
    let lines = day.lines.iter().filter(|line| line.not_known);
    lines.map(|line| Problem::new(None, format!("{}: nobody said how many minutes it takes", line.id))).collect()
}

fn no_line(day: &Day, reasons: &Reasons) -> Stop {
    let asked = if let Reasons::Of(id) = reasons { id.as_str() } else { "" };
    let known = crate::reading::near(asked, day.lines.iter().map(|line| line.id.as_str()));
    Stop::Input(vec![Problem::new(None, format!("the day has no set-up `{asked}`; {known}"))], Vec::new())
}

/// Writes the page of the day, and the sheets behind it where they are asked for.
fn write(
    plans: &[Plan],
    day: &Day,
    (path, with_sheets, force): (&Path, bool, bool),
    files: &[PathBuf],
) -> Result<(), Stop> {
    let bytes =
        layout::day_pdf(day, if with_sheets { plans } else { &[] }).map_err(|fault| Stop::Page(fault.to_string()))?;
    write_page(&bytes, (path, force), files)
}
