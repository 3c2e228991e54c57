//! Movement of the surface and of what lies near.

use std::f64::consts::{PI, TAU};

use assess::{Status, explain_design};

use crate::street::{STREET, after, check, curve, demand, design, near, run, status, street};

const GAS: &str = "burst.neighbour.gas-main";
const DRAIN: &str = "burst.neighbour.storm-drain";

/// Volume per length that moves the ground: expander of 377 mm in a bore of 200 mm, 80 %.
fn volume() -> f64 {
    0.8 * PI / 4.0 * (0.377f64.powi(2) - 0.2f64.powi(2))
}

#[test]
fn heave_is_that_of_the_least_deep_place() {
    let up = volume() / (0.5 * 1.7 * TAU.sqrt());
    let a = run(STREET);
    near(demand(&a, "burst.heave"), up, 1e-9);
    assert_eq!(check(&a, "burst.heave").at, Some(118.0));
    let (md, curved) = curve(&a, "burst.heave.1");
    assert_eq!((md.first(), md.last()), (Some(&0.0), Some(&118.0)));
    near(curved[0], volume() / (0.5 * 2.2 * TAU.sqrt()), 1e-9);
}

#[test]
fn settlement_is_the_gap_around_the_string() {
    let a = run(STREET);
    let section = PI / 4.0
        * (0.377f64.powi(2)
            - 0.284f64.powi(2)
            - 0.15 / 6.0 * (0.357f64.powi(2) - 0.284f64.powi(2)));
    near(demand(&a, "burst.settlement"), section / (PI * 1.7), 1e-9);
}

#[test]
fn a_nearer_neighbour_moves_more_and_only_itself() {
    let of = |offset: f64| {
        let to = format!("offset = \"{offset} m\"");
        after(&[("offset = \"2.6 m\"", &to)])
    };
    let mut last = 0.0;
    for offset in [4.0, 3.0, 2.0, 1.2, 0.8] {
        let a = of(offset);
        assert!(demand(&a, GAS) > last, "{offset}");
        last = demand(&a, GAS);
        assert_eq!(demand(&a, DRAIN), demand(&run(STREET), DRAIN));
        near(demand(&of(-offset), GAS), last, 1e-12);
    }
}

#[test]
fn a_neighbour_below_moves_as_in_ground_without_a_surface_at_least() {
    let a = run(STREET);
    // 29.2 - 73/118*0.1 - 27.4 less the half of 400 mm.
    let r = 29.2 - 73.0 / 118.0 * 0.1 - 27.4 - 0.2;
    near(demand(&a, DRAIN), (r * r + volume() / PI).sqrt() - r, 1e-9);
}

#[test]
fn what_is_nearer_than_ten_times_the_expansion_is_exposed() {
    let a = run(STREET);
    // 1.77 m against 1.73 m to the drain's axis and more than 2.6 m to the gas main's.
    assert!(check(&a, DRAIN).because.contains(": expose it"));
    // Dense ground asks for twice the distance, loose ground does not.
    assert_eq!(status(&a, GAS), Status::Attention);
    let loose = after(&[("density = \"dense\"", "density = \"loose\"")]);
    assert_eq!(status(&loose, GAS), Status::Pass);
    assert!(!check(&a, GAS).because.contains(": expose it"));
    let bears = after(&[("allowance = \"8 mm\"", "allowance = \"80 mm\"")]);
    assert_eq!(status(&bears, DRAIN), Status::Attention);
}

#[test]
fn a_neighbour_in_the_way_of_the_head_is_never_a_pass() {
    let a = after(&[("level = \"27.4 m\"", "level = \"29.4 m\"")]);
    assert_eq!(status(&a, DRAIN), Status::Fail);
    let why = &check(&a, DRAIN).because;
    assert!(why.contains("must be moved") && !why.contains('-'), "{why}");
    let level =
        after(&[("level = \"27.4 m\"", "level = \"29.7 m\""), ("at = \"73 m\"", "at = \"0 m\"")]);
    assert_eq!(status(&level, DRAIN), Status::Fail, "axis in axis");
}

#[test]
fn a_neighbour_that_bears_too_little_fails() {
    let a = after(&[("allowance = \"8 mm\"", "allowance = \"6.5 mm\"")]);
    assert_eq!(status(&a, DRAIN), Status::Fail);
    let unknown = after(&[("allowance = \"8 mm\"\n", "")]);
    assert_eq!(status(&unknown, DRAIN), Status::NotAssessed);
    assert_eq!(demand(&unknown, DRAIN), demand(&a, DRAIN));
}

