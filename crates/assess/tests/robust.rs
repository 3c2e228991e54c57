//! Whatever numbers a valid file holds, the assessment stays finite and honest.

use assess::{Status, assess, explain};
use proptest::prelude::*;

const CREEK: &str = include_str!("../../../demo/creek.toml");

/// The demo with some of its numbers multiplied.
fn changed(factors: &[(usize, f64)]) -> String {
    let mut out = String::new();
    let mut count = 0;
    for line in CREEK.lines() {
        let number = line.find("= \"").and_then(|at| {
            let value = &line[at + 3..];
            let end = value.find(' ')?;
            let number: f64 = value[..end].parse().ok()?;
            Some((at + 3, end, number))
        });
        match number {
            Some((at, end, value)) if !line.trim_start().starts_with('#') => {
                count += 1;
                let factor = factors.iter().find(|(i, _)| *i == count).map_or(1.0, |(_, f)| *f);
                out.push_str(&format!("{}{}{}\n", &line[..at], value * factor, &line[at + end..]));
            }
            _ => {
                out.push_str(line);
                out.push('\n');
            }
        }
    }
    out
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]
    #[test]
    fn every_number_of_an_assessment_is_finite_and_every_outcome_follows_from_it(
        factors in proptest::collection::vec((1usize..60, prop_oneof![0.2f64..4.0, Just(0.0), Just(-1.0)]), 1..4),
    ) {
        let Ok(project) = project::read("x.toml", &changed(&factors)) else { return Ok(()) };
        let a = assess(&project);
        for check in &a.checks {
            for reading in [check.demand, check.limit].into_iter().flatten() {
                prop_assert!(reading.value.is_finite(), "{} {:?}", check.id, reading);
            }
            if check.status == Status::Pass {
                let u = check.utilisation.unwrap_or(f64::INFINITY);
                prop_assert!(u <= 1.0 + 1e-9, "{} passes with {u}", check.id);
                prop_assert!(check.missing.is_empty(), "{}", check.id);
            }
            if check.status == Status::NotAssessed {
                prop_assert!(!check.because.is_empty());
            }
        }
        prop_assert_eq!(
            a.all_met(),
            a.checks.iter().all(|c| matches!(c.status, Status::Pass | Status::Attention))
        );
        for profile in &a.profiles {
            prop_assert!(profile.values.iter().all(|v| v.is_finite()), "{}", profile.id);
        }
        let text = serde_json::to_string(&a).unwrap();
        prop_assert!(!text.contains("NaN"));
        if let Some(check) = a.checks.iter().max_by(|x, y| x.utilisation.partial_cmp(&y.utilisation).unwrap()) {
            let working = explain(&project, &check.id).unwrap().working;
            let (difference, symbol) = working.largest_difference().unwrap();
            prop_assert!(difference < 1e-5, "{}: {symbol} {difference:e}", check.id);
        }
    }
}
