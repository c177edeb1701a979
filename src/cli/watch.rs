//! `setover watch JOB…`: plans again whenever a file of the job is saved.

use super::load::Inputs;
use super::report::report;
use super::say::{page, print, tell, weighed};
use super::{Common, ShowArguments, Stop};
use crate::plan::{Plan, changes};
use crate::reading::harmless;
use crate::sheet::terminal;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::{Duration, SystemTime};

#[derive(clap::Args)]
pub(super) struct WatchArguments {
    /// Job files.
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    #[command(flatten)]
    shows: ShowArguments,
    #[command(flatten)]
    common: Common,
}

/// How often the files are looked at.
const LOOK: Duration = Duration::from_millis(20);
/// Saving is not always one stroke: a file that cannot be read is read again after so long.
const PATIENCE: Duration = Duration::from_millis(40);

/// What is said once, so that nobody waits for a prompt.
const WATCHING: &str = "Planned again at each save; Ctrl-C ends it.";

/// What is said of a save that changes nothing of the answer: what was wrong before is mended.
const SAME: &str = "Planned again: the answer is the same.\n";
/// What is said of one that changes figures, and nothing of what is shown.
const OTHER_FIGURES: &str = "Planned again: what is shown above is the same; these figures are not:\n";

/// When each file was last written, and how long it is.
type Seen = Vec<(PathBuf, Option<(SystemTime, u64)>)>;

pub(super) fn run(arguments: &WatchArguments) -> Result<ExitCode, Stop> {
    if arguments.jobs.iter().any(|job| job.as_os_str() == "-") {
        let says = "a file is watched: what comes by standard input (`-`) is read once, by `setover plan -`";
        return Err(Stop::Arguments(says.into()));
    }
    let (mut files, mut last, mut before) = (arguments.jobs.clone(), String::new(), Vec::new());
    for job in arguments.jobs.iter().filter(|job| !job.exists()) {
        tell(&format!("Waiting for {}.", harmless(&job.display().to_string())));
    }
    tell(WATCHING);
    loop {
        let seen = look(&files);
        let (mut read, mut answer) = worked(arguments);
        if answer.is_err() {
            std::thread::sleep(PATIENCE);
            (read, answer) = worked(arguments);
        }
        match answer.and_then(|plans| Ok((arguments.shows.text(&plans)?, plans))) {
            Ok((text, plans)) if text == last => {
                match terminal::figures_changed(&changes(&before, &plans, &[], 0)) {
                    none if none.is_empty() => print(SAME)?,
                    figures => page(&format!("{OTHER_FIGURES}{}\n", weighed(&figures)))?,
                }
                before = plans;
            }
            Ok((text, plans)) => {
                page(&format!("{}\n", weighed(&text)))?;
                (last, before) = (text, plans);
            }
            // The last good answer stays above what is wrong now.
            Err(stop) => {
                let _ = report(stop);
            }
        }
        // What was read before is watched too: a file that is gone for a moment comes back.
        read.retain(|path| !files.contains(path));
        files.extend(read);
        // What came in by this reading counts from now.
        let fresh = look(files.get(seen.len()..).unwrap_or_default());
        let seen: Seen = seen.into_iter().chain(fresh).collect();
        while look(&files) == seen {
            std::thread::sleep(LOOK);
        }
    }
}

fn worked(arguments: &WatchArguments) -> (Vec<PathBuf>, Result<Vec<Plan>, Stop>) {
    let mut inputs = Inputs::printing(arguments.common.look.units);
    let plans = inputs.jobs(&arguments.jobs, arguments.common.look.shop.as_deref());
    let files = std::mem::take(&mut inputs.files);
    (files, inputs.settle(plans))
}

fn look(files: &[PathBuf]) -> Seen {
    let about =
        |path: &Path| std::fs::metadata(path).ok().and_then(|about| Some((about.modified().ok()?, about.len())));
    files.iter().map(|path| (path.clone(), about(path))).collect()
}
