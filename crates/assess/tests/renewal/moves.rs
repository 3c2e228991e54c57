//! Every value moves the checks that rest on it, and no others.

use assess::Assessment;

use crate::street::{STREET, after, moved, run};

const F: &str = "[factors]";
const SOIL: &str = "shear_modulus = \"8 MPa\"";
const HEAD: &str = "lubricated = \"yes\"";
const PIPES: &str = "assembly = \"pipe by pipe\"";
const MATERIAL: &str = "grey cast iron";

const RIG: &str = "burst.force.rig";
const WALL: &str = "burst.reaction-wall";
const JOINT: &str = "pull.joint-force";
const BARREL: &str = "pull.barrel";
const HEAVE: &str = "burst.heave";
const SINKS: &str = "burst.settlement";
const GAS: &str = "burst.neighbour.gas-main";
const DRAIN: &str = "burst.neighbour.storm-drain";

/// Checks that rest on the force in the string.
const STRING: &[&str] = &[RIG, WALL, JOINT, BARREL];
/// Checks that rest on what opens the old main, and not on the string.
const OPENING: &[&str] = &[RIG, WALL];

/// What replaces a text, and the checks that it moves.
type Row = (&'static str, &'static str, &'static [&'static str]);

fn hold(rows: &[Row]) {
    let before = run(STREET);
    for (from, to, ids) in rows {
        let adds = [F, SOIL, HEAD, PIPES, "[service]"].contains(from) && !to.contains(from);
        let to = if adds { format!("{from}\n{to}") } else { (*to).to_owned() };
        let a = after(&[(from, &to)]);
        assert_eq!(moved(&a, &before), *ids, "{from} became {to}");
    }
}

#[test]
fn factors() {
    hold(&[
        (F, "friction = 0.26", STRING),
        (F, "stress_ratio = 0.6", STRING),
        (F, "collapsed_share = 0.4", STRING),
        (F, "restart = 1.5", STRING),
        (F, "rig_share = 0.9", &[RIG]),
        (F, "wall_safety = 1.4", &[WALL]),
        (F, "joint_angle_share = 0.7", &["line.joint-angle"]),
        (F, "barrel_share = 0.5", &[BARREL]),
        (F, "heave_ratio = 1.0", &[HEAVE, GAS, DRAIN]),
        (F, "longest_run = \"120 m\"", &["burst.run-length"]),
        (F, "friction_low = 0.14", &[]),
        (F, "friction_high = 0.31", &[]),
    ]);
}

#[test]
fn the_ends_of_the_band_move_the_band_only() {
    let band = |a: &Assessment| {
        let rig = a.forces.last().unwrap();
        [rig.low.value, rig.planning.value, rig.high.value]
    };
    let before = band(&run(STREET));
    let low = band(&after(&[(F, "[factors]\nfriction_low = 0.1")]));
    assert!(low[0] < before[0] && low[1..] == before[1..]);
    let high = band(&after(&[(F, "[factors]\nfriction_high = 0.4")]));
    assert!(high[2] > before[2] && high[..2] == before[..2]);
}

#[test]
fn ground() {
    hold(&[
        ("18.5 kN/m3", "19.5 kN/m3", STRING),
        (SOIL, "friction_angle = \"36 deg\"", &[WALL]),
        (SOIL, "cohesion = \"5 kPa\"", &[WALL]),
        (SOIL, "undrained_strength = \"50 kPa\"", &[WALL]),
        // Stiff ground opens by lifting the cover; soft ground in itself.
        ("8 MPa", "12 MPa", &[]),
        ("8 MPa", "0.1 MPa", OPENING),
        ("density = \"dense\"", "density = \"loose\"", &[RIG, WALL, HEAVE, GAS, DRAIN]),
        ("\"27 m\"", "\"29 m\"", &[WALL]),
        ("\"27 m\"", "\"26 m\"", &[]),
    ]);
}

#[test]
fn head_and_machine() {
    hold(&[
        (
            HEAD,
            "expander_diameter = \"400 mm\"",
            &["burst.expander", "burst.class", RIG, WALL, HEAVE, SINKS, GAS, DRAIN],
        ),
        (HEAD, "cone_half_angle = \"10 deg\"", OPENING),
        (HEAD, "cone_friction = 0.4", OPENING),
        (HEAD, "cutters = 3", &[]),
        (HEAD, "speed = \"1 m/min\"", &[]),
        ("lubricated = \"yes\"\n", "lubricated = \"no\"\n", STRING),
        ("pullback = \"1000 kN\"", "pullback = \"1100 kN\"", &[RIG]),
        ("plate_width = \"4 m\"", "plate_width = \"3.8 m\"", &[WALL]),
        ("plate_top = \"0.4 m\"", "plate_top = \"0.7 m\"", &[WALL]),
        ("plate_bottom = \"3.2 m\"", "plate_bottom = \"3.1 m\"", &[WALL]),
        ("launch_length = \"8 m\"", "launch_length = \"9 m\"", &["burst.pit"]),
        ("launch_width = \"1.6 m\"", "launch_width = \"1.3 m\"", &["burst.pit"]),
        ("machine_length = \"7 m\"", "machine_length = \"5 m\"", &["burst.machine-pit"]),
    ]);
}

