//! What the ground bears, and what it does where it bears nothing.

use assess::{Assessment, Status};

use crate::crossing::{CROSSING, run, status, utilisation, with};

const PILOT: &str = "fluid.limit-pressure.pilot";

fn lane(text: &str, from: f64, to: f64) -> String {
    let lane = format!(
        "[[site.obstacle]]\nname = \"lane\"\nkind = \"road\"\nfrom = {from}\nto = {to}\nunderside = \"3.6 m\"\n\
         clearance = \"3 m\"\nsettlement_limit = \"30 mm\"\nheave_limit = \"20 mm\"\n\n[line]\n"
    );
    text.replace("[line]\n", &lane)
}

fn because(a: &Assessment, id: &str) -> String {
    a.check(id).map_or_else(|| panic!("no check {id}"), |c| c.because.clone())
}

fn demand(a: &Assessment, id: &str) -> f64 {
    let demand = a.check(id).and_then(|c| c.demand);
    demand.unwrap_or_else(|| panic!("{id} has no demand")).value
}

#[test]
fn open_gravel_bears_nothing() {
    let a = run(&with("kind = \"dense sand\"", "kind = \"coarse gravel\""));
    let check = a.check(PILOT).unwrap();
    assert_eq!(check.status, Status::Fail);
    assert!(check.limit.unwrap().value.abs() < 1e-9);
    assert!(check.because.contains("bears nothing"), "{}", check.because);
    assert_eq!(status(&a, "ground.suitability"), Status::Fail);
}

#[test]
fn the_weight_above_caps_what_may_act() {
    let with_cap = |cap: f64| run(&format!("{CROSSING}\n[factors.ground]\noverburden = {cap}\n"));
    let a = with_cap(0.8);
    let pilot = &a.limits[0];
    assert!((pilot.allowed.value - 0.8 * pilot.weight.value).abs() < 1e-6);
    assert!(because(&a, PILOT).contains("for the weight above"), "{}", because(&a, PILOT));
    let free = with_cap(5.0);
    assert!(free.limits[0].allowed.value > pilot.allowed.value);
    assert!((free.limits[0].allowed.value - free.limits[0].limit.value / 1.5).abs() < 1e-6);
}

#[test]
fn the_table_of_stages_says_what_the_checks_say() {
    let a = run(CROSSING);
    assert_eq!(a.limits.len(), 4);
    for stage in &a.limits {
        let check = a.check(&format!("fluid.limit-pressure.{}", stage.id)).unwrap();
        assert_eq!(check.demand.unwrap(), stage.pressure);
        assert_eq!(check.limit.unwrap(), stage.allowed);
        assert_eq!(stage.exceeded.is_empty(), check.status != Status::Fail);
    }
}

#[test]
fn stretches_that_are_too_much_are_named() {
    let a = run(&format!("{CROSSING}\n[factors.ground]\noverburden = 0.8\n"));
    let pilot = &a.limits[0];
    assert!(!pilot.exceeded.is_empty());
    for (from, to) in &pilot.exceeded {
        assert!(from <= to && *from >= 0.0 && *to <= 290.0);
        assert!(*from <= pilot.chainage.value || pilot.exceeded.len() > 1);
    }
    assert!(because(&a, PILOT).contains("exceeds what may act"), "{}", because(&a, PILOT));
}

#[test]
fn the_lowest_free_water_is_not_guessed() {
    let text = with("groundwater_level = \"1.0 m\"", "free_water_level = \"4.5 m\"");
    let a = run(&text);
    let check = a.check(PILOT).unwrap();
    assert_eq!(check.status, Status::NotAssessed, "{}", check.because);
    assert!(check.missing.iter().any(|k| k == "/site/low_water_level"), "{:?}", check.missing);
}

