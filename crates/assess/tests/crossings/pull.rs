//! The pull of whole crossings: weight, assembly, start after a stop, methods side by side.

use assess::{Assessment, Status, explain};

use crate::crossing::{CROSSING, run, status, utilisation, with};

#[test]
fn buoyancy_costs_pull_and_ballast_gives_it_back() {
    let part = run(CROSSING);
    let empty = run(&with("contents = \"part\"\nballast_share = 0.6", "contents = \"empty\""));
    assert!(utilisation(&empty, "pull.joint-force") > 1.3 * utilisation(&part, "pull.joint-force"));
    assert!(utilisation(&empty, "pull.restart") >= utilisation(&empty, "pull.joint-force"));
}

#[test]
fn pipe_by_pipe_and_strings_are_assessed_too() {
    let whole = run(CROSSING);
    let single = run(&with("assembly = \"string\"", "assembly = \"pipe by pipe\""));
    let strings =
        run(&with("assembly = \"string\"", "assembly = \"sub-strings\"\nsub_strings = [20, 30]"));
    for a in [&single, &strings] {
        assert!(utilisation(a, "pull.joint-force") > 0.0);
        // Less string on the rollers never raises the pull.
        assert!(
            utilisation(a, "pull.joint-force") <= utilisation(&whole, "pull.joint-force") + 1e-6
        );
    }
    assert!(single.check("pull.restart").unwrap().because.contains("every joint"));
    assert!(strings.check("pull.restart").unwrap().because.contains("planned stops"));
}

#[test]
fn large_strings_that_have_been_pulled_come_out_feasible() {
    let ballasts = ["contents = \"empty\"", "contents = \"part\"\nballast_share = 0.69"];
    for ((dn, run_m, bore), ballast) in
        [(800, 330, 1300), (700, 240, 1200)].into_iter().flat_map(|c| ballasts.map(|b| (c, b)))
    {
        let text = with("dn = 400", &format!("dn = {dn}"))
            .replace("290", &run_m.to_string())
            .replace("entry_radius = \"250 m\"", "entry_radius = \"400 m\"")
            .replace("exit_radius = \"250 m\"", "exit_radius = \"400 m\"")
            .replace("lowest_level = \"-7.5 m\"", "lowest_level = \"-6 m\"")
            .replace("\"450 mm\", \"850 mm\"", &format!("\"700 mm\", \"{bore} mm\""))
            .replace("contents = \"part\"\nballast_share = 0.6", ballast)
            .replace("pilot_diameter = \"250 mm\"", "pilot_diameter = \"311 mm\"")
            .replace("diameter = \"101 mm\"", "diameter = \"127 mm\"")
            .replace("pullback = \"600 kN\"", "pullback = \"1500 kN\"")
            .replace("permitted_pull = \"800 kN\"", "permitted_pull = \"1500 kN\"");
        let a = run(&text);
        let bad: Vec<_> = a
            .checks
            .iter()
            .filter(|c| matches!(c.status, Status::Fail | Status::NotAssessed))
            .map(|c| format!("{} {:?}: {}", c.id, c.utilisation, c.because))
            .collect();
        assert!(bad.is_empty(), "DN {dn}, {ballast}: {bad:#?}");
    }
}

/// At these densities the joint on the point of leaving the wall once kept the tensions from settling.
#[test]
fn every_density_gives_a_pull() {
    for density in (1000..=1500).step_by(25).chain([1050]) {
        let a = run(&with("density = \"1150 kg/m3\"", &format!("density = {density}")));
        assert_ne!(status(&a, "pull.joint-force"), Status::NotAssessed, "{density} kg/m3");
    }
}

#[test]
fn a_method_of_the_band_above_the_limit_asks_for_attention() {
    let a = run(&with("pullback = \"600 kN\"", "pullback = \"350 kN\""));
    let rig = a.check("pull.rig").unwrap();
    assert_eq!(rig.status, Status::Attention, "{}", rig.because);
    assert!(rig.because.contains("above the limit of"), "{}", rig.because);
    assert_eq!(status(&run(CROSSING), "pull.rig"), Status::Pass);
}

#[test]
fn a_restart_between_strings_pulls_the_string_that_was_just_joined() {
    let ground = |assembly: &str| {
        run(&with("support = \"rollers\"", "support = \"ground\"")
            .replace("assembly = \"string\"", assembly))
    };
    let whole = ground("assembly = \"string\"");
    let strings = ground("assembly = \"sub-strings\"\nsub_strings = [5, 45]");
    let at_stop = |a: &Assessment| {
        let profile = a.profiles.iter().find(|p| p.id == "pull.restart-force").unwrap();
        let stop = profile.md.last().unwrap() - 24.0;
        let nearest = |m: &f64| (m - stop).abs();
        let k = (0..profile.md.len())
            .min_by(|i, j| nearest(&profile.md[*i]).total_cmp(&nearest(&profile.md[*j])))
            .unwrap();
        profile.values[k]
    };
    let (one, other) = (at_stop(&whole), at_stop(&strings));
    assert!((one / other - 1.0).abs() < 0.02, "{one} as one string, {other} with strings joined");
    assert!(strings.check("pull.restart").unwrap().at.unwrap() > 100.0);
}

