//! Movement of the surface and of what lies near.

use std::f64::consts::PI;

use assess::Status;

use crate::street::{STREET, after, check, curve, demand, near, run, status};

const GAS: &str = "burst.neighbour.gas-main";
const DRAIN: &str = "burst.neighbour.storm-drain";

/// Volume per length that moves the ground: expander of 377 mm in a bore of 200 mm, 80 %.
fn volume() -> f64 {
    0.8 * PI / 4.0 * (0.377f64.powi(2) - 0.2f64.powi(2))
}

#[test]
fn heave_is_that_of_the_least_deep_place() {
    let a = run(STREET);
    near(demand(&a, "burst.heave"), volume() / (PI * 1.7), 1e-9);
    assert_eq!(check(&a, "burst.heave").at, Some(118.0));
    let (md, up) = curve(&a, "burst.heave.1");
    assert_eq!((md.first(), md.last()), (Some(&0.0), Some(&118.0)));
    near(up[0], volume() / (PI * 1.7), 1e-9);
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
    // 29.7 - 73/118*0.6 - 27.6 less the half of 400 mm.
    let r = 29.7 - 73.0 / 118.0 * 0.6 - 27.6 - 0.2;
    near(demand(&a, DRAIN), (r * r + volume() / PI).sqrt() - r, 1e-9);
}

#[test]
fn what_is_nearer_than_ten_times_the_expansion_is_exposed() {
    let a = run(STREET);
    // 1.77 m against 1.73 m to the drain's axis and more than 2.6 m to the gas main's.
    assert!(check(&a, DRAIN).because.contains("expose it"));
    assert!(!check(&a, GAS).because.contains("expose it"));
    let bears = after(&[("allowance = \"8 mm\"", "allowance = \"80 mm\"")]);
    assert_eq!(status(&bears, DRAIN), Status::Attention);
}

#[test]
fn a_neighbour_in_the_way_of_the_head_is_never_a_pass() {
    let a = after(&[("level = \"27.6 m\"", "level = \"29.4 m\"")]);
    assert_eq!(status(&a, DRAIN), Status::NotAssessed);
    assert!(check(&a, DRAIN).because.contains("must be moved"));
}

#[test]
fn a_neighbour_that_bears_too_little_fails() {
    let a = after(&[("allowance = \"8 mm\"", "allowance = \"6.6 mm\"")]);
    assert_eq!(status(&a, DRAIN), Status::Fail);
    let unknown = after(&[("allowance = \"8 mm\"\n", "")]);
    assert_eq!(status(&unknown, DRAIN), Status::NotAssessed);
    assert_eq!(demand(&unknown, DRAIN), demand(&a, DRAIN));
}

#[test]
fn a_narrow_trench_sends_the_ground_up_between_its_walls() {
    let a = after(&[("trench_width = \"1 m\"", "trench_width = \"0.5 m\"")]);
    let up = format!("{:.0} mm", 1000.0 * volume() / 0.5);
    assert!(
        check(&a, "burst.heave").because.contains(&up),
        "{}: {up}",
        check(&a, "burst.heave").because
    );
    assert!(
        !check(&after(&[("trench_width = \"1 m\"\n", "")]), "burst.heave")
            .because
            .contains("trench")
    );
}

#[test]
fn fine_ground_moves_by_all_of_the_volume() {
    let sand = demand(&run(STREET), "burst.heave");
    near(demand(&after(&[("medium dense sand", "stiff clay")]), "burst.heave"), sand / 0.8, 1e-9);
    let loose = after(&[("density = \"dense\"", "density = \"loose\"")]);
    near(demand(&loose, "burst.heave"), sand * 0.5 / 0.8, 1e-9);
}
