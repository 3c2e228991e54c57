//! The wall of the machine pit: water, balance about the axis of the pull, and a machine stronger than the wall.

use assess::Status;

use crate::street::{NO_CLAMP, after, check, limit, near, status};

const WALL: &str = "burst.reaction-wall";
const SAFETY: (&str, &str) = ("[factors]", "[factors]\nwall_safety = 1.5");
/// Drained soil with a round friction ratio: tan²(45° + 30°/2) = 3.
const ROUND: (&str, &str) = (
    "shear_modulus = \"8 MPa\"",
    "shear_modulus = \"8 MPa\"\nfriction_angle = \"30 deg\"\nsaturated_unit_weight = \"20 kN/m3\"",
);

#[test]
fn below_the_water_the_ground_resists_with_its_submerged_weight() {
    let dry = after(&[SAFETY, ROUND]);
    let wet = after(&[SAFETY, ROUND, ("\"27 m\"", "\"29.8 m\"")]);
    // Water 1.6 m below ground of 3.2 m: the mean of 18.5 and of 20 - 9.80665 kN/m³.
    let mean = (18.5 + 20.0 - 9.80665) / 2.0;
    near(limit(&wet, WALL) / limit(&dry, WALL), mean / 18.5, 1e-9);
    assert!(check(&wet, WALL).because.contains("groundwater stands 1.6 m below ground"));
    assert!(check(&wet, WALL).because.contains("safety 2 is usual"));
    // Nothing is asked of the file: the safety falls by itself.
    let own = after(&[ROUND, ("\"27 m\"", "\"29.8 m\"")]);
    near(limit(&own, WALL), limit(&wet, WALL) * 1.5 / 2.0, 1e-9);
}

#[test]
fn undrained_ground_keeps_its_total_weight_in_water() {
    let clay = ("medium dense sand", "stiff clay");
    let of = |water: &str| limit(&after(&[SAFETY, clay, ("\"27 m\"", water)]), WALL);
    near(of("\"29.8 m\""), of("\"27 m\""), 1e-12);
}

#[test]
fn what_lies_far_below_the_axis_does_not_count() {
    let top = ("plate_top = \"0.4 m\"", "plate_top = \"0 m\"");
    let low = ("\"27 m\"", "\"20 m\"");
    let at = |bottom: &str| after(&[SAFETY, ROUND, top, low, ("plate_bottom = \"3.2 m\"", bottom)]);
    let (deep, deeper) = (at("plate_bottom = \"4 m\""), at("plate_bottom = \"6 m\""));
    near(limit(&deeper, WALL), limit(&deep, WALL), 1e-9);
    // From the surface: 1.5 times the 2.2 m of the axis, 4 m wide, less the opening of 377 mm.
    let opening = std::f64::consts::PI / 4.0 * 0.377 * 0.377 * 3.0 * 18.5e3 * 2.2;
    near(limit(&deep, WALL), (4.0 * 0.5 * 3.0 * 18.5e3 * 3.3 * 3.3 - opening) / 1.5, 1e-9);
    assert!(check(&deeper, WALL).because.contains("m below the axis"));
    assert_eq!(status(&deeper, WALL), Status::Attention);
}

#[test]
fn a_machine_stronger_than_the_wall_is_capped() {
    let a = after(&[SAFETY]);
    assert!(check(&a, WALL).because.contains("set its relief to"));
    let weak = after(&[NO_CLAMP, SAFETY, ("pullback = \"1000 kN\"", "pullback = \"790 kN\"")]);
    assert!(!check(&weak, WALL).because.contains("set its relief to"));
    assert!(check(&weak, WALL).because.contains("cap the force there"));
    assert_eq!(status(&weak, WALL), Status::Attention);
}

#[test]
fn the_last_metres_ask_for_attention_only_where_much_of_the_wall_is_used_there() {
    let street = after(&[SAFETY]);
    assert!(check(&street, WALL).because.contains("cap the force there"));
    let brittle =
        after(&[SAFETY, NO_CLAMP, ("wall = \"12 mm\"", "wall = \"12 mm\"\nstrength = \"20 MPa\"")]);
    assert!(!check(&brittle, WALL).because.contains("cap the force there"));
}
