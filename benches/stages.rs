//! What each stage of a run costs, from the text of a job to the bytes of its sheets. `cargo bench --bench stages`.

mod timing;

use setover::job::{JobFile, Ledger};
use setover::operations::Request;
use setover::plan::{Cards, Plan, work};
use setover::proof::Place;
use setover::reading::{Node, Problem};
use setover::sheet::pdf::{Meta, write};
use setover::sheet::{json, layout, terminal};
use setover::shop::Shop;
use std::error::Error;
use timing::timed;

const SHOP: &str = include_str!("../demo/shop.yaml");
const JOB: &str = include_str!("../demo/tidewater.yaml");

fn said(problems: Vec<Problem>) -> Box<dyn Error> {
    format!("{problems:?}").into()
}

fn shop() -> Result<Shop, Box<dyn Error>> {
    Node::yaml(SHOP, Place::start(1)).map_err(|problem| said(vec![problem]))?.read().map_err(said)
}

fn job() -> Result<JobFile<Request>, Box<dyn Error>> {
    JobFile::read(Node::yaml(JOB, Place::start(0)).map_err(|problem| said(vec![problem]))?).map_err(said)
}

fn plan(job: &JobFile<Request>, shop: &Shop) -> Result<Plan, Box<dyn Error>> {
    let cards = Cards::built_in(Request::WORDS.iter().copied()).map_err(said)?;
    work(job, Some(shop), &cards, Ledger::default()).map_err(said)
}

/// Does a stage so many times and prints the least and the middle time.
fn stage<T>(name: &str, each: impl Fn() -> Result<T, Box<dyn Error>>) -> Result<T, Box<dyn Error>> {
    timed(name, 51, &each)?;
    each()
}

fn main() -> Result<(), Box<dyn Error>> {
    println!("{:<44} {:>12} {:>12}", "one overhaul", "least", "middle");
    let shop = stage("read the shop", shop)?;
    let job = stage("read the job", job)?;
    let plan = stage("plan", || plan(&job, &shop))?;
    let plans = [plan];
    stage("text", || Ok(terminal::plans(&plans)))?;
    stage("JSON", || Ok(serde_json::to_string(&json::output(&plans))?))?;
    let pages = stage("lay the pages out", || Ok(layout::pages(&plans)?))?;
    stage("write the pages as PDF", || Ok(write(&pages, &Meta::default())?))?;
    stage("sheets, from plan to bytes", || Ok(layout::pdf(&plans)?))?;
    println!("{} pages", pages.len());
    Ok(())
}
