//! What is short, close together or in a pit is met, too.

use assess::Status;

use crate::street::{NO_CLAMP, STREET, after, changed, check, demand, near, run, status, street};

const RIG: &str = "burst.force.rig";
const ANGLE: &str = "line.joint-angle";
const STRETCH: &str =
    "to = \"118 m\"\nmaterial = \"grey cast iron\"\ninside_diameter = \"200 mm\"\nwall = \"12 mm\"";

/// The street with some steel of 40 mm in its iron.
fn with_steel(from: f64, to: f64) -> String {
    let piece = |from: f64, to: f64, material: &str, wall: u32| {
        format!(
            "from = \"{from} m\"\nto = \"{to} m\"\nmaterial = \"{material}\"\ninside_diameter = \"200 mm\"\nwall = \"{wall} mm\""
        )
    };
    let all = [
        piece(0.0, from, "grey cast iron", 12),
        piece(from, to, "steel", 40),
        piece(to, 118.0, "grey cast iron", 12),
    ]
    .join("\n\n[[host.stretch]]\n");
    street(&[(&format!("from = \"0 m\"\n{STRETCH}"), &all)])
}

#[test]
fn a_short_stretch_of_hard_pipe_pulls_as_a_long_one_does() {
    let plain = demand(&run(STREET), RIG);
    let (short, long) = (run(&with_steel(60.2, 60.8)), run(&with_steel(60.2, 61.8)));
    assert!(demand(&short, RIG) > 1.5 * plain);
    near(demand(&short, RIG), demand(&long, RIG), 1e-9);
    assert!(check(&short, RIG).at.is_some_and(|at| (60.2..60.8).contains(&at)));
}

#[test]
fn a_dip_of_the_ground_between_two_steps_is_met() {
    let a = after(&[("[55, 31.2]", "[55, 31.2], [60.3, 31.2], [60.5, 30.4], [60.7, 31.2]")]);
    assert_eq!(check(&a, "burst.heave").at, Some(60.5));
    assert!(demand(&a, "burst.heave") > 1.2 * demand(&run(STREET), "burst.heave"));
}

#[test]
fn a_short_neighbour_between_two_steps_is_met() {
    let a = after(&[(
        "from = \"0 m\"\nto = \"118 m\"\noffset",
        "from = \"30.2 m\"\nto = \"30.8 m\"\noffset",
    )]);
    assert_ne!(status(&a, "burst.neighbour.gas-main"), Status::NotAssessed);
    assert!(demand(&a, "burst.neighbour.gas-main") > 0.0);
}

/// A bend at one point.
fn bend(at: f64, angle: f64) -> String {
    format!(
        "[[host.bend]]\nat = \"{at} m\"\nangle = \"{angle} deg\"\n\n[[host.feature]]\nat = \"38 m\""
    )
}

#[test]
fn kinks_within_one_laying_length_add_up() {
    let with = |second: f64| {
        let all = format!(
            "{}\n{}",
            bend(20.0, 3.0).replace("[[host.feature]]\nat = \"38 m\"", ""),
            bend(second, 2.5)
        );
        after(&[("[[host.feature]]\nat = \"38 m\"", &all)])
    };
    near(demand(&with(24.0), ANGLE), 5.5f64.to_radians(), 1e-9);
    near(demand(&with(30.0), ANGLE), 3.0f64.to_radians(), 1e-9);
    assert!(check(&with(24.0), ANGLE).because.contains("within one laying length"));
}

#[test]
fn a_kink_at_a_curve_adds_to_it() {
    let with = |at: f64| after(&[("[[host.feature]]\nat = \"38 m\"", &bend(at, 3.0))]);
    let curve = demand(&run(STREET), ANGLE);
    for at in [61.0, 61.0 + 80.0 * 2.2f64.to_radians()] {
        near(demand(&with(at), ANGLE), curve + 3.0f64.to_radians(), 1e-9);
    }
    near(demand(&with(90.0), ANGLE), 3.0f64.to_radians(), 1e-9);
}

#[test]
fn a_bend_in_a_pit_turns_no_joint_and_no_string() {
    let feature = "[[host.feature]]\nat = \"38 m\"";
    let two = "launch = \"61 m\"\nmachine = \"0 m\"\n\n[[run]]\nname = \"B\"\nlaunch = \"61 m\"\nmachine = \"118 m\"";
    let runs = street(&[("launch = \"118 m\"\nmachine = \"0 m\"", two), NO_CLAMP]);
    let curve = "[[host.bend]]\nat = \"61 m\"\nangle = \"2.2 deg\"\nradius = \"160 m\"\n";
    let straight = changed(&runs, &[(curve, "")]);
    let bent = run(&changed(&straight, &[(feature, &bend(61.0, 22.5))]));
    assert_eq!(demand(&bent, ANGLE), 0.0);
    assert!(
        check(&bent, ANGLE).because.contains("lies in a pit"),
        "{}",
        check(&bent, ANGLE).because
    );
    assert_eq!(demand(&bent, "pull.joint-force"), demand(&run(&straight), "pull.joint-force"));
}

#[test]
fn an_expander_between_bore_and_outside_asks_for_attention() {
    let host = |wall: &str| {
        let wide = STRETCH.replace("200 mm", "340 mm").replace("12 mm", wall);
        status(&after(&[(STRETCH, &wide)]), "burst.expander")
    };
    assert_eq!(host("12 mm"), Status::Pass);
    assert_eq!(host("20 mm"), Status::Attention);
}
