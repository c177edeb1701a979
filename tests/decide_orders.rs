//! What is decided of a part whose work is planned and fails, whose limits nobody typed, and what is then ordered.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::process::Command;

const SHOP: &str = include_str!("fixtures/decide/shop.yaml");
const JOB: &str = "
job: found
shop: shop.yaml
parts:
  - part: pump
    inspect:
      - {feature: float, found: 0.43 ± 0.02 mm, service: 0.05 to 0.2 mm, remedies: [shim]}
    operations:
      - shim: {float: 0.08 to 0.15 mm, float-found: {size: 0.43 ± 0.008 mm, with-pack: 0 mm}}
  - part: barrel
    material: Grey iron 200-260 HB
    inspect:
      - {feature: bore, found: 46.090 ± 0.010 mm, service: at most 46.05 mm, remedies: [bore]}
    operations:
      - bore:
          nominal: 46 mm
          unworn: 46.000 ± 0.008 mm
          length: 40 mm
          readings: {kind: diameter, with: bore gauge, depths: 6 20 34 mm, thrust: 46.090 46.060 46.020 mm, pin: 46.070 46.050 46.020 mm}
          clearance: 0.04 to 0.08 mm
          piston-metal: cast iron
          outside: {size: 60 mm, eccentric: 0.1 ± 0.05 mm}
          least-wall: 4 mm
          base-square: 0.01 ± 0.004 mm
          hold: {in: clamps, true-within: 0.02 mm, tested: 60 N·m}
";

fn decided(job: &str, format: &[&str]) -> String {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    std::fs::write(folder.path().join("job.yaml"), job).unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_setover"));
    let output = command.current_dir(folder.path()).args(["decide", "job.yaml"]).args(format).output().unwrap();
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

fn rows(job: &str) -> Vec<Value> {
    let decided: Value = serde_json::from_str(&decided(job, &["--format", "json"])).unwrap();
    decided["rows"].as_array().unwrap().clone()
}

fn row(job: &str, feature: &str) -> Value {
    rows(job).into_iter().find(|row| row["feature"] == feature).unwrap_or_else(|| panic!("{feature}"))
}

/// What is planned already, and fails, is not asked to be planned first; what it lacks is ordered.
#[test]
fn work_that_fails_as_it_is_planned_is_planned_anew_with_what_it_lacks() {
    let text = decided(JOB, &[]);
    assert!(text.contains("pump, float: plan `shim` anew: as planned it fails"), "{text}");
    let float = row(JOB, "float");
    let orders = float["order"].as_array().unwrap();
    assert!(orders.iter().any(|order| order["item"].as_str().unwrap().contains("shim or pack 0.315 mm")), "{float}");
    let at = JOB.find("    operations:\n      - shim").unwrap();
    let end = JOB.find("  - part: barrel").unwrap();
    let unplanned = format!("{}{}", &JOB[..at], &JOB[end..]);
    let text = decided(&unplanned, &[]);
    assert!(text.contains("pump, float: plan `shim` first") && !text.contains("shim or pack"), "{text}");
}

/// A piston that is to be bought is ordered once, and its rings.
#[test]
fn what_goes_with_a_bore_is_ordered_once() {
    let text = decided(JOB, &[]);
    let list = text.split("Order list").nth(1).unwrap();
    for item in ["piston", "rings"] {
        assert_eq!(list.lines().filter(|line| line.contains(item)).count(), 1, "{list}");
    }
}

/// What was measured and has no limit shows what was found, and asks for the limit; typed, it is judged by that figure.
#[test]
fn what_was_found_is_shown_where_its_limit_is_missing() {
    let text = decided(JOB, &[]);
    for (feature, key) in [("bore, wear", "wear"), ("bore, taper", "taper"), ("bore, out of round", "out-of-round")] {
        assert!(text.contains(&format!("barrel, {feature}: say its limit: not reused")), "{feature}: {text}");
        let open = row(JOB, feature);
        assert_eq!((&open["decision"], &open["verdict"]), (&"measure".into(), &Value::Null), "{open}");
        let found = open["found"].as_f64().unwrap();
        let with_limit =
            JOB.replace("nominal: 46 mm\n", &format!("nominal: 46 mm\n          limits: {{{key}: 0.01 mm}}\n"));
        let judged = row(&with_limit, feature);
        approx::assert_abs_diff_eq!(judged["found"].as_f64().unwrap(), found, epsilon = 1e-9);
        assert_ne!(judged["verdict"], Value::Null, "{judged}");
    }
    assert!(text.contains("barrel, bore, worn clearance: MEASURE"), "{text}");
}

/// A float that was shimmed is judged by what the log has of it, where it is the very reading that the shims were chosen by; one that was
/// read otherwise is read again.
#[test]
fn a_float_is_judged_as_it_was_left_where_it_was_shimmed_by_that_reading() {
    let job = |found: &str| {
        format!(
            "job: j\nshop: shop.yaml\nparts:\n  - part: pump\n    inspect:\n      - {{feature: float, found: {found}, service: 0.05 to 0.2 mm, remedies: [shim]}}\n    operations:\n      - shim: {{float: 0.08 to 0.15 mm, float-found: {{size: 0.62 ± 0.008 mm, with-pack: 0 mm}}, chain: [{{link: case, opens: 20.62 ± 0.004 mm, material: mild steel}}, {{link: shaft, closes: 20.00 ± 0.004 mm, material: mild steel}}]}}\n"
        )
    };
    let decided = |found: &str, left: &str| -> Value {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("shop.yaml"), include_str!("../examples/shop.yaml")).unwrap();
        std::fs::write(folder.path().join("job.yaml"), job(found)).unwrap();
        let run = |words: &[&str]| {
            let mut command = Command::new(env!("CARGO_BIN_EXE_setover"));
            command.current_dir(folder.path()).args(words).output().unwrap()
        };
        let log = run(&[
            "log",
            "job.yaml",
            "pump/shim",
            "pack_thickness=0.50 ± 0.004 mm",
            &format!("float_left={left} ± 0.008 mm"),
        ]);
        assert!(log.status.success(), "{}", String::from_utf8_lossy(&log.stderr));
        let decided: Value = serde_json::from_slice(&run(&["decide", "job.yaml", "--format", "json"]).stdout).unwrap();
        decided["rows"].as_array().unwrap().iter().find(|row| row["feature"] == "float").unwrap().clone()
    };
    let good = decided("0.62 ± 0.008 mm", "0.12 mm");
    assert_eq!((&good["decision"], &good["as_left"], &good["found"]), (&"reuse".into(), &true.into(), &0.12.into()));
    let loose = decided("0.62 ± 0.008 mm", "0.30 mm");
    assert_ne!(loose["decision"], "reuse", "{loose}");
    let other = decided("0.63 ± 0.008 mm", "0.12 mm");
    assert_eq!((&other["decision"], &other["as_left"]), (&"measure".into(), &false.into()), "{other}");
}

