//! What a person reads at a terminal.

use crate::plan::{Plan, Planned, SaidCandidate, SaidFinding};
use crate::proof::Verdict;
use crate::quantity::shown;

/// Several plans as text.
pub fn plans(plans: &[Plan]) -> String {
    let mut out = String::new();
    for plan in plans {
        for planned in &plan.operations {
            operation(&mut out, plan, planned);
        }
    }
    out
}

fn operation(out: &mut String, plan: &Plan, planned: &Planned) {
    *out += &format!("{} — {} [{}]\n", planned.address, planned.title, stamp(planned));
    for value in &planned.answer.values {
        let figure = shown(value.number, Some(value.plus_minus), value.unit, plan.print);
        *out += &format!("  {:<24} {:<26} {}\n", value.key, figure, value.means);
    }
    planned.candidates.iter().for_each(|candidate| one_candidate(out, candidate));
    planned.findings.iter().for_each(|finding| one_finding(out, finding, "  "));
}

/// The stamp in words.
pub fn stamp(planned: &Planned) -> String {
    let word = match planned.verdict {
        Verdict::Proven => "PROVEN",
        Verdict::Doubtful => "DOUBTFUL",
        Verdict::Fails => "DO NOT CUT",
    };
    planned.stamp_note.as_ref().map_or_else(|| word.into(), |note| format!("{word} {note}"))
}

fn one_candidate(out: &mut String, candidate: &SaidCandidate) {
    let why = candidate.why_not.as_deref().or(candidate.refused.as_deref()).unwrap_or("taken");
    *out += &format!("  {:<8} {:<10} {why}\n", candidate.name, candidate.verdict.text());
    candidate.findings.iter().filter(|f| f.verdict != Verdict::Proven).for_each(|f| one_finding(out, f, "      "));
}

fn one_finding(out: &mut String, finding: &SaidFinding, indent: &str) {
    let figures = finding.figures.as_deref().unwrap_or_default();
    *out += &format!("{indent}{}: {} {figures}\n", finding.verdict.text(), finding.asks);
    for remedy in finding.remedy.iter().chain(&finding.remedies) {
        *out += &format!("{indent}  → {remedy}\n");
    }
}
