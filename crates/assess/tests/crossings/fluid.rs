//! Pressures of the fluid against what the ground bears.

use assess::{Assessment, Profile, Status};

use crate::crossing::{CROSSING, run, status, utilisation, with};

const STAGES: [&str; 4] = ["pilot", "ream-1", "ream-2", "pull"];

fn curve<'a>(a: &'a Assessment, id: &str) -> &'a Profile {
    a.profiles.iter().find(|p| p.id == id).unwrap_or_else(|| panic!("no curve {id}"))
}

/// Value of a curve at the place nearest to a measured distance.
fn at(profile: &Profile, md: f64) -> f64 {
    let off = |i: &usize| (profile.md[*i] - md).abs();
    let i = (0..profile.md.len())
        .min_by(|a, b| off(a).total_cmp(&off(b)))
        .expect("a curve with points");
    profile.values[i]
}

fn limit_pressure(a: &Assessment, stage: &str) -> f64 {
    utilisation(a, &format!("fluid.limit-pressure.{stage}"))
}

#[test]
fn a_deeper_bore_has_more_pressure_and_bears_more() {
    let shallow = run(CROSSING);
    let deep = run(&with("lowest_level = \"-7.5 m\"", "lowest_level = \"-9.5 m\""));
    for stage in STAGES {
        for what in ["pressure", "allowed"] {
            let id = format!("fluid.{what}.{stage}");
            let (a, b) = (at(curve(&shallow, &id), 140.0), at(curve(&deep, &id), 140.0));
            assert!(b > a, "{id}: {a} became {b}");
        }
    }
}

#[test]
fn denser_fluid_and_more_flow_press_harder_and_change_nothing_of_the_ground() {
    let before = run(CROSSING);
    let dense = run(&with("density = \"1150 kg/m3\"", "density = \"1300 kg/m3\""));
    let fast = run(&with("capacity = \"800 l/min\"", "capacity = \"1000 l/min\""));
    assert!(limit_pressure(&dense, "pull") > 1.05 * limit_pressure(&before, "pull"));
    assert!((limit_pressure(&dense, "pilot") - limit_pressure(&before, "pilot")).abs() < 1e-12);
    for stage in STAGES {
        assert!(limit_pressure(&fast, stage) > limit_pressure(&before, stage), "{stage}");
        let id = format!("fluid.limit.cavity-by-strain.{stage}");
        assert_eq!(curve(&fast, &id).values, curve(&before, &id).values);
    }
}

/// What is pumped comes out in front of a given pit only.
#[test]
fn a_known_outlet_never_presses_harder_than_an_unknown_one() {
    let either = run(CROSSING);
    for outlet in ["entry", "exit"] {
        let known = run(&with(
            "[bore.reaming]\n",
            &format!(
                "[bore.pulling]\noutlet = \"{outlet}\"\n\n[bore.reaming]\noutlet = \"{outlet}\"\n"
            ),
        ));
        for stage in ["ream-1", "ream-2", "pull"] {
            let id = format!("fluid.pressure.{stage}");
            let (free, bound) = (curve(&either, &id), curve(&known, &id));
            assert_eq!(free.md, bound.md);
            let worse = free.values.iter().zip(&bound.values).all(|(a, b)| a >= b);
            assert!(worse, "{stage} {outlet}");
        }
        let at_entry = at(curve(&known, "fluid.pressure.pull"), 0.0);
        // At the outlet itself nothing is lost on the way.
        assert_eq!(at_entry < 1.0, outlet == "entry", "{at_entry}");
    }
}

/// The classic form lies above the limited one, first yield below it.
#[test]
fn the_choice_of_the_criterion_orders_the_limits() {
    let of = |criterion: &str| {
        let a = run(&format!(
            "{CROSSING}\n[factors.ground]\noverburden = 5\nlimit_criterion = \"{criterion}\"\n"
        ));
        // Another criterion may be tightest at another place: the same one is looked at.
        at(curve(&a, "fluid.allowed.pull"), 140.0)
    };
    let [classic, limited, first, tension] =
        ["cavity by cover", "limited cavity", "first yield", "tension"].map(of);
    assert!(
        classic > limited && limited > first && first > tension,
        "{classic} {limited} {first} {tension}"
    );
}

#[test]
fn the_range_of_flow_laws_bounds_what_a_chosen_one_says() {
    let of = |model: &str| {
        let a = run(&with(
            "gel_strength = \"8 Pa\"",
            &format!("gel_strength = \"8 Pa\"\nmodel = \"{model}\""),
        ));
        limit_pressure(&a, "pilot")
    };
    let largest = of("largest");
    let each = ["bingham", "power-law", "herschel-bulkley"].map(of);
    let most = each.iter().copied().fold(0.0, f64::max);
    assert!((largest - most).abs() < 1e-12);
    assert!(each.iter().any(|one| *one < 0.98 * largest), "{each:?}");
}