/// A name that says nothing of what is done about it scraps no part that the job puts right.
#[test]
fn a_feature_of_an_unusual_name_orders_no_part_that_is_worked_on() {
    let of = |feature: &str, found: &str| {
        let line = format!("{{feature: {feature}, found: {found}, service: at most 0.01 mm}}");
        let job = JOB
            .replace("{feature: bore, found: 46.090 ± 0.010 mm, service: at most 46.05 mm, remedies: [bore]}", &line);
        assert_ne!(job, JOB);
        let row = row(&job, feature);
        (row["decision"].as_str().unwrap().to_owned(), row["by"].as_str().map(str::to_owned), row["order"].clone())
    };
    // It is a value of the operation that puts it right.
    let (decision, by, _) = of("taper", "{of: barrel/bore/taper}");
    assert!(decision != "replace" && by.as_deref() == Some("bore"), "{decision}");
    // Nobody says.
    let (decision, by, order) = of("out of round", "0.07 ± 0.01 mm");
    assert_eq!((decision.as_str(), by), ("plan-first", None));
    assert!(order.as_array().unwrap().is_empty(), "{order}");
    // Nothing is planned for its part.
    let idle = JOB.split_once("  - part: barrel").unwrap().0.to_owned()
        + "  - part: tappet\n    material: mild steel\n    inspect:\n      - {feature: stem, found: 12.60 ± 0.01 mm, service: at least 12.66 mm}\n";
    assert_eq!(row(&idle, "stem")["decision"], "replace");
}
