//! Forces as a band: what adds up, what grows with what, and what depends on the direction of the pull.

use assess::{Assessment, Status};
use proptest::prelude::*;

use crate::street::{
    NO_CLAMP, STREET, after, changed, check, curve, demand, limit, near, part, run, status, street,
};

const LEVEL: [(&str, &str); 2] = [
    ("[[0, 31.4], [55, 31.2], [118, 30.8]]", "[[0, 31], [118, 31]]"),
    ("[[0, 29.2], [118, 29.1]]", "[[0, 29.3], [118, 29.3]]"),
];

fn string(a: &Assessment) -> [f64; 3] {
    part(a, "in the string")
}

fn rig(a: &Assessment) -> [f64; 3] {
    part(a, "on the machine and its wall")
}

#[test]
fn the_machine_carries_string_and_head_and_rods() {
    let a = after(&[NO_CLAMP]);
    let breaking = part(&a, "breaking or splitting the host");
    let cone = part(&a, "cone against the ground");
    // At the end of the run no rods are left in the old main.
    for k in 0..3 {
        near(rig(&a)[k], breaking[k] + cone[k] + string(&a)[k], 1e-9);
    }
    // With the head at the launch pit nothing of the string is in the ground, and all rods are: 118 m of 40 kg/m.
    let (_, at) = curve(&a, "burst.force.rig.planning.1");
    let rods = 0.25 * 40.0 * 9.80665 * 118.0;
    let without = after(&[NO_CLAMP, ("rod_mass = \"40 kg/m\"\n", "")]);
    let (_, bare) = curve(&without, "burst.force.rig.planning.1");
    near(at.last().unwrap() - bare.last().unwrap(), rods, 1e-9);
    near(at[59] - bare[59], rods * 0.5, 1e-9);
    assert_eq!(curve(&a, "burst.force.string.planning.1").1.last(), Some(&0.0));
}

#[test]
fn drag_weight_restart_and_curve_make_the_force_in_the_string() {
    let a = after(&LEVEL);
    let drag = part(&a, "drag of the ground on the string");
    let weight = part(&a, "weight of the string");
    let turn = 2.2f64.to_radians();
    for (k, (mu, restart)) in [(0.15, 1.2), (0.25, 1.35), (0.3, 1.5)].into_iter().enumerate() {
        near(string(&a)[k], restart * (drag[k] + weight[k]) * (mu * turn).exp(), 1e-9);
    }
}

#[test]
fn a_string_that_lies_ready_starts_once_for_planning() {
    let pipes = after(&LEVEL);
    let ready = run(&changed(&street(&LEVEL), &[("\"pipe by pipe\"", "\"string\"")]));
    near(string(&pipes)[1], 1.35 * string(&ready)[1], 1e-9);
    near(string(&pipes)[0], 1.2 * string(&ready)[0], 1e-9);
    assert_eq!(string(&pipes)[2], string(&ready)[2]);
}

#[test]
fn lubrication_lowers_the_force_in_the_string() {
    let (wet, dry) = (run(STREET), after(&[("lubricated = \"yes\"", "lubricated = \"no\"")]));
    for k in 0..3 {
        assert!(string(&wet)[k] < string(&dry)[k]);
    }
    let breaking = "breaking or splitting the host";
    assert_eq!(part(&wet, breaking), part(&dry, breaking));
    assert!(wet.runs[0].lubricant.is_some() && dry.runs[0].lubricant.is_none());
}

#[test]
fn more_cover_raises_drag_and_lowers_heave_and_settlement() {
    // Between two steps of the guide, which lowers its share of the depth at each.
    let at = |by: f64| {
        let ground = format!("[[0, {}], [118, {}]]", 31.4 + by, 30.8 + by);
        after(&[("[[0, 31.4], [55, 31.2], [118, 30.8]]", &ground)])
    };
    let (a, b) = (at(0.1), at(0.5));
    let drag = |a: &Assessment| part(a, "drag of the ground on the string");
    for k in 0..3 {
        assert!(drag(&b)[k] > drag(&a)[k]);
    }
    assert!(demand(&b, "burst.heave") < demand(&a, "burst.heave"));
    assert!(demand(&b, "burst.settlement") < demand(&a, "burst.settlement"));
}