#[test]
fn gel_and_rods_count_at_a_restart() {
    let plain = utilisation(&run(CROSSING), "pull.restart");
    let gel = run(&with("gel_strength = \"8 Pa\"", "gel_strength = \"400 Pa\""));
    assert!(utilisation(&gel, "pull.restart") > 1.2 * plain);
    let rods = run(&with("permitted_pull = \"800 kN\"", "permitted_pull = \"100 kN\""));
    assert!(utilisation(&rods, "pull.restart") > 2.0 * plain);
    assert!(rods.check("pull.restart").unwrap().because.contains("of the rods"));
}

#[test]
fn a_string_that_runs_ahead_asks_for_attention_with_the_whole_force() {
    let text = with("contents = \"part\"\nballast_share = 0.6", "contents = \"water\"")
        .replace("density = \"1150 kg/m3\"", "density = \"1000 kg/m3\"")
        + "\n[factors]\nfriction_bore = 0.05\nfriction_bore_expected = 0.05\nfluid_stress = 0\nfluid_stress_expected = 0\n";
    let a = run(&text);
    let check = a.check("pull.joint-force").unwrap();
    assert_eq!(check.status, Status::Attention, "{}", check.because);
    assert!(check.because.contains("held back"), "{}", check.because);
}

#[test]
fn one_sub_string_starts_like_one_string() {
    let whole = run(CROSSING);
    let single =
        run(&with("assembly = \"string\"", "assembly = \"sub-strings\"\nsub_strings = [50]"));
    let of = |a: &Assessment| a.check("pull.restart").unwrap().clone();
    assert_eq!(of(&single).because, of(&whole).because);
    assert_eq!(of(&single).limit, of(&whole).limit);
    assert_eq!(of(&single).utilisation, of(&whole).utilisation);
}

#[test]
fn a_start_bound_by_the_rig_shows_rods_reamer_and_the_share_of_the_rig() {
    let text = with("assembly = \"string\"", "assembly = \"sub-strings\"\nsub_strings = [20, 30]")
        .replace("pullback = \"600 kN\"", "pullback = \"120 kN\"");
    let project = project::read("test.toml", &text).unwrap();
    let working = explain(&project, "pull.restart").unwrap().working;
    let value = |symbol: &str| {
        working
            .steps
            .iter()
            .find(|s| s.symbol == symbol)
            .unwrap_or_else(|| panic!("no {symbol}"))
            .value
    };
    assert!((value("F_head") + value("F_ream") + value("F_rods") - value("F_rig")).abs() < 1.0);
    assert!((value("F_cap") - 120e3).abs() < 1e-6);
    assert!((value("F_lim") - value("q") * 120e3).abs() < 1e-6);
    assert!(value("q") < 1.0);
}

#[test]
fn a_method_without_bends_in_plan_is_for_comparison_only_where_the_line_has_one() {
    let applicable =
        |a: &Assessment| a.methods.iter().find(|m| m.id == "f1962").unwrap().applicable;
    assert!(applicable(&run(CROSSING)));
    let bent = with(
        "lowest_level = \"-7.5 m\"",
        "lowest_level = \"-7.5 m\"\n[[line.bend]]\nstart = 140\nradius = 500\nangle = 3",
    );
    assert!(!applicable(&run(&bent)));
}

#[test]
fn the_soft_string_on_the_axis_is_near_the_chain() {
    let project = project::read("test.toml", CROSSING).unwrap();
    let working = explain(&project, "pull.joint-force").unwrap().working;
    let value = |symbol: &str| working.steps.iter().find(|s| s.symbol == symbol).unwrap().value;
    let ratio = value("T_soft") / value("T");
    assert!((0.95..1.05).contains(&ratio), "soft string over chain: {ratio}");
}

#[test]
fn a_start_is_never_easier_than_the_pull_however_the_string_is_assembled() {
    for assembly in [
        "assembly = \"string\"",
        "assembly = \"sub-strings\"\nsub_strings = [5, 45]",
        "assembly = \"pipe by pipe\"",
    ] {
        let weak_rods = with("assembly = \"string\"", assembly)
            .replace("permitted_pull = \"800 kN\"", "permitted_pull = \"100 kN\"")
            .replace("pullback = \"600 kN\"", "pullback = \"6000 kN\"");
        let a = run(&weak_rods);
        for id in ["pull.joint-force", "pull.rods"] {
            let (start, pull) = (utilisation(&a, "pull.restart"), utilisation(&a, id));
            assert!(start >= pull, "{assembly}: start {start}, {id} {pull}");
        }
    }
}
