//! Layer 3. A document as a tree with places, from YAML or from `key=value`; all problems collected; pointing at them.
//!
//! Both kinds of text become the same [`Node`] and meet the same serde types, so that a command line and a file can never
//! differ in what they accept.

mod arguments;
mod elsewhere;
mod harmless;
mod keys;
mod missing;
mod node;
mod plain;
mod point;
mod problem;
mod scalar;
mod serde_node;
mod slips;
mod yaml;

pub use harmless::harmless;
pub(crate) use harmless::without_harm;
pub(crate) use keys::in_a_word;
pub use keys::{Key, Keys};
pub use missing::by_example;
pub use node::Node;
pub use point::{ARGUMENT, Text, point, point_within};
pub use problem::{Problem, near};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::{At, Place};
    use crate::quantity::{Measured, Mm, RevPerMin, Steps};
    use serde::Deserialize;

    #[derive(Debug, Deserialize)]
    #[serde(deny_unknown_fields, rename_all = "kebab-case")]
    #[allow(dead_code)]
    struct Hole {
        wall: At<Measured<Mm>>,
        #[serde(default)]
        least_left: Option<At<Mm>>,
    }

    fn says(text: &str) -> Vec<String> {
        let read = Node::yaml(text, Place::start(0)).map_err(|p| vec![p]).and_then(Node::read::<Vec<Hole>>);
        let texts = [Text { name: "job.yaml".into(), text: text.into() }];
        read.err().unwrap_or_default().iter().map(|p| point(p, &texts, false)).collect()
    }

    #[test]
    fn all_problems_come_in_one_run_each_with_its_place() {
        let text = "- wall: 12,5 mm\n- wal: 3 mm\n- {wall: 18, least-left: 1 mm}\n- wall: 3 mm\n  least-left:\n";
        let found = says(text);
        assert_eq!(found.len(), 4, "{found:#?}");
        assert!(
            found[0]
                == "job.yaml, line 1: the decimal sign is a point: `12.5 mm`\n    - wall: 12,5 mm\n            ^^^^^^^",
            "{}",
            found[0]
        );
        assert!(found[1].contains("did you mean `wall`?"), "{}", found[1]);
        assert!(found[2].contains("needs its unit"), "{}", found[2]);
        assert!(found[3].contains("has nothing after it"), "{}", found[3]);
    }

    #[test]
    fn a_sign_that_hides_in_a_word_is_named_by_its_number() {
        let found = says("- wa\u{202e}ll: 18 mm\n");
        assert!(found[0].contains("a sign that is not seen stands here: U+202E"), "{found:#?}");
        assert!(!found[0].contains('\u{202e}'));
        assert!(!says("- wal: 18 mm\n")[0].contains("not seen"));
    }

    #[test]
    fn what_is_no_document_is_refused_at_its_place() {
        for bad in ["", "  \n", "a: [1", "a: 1\na: 2", "\tx: 1", "a: &x 1\nb: *x", "{}: ["] {
            assert!(
                Node::yaml(bad, Place::start(0)).map_err(|p| vec![p]).and_then(Node::read::<Vec<Hole>>).is_err(),
                "{bad:?}"
            );
        }
        let deep = "[".repeat(10_000);
        assert!(Node::yaml(&deep, Place::start(0)).is_err());
        let mut bomb = String::from("a: &a [x,x,x,x,x,x,x,x,x]\n");
        for (now, before) in ('b'..='i').zip('a'..) {
            bomb += &format!("{now}: &{now} [*{before},*{before},*{before},*{before},*{before},*{before},*{before}]\n");
        }
        let problem = Node::yaml(&bomb, Place::start(0)).unwrap_err();
        println!("{problem}");
    }

    #[test]
    fn windows_line_ends_and_a_byte_order_mark_are_read() {
        let text = "\u{feff}- wall: 18 mm\r\n  least-left: 1 mm\r\n";
        assert!(Node::yaml(text, Place::start(0)).unwrap().read::<Vec<Hole>>().is_ok());
    }

    #[test]
    fn arguments_meet_the_same_types() {
        let words = ["wall=18.0 ± 0.3 mm".to_string(), "least-left=1/16\"".to_string()];
        let hole: Hole = Node::arguments(&words, 1).unwrap().read().unwrap();
        assert_eq!(hole.wall.plus_minus, Some(0.3));
        assert_eq!(hole.least_left.unwrap().place, Place { source: 2, line: 1, column: 12, length: 5 });
        assert!(Node::arguments(&["wall".to_string()], 1).is_err());
    }

    #[test]
    fn a_plate_is_a_list_in_one_text() {
        #[derive(Deserialize)]
        struct Plate {
            spindle: At<Steps<RevPerMin>>,
        }
        let read = |t: &str| Node::yaml(t, Place::start(0)).unwrap().read::<Plate>();
        assert_eq!(read("spindle: 100 38 62 rev/min").unwrap().spindle.iter().count(), 3);
        assert!(read("spindle: 100 38 62").is_err());
        assert!(read("spindle: [38 rev/min, 62]").is_err());
    }
}
