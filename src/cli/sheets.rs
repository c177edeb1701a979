//! `setover sheets JOB… -o FILE.pdf`: the setup sheets, one a set-up.

use super::first;
use super::load::Inputs;
use super::open;
use super::{Common, Stop, exit_code, exit_code_of, json, leave, page, print, print_pieces, tell, tell_page};
use crate::files::{FileFault, Target, plainly};
use crate::plan::{Plan, Planned};
use crate::proof::Verdict;
use crate::reading::harmless;
use crate::sheet::layout::{self, Extras, Sheets, Working};
use crate::sheet::terminal;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What is written.
#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum SheetFormat {
    /// Pages to pin by the machine.
    Pdf,
    /// One page for a screen or a telephone, to be filled in; it prints like the PDF.
    Html,
    /// For a person at a terminal.
    Text,
    /// For a program.
    Json,
}

impl SheetFormat {
    /// How a file of it ends.
    const fn end(self) -> &'static str {
        match self {
            Self::Pdf => "pdf",
            Self::Html => "html",
            Self::Text => "txt",
            Self::Json => "json",
        }
    }
}

#[derive(clap::Args)]
pub(super) struct SheetsArguments {
    /// Job files; `-` reads one from standard input.
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// The file to write; `-` is standard output. Left out, it stands beside the first job and has its name.
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Replaces the file even where this program did not write what is there.
    #[arg(long)]
    force: bool,
    /// What is written.
    #[arg(long, value_enum, default_value = "pdf")]
    format: SheetFormat,
    /// With a working page for each operation: every check, every figure and where it comes from.
    #[arg(long)]
    working: bool,
    /// With a cover: how each set-up came out, sums, and all remarks whole.
    #[arg(long)]
    cover: bool,
    /// Writes the sketches there too, one SVG file a set-up, named by its sheet.
    #[arg(long, value_name = "DIR")]
    sketches: Option<PathBuf>,
    /// Opens what was written with what this machine opens such files with (xdg-open, open or start).
    #[arg(long)]
    open: bool,
    #[command(flatten)]
    common: Common,
}

/// What every output of this program has in it.
pub(super) const MARKS: &[&str] = &["setover", "{\n  \"schema\":", crate::sheet::words::STANDING];

impl SheetsArguments {
    /// The file to write: beside the first job, by its name, where none was given.
    fn written_to(&self) -> PathBuf {
        let first = self.jobs.first().map_or_else(PathBuf::new, Clone::clone);
        let end = self.format.end();
        match &self.output {
            Some(output) => output.clone(),
            None if first.as_os_str() == "-" => first,
            None => first.with_extension(end),
        }
    }
}

impl SheetsArguments {
    /// Says of a job of one operation that is not proven which reading is taken first: its job is worked again for that.
    fn tell_first(&self, mut verdicts: impl Iterator<Item = Verdict>) {
        let is_one = verdicts.next().is_some_and(|verdict| verdict != Verdict::Proven) && verdicts.next().is_none();
        if !is_one {
            return;
        }
        let look = &self.common.look;
        if let Some(first) = first::of_file(&self.jobs, look.shop.as_deref(), look.units.map(Into::into)) {
            tell_page(&terminal::taken_first(&first));
        }
    }

    /// Where the output goes, which none of the files read may be; nothing is standard output.
    fn target(&self, output: &Path, read: &[PathBuf]) -> Result<Option<Target>, Stop> {
        if output.as_os_str() == "-" {
            let none = || Stop::Arguments("--open opens a file: what goes to standard output is none".into());
            let shown =
                || Stop::Arguments("a PDF is nothing that a terminal shows: name its file with -o FILE.pdf".into());
            return match (self.open, self.format == SheetFormat::Pdf && std::io::stdout().is_terminal()) {
                (true, _) => Err(none()),
                (false, true) => Err(shown()),
                (false, false) => Ok(None),
            };
        }
        let target = Target::of(output, read).map_err(unwritten)?;
        let target = if self.force { target } else { target.ours(MARKS).map_err(unwritten)? };
        let end = output.extension().map(|end| end.to_string_lossy().to_lowercase()).unwrap_or_default();
        let known = [SheetFormat::Pdf, SheetFormat::Html, SheetFormat::Text, SheetFormat::Json];
        // Of JSON a program is the reader: it names its files as it likes.
        let is_read = self.format != SheetFormat::Json;
        if is_read && known.iter().any(|other| other.end() == end && *other != self.format) {
            let own = output.with_extension(self.format.end());
            return Err(Stop::Arguments(format!(
                "{} would hold {}: name it {}, or give another --format",
                output.display(),
                self.format.end(),
                own.display()
            )));
        }
        Ok(Some(target))
    }
}

