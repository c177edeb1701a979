//! Every committed job as it is printed, on each paper in each unit that is looked at: laid out once, however many look at it.

use super::{committed_jobs, over_jobs, shop, try_plan};
use setover::plan::Plan;
use setover::quantity::Print;
use setover::sheet::layout;
use setover::sheet::page::Page;
use setover::shop::{Paper, Shop};
use std::sync::{LazyLock, OnceLock};

/// Papers and units of print.
const PRINTED: [(Paper, Print); 5] = [
    (Paper::A4, Print::Metric),
    (Paper::A4, Print::Both),
    (Paper::Letter, Print::Metric),
    (Paper::Letter, Print::Imperial),
    (Paper::Letter, Print::Both),
];

/// A job as it is printed.
pub struct Printed {
    pub path: String,
    pub paper: Paper,
    pub units: Print,
    pub plan: Plan,
    pub pages: Vec<Page>,
}

impl Printed {
    /// None of a job that cannot be planned.
    fn of(path: &str, job: &str, (paper, units): (Paper, Print)) -> Option<Self> {
        let own = if path.starts_with("demo") { include_str!("../../demo/shop.yaml") } else { super::SHOP };
        let plan = try_plan(job, Some(&Shop { paper, units, ..shop(own) })).ok()?;
        let pages = layout::pages(std::slice::from_ref(&plan)).expect("pages");
        Some(Self { path: path.to_owned(), paper, units, plan, pages })
    }

    pub fn name(&self) -> String {
        format!("{} {:?} {:?}", self.path, self.paper, self.units)
    }
}

/// Looks at every job that is wanted, as it is printed.
pub fn each_printed(wanted: impl Fn(&str, Paper, Print) -> bool, looked_at: impl Fn(&Printed) + Sync) {
    type Once = OnceLock<Option<Printed>>;
    static ALL: LazyLock<Vec<(String, String, [Once; 5])>> =
        LazyLock::new(|| committed_jobs().into_iter().map(|(path, job)| (path, job, Default::default())).collect());
    let all = ALL.iter().flat_map(|(path, job, prints)| {
        PRINTED.iter().zip(prints).map(move |(printed, once)| (path.as_str(), job.as_str(), *printed, once))
    });
    let all: Vec<_> = all.filter(|(path, _, (paper, units), _)| wanted(path, *paper, *units)).collect();
    over_jobs(all.len() as u64, |at| {
        let (path, job, printed, once) = all[at as usize];
        once.get_or_init(|| Printed::of(path, job, printed)).iter().for_each(&looked_at);
    });
}
