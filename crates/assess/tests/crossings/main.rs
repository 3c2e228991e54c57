//! Whole crossings: what an engineer expects of the verdict when one thing changes.

use assess::{Assessment, Status, assess, check_ids, explain};

use self::crossing::{CROSSING, run, status, utilisation, with};

mod crossing;
mod fluid;
mod ground;
mod limits;
mod pull;
mod remedies;

#[test]
fn an_ordinary_crossing_is_feasible() {
    let a = run(CROSSING);
    let bad: Vec<_> = a
        .checks
        .iter()
        .filter(|c| matches!(c.status, Status::Fail | Status::NotAssessed))
        .map(|c| (&c.id, &c.because))
        .collect();
    assert!(bad.is_empty() && a.all_met(), "{bad:#?}");
}

#[test]
fn a_tighter_curve_moves_the_checks_of_curvature_and_pull() {
    let before = run(CROSSING);
    let after = run(&with("entry_radius = \"250 m\"", "entry_radius = \"125 m\""));
    for id in ["line.radius-pipe", "line.radius-rods", "line.joint-angle"] {
        let (a, b) = (utilisation(&before, id), utilisation(&after, id));
        assert!(b > 1.01 * a, "{id}: {a} became {b}");
    }
    assert_eq!(status(&after, "line.radius-pipe"), Status::Fail);
    assert_eq!(utilisation(&before, "service.pressure"), utilisation(&after, "service.pressure"));
    assert!(
        after
            .remedies
            .iter()
            .any(|r| r.check == "line.radius-pipe" && r.parameter.contains("entry_radius"))
    );
}

#[test]
fn a_missing_input_is_not_assessed_and_never_a_pass() {
    for (text, id, key) in [
        ("[rig]\npullback = \"600 kN\"\n", "pull.rig", "/rig/pullback"),
        ("permitted_pull = \"800 kN\"\n", "pull.rods", "/bore/rods/permitted_pull"),
        ("clearance = \"3 m\"\n", "line.clearance.ditch", "/site/obstacle/0/clearance"),
    ] {
        let a = run(&with(text, ""));
        let check = a.check(id).unwrap();
        assert_eq!(check.status, Status::NotAssessed, "{id}");
        assert!(check.missing.iter().any(|m| m == key), "{id}: {:?}", check.missing);
        assert!(!a.all_met());
        assert!(a.verdict.sentence.contains("could not be made"), "{}", a.verdict.sentence);
    }
}

#[test]
fn a_socket_that_does_not_pass_fails_and_the_pull_is_not_assessed() {
    let a = run(&with("ream = [\"450 mm\", \"850 mm\"]", "ream = [\"450 mm\"]"));
    assert_eq!(status(&a, "bore.diameter"), Status::Fail);
    assert_eq!(status(&a, "pull.joint-force"), Status::NotAssessed);
    assert!(a.check("pull.joint-force").unwrap().because.contains("does not pass"));
    // The method that takes the string outside the bore from the chain says that it is missing.
    let remark = |a: &Assessment| {
        a.methods.iter().find(|m| m.id == "stiff-arcs").unwrap().remark.contains("is left out")
    };
    assert!(remark(&a));
    assert!(!remark(&run(CROSSING)));
}

#[test]
fn every_working_recomputes_from_its_text_and_ends_in_the_utilisation_of_the_check() {
    for text in [
        CROSSING.to_owned(),
        with("contents = \"part\"\nballast_share = 0.6", "contents = \"water\""),
    ] {
        let project = project::read("test.toml", &text).unwrap();
        for check in assess(&project).checks {
            let explained = explain(&project, &check.id).unwrap();
            let working = &explained.working;
            assert!(working.steps.len() >= 3, "{} has no working", check.id);
            let (difference, symbol) =
                working.largest_difference().unwrap_or_else(|e| panic!("{}: {e}", check.id));
            assert!(difference < 1e-6, "{}: {symbol} differs by {difference:e}", check.id);
            let last = working
                .steps
                .iter()
                .filter(|s| s.symbol.starts_with('U'))
                .map(|s| s.value)
                .fold(0.0, f64::max);
            let expected = check.utilisation.unwrap();
            assert!(
                (last - expected).abs() <= 1e-6 * expected.max(1.0),
                "{}: {last} against {expected}",
                check.id
            );
        }
    }
}

