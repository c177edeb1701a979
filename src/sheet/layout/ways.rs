//! What must not be cut: no step, no setting, no target; what fails, the ways out of it, and what to measure again.

use super::Sheet;
use super::block::{Block, STRONG, as_one};
use super::flow::Section;
use super::lists::{bars, chunks, marked};
use super::verdict::{finding, is_open};
use crate::proof::Verdict;
use crate::sheet::fonts::Fault;
use crate::sheet::page::Kind;
use crate::sheet::words;

/// The ways out, on the first sheet of an operation; on the others where they stand.
pub(super) fn section(sheet: &Sheet, width: f64) -> Result<Section, Fault> {
    let mut rows = Vec::new();
    let lines = |text: &str| -> Result<Vec<Block>, Fault> {
        let mut some = chunks(&STRONG.wrap(text, width)?, 0.0, 0.6, STRONG)?;
        as_one(&mut some, Kind::P);
        Ok(some)
    };
    if sheet.number > 1 {
        rows.extend(lines(&words::see(&sheet.id_of(1)))?);
        return Ok(Section { name: words::WAYS_OUT, bar: Some(bars(width, words::WAYS_OUT, &[])?), rows });
    }
    rows.extend(lines(words::WITHHELD)?);
    if let Some(refused) = &sheet.planned.answer.refused {
        rows.extend(lines(&words::named(words::REFUSED, &refused.to_string()))?);
    }
    let failing = sheet.planned.answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Fails));
    for check in failing.filter(|check| is_open(check)) {
        rows.extend(finding(check, sheet.plan.print, width, true)?.rows);
    }
    let found = sheet.set_up.iter().flat_map(|set_up| &set_up.blanks).filter_map(|blank| {
        let found = blank.as_found.as_ref()?.said(None, sheet.plan.print);
        Some(format!("{}: {}", blank.words, words::found(&found)))
    });
    let again: Vec<String> = found.collect();
    if !again.is_empty() {
        let mut head = Block::new(0.0);
        head.height = head.lines(0.0, 1.6, STRONG, &[words::MEASURE_AGAIN.to_owned()])? + 0.3;
        head.wrap(Kind::H2, false);
        head.keep = true;
        rows.push(head);
        rows.extend(marked(&again, width)?);
    }
    Ok(Section { name: words::WAYS_OUT, bar: Some(bars(width, words::WAYS_OUT, &[])?), rows })
}