#[test]
fn a_narrow_trench_sends_the_ground_up_between_its_walls() {
    let notes = |changes: &[(&str, &str)]| {
        explain_design(&design(&street(changes)), "burst.heave").unwrap().notes.join(" ")
    };
    let up = format!("{:.0} mm", 1000.0 * volume() / 0.5);
    let narrow = notes(&[("trench_width = \"1 m\"", "trench_width = \"0.5 m\"")]);
    assert!(narrow.contains(&up), "{narrow}: {up}");
    assert!(!notes(&[("trench_width = \"1 m\"\n", "")]).contains("mm"));
}

#[test]
fn heave_of_deep_cover_in_soft_ground_is_that_of_the_half_space() {
    let deep = ("[[0, 31.4], [55, 31.2], [118, 30.8]]", "[[0, 31.6], [118, 31.5]]");
    let soft = ("\"8 MPa\"", "\"0.05 MPa\"");
    near(demand(&after(&[deep, soft]), "burst.heave"), volume() / (PI * 2.4), 1e-9);
    // Ground that is as deep, but stiff: its cover lifts first.
    let lifts = after(&[deep]);
    near(demand(&lifts, "burst.heave"), volume() / (0.5 * 2.4 * TAU.sqrt()), 1e-9);
    assert!(check(&lifts, "burst.heave").because.contains("cover lifts"));
    for both in ["spreads", "bell curve"] {
        assert!(check(&lifts, "burst.heave").because.contains(both), "{both}");
    }
}

#[test]
fn settlement_is_looked_at_where_it_is_greatest_and_not_where_heave_is() {
    // A wide bore heaves less and closes no less: the least deep place of all lies in it.
    let narrow = "to = \"118 m\"\nmaterial = \"grey cast iron\"\ninside_diameter = \"200 mm\"\nwall = \"12 mm\"";
    let two = format!(
        "{}\n\n[[host.stretch]]\nfrom = \"60 m\"\n{}",
        narrow.replace("118 m", "60 m"),
        narrow.replace("200 mm", "360 mm")
    );
    let dip = ("[118, 30.8]", "[118, 30.7]");
    let a = after(&[(narrow, &two), dip]);
    assert!(check(&a, "burst.heave").at.is_some_and(|at| at <= 60.0));
    assert_eq!(check(&a, "burst.settlement").at, Some(118.0));
    near(demand(&a, "burst.settlement"), demand(&after(&[dip]), "burst.settlement"), 1e-9);
}

#[test]
fn a_crown_at_or_above_the_ground_fails_with_its_chainage() {
    let a = after(&[("[55, 31.2]", "[55, 29.2]")]);
    assert_eq!(status(&a, "burst.heave"), Status::Fail);
    assert_eq!(check(&a, "burst.heave").at, Some(55.0));
    assert!(check(&a, "burst.heave").because.contains("55 m"));
    assert_eq!(status(&a, "burst.force.rig"), Status::NotAssessed);
    assert!(check(&a, "burst.force.rig").because.contains("above the ground"));
}

#[test]
fn neighbours_above_the_ground_or_beyond_the_main_are_not_assessed_and_say_why() {
    for (from, to, why) in [
        ("level = \"27.4 m\"", "level = \"31.5 m\"", "above the ground"),
        ("at = \"73 m\"", "at = \"130 m\"", "beyond the ends"),
    ] {
        let a = after(&[(from, to)]);
        assert_eq!(status(&a, DRAIN), Status::NotAssessed, "{to}");
        assert!(check(&a, DRAIN).because.contains(why), "{}", check(&a, DRAIN).because);
    }
}

#[test]
fn half_of_the_heave_is_above_the_head_and_more_behind_it() {
    let a = run(STREET);
    let (md, up) = curve(&a, "burst.along-pull");
    // The head of the greatest heave stands at the launch pit, 118 m; nothing is behind it.
    let last = up.last().unwrap();
    near(*last, 0.5 * volume() / (PI * 1.7), 1e-9);
    assert!(md.len() == up.len() && up.windows(2).all(|w| w[1] >= w[0]));
}

#[test]
fn fine_ground_moves_by_all_of_the_volume() {
    let sand = demand(&run(STREET), "burst.heave");
    near(demand(&after(&[("medium dense sand", "stiff clay")]), "burst.heave"), sand / 0.8, 1e-9);
    let loose = after(&[("density = \"dense\"", "density = \"loose\"")]);
    near(demand(&loose, "burst.heave"), sand * 0.5 / 0.8, 1e-9);
}
