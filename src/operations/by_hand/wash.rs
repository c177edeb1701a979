//! `wash`: clean before anything is measured or goes together. The wrong bath eats a casting, and a passage that was not opened
//! keeps its grit for the bearing.

use crate::handbook::materials::cleaners::{Cleaner, Dirt, Harm, Suits, Takes};
use crate::handbook::materials::groups::Kind;
use crate::handbook::{Material, StateKind, set_up_minutes};
use crate::job::PartFacts;
use crate::operations::kit::of_part;
use crate::operations::{Answer, Bench, Declared, Operation, SetUp, SetUpWish, Station};
use crate::proof::{At, Check, CheckRule, Fact, Refusal, Verdict, Words};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// The row of minutes of a kind of dirt.
const fn minutes(dirt: Dirt) -> &'static str {
    match dirt {
        Dirt::Oil => "wash, oil",
        Dirt::Grit => "wash, grit",
        Dirt::Carbon => "wash, carbon",
        Dirt::Sealant => "wash, sealant",
    }
}

/// What takes it off before the bath.
const fn first(dirt: Dirt) -> &'static str {
    match dirt {
        Dirt::Oil => "wipe-first",
        Dirt::Grit => "brush-first",
        Dirt::Carbon => "soak-first",
        Dirt::Sealant => "lift-first",
    }
}

/// Its name.
const fn named(dirt: Dirt) -> Fact {
    Fact::named(match dirt {
        Dirt::Oil => "dirt-oil",
        Dirt::Grit => "dirt-grit",
        Dirt::Carbon => "dirt-carbon",
        Dirt::Sealant => "dirt-sealant",
    })
}

/// A part washed.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Wash {
    /// What it is washed with, as the table of cleaners names it.
    cleaner: At<Cleaner>,
    /// What comes off.
    dirt: At<Dirt>,
    /// How many oilways, blind holes and hollows it has; left out, nobody counted them.
    cavities: Option<At<u32>>,
    /// Whether every plug of them is out.
    plugs_out: Option<At<bool>>,
    /// Machine, name, feature, remark; left out, none.
    set_up: Option<SetUpWish>,
}

/// Whether the bath suits a metal.
const SUITS: &str = "cleaner-suits";

impl Wash {
    /// Does the bath suit the metal of the part?
    fn suits_part(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        match bench.part.material.as_ref() {
            Some(metal) => {
                answer.check(self.on(&metal.value)?);
            }
            None => answer.not_checked(&[SUITS], &["material"]),
        }
        Ok(())
    }

    /// What the bath does to a metal.
    fn on(&self, metal: &Material) -> Result<Check, Refusal> {
        let row = self.cleaner.value.on(metal.kind())?;
        let verdict = match row.answer {
            Suits::Suits => Verdict::Proven,
            Suits::Care => Verdict::Doubtful,
            Suits::Never => Verdict::Fails,
        };
        let check = Check::of_kind(SUITS, verdict).at(self.cleaner.place);
        let check = check.with("cleaner", self.cleaner.value.name()).with("metal", metal.typed());
        Ok(check.with("because", row.reason.clone()))
    }

    /// Does the bath take the dirt off? What nobody knows is doubtful.
    fn takes(&self, answer: &mut Answer) {
        let row = self.cleaner.value.takes(self.dirt.value);
        let verdict = match row.map(|row| row.answer) {
            Some(Takes::Takes) => Verdict::Proven,
            Some(Takes::Partly) | None => Verdict::Doubtful,
            Some(Takes::Leaves) => Verdict::Fails,
        };
        let because = row.map_or_else(|| Fact::named("dirt-not-known"), |row| Fact::from(&row.reason));
        let check = Check::of_kind("takes-the-dirt", verdict).at(self.dirt.place).with("dirt", named(self.dirt.value));
        let check = answer.check(check.with("cleaner", self.cleaner.value.name()).with("because", because));
        if verdict == Verdict::Doubtful {
            check.remedy(Words::of("look-under-a-light"));
        }
    }

    /// Is every hollow open? Grit in a shut oilway comes out when the engine runs.
    fn open(&self, answer: &mut Answer) {
        const ID: &str = "hollows-open";
        match (&self.cavities, &self.plugs_out) {
            (None, _) => answer.not_checked(&[ID], &["cavities"]),
            (Some(count), _) if count.value == 0 => answer.does_not_apply(&[ID]),
            (Some(_), None) => answer.not_checked(&[ID], &["plugs-out"]),
            (Some(count), Some(out)) => {
                let verdict = if out.value { Verdict::Proven } else { Verdict::Fails };
                answer.check(Check::of_kind(ID, verdict).at(out.place).with("count", count.value.to_string()));
            }
        }
    }
}

impl Operation for Wash {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must(SUITS, &["material"]),
                CheckRule::must("takes-the-dirt", &[]),
                CheckRule::must("hollows-open", &["cavities", "plugs-out"]),
            ]
        }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn suits(&self, metal: &Material) -> Result<Option<Check>, Refusal> {
        self.on(metal).map(Some)
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        Vec::new()
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let metal = bench.part.material.as_ref().map(|at| &at.value);
        metal.iter().flat_map(|metal| metal.safety_without_chips()).for_each(|id| answer.caution(id));
        answer.fact("cleaner", self.cleaner.value.name());
        self.suits_part(bench, answer)?;
        self.takes(answer);
        self.open(answer);
        let hollows = self.cavities.as_ref().map_or(0, |at| at.value);
        let mut set_up = SetUp::at("wash", Station::Bench);
        set_up.hold.push(Words::of("in-the-bath").into());
        if hollows > 0 {
            set_up.step("plugs-out");
        }
        set_up.step(first(self.dirt.value)).step("wash");
        if hollows > 0 {
            answer.fact("hollows", hollows.to_string());
            set_up.step("flush-each");
        }
        let harm = self.cleaner.value.harm()?;
        // Out of a bath that burns nothing goes near a warm cupboard.
        match harm {
            Harm::Fire => set_up.step("rinse").step("drain-what-burns").step("air-the-fuel-off"),
            _ => set_up.step("rinse").step("dry"),
        };
        // Iron and steel rust while they dry; on the others oil only holds dust.
        let rusts = |metal: &Material| {
            matches!(metal.kind(), Kind::Steel | Kind::HardSteel | Kind::GreyIron | Kind::DuctileIron)
        };
        match metal {
            Some(metal) if rusts(metal) => set_up.step("oil-thinly"),
            Some(metal) if metal.kind() == Kind::Sintered => set_up.step("soak-in-oil"),
            _ => &mut set_up,
        };
        set_up.warns(&[match harm {
            Harm::Skin => "bath-burns",
            Harm::Heat => "hot-water",
            Harm::Fire => "bath-catches-fire",
        }]);
        set_up.warns(&["compressed-air"]);
        // What was scraped off an old joint may be asbestos, as an old clutch plate is.
        if self.dirt.value == Dirt::Sealant {
            answer.caution("asbestos");
        }
        let each = set_up_minutes::start("hollow, flushed")?;
        set_up.takes(set_up_minutes::start(minutes(self.dirt.value))? + f64::from(hollows) * each);
        set_up.leaves = of_part(bench, &[StateKind::Washed]);
        answer.set_ups.push(set_up);
        Ok(())
    }
}