pub(super) fn run(arguments: &SheetsArguments) -> Result<ExitCode, Stop> {
    // Where nothing else looks at the answers, none stays longer than its pages need.
    if arguments.format == SheetFormat::Pdf && !arguments.working && !arguments.cover && arguments.sketches.is_none() {
        return streamed(arguments);
    }
    let mut inputs = Inputs::printing(arguments.common.look.units);
    let plans = inputs.jobs_to_print(&arguments.jobs, arguments.common.look.shop.as_deref());
    let files = std::mem::take(&mut inputs.files);
    let mut plans = inputs.settle(plans)?;
    let shop = arguments.common.look.shop.as_deref();
    if matches!(arguments.format, SheetFormat::Pdf | SheetFormat::Html) {
        for plan in &mut plans {
            for planned in &mut plan.operations {
                planned.first = first::on_sheet(planned, &arguments.jobs, shop, plan.print);
            }
        }
    }
    let output = arguments.written_to();
    let target = arguments.target(&output, &files)?;
    tell_page(terminal::sheets(&plans).trim_end());
    arguments.tell_first(plans.iter().flat_map(|plan| &plan.operations).map(|planned| planned.verdict));
    let working = if arguments.working { Working::All } else { Working::None };
    let bytes = match arguments.format {
        SheetFormat::Pdf => layout::pdf_with(&plans, Extras { working, cover: arguments.cover })
            .map_err(|fault| Stop::Page(fault.to_string()))?,
        SheetFormat::Html => layout::html(&plans, working).map_err(|fault| Stop::Page(fault.to_string()))?.into_bytes(),
        SheetFormat::Text => crate::sheet::terminal::plans(&plans).into_bytes(),
        SheetFormat::Json => json(&plans)?.into_bytes(),
    };
    if let Some(folder) = &arguments.sketches {
        sketches(&plans, folder, &files)?;
    }
    write(target, &output, &[bytes], arguments.open)?;
    let code = exit_code(&plans, arguments.common.strict);
    leave(plans);
    Ok(code)
}

/// Sheets as a PDF, each operation's made as soon as it is worked.
fn streamed(arguments: &SheetsArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::printing(arguments.common.look.units);
    let (jobs, shop) = (&arguments.jobs, arguments.common.look.shop.as_deref());
    let made = |plan: &Plan, mut planned: Planned, number: usize| {
        planned.first = first::on_sheet(&planned, jobs, shop, plan.print);
        layout::packed(plan, &planned, number)
    };
    let jobs = inputs.each_to_print(&arguments.jobs, arguments.common.look.shop.as_deref(), made);
    let files = std::mem::take(&mut inputs.files);
    let jobs = inputs.settle(jobs)?;
    let output = arguments.written_to();
    let target = arguments.target(&output, &files)?;
    tell_page(terminal::sheets_made(jobs.iter().map(|(_, sheets)| sheets)).trim_end());
    arguments.tell_first(jobs.iter().flat_map(|(_, all)| all.iter().map(Sheets::verdict)));
    let code = exit_code_of(jobs.iter().flat_map(|(_, all)| all.iter().map(Sheets::verdict)), arguments.common.strict);
    let pieces = layout::streamed_pdf(jobs).map_err(|fault| Stop::Page(fault.to_string()))?;
    write(target, &output, &pieces, arguments.open)?;
    Ok(code)
}

/// Writes what was made where it belongs, and opens it where that is asked for; nothing is standard output.
fn write(target: Option<Target>, output: &Path, pieces: &[impl AsRef<[u8]>], opens: bool) -> Result<(), Stop> {
    let Some(target) = target else { return print_pieces(pieces) };
    target.write_pieces(pieces).map_err(unwritten)?;
    // Whoever reads a pipe or a device wants what was written and nothing else.
    if let Target::Plain(_) = target {
        print(&format!("{}\n", harmless(&output.display().to_string())))?;
    }
    if opens { open::with_the_usual(output) } else { Ok(()) }
}

/// Writes the one page of a command whose text is printed beside it: to its file, or to standard output (`-`), where the text gives way.
pub(super) fn write_page(bytes: &[u8], (path, force): (&Path, bool), read: &[PathBuf]) -> Result<(), Stop> {
    if is_piped(Some(path)) {
        if bytes.starts_with(b"%PDF") && std::io::stdout().is_terminal() {
            return Err(Stop::Arguments(
                "a PDF is nothing that a terminal shows: name its file with -o FILE.pdf".into(),
            ));
        }
        return print_pieces(&[bytes]);
    }
    let target = Target::of(path, read).map_err(unwritten)?;
    let target = if force { target } else { target.ours(MARKS).map_err(unwritten)? };
    target.write(bytes).map_err(unwritten)?;
    tell(&harmless(&path.display().to_string()));
    Ok(())
}

/// Whether a page goes to standard output.
pub(super) fn is_piped(output: Option<&Path>) -> bool {
    output.is_some_and(|path| path.as_os_str() == "-")
}

/// Prints the text for a person that stands beside a page: to standard error where the page itself goes to standard output.
pub(super) fn beside_the_page(text: &str, output: Option<&Path>) -> Result<(), Stop> {
    if is_piped(output) {
        tell_page(text.trim_end());
        return Ok(());
    }
    page(text)
}

/// Standard output takes one thing: the page, or what a program reads.
pub(super) fn one_to_standard_output(output: Option<&Path>, is_text: bool) -> Result<(), Stop> {
    if is_piped(output) && !is_text {
        return Err(Stop::Arguments(
            "the page goes to standard output (-o -): name a file for it, or leave --format out".into(),
        ));
    }
    Ok(())
}

fn unwritten(fault: FileFault) -> Stop {
    Stop::Unwritten(fault.to_string())
}

/// Writes every sketch to a file of its own in a folder, which is made where it is not there.
fn sketches(plans: &[Plan], folder: &Path, read: &[PathBuf]) -> Result<(), Stop> {
    let drawn = crate::sheet::layout::sketches(plans).map_err(|fault| Stop::Page(fault.to_string()))?;
    std::fs::create_dir_all(folder)
        .map_err(|error| Stop::Unwritten(format!("{}: {}", folder.display(), plainly(&error))))?;
    for (id, svg) in drawn {
        let target = Target::of(&folder.join(format!("{id}.svg")), read).map_err(unwritten)?;
        target.write(svg.as_bytes()).map_err(unwritten)?;
    }
    Ok(())
}
