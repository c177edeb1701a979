//! The shops of random jobs: none, that of the worked examples, and one that owns all that its jobs ask; with chucks of every kind.

use super::Maker;
use crate::common::{SHOP, shop};
use setover::shop::Shop;

/// A shop that owns what an ordinary job asks.
const WHOLE: &str = include_str!("whole-shop.yaml");

/// The shop that owns what an ordinary job asks.
pub fn whole_shop() -> Shop {
    shop(WHOLE)
}

/// The shop of a numbered job: every fifth has none.
pub fn shop_of(number: u64) -> Option<Shop> {
    let base = match number % 5 {
        0 => return None,
        1 | 2 => SHOP,
        _ => WHOLE,
    };
    let mut maker = Maker::of(number ^ 0x00C0_FFEE);
    let chuck = maker.chuck();
    let (before, rest) = base.split_once("chuck: {").expect("a chuck");
    let (_, after) = rest.split_once('}').expect("its end");
    Some(shop(&format!("{before}chuck: {{{chuck}}}{after}")))
}

impl Maker {
    /// The keys of a chuck.
    fn chuck(&mut self) -> String {
        let diameter = self.one_of(&["100", "160", "160", "200"]);
        let mut keys = Vec::new();
        if self.often(0.9) {
            keys.push(format!("diameter: {diameter} mm"));
        }
        if self.often(0.8) {
            keys.push("most: 1800 rev/min".to_owned());
        }
        if self.often(0.7) {
            keys.push(format!("jaw-force: {:.0} kN", self.between(8.0, 30.0)));
            if self.often(0.6) {
                let by = self.one_of(&["gauge", "maker"]);
                keys.push(format!("jaw-force-by: {by}"));
            }
        }
        if self.often(0.3) {
            keys.push(format!("jaw-width: {:.0} mm", self.between(8.0, 25.0)));
        }
        if self.often(0.3) {
            keys.push(format!("reach: {:.0} mm", self.between(90.0, 180.0)));
        }
        if self.often(0.2) {
            keys.push("mass: 9 kg".to_owned());
        }
        keys.join(", ")
    }
}
