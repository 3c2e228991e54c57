//! Soils, borings, movement.

use assess::{Assessment, Status, assess};

use crate::crossing::{CROSSING, run, status, utilisation, with};

const CREEK: &str = include_str!("../../../../demo/creek.toml");

fn lane(text: &str) -> String {
    let lane = "[[site.obstacle]]\nname = \"lane\"\nkind = \"road\"\nfrom = 200\nto = 206\nunderside = \"3.6 m\"\n\
                clearance = \"3 m\"\nsettlement_limit = \"30 mm\"\nheave_limit = \"20 mm\"\n\n[line]\n";
    text.replace("[line]\n", lane)
}

#[test]
fn without_borings_the_checks_of_ground_and_fluid_say_what_is_missing() {
    let start = CROSSING.find("[[ground.soil]]").unwrap();
    let end = CROSSING.find("[bore]\n").unwrap();
    let a = run(&lane(&format!("{}{}", &CROSSING[..start], &CROSSING[end..])));
    for id in [
        "ground.suitability",
        "ground.settlement.lane",
        "ground.heave.lane",
        "fluid.limit-pressure.pilot",
        "fluid.restart",
        "fluid.returns",
        "fluid.pump",
    ] {
        let check = a.check(id).unwrap();
        assert_eq!(check.status, Status::NotAssessed, "{id}");
        assert!(check.missing.iter().any(|m| m == "/ground/boring"), "{id}: {:?}", check.missing);
    }
    assert!(a.passes.is_empty());
    assert_eq!(status(&a, "pull.joint-force"), Status::Pass);
}

#[test]
fn a_watercourse_is_not_asked_for_movement_and_a_road_is() {
    let a = run(&lane(CROSSING));
    assert!(a.check("ground.settlement.ditch").is_none());
    assert_eq!(status(&a, "ground.settlement.lane"), Status::Pass);
    let open = run(&lane(CROSSING).replace("settlement_limit = \"30 mm\"\n", ""));
    let check = open.check("ground.settlement.lane").unwrap();
    assert_eq!(check.status, Status::NotAssessed);
    assert!(check.demand.is_some(), "what acts is shown although the limit is missing");
}

#[test]
fn settlement_grows_with_the_bore_and_falls_with_depth() {
    let before = run(&lane(CROSSING));
    let wide = run(&lane(&with("\"850 mm\"]", "\"1000 mm\"]")));
    let deep = run(&lane(&with("lowest_level = \"-7.5 m\"", "lowest_level = \"-9.5 m\"")));
    let of = |a: &Assessment| utilisation(a, "ground.settlement.lane");
    assert!(of(&wide) > 1.3 * of(&before));
    assert!(of(&deep) < of(&before));
}

/// V = k π/4 (D² − d²), i = K z, S = V/(i √(2π)), by hand for the road of the test.
#[test]
fn settlement_is_that_of_the_trough() {
    let a = run(&lane(CROSSING));
    let level = a.profiles.iter().find(|p| p.id == "line.level").unwrap();
    let chainage_200 = level.md.iter().position(|md| *md > 203.0).unwrap();
    let barrel: f64 = 0.429 + 2.0 * 0.005;
    let volume = 0.5 * std::f64::consts::FRAC_PI_4 * (0.85f64.powi(2) - barrel.powi(2));
    let near = |z: f64| volume / (0.35 * (3.6 - z) * std::f64::consts::TAU.sqrt());
    let found = a.check("ground.settlement.lane").unwrap().demand.unwrap().value;
    let around: Vec<f64> =
        level.values[chainage_200 - 5..chainage_200 + 8].iter().map(|z| near(*z)).collect();
    let (low, high) = around.iter().fold((f64::MAX, 0.0_f64), |(l, h), v| (l.min(*v), h.max(*v)));
    assert!(found >= low && found <= high * 1.001, "{found} not in {low} to {high}");
}

