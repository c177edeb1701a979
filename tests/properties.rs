//! What must hold for every size and not only for the printed ones: spellings, limits, borders, more of this means more of
//! that; and that every row and formula has a source.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "properties/iso286.rs"]
mod iso286;
#[path = "properties/more_and_less.rs"]
mod more_and_less;
#[path = "properties/sources.rs"]
mod sources;

use crate::seeds;

use proptest::prelude::*;
use setover::handbook::{
    cutting::{drilling, speeds},
    measuring::instruments,
};
use setover::proof::Worked;
use setover::quantity::{MPerMin, Mm, MmPerRev, Quantity, Written};

/// A figure as it is given.
fn given<Q: Quantity>(number: f64) -> Worked<Q> {
    Worked::assumed(Q::new(number), "given")
}

fn bits<Q: Quantity>(text: &str) -> u64 {
    let written: Written<Q> = text.parse().unwrap_or_else(|e| panic!("{text}: {e}"));
    written.value.number().to_bits()
}

/// So many ten-thousandths as decimal digits.
fn decimal(ten_thousandths: u64) -> String {
    format!("{}.{:04}", ten_thousandths / 10_000, ten_thousandths % 10_000)
}

proptest! {
    #![proptest_config(seeds::config(256, "tests/regressions/properties.txt"))]

    #[test]
    fn inch_and_metric_spellings_are_the_same_bits(thou in 1_u64..9_999_999) {
        let metric = format!("{} mm", decimal(thou * 254));
        for inch in [format!("{thou} thou"), format!("{}.{:03} in", thou / 1000, thou % 1000), format!("{}.{:03}\"", thou / 1000, thou % 1000)] {
            prop_assert_eq!(bits::<Mm>(&inch), bits::<Mm>(&metric), "{} {}", inch, metric);
        }
        prop_assert_eq!(bits::<MmPerRev>(&format!("{thou} thou/rev")), bits::<MmPerRev>(&format!("{}/rev", metric)));
        let micrometres = thou * 254;
        prop_assert_eq!(bits::<Mm>(&metric), bits::<Mm>(&format!("{}.{} um", micrometres / 10, micrometres % 10)));
    }

    #[test]
    fn fractions_and_decimals_are_the_same_bits(whole in 0_u64..40, above in 1_u64..64) {
        let inch = format!("{}.{:06} in", whole, above * 1_000_000 / 64);
        let plain = format!("{whole} {above}/64 in");
        prop_assert_eq!(bits::<Mm>(&plain), bits::<Mm>(&inch), "{} {}", plain, inch);
        prop_assert_eq!(bits::<Mm>(&plain), bits::<Mm>(&format!("{whole}-{above}/64 in")));
        prop_assert_eq!(bits::<Mm>(&plain), bits::<Mm>(&format!("{}/64 in", whole * 64 + above)));
    }

    #[test]
    fn cutting_speeds_in_feet_and_metres_are_the_same_bits(feet in 1_u64..9_999) {
        prop_assert_eq!(bits::<MPerMin>(&format!("{feet} ft/min")), bits::<MPerMin>(&format!("{} m/min", decimal(feet * 3048))));
    }
}

/// "Over … up to and including": the border belongs to the row that ends there.
#[test]
fn a_border_belongs_to_the_row_that_ends_there() {
    let feed = |d: f64| speeds::drill_feed(d).expect("a feed").number();
    for border in [3.175, 6.35, 12.7, 25.4] {
        assert!(feed(border) < feed(border + 1e-6), "{border}");
        assert_eq!(feed(border), feed(border - 0.01), "{border}");
    }
    let doubt = |size: f64| instruments::usual_uncertainty("outside micrometer", size).expect("a doubt").number();
    for border in [50.0, 100.0, 150.0] {
        assert!(doubt(border) < doubt(border + 1e-6), "{border}");
        assert_eq!(doubt(border), doubt(border - 0.01), "{border}");
    }
    let factor = |times: f64| drilling::deep_hole(times, 1.0).expect("a row").expect("deep")[0].number();
    for border in [3.0, 4.0, 5.0] {
        assert!(factor(border) > factor(border + 1e-6), "{border}");
    }
}