#[test]
fn a_wider_plate_raises_the_wall_in_proportion_but_for_the_opening() {
    let wall = |width: f64| {
        let plate = format!("plate_width = \"{width} m\"");
        limit(&after(&[("plate_width = \"4 m\"", &plate)]), "burst.reaction-wall")
    };
    let (a, b, c) = (wall(2.0), wall(3.0), wall(4.0));
    near(c - b, b - a, 1e-9);
    assert!(b > a && a < 2.0 * (b - a), "the opening takes some away: {a} {b}");
}

#[test]
fn a_plate_that_covers_a_part_of_the_opening_is_not_judged() {
    let a = after(&[("plate_bottom = \"3.2 m\"", "plate_bottom = \"1.7 m\"")]);
    assert_eq!(status(&a, "burst.reaction-wall"), Status::NotAssessed);
    assert!(check(&a, "burst.reaction-wall").because.contains("in part"));
}

#[test]
fn on_a_level_street_the_direction_does_not_matter() {
    let up = changed(&street(&LEVEL), &[NO_CLAMP]);
    let down = changed(
        &up,
        &[("launch = \"118 m\"\nmachine = \"0 m\"", "launch = \"0 m\"\nmachine = \"118 m\"")],
    );
    let (a, b) = (run(&up), run(&down));
    for (x, y) in a.forces.iter().zip(&b.forces) {
        for (x, y) in [(x.low, y.low), (x.planning, y.planning), (x.high, y.high)] {
            near(y.value, x.value, 1e-12);
        }
    }
    for c in &a.checks {
        let other = check(&b, &c.id);
        assert_eq!(c.status, other.status, "{}", c.id);
        let (x, y) = (c.utilisation.unwrap(), other.utilisation.unwrap());
        assert!((x - y).abs() < 1e-12, "{}: {x} {y}", c.id);
    }
    assert_eq!(
        (check(&a, "pull.joint-force").at, check(&b, "pull.joint-force").at),
        (Some(0.0), Some(118.0))
    );
}

#[test]
fn uphill_is_harder_than_downhill_by_the_weight_along_the_slope() {
    let turned = ("launch = \"118 m\"\nmachine = \"0 m\"", "launch = \"0 m\"\nmachine = \"118 m\"");
    let (up, down) = (run(STREET), after(&[turned]));
    let slope = (0.1f64 / 118.0).atan();
    // Uphill the table holds friction and slope, downhill friction only.
    let weight = |a: &Assessment| part(a, "weight of the string")[1];
    let along = weight(&up) - weight(&down);
    let w = along / (118.0 * slope.sin());
    assert!((400.0..900.0).contains(&w), "{w} N/m of DN 250");
    let curve = (0.25 * 2.2f64.to_radians()).exp();
    near(string(&up)[1] - string(&down)[1], 2.0 * along * curve, 1e-6);
}

#[test]
fn two_runs_from_one_pit_are_two_pulls() {
    let two = "launch = \"61 m\"\nmachine = \"0 m\"\n\n[[run]]\nname = \"B\"\nlaunch = \"61 m\"\nmachine = \"118 m\"";
    let a = after(&[("launch = \"118 m\"\nmachine = \"0 m\"", two)]);
    let whole = run(STREET);
    assert_eq!(a.runs.iter().map(|r| r.name.as_str()).collect::<Vec<_>>(), ["A", "B"]);
    assert_eq!(a.runs.iter().map(|r| r.services).sum::<usize>(), whole.runs[0].services);
    assert_eq!(a.runs.iter().map(|r| r.opened).sum::<usize>(), 1);
    near(demand(&a, "burst.run-length"), 61.0, 1e-12);
    assert!(demand(&a, "pull.joint-force") < 0.6 * demand(&whole, "pull.joint-force"));
    assert_eq!(demand(&a, "burst.heave"), demand(&whole, "burst.heave"));
    for k in 1..=2 {
        assert_eq!(
            curve(&a, &format!("burst.force.string.planning.{k}"))
                .1
                .iter()
                .filter(|v| **v == 0.0)
                .count(),
            1
        );
    }
}