#[test]
fn what_is_missing_is_named_and_nothing_is_passed() {
    let readings = "[fluid.readings]\nr600 = 42\nr300 = 30\nr100 = 19\nr6 = 9\nr3 = 8\n";
    for (text, key, ids) in [
        (
            readings,
            "/fluid/readings",
            &["fluid.limit-pressure.pilot", "fluid.restart", "fluid.pump"][..],
        ),
        ("pilot_diameter = \"250 mm\"\n", "/bore/pilot_diameter", &["fluid.limit-pressure.pilot"]),
        ("gel_strength = \"8 Pa\"\n", "/fluid/gel_strength", &["fluid.restart"]),
        (
            "groundwater_level = \"1.0 m\"\n",
            "/site/groundwater_level",
            &["fluid.limit-pressure.pull"],
        ),
        ("inside_diameter = \"80 mm\"\n", "/bore/rods/inside_diameter", &["fluid.pump"]),
        (
            "capacity = \"800 l/min\"\n",
            "/rig/pump/capacity",
            &["fluid.limit-pressure.pilot", "fluid.pump"],
        ),
        (
            "[rig.pump]\ncapacity = \"800 l/min\"\npressure = \"60 bar\"\n",
            "/rig/pump/capacity",
            &["fluid.pump"],
        ),
    ] {
        let a = run(&with(text, ""));
        for id in ids {
            let check = a.check(id).unwrap();
            assert_eq!(check.status, Status::NotAssessed, "{id} without {text}");
            assert!(check.missing.iter().any(|m| m == key), "{id}: {:?}", check.missing);
        }
        assert!(!a.all_met());
    }
}

#[test]
fn bingham_values_stand_in_for_readings() {
    let readings = "[fluid.readings]\nr600 = 42\nr300 = 30\nr100 = 19\nr6 = 9\nr3 = 8\n";
    let values = "plastic_viscosity = \"12 mPa·s\"\nyield_point = \"8.6 Pa\"\n";
    let given = run(&CROSSING
        .replace(readings, "")
        .replace("gel_strength = \"8 Pa\"\n", &format!("gel_strength = \"8 Pa\"\n{values}")));
    let fitted =
        run(&with("gel_strength = \"8 Pa\"", "gel_strength = \"8 Pa\"\nmodel = \"bingham\""));
    let (a, b) = (limit_pressure(&given, "pilot"), limit_pressure(&fitted, "pilot"));
    // 12 mPa·s and 18 lbf/100 ft2, which are 8.62 Pa.
    assert!((a / b - 1.0).abs() < 5e-3, "{a} against {b}");
    assert_ne!(status(&given, "fluid.pump"), Status::NotAssessed);
}

#[test]
fn the_pump_is_asked_for_pressure_and_flow() {
    let before = run(CROSSING);
    let small = run(&with("nozzle_diameter = \"12 mm\"", "nozzle_diameter = \"6 mm\""));
    assert_eq!(status(&small, "fluid.pump"), Status::Fail);
    assert_eq!(status(&before, "fluid.pump"), Status::Pass);
    let flow = run(&with("[bore.pilot]\n", "[bore.pilot]\nflow = \"1000 l/min\"\n"));
    let pump = flow.check("fluid.pump").unwrap();
    assert_eq!(pump.status, Status::Fail, "{}", pump.because);
    let asked = 1000.0 / (0.9 * 800.0);
    assert!(pump.utilisation.unwrap() >= asked - 1e-9);
}

#[test]
fn volumes_add_up_and_more_fluid_makes_lighter_returns() {
    let a = run(CROSSING);
    let names: Vec<_> = a.passes.iter().map(|p| p.name.as_str()).collect();
    assert_eq!(names, ["pilot", "ream 1", "ream 2", "pull-in"]);
    let cut: f64 = a.passes.iter().map(|p| p.cut.value).sum();
    let whole = std::f64::consts::FRAC_PI_4 * 0.85f64.powi(2);
    let length =
        a.profiles.iter().find(|p| p.id == "line.level").unwrap().md.last().copied().unwrap();
    assert!((cut / (whole * length) - 1.0).abs() < 1e-9);
    for pass in &a.passes[..3] {
        assert!((pass.returns.value - pass.cut.value - pass.fluid.value).abs() < 1e-9);
    }
    let more = run(&with("[bore.reaming]\n", "[bore.reaming]\nfluid_ratio = [6]\n"));
    assert!(more.passes[1].returns_density.value < a.passes[1].returns_density.value);
    assert!(
        more.passes[1].largest_advance.unwrap().value < a.passes[1].largest_advance.unwrap().value
    );
    assert!(
        more.check("fluid.returns").unwrap().demand.unwrap().value
            <= a.check("fluid.returns").unwrap().demand.unwrap().value
    );
}

#[test]
fn a_gel_that_is_twice_as_stiff_doubles_its_part_of_the_restart() {
    let of = |gel: f64| {
        let a = run(&with("gel_strength = \"8 Pa\"", &format!("gel_strength = \"{gel} Pa\"")));
        a.check("fluid.restart").unwrap().demand.unwrap().value
    };
    // Stiff enough that the same place governs in both.
    let (one, two, three) = (of(40.0), of(80.0), of(120.0));
    assert!(((three - two) - (two - one)).abs() < 0.05 * (two - one), "{one} {two} {three}");
}
