//! `setover try OPERATION key=value…`: any operation without a file.

use super::load::Inputs;
use super::places::Places;
use super::say::To;
use super::{Common, Stop, exit_code, json_text, one, over};
use crate::operations::shake;
use crate::plan::Plan;
use crate::reading::Text;
use crate::sheet::{ShakenOut, json::output, layout, terminal};
use std::process::ExitCode;

/// What is printed.
#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum TryFormat {
    /// For a person at a terminal.
    Text,
    /// For a program.
    Json,
    /// The picture of the operation: all lengths of an insert in the wall, the sizes of a bush, readings round the work in its chuck,
    /// the high spots of a face, a pack of shims, the links of a gap, else the sketch of its first set-up; with --over the verdicts along the range.
    Svg,
}

#[derive(clap::Args)]
pub(super) struct TryArguments {
    /// The operation.
    #[arg(value_name = "OPERATION")]
    operation: String,
    /// Keys of the operation, nested ones with dots; facts of the part as part.material=… part.hardness=…
    #[arg(value_name = "KEY=VALUE")]
    keys: Vec<String>,
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: TryFormat,
    /// Draws every reading anew so many times within its doubt: how often each check holds, and whose doubt costs most.
    #[arg(long, value_name = "TRIALS", value_parser = clap::value_parser!(u32).range(100..=1_000_000))]
    shake: Option<u32>,
    /// Every figure with how well its source is known.
    #[arg(long)]
    values: bool,
    /// Everything: figures, alternatives, checks, steps, cautions.
    #[arg(long)]
    all: bool,
    /// Works it over a range of one key, as in wall="12 mm to 20 mm", and says where each verdict turns; given twice, a grid of two.
    #[arg(long, value_name = "KEY=LOW to HIGH")]
    over: Vec<String>,
    #[command(flatten)]
    to: To,
    #[command(flatten)]
    common: Common,
}

/// What the draws begin from: the same job is shaken the same way each time.
const SEED: u64 = 1;

pub(super) fn run(arguments: &TryArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::printing(arguments.common.look.units);
    if !arguments.over.is_empty() {
        let shop = arguments.common.look.shop.as_deref();
        let drawn = match arguments.format {
            TryFormat::Svg => true,
            TryFormat::Text => false,
            TryFormat::Json => return Err(Stop::Arguments("--over is printed as text or drawn as svg".into())),
        };
        return over::run(&arguments.operation, &arguments.keys, &arguments.over, shop, (drawn, &arguments.to));
    }
    let plan = one::worked(&arguments.operation, &arguments.keys, arguments.common.look.shop.as_deref(), &mut inputs);
    let (texts, read) = (inputs.texts.clone(), std::mem::take(&mut inputs.files));
    let plans: Vec<Plan> = inputs.settle(plan.into_iter().collect())?;
    let trials = arguments.shake.and_then(|trials| usize::try_from(trials).ok());
    let shaken = trials.map_or_else(Vec::new, |trials| shaken(&plans, trials, &texts));
    match arguments.format {
        TryFormat::Svg => {
            let drawn = layout::pictures(&plans).map_err(|fault| Stop::Page(fault.to_string()))?;
            let mut all = plans.iter().flat_map(|plan| &plan.operations);
            if drawn.is_empty() && all.all(|planned| planned.answer.refused.is_none()) {
                let says = format!("{} has no picture: print it as text or json", arguments.operation);
                return Err(Stop::Arguments(says));
            }
            arguments.to.print(&drawn.concat(), &read)?;
        }
        TryFormat::Json => arguments.to.print(&json_text(&output(&plans).shaken(shaken))?, &read)?,
        TryFormat::Text => {
            let shows = terminal::Shows { values: arguments.values, all: arguments.all, ..terminal::Shows::default() };
            let shaken = plans.iter().zip(&shaken).map(|(plan, shaken)| format!("\n{}", shaken.text(plan.print)));
            let text = terminal::answers(&plans, &shows).unwrap_or_default() + &shaken.collect::<String>();
            arguments.to.page(&text, &read)?;
        }
    }
    Ok(exit_code(&plans, arguments.common.strict))
}

fn shaken(plans: &[Plan], trials: usize, texts: &[Text]) -> Vec<ShakenOut> {
    let all = plans.iter().flat_map(|plan| &plan.operations);
    let places = Places::of(texts);
    let name = |cause| places.cause(cause);
    all.map(|planned| ShakenOut::of(&shake(&planned.answer, trials, SEED), name)).collect()
}