#[test]
fn a_longer_run_pulls_harder_in_proportion() {
    let of = |launch: f64| {
        let mut text = street(&LEVEL);
        text = changed(&text, &[("launch = \"118 m\"", &format!("launch = \"{launch} m\""))]);
        run(&changed(
            &text,
            &[("[[host.bend]]\nat = \"61 m\"\nangle = \"2.2 deg\"\nradius = \"160 m\"\n", "")],
        ))
    };
    let (a, b) = (of(50.0), of(100.0));
    for k in 0..3 {
        near(string(&b)[k], 2.0 * string(&a)[k], 1e-9);
    }
    assert_eq!(
        part(&a, "breaking or splitting the host"),
        part(&b, "breaking or splitting the host")
    );
}

#[test]
fn breaking_grows_with_wall_and_strength_and_splitting_with_blades() {
    let breaking = |changes: &[(&str, &str)]| {
        part(&after(&[changes, &[NO_CLAMP]].concat()), "breaking or splitting the host")
    };
    let base = breaking(&[]);
    near(breaking(&[("wall = \"12 mm\"", "wall = \"24 mm\"")])[1], 2.0 * base[1], 1e-9);
    // Strengths of 70, 150 and 250 MPa on 20, 50 and 100 mm, together as a root of squares.
    let together = |a: f64, b: f64| a.ln().hypot(b.ln()).exp();
    near(base[1] / base[0], together(150.0 / 70.0, 2.5), 1e-9);
    near(base[2] / base[1], together(250.0 / 150.0, 2.0), 1e-9);
    let given = breaking(&[("wall = \"12 mm\"", "wall = \"12 mm\"\nstrength = \"150 MPa\"")]);
    // The length in contact leaves a band about a given strength.
    near(given[1], base[1], 1e-9);
    near(given[1] / given[0], 2.5, 1e-9);
    near(given[2] / given[1], 2.0, 1e-9);
    let steel = ("grey cast iron", "steel");
    let one = breaking(&[steel]);
    near(breaking(&[steel, ("lubricated", "cutters = 3\nlubricated")])[1], 3.0 * one[1], 1e-9);
}

#[test]
fn an_expander_as_wide_as_the_old_main_pushes_nothing_aside() {
    let host = ("inside_diameter = \"200 mm\"", "inside_diameter = \"360 mm\"");
    let a = after(&[
        host,
        ("lubricated = \"yes\"", "lubricated = \"yes\"\nexpander_diameter = \"360 mm\""),
    ]);
    assert_eq!(part(&a, "cone against the ground"), [0.0; 3]);
    assert_eq!(part(&a, "breaking or splitting the host"), [0.0; 3]);
    assert_eq!(status(&a, "burst.expander"), Status::Fail);
    for id in ["burst.heave", "burst.neighbour.gas-main", "burst.neighbour.storm-drain"] {
        assert_eq!(demand(&a, id), 0.0, "{id}");
        assert_eq!(status(&a, id), Status::Pass, "{id}");
    }
    assert!(demand(&a, "burst.settlement") > 0.0);
    assert!(curve(&a, "burst.heave.1").1.iter().all(|v| *v == 0.0));
}