#[test]
fn a_law_that_cannot_be_had_asks_for_attention() {
    let readings = "r600 = 42\nr300 = 30\nr100 = 19\nr6 = 9\nr3 = 8\n";
    let power = "r600 = 42\nr300 = 30\nr100 = 17\nr6 = 6.5\nr3 = 3\n";
    let largest = run(&with(readings, power));
    let chosen = run(&with(readings, power)
        .replace("[fluid.readings]", "model = \"herschel-bulkley\"\n\n[fluid.readings]"));
    assert_eq!(status(&largest, PILOT), status(&chosen, PILOT));
    let few = run(&with(readings, "r600 = 42\nr300 = 30\n"));
    assert_ne!(status(&few, PILOT), Status::Pass, "{}", because(&few, PILOT));
    assert!((demand(&largest, PILOT) - demand(&chosen, PILOT)).abs() < 1.0);
}

#[test]
fn heave_without_bound_fails() {
    let lifted = "kind = \"dense sand\"\npiezometric_level = \"40 m\"";
    let a = run(&lane(&with("kind = \"dense sand\"", lifted), 200.0, 206.0));
    let check = a.check("ground.heave.lane").unwrap();
    assert_eq!(check.status, Status::Fail, "{}", check.because);
    assert!(check.limit.is_some());
}

#[test]
fn a_wider_obstacle_never_moves_less() {
    let narrow = run(&lane(CROSSING, 230.0, 236.0));
    let wide = run(&lane(CROSSING, 215.0, 250.0));
    for id in ["ground.settlement.lane", "ground.heave.lane"] {
        assert!(demand(&wide, id) >= demand(&narrow, id) - 1e-12, "{id}");
    }
    assert!(
        demand(&wide, "ground.settlement.lane") > 1.05 * demand(&narrow, "ground.settlement.lane")
    );
}

#[test]
fn a_higher_exit_pit_costs_pump_pressure() {
    let bar = |text: &str| {
        let a = run(&text.replace("pressure = \"60 bar\"\n", "").replace("\"12 mm\"", "\"30 mm\""));
        demand(&a, "fluid.pump")
    };
    let higher = CROSSING
        .replace("ground = [[0, 4.0], [290, 4.0]]", "ground = [[0, 4.0], [290, 6.0]]")
        .replace("exit_level = \"4.0 m\"", "exit_level = \"6.0 m\"");
    // Two metres of fresh fluid are about 20 kPa.
    let more = bar(&higher) - bar(CROSSING);
    assert!(more > 15e3 && more < 60e3, "{more}");
}

#[test]
fn readings_of_a_cone_are_offered_beside_the_values_used() {
    let text = with(
        "name = \"B2\"\n",
        "name = \"B2\"\ncpt = [[\"4 m\", \"12 MPa\"], [\"8 m\", \"15 MPa\"]]\n",
    );
    let project = project::read("test.toml", &text).unwrap();
    let explained = assess::explain(&project, "ground.suitability").unwrap();
    let note = explained.notes.iter().find(|n| n.starts_with("Cone resistance in sand")).unwrap();
    assert!(note.contains("12 MPa to 15 MPa (2 readings)"), "{note}");
    assert!(note.contains("friction angle of"), "{note}");
}

#[test]
fn every_kind_of_working_ends_in_what_may_act() {
    for kind in ["coarse gravel", "stiff clay", "rock", "dense sand"] {
        let values = if kind == "rock" {
            "\nunit_weight = 24\nsaturated_unit_weight = 25\nk0 = 0.7"
        } else {
            ""
        };
        let text = with("kind = \"dense sand\"", &format!("kind = \"{kind}\"{values}"));
        let project = project::read("test.toml", &text).unwrap();
        let explained = assess::explain(&project, PILOT).unwrap();
        let allowed = explained.check.limit.unwrap().value;
        let line = explained.working.steps.iter().find(|l| l.symbol == "p_all").unwrap();
        assert!((line.value - allowed).abs() <= 1e-9 * allowed.abs().max(1.0), "{kind}");
    }
}

#[test]
fn a_stop_is_judged_by_the_sockets_as_well() {
    let a = run(CROSSING);
    assert!(utilisation(&a, "fluid.restart") > 0.0);
    let project = project::read("test.toml", CROSSING).unwrap();
    let explained = assess::explain(&project, "fluid.restart").unwrap();
    let symbols: Vec<_> = explained.working.steps.iter().map(|l| l.symbol.as_str()).collect();
    assert!(symbols.contains(&"J_g"), "{symbols:?}");
}