#[test]
fn open_ground_is_refused_and_peat_asks_for_attention() {
    let gravel = run(&with("kind = \"dense sand\"", "kind = \"gravel\""));
    assert_eq!(status(&gravel, "ground.suitability"), Status::Fail);
    let peat = run(&with("kind = \"dense sand\"", "kind = \"peat\""));
    assert_eq!(status(&peat, "ground.suitability"), Status::Attention);
    let weak = utilisation(&peat, "fluid.limit-pressure.pull");
    assert!(weak > 1.5 * utilisation(&run(CROSSING), "fluid.limit-pressure.pull"));
}

#[test]
fn gaps_between_borings_are_named() {
    let b2 = "[[ground.boring]]\nname = \"B2\"\nchainage = \"150 m\"\noffset = \"8 m\"\nstrata = [[\"sand\", 25]]\n\n";
    let a = run(&with(b2, ""));
    let check = a.check("ground.suitability").unwrap();
    assert_eq!(check.status, Status::Attention);
    assert!(check.because.contains("B1 and B3 stand 280 m apart"), "{}", check.because);
    let shallow = run(&CROSSING.replace("[\"sand\", 25]", "[\"sand\", 12]"));
    let because = &shallow.check("ground.suitability").unwrap().because;
    assert!(because.contains("do not reach 5 m below the bore"), "{because}");
}

#[test]
fn artesian_water_lowers_what_the_ground_bears() {
    let before = run(CROSSING);
    let artesian =
        run(&with("kind = \"dense sand\"", "kind = \"dense sand\"\npiezometric_level = \"5 m\""));
    let of = |a: &Assessment| a.limits.iter().find(|l| l.id == "ream-2").unwrap().limit.value;
    assert!(of(&artesian) < of(&before));
    let lifting =
        run(&with("kind = \"dense sand\"", "kind = \"dense sand\"\npiezometric_level = \"40 m\""));
    assert_eq!(status(&lifting, "fluid.limit-pressure.pull"), Status::Fail);
}

#[test]
fn rock_bears_what_its_joints_bear() {
    let rock = "kind = \"rock\"\nunit_weight = 24\nsaturated_unit_weight = 25\nk0 = 0.7";
    let a = run(&lane(&with("kind = \"dense sand\"", rock)));
    let check = a.check("fluid.limit-pressure.pilot").unwrap();
    assert!(check.because.contains("joints of the rock open"), "{}", check.because);
    assert_eq!(status(&a, "ground.heave.lane"), Status::NotAssessed);
    assert_eq!(status(&a, "ground.suitability"), Status::Attention);
}

/// The borings of the demo stand in three forms; all give the same ground.
#[test]
fn borings_from_a_file_give_the_same_ground_as_those_in_the_crossing() {
    let start = CREEK.find("[[ground.boring]]").unwrap();
    let end = CREEK.find("# The pipes, and how they are pulled").unwrap();
    let inline = run(CREEK);
    for file in ["creek-ground.ags", "creek-ground.csv"] {
        let coordinates = "azimuth = \"64 deg\"\nentry_easting = 500000\nentry_northing = 200000";
        let text = format!("{}[ground]\nfile = \"{file}\"\n\n{}", &CREEK[..start], &CREEK[end..])
            // The line of the samples is straight in plan.
            .replace("azimuth = \"64 deg\"", coordinates);
        let load = |name: &str| {
            let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/");
            std::fs::read(format!("{folder}{name}")).map_err(|e| e.to_string())
        };
        let reading = project::read_beside("creek.toml", &text, &load).unwrap();
        assert!(reading.warnings.is_empty(), "{:?}", reading.warnings);
        let a = assess(&reading.project);
        for check in inline
            .checks
            .iter()
            .filter(|c| c.id.starts_with("fluid.") || c.id.starts_with("ground."))
        {
            let (one, other) = (check.utilisation.unwrap(), utilisation(&a, &check.id));
            // Places by coordinates of centimetres, offset from a line with a bend of 5 deg: strata shift by millimetres.
            assert!((one - other).abs() < 0.02, "{}: {one} against {other}", check.id);
        }
    }
}