#[test]
fn a_high_end_above_the_limit_asks_for_attention() {
    let a = after(&[NO_CLAMP]);
    for id in ["burst.force.rig", "burst.reaction-wall", "pull.joint-force"] {
        assert_eq!(status(&a, id), Status::Attention, "{id}");
        assert!(check(&a, id).utilisation.unwrap() < 0.85, "{id}");
        assert!(check(&a, id).because.contains("whose high end is above"), "{id}");
    }
    let strong = after(&[NO_CLAMP, ("pullback = \"1000 kN\"", "pullback = \"2000 kN\"")]);
    assert_eq!(status(&strong, "burst.force.rig"), Status::Pass);
}

/// The street with some of its numbers multiplied.
fn scaled(factors: &[(usize, f64)]) -> String {
    let mut count = 0;
    let mut out = String::new();
    for line in STREET.lines() {
        let number = line.find("= \"").and_then(|at| {
            let value = &line[at + 3..];
            let end = value.find(' ')?;
            Some((at + 3, end, value[..end].parse::<f64>().ok()?))
        });
        if let (Some((at, end, value)), false) = (number, line.starts_with('#')) {
            count += 1;
            let factor = factors.iter().find(|(i, _)| *i == count).map_or(1.0, |(_, f)| *f);
            out.push_str(&format!("{}{}{}\n", &line[..at], value * factor, &line[at + end..]));
        } else {
            out.push_str(line);
            out.push('\n');
        }
    }
    assert!(count > 45, "{count}");
    out
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn every_assessment_is_finite_and_every_outcome_follows_from_it(
        factors in proptest::collection::vec(
            (1usize..52, prop_oneof![0.1f64..6.0, Just(0.0), Just(-1.0)]), 1..5),
    ) {
        let text = scaled(&factors);
        let Ok(reading) = project::read_design("x.toml", &text, &project::no_files) else { return Ok(()) };
        let a = assess::assess_design(&reading.design);
        prop_assert_eq!(
            assess::check_ids_of(&reading.design),
            a.checks.iter().map(|c| c.id.clone()).collect::<Vec<_>>()
        );
        for check in &a.checks {
            for reading in [check.demand, check.limit].into_iter().flatten() {
                prop_assert!(reading.value.is_finite(), "{} {:?}", check.id, reading);
            }
            if check.status == Status::Pass {
                prop_assert!(check.utilisation.is_some_and(|u| u <= 1.0 + 1e-9), "{}", check.id);
                prop_assert!(check.missing.is_empty(), "{}", check.id);
            }
            prop_assert!(!check.because.is_empty(), "{}", check.id);
            let explained = assess::explain_design(&reading.design, &check.id).unwrap();
            if !explained.working.steps.is_empty() {
                let (difference, symbol) = explained.working.largest_difference()
                    .map_err(|e| TestCaseError::fail(format!("{}: {e}", check.id)))?;
                prop_assert!(difference < 1e-5, "{}: {symbol} {difference:e}", check.id);
            }
        }
        for p in &a.forces {
            prop_assert!(
                0.0 <= p.low.value && p.low.value <= p.planning.value && p.planning.value <= p.high.value,
                "{} {:?} {:?} {:?}", p.name, p.low, p.planning, p.high
            );
        }
        for p in &a.profiles {
            prop_assert!(p.values.iter().all(|v| v.is_finite()), "{}", p.id);
            prop_assert!(p.md.windows(2).all(|w| w[1] > w[0]), "{}", p.id);
        }
        prop_assert!(!serde_json::to_string(&a).unwrap().contains("NaN"));
    }
}

#[test]
fn both_ways_of_putting_the_string_together_stand_side_by_side() {
    let a = run(STREET);
    let [plan] = a.runs.as_slice() else { panic!("one run") };
    let (by_pipe, string) =
        (plan.force_pipe_by_pipe.unwrap().value, plan.force_string.unwrap().value);
    near(by_pipe, demand(&a, "pull.joint-force"), 1e-9);
    let whole = after(&[("assembly = \"pipe by pipe\"", "assembly = \"string\"")]);
    near(string, demand(&whole, "pull.joint-force"), 1e-9);
    assert!(string < by_pipe && plan.time_string.value < plan.time_pipe_by_pipe.value);
}
