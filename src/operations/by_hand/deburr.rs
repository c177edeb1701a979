//! `deburr`: every edge broken by hand, spindle stopped. A burr shaves the next fit; a hand at turning work is caught.

use crate::handbook::materials::groups::Kind;
use crate::handbook::{StateKind, set_up_minutes};
use crate::job::PartFacts;
use crate::operations::kit::{self, hard, of_part};
use crate::operations::{Answer, Bench, Declared, Operation, SetUp, SetUpWish, Station};
use crate::proof::{At, Check, CheckRule, Fact, Refusal, Verdict};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// What breaks the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum By {
    /// An oil stone.
    Stone,
    /// A fine file.
    File,
    /// A scraper.
    Scraper,
    /// A countersink turned by hand.
    Countersink,
    /// Emery cloth.
    Emery,
}

impl By {
    const fn named(self) -> Fact {
        Fact::named(match self {
            Self::Stone => "by-stone",
            Self::File => "by-file",
            Self::Scraper => "by-scraper",
            Self::Countersink => "by-countersink",
            Self::Emery => "by-emery",
        })
    }
}

/// Edges broken by hand.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Deburr {
    /// How many edges.
    edges: At<u32>,
    /// What breaks them.
    by: At<By>,
    /// Whether the part turns meanwhile.
    turning: Option<At<bool>>,
    /// Machine, name, feature, remark; left out, none.
    set_up: Option<SetUpWish>,
}

impl Deburr {
    /// Does the part stand still?
    fn stands_still(&self, answer: &mut Answer) {
        const ID: &str = "stands-still";
        let Some(turning) = &self.turning else { return answer.not_checked(&[ID], &["turning"]) };
        let verdict = if turning.value { Verdict::Fails } else { Verdict::Proven };
        answer.check(Check::of_kind(ID, verdict).at(turning.place));
    }

    /// Does what breaks the edge bite? A file, a scraper or a countersink of steel skates on a hard edge and loses its own.
    fn bites(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let hardness = bench.part.hardness.as_ref().map(|at| at.value);
        let by_row = hardness.is_none()
            && bench.part.material.as_ref().is_some_and(|metal| metal.value.kind() == Kind::HardSteel);
        let hard = by_row || hard::at_least(hardness, "hss-hardest")?;
        let steel = matches!(self.by.value, By::File | By::Scraper | By::Countersink);
        let verdict = if hard && steel { Verdict::Fails } else { Verdict::Proven };
        answer.check(Check::of_kind("edge-bites", verdict).at(self.by.place).with("by", self.by.value.named()));
        Ok(())
    }

    /// Does what breaks the edge leave nothing behind? Emery beds its grains in soft metal, where they lap the shaft.
    fn leaves_nothing(&self, bench: &Bench, answer: &mut Answer) {
        const ID: &str = "no-grit-left";
        let soft = |kind: Kind| {
            matches!(kind, Kind::CopperAlloy | Kind::Sintered | Kind::Aluminium | Kind::Magnesium | Kind::Plastic)
        };
        let kind = bench.part.material.as_ref().map(|at| at.value.kind());
        let verdict = match (self.by.value, kind) {
            (By::Emery, None) => return answer.not_checked(&[ID], &["material"]),
            (By::Emery, Some(kind)) if soft(kind) => Verdict::Fails,
            (By::Emery, Some(_)) => Verdict::Doubtful,
            _ => Verdict::Proven,
        };
        answer.check(Check::of_kind(ID, verdict).at(self.by.place).with("by", self.by.value.named()));
    }
}

impl Operation for Deburr {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("stands-still", &["turning"]),
                CheckRule::must("no-grit-left", &["material"]),
                CheckRule::must("never-cut", &[]),
                CheckRule::must("edge-bites", &[]),
            ]
        }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let none = (self.edges.value == 0).then(|| Problem::new(self.edges.place, "`edges` must be one at least"));
        none.into_iter().collect()
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let metal = bench.part.material.as_ref().map(|at| &at.value);
        metal.iter().flat_map(|metal| metal.safety_without_chips()).for_each(|id| answer.caution(id));
        match metal {
            Some(metal) => kit::never_cut(metal.kind(), answer),
            None => answer.does_not_apply(&["never-cut"]),
        }
        self.bites(bench, answer)?;
        self.stands_still(answer);
        self.leaves_nothing(bench, answer);
        answer.fact("edges", self.edges.value.to_string());
        answer.fact("by", self.by.value.named());
        let mut set_up = SetUp::at("deburr", Station::Bench);
        set_up.step("light-along-each").step("break-the-edge").step("feel-each").step("wipe-clean");
        set_up.warns(&["sharp-edges"]);
        set_up.takes(f64::from(self.edges.value) * set_up_minutes::start("edge, broken")?);
        set_up.leaves = of_part(bench, &[StateKind::Dressed]);
        answer.set_ups.push(set_up);
        Ok(())
    }
}