#[test]
fn the_old_main() {
    hold(&[
        ("wall = \"12 mm\"", "wall = \"13 mm\"", OPENING),
        ("wall = \"12 mm\"", "wall = \"12 mm\"\nstrength = \"160 MPa\"", OPENING),
        (
            "inside_diameter = \"200 mm\"",
            "inside_diameter = \"210 mm\"",
            &[RIG, WALL, HEAVE, GAS, DRAIN],
        ),
        (MATERIAL, "vitrified clay", OPENING),
        (MATERIAL, "plain concrete", OPENING),
        (MATERIAL, "steel", &["host.material", RIG, WALL]),
        (MATERIAL, "PE", &["host.material", RIG, WALL]),
        (MATERIAL, "reinforced concrete", &["host.material", RIG, WALL]),
        (MATERIAL, "asbestos cement", &["host.asbestos", RIG, WALL]),
        ("temporary_supply = \"yes\"", "temporary_supply = \"no\"", &["host.supply"]),
        ("radius = \"160 m\"", "radius = \"130 m\"", &["line.joint-angle"]),
        ("action = \"cutter\"\n", "", &["host.features"]),
        ("at = \"6 m\"\ndug_up = \"yes\"", "at = \"6 m\"\ndug_up = \"no\"", &["host.services"]),
        ("\ndn = 200", "\ndn = 100", &["burst.class"]),
    ]);
}

#[test]
fn surroundings() {
    hold(&[
        ("offset = \"2.6 m\"", "offset = \"1.6 m\"", &[GAS]),
        ("offset = \"2.6 m\"", "offset = \"-2.6 m\"", &[]),
        ("diameter = \"180 mm\"", "diameter = \"200 mm\"", &[GAS]),
        ("level = \"27.4 m\"", "level = \"27.6 m\"", &[DRAIN]),
        ("allowance = \"8 mm\"", "allowance = \"9 mm\"", &[DRAIN]),
        ("heave_limit = \"40 mm\"", "heave_limit = \"10 mm\"", &[HEAVE]),
        ("settlement_limit = \"20 mm\"", "settlement_limit = \"8 mm\"", &[SINKS]),
    ]);
}

#[test]
fn the_new_main() {
    hold(&[
        ("allowable_angle = \"4 deg\"", "allowable_angle = \"3 deg\"", &["line.joint-angle"]),
        ("permitted_pull = \"350 kN\"", "permitted_pull = \"500 kN\"", &[JOINT]),
        ("pressure = \"35 bar\"", "pressure = \"12 bar\"", &["service.pressure"]),
        ("test_pressure = \"15 bar\"", "test_pressure = \"16 bar\"", &["service.pressure"]),
        ("[service]", "reference_level = \"40 m\"", &["service.pressure"]),
        (PIPES, "socket_mass = \"40 kg\"", STRING),
        (PIPES, "lining_thickness = \"6 mm\"", STRING),
        ("class = \"K9\"", "class = \"K10\"", STRING),
        (
            "coating_thickness = \"5 mm\"",
            "coating_thickness = \"6 mm\"",
            &[RIG, WALL, JOINT, BARREL, SINKS],
        ),
        (
            "protection = \"12 mm\"",
            "protection = \"15 mm\"",
            &["burst.expander", RIG, WALL, JOINT, BARREL, HEAVE, SINKS, GAS, DRAIN],
        ),
        (
            "laying_length = \"6 m\"",
            "laying_length = \"5.5 m\"",
            &["line.joint-angle", RIG, WALL, JOINT, BARREL, SINKS, "burst.pit"],
        ),
    ]);
    let string = after(&[(PIPES, "assembly = \"string\"")]);
    assert_eq!(moved(&string, &run(STREET)), [STRING, &["burst.pit"]].concat());
}

#[test]
fn names_move_nothing_but_the_name_of_their_check() {
    let a = after(&[("name = \"Street with an old main\"", "name = \"Another\"")]);
    assert_eq!(moved(&a, &run(STREET)), [""; 0]);
    let b = after(&[("name = \"gas main\"", "name = \"gas, Straße\"")]);
    let ids: Vec<_> = moved(&b, &run(STREET));
    assert_eq!(ids.len(), 1, "{ids:?}");
    assert!(ids[0].starts_with("burst.neighbour.gas"), "{ids:?}");
}