#[test]
fn the_same_crossing_gives_the_same_bytes_and_only_finite_numbers() {
    let text = |a: &Assessment| serde_json::to_string(a).unwrap();
    let (a, b) = (run(CROSSING), run(CROSSING));
    assert_eq!(text(&a), text(&b));
    for profile in &a.profiles {
        assert_eq!(profile.md.len(), profile.values.len(), "{}", profile.id);
        assert!(profile.values.iter().all(|v| v.is_finite()), "{}", profile.id);
        assert!(profile.md.windows(2).all(|w| w[1] > w[0]), "{}", profile.id);
    }
}

#[test]
fn a_surveyed_bore_with_ordinary_wobble_has_straight_leads() {
    let start = CROSSING.find("[line]").unwrap();
    let end = CROSSING.find("[string]").unwrap();
    let mut rows = Vec::new();
    let (mut md, mut pitch) = (0.0, -10.0);
    for k in 0..49 {
        let wobble = if k % 2 == 0 { 0.06 } else { -0.06 };
        rows.push(format!("[{md}, {:.2}, {:.2}]", pitch + wobble, 64.0 - wobble));
        md += 6.0;
        pitch += if (5..14).contains(&k) {
            10.0 / 9.0
        } else if (30..38).contains(&k) {
            1.0
        } else {
            0.0
        };
    }
    let text = format!(
        "{}[line]\nentry_level = 4.0\nsurvey = [{}]\n\n{}",
        &CROSSING[..start].replace("[290, 4.0]", "[320, 4.0]"),
        rows.join(", "),
        &CROSSING[end..]
    );
    let a = run(&text);
    assert_eq!(status(&a, "line.straight-entry"), Status::Pass);
    assert_eq!(status(&a, "line.straight-exit"), Status::Pass);
    assert!(utilisation(&a, "pull.joint-force") > 0.0);
}

/// A stop between strings is started with the next string joined: its weight lies behind the stop.
#[test]
fn a_limit_that_is_reached_exactly_is_met() {
    let a = run(&with("exit_angle = \"9 deg\"", "exit_angle = \"10 deg\""));
    assert_eq!(status(&a, "line.exit-angle"), Status::Pass);
}

#[test]
fn the_lowest_place_of_a_sag_counts_for_the_pressure_in_service() {
    let start = CROSSING.find("[line]").unwrap();
    let end = CROSSING.find("[string]").unwrap();
    let sag = "[line]\nentry_level = 4.0\nentry_angle = 11\n[[line.element]]\nlength = 30\n[[line.element]]\nradius = 400\n\
               turn = 20\ntoward = \"up\"\n[[line.element]]\nlength = 40\n\n";
    let a = run(&format!("{}{sag}{}", &CROSSING[..start], &CROSSING[end..]));
    let service = a.check("service.pressure").unwrap();
    let depth = 30.0 * 11f64.to_radians().sin() + 400.0 * (1.0 - 11f64.to_radians().cos());
    let reference = 4.0f64.max(
        a.profiles.iter().find(|p| p.id == "line.level").unwrap().values.last().copied().unwrap(),
    );
    let expected = 15e5 + 1000.0 * 9.80665 * (reference - 4.0 + depth);
    let found = service.demand.unwrap().value;
    assert!((found / expected - 1.0).abs() < 1e-6, "{found} against {expected}");
}

#[test]
fn the_ids_of_the_checks_are_those_that_are_made() {
    let project = project::read("test.toml", CROSSING).unwrap();
    let made: Vec<_> = assess(&project).checks.into_iter().map(|c| c.id).collect();
    assert_eq!(check_ids(&project), made);
}
