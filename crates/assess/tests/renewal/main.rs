//! Whole renewals by pipe bursting: what an engineer expects of the verdict when one thing changes.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on may stop where it stands")]

use assess::{Status, VerdictStatus, assess_design, check_ids_of, explain_design};

use self::street::{
    LANE, STREET, after, bearing_heave, check, curve, design, part, run, status, street,
};

mod band;
mod comparison;
mod forces;
mod host;
mod movement;
mod moves;
mod places;
mod remedies;
mod street;
mod wall;

/// Files that between them take every way through the checks.
fn variants() -> Vec<(&'static str, String)> {
    const STEEL: &str = "material = \"steel\"\ninside_diameter = \"200 mm\"\nwall = \"6 mm\"";
    const IRON: &str =
        "material = \"grey cast iron\"\ninside_diameter = \"200 mm\"\nwall = \"12 mm\"";
    let two = "launch = \"61 m\"\nmachine = \"0 m\"\n\n[[run]]\nname = \"B\"\nlaunch = \"61 m\"\nmachine = \"118 m\"";
    let mixed = format!(
        "to = \"70 m\"\n{IRON}\n\n[[host.stretch]]\nfrom = \"70 m\"\nto = \"118 m\"\n{STEEL}"
    );
    let one_length = format!("to = \"118 m\"\n{IRON}");
    let decided = "authority = \"inspectorate\"\nnotice = \"7/2031\"\ndecision = \"burst\"\ndisposal = \"record\"\n\
                   air_monitoring = \"at both pits\"";
    vec![
        ("street", STREET.to_owned()),
        ("lane", LANE.to_owned()),
        (
            "lane, decided",
            street::changed(LANE, &[("authority = \"labour inspectorate of the demo\"", decided)]),
        ),
        ("clay", street(&[("medium dense sand", "stiff clay")])),
        ("soft clay", street(&[("medium dense sand", "soft clay"), ("\"8 MPa\"", "\"1 MPa\"")])),
        ("loose", street(&[("density = \"dense\"", "density = \"loose\"")])),
        ("yields late", street(&[("\"8 MPa\"", "\"0.05 MPa\"")])),
        ("steel", street(&[(IRON, STEEL), ("lubricated", "cutters = 2\nlubricated")])),
        ("iron and steel", street(&[(&one_length, &mixed)])),
        ("ramp", street(&[("assembly = \"pipe by pipe\"", "assembly = \"string\"")])),
        ("two runs", street(&[("launch = \"118 m\"\nmachine = \"0 m\"", two)])),
        ("kinked", street(&[("radius = \"160 m\"\n", "")])),
        (
            "two slopes",
            street(&[("[[0, 29.2], [118, 29.1]]", "[[0, 29.2], [40, 29.2], [118, 29.1]]")]),
        ),
        (
            "downhill",
            street(&[
                ("[[0, 29.2]", "[[0, 24.7]"),
                ("plate_bottom = \"3.2", "plate_bottom = \"7.9"),
            ]),
        ),
        ("in water", street(&[("\"27 m\"", "\"29 m\"")])),
        ("dry string", street(&[("lubricated = \"yes\"", "lubricated = \"no\"")])),
        (
            "near a step of the guide",
            street(&[("[[0, 31.4], [55, 31.2], [118, 30.8]]", "[[0, 32.6], [118, 32.0]]")]),
        ),
        (
            "plate above the opening",
            street(&[("plate_bottom = \"3.2 m\"", "plate_bottom = \"1.4 m\"")]),
        ),
    ]
}

#[test]
fn the_starter_is_a_renewal_that_nothing_speaks_against() {
    let text = project::starter(project::Technique::Bursting);
    let a = run(&text);
    let bad: Vec<_> = a
        .checks
        .iter()
        .filter(|c| matches!(c.status, Status::Fail | Status::NotAssessed))
        .map(|c| format!("{}: {}", c.id, c.because))
        .collect();
    assert!(bad.is_empty(), "{bad:#?}");
    assert!(text.starts_with("# A main renewed by pipe bursting"));
}

#[test]
fn the_verdicts_of_the_demos() {
    let a = run(&bearing_heave(STREET, "40 mm"));
    assert_eq!(a.verdict.status, VerdictStatus::FeasibleWithAttention, "{}", a.verdict.sentence);
    assert!(a.all_met());
    let lane = run(LANE);
    assert_eq!(lane.verdict.status, VerdictStatus::Incomplete, "{}", lane.verdict.sentence);
    let open: Vec<_> = lane.checks.iter().filter(|c| c.status == Status::NotAssessed).collect();
    assert_eq!(open.iter().map(|c| c.id.as_str()).collect::<Vec<_>>(), ["host.asbestos"]);
    assert_eq!(
        open[0].missing,
        ["notice", "decision", "disposal", "air_monitoring"].map(|k| format!("/host/asbestos/{k}"))
    );
    assert!(a.check("host.asbestos").is_none(), "no asbestos lies in the street");
    for a in [a, lane] {
        assert_eq!(a.technique, "bursting");
        assert!(a.checks.iter().all(|c| c.status != Status::Fail));
        assert!(a.cautions.iter().any(|c| c.contains("broken rod")));
        assert!(a.warnings.is_empty());
    }
}

#[test]
fn every_working_recomputes_from_its_text_and_ends_in_the_utilisation_of_the_check() {
    for (name, text) in variants() {
        let design = design(&text);
        for check in assess_design(&design).checks {
            let id = &check.id;
            let explained = explain_design(&design, id).unwrap();
            assert_eq!(explained.check.because, check.because, "{name}: {id}");
            let working = &explained.working;
            let Some(expected) = check.utilisation else {
                assert!(
                    check.status == Status::NotAssessed
                        || check.limit.is_some_and(|l| l.value == 0.0),
                    "{name}: {id}"
                );
                continue;
            };
            assert!(working.steps.len() >= 3, "{name}: {id} has no working");
            let (difference, symbol) =
                working.largest_difference().unwrap_or_else(|e| panic!("{name}: {id}: {e}"));
            assert!(difference < 1e-6, "{name}: {id}: {symbol} differs by {difference:e}");
            let last = working
                .steps
                .iter()
                .filter(|s| s.symbol.starts_with('U'))
                .map(|s| s.value)
                .fold(0.0, f64::max);
            assert!(
                (last - expected).abs() <= 1e-6 * expected.max(1.0),
                "{name}: {id}: {last} against {expected}"
            );
        }
    }
}

#[test]
fn the_ids_of_the_checks_are_those_that_are_made_and_each_can_be_explained() {
    for (name, text) in variants() {
        let design = design(&text);
        let made: Vec<_> = assess_design(&design).checks.into_iter().map(|c| c.id).collect();
        assert_eq!(check_ids_of(&design), made, "{name}");
        assert!(made.iter().all(|id| explain_design(&design, id).is_some()), "{name}");
        assert!(explain_design(&design, "line.cover").is_none());
    }
}

#[test]
fn the_same_file_gives_the_same_bytes_and_only_finite_numbers() {
    for (name, text) in variants() {
        let json = |text: &str| serde_json::to_string(&run(text)).unwrap();
        assert_eq!(json(&text), json(&text), "{name}");
        // A number that is not finite becomes null; so does what is absent.
        let a = run(&text);
        for check in &a.checks {
            for reading in [check.demand, check.limit].into_iter().flatten() {
                assert!(reading.value.is_finite(), "{name}: {}", check.id);
            }
            assert!(check.utilisation.is_none_or(f64::is_finite), "{name}: {}", check.id);
        }
        for part in &a.forces {
            let [low, planning, high] = [part.low, part.planning, part.high].map(|r| r.value);
            assert!(low.is_finite() && planning.is_finite() && high.is_finite(), "{name}");
            assert!(0.0 <= low && low <= planning && planning <= high, "{name}: {}", part.name);
        }
        for p in &a.profiles {
            assert_eq!(p.md.len(), p.values.len(), "{name}: {}", p.id);
            assert!(p.md.len() > 1 && p.md.windows(2).all(|w| w[1] > w[0]), "{name}: {}", p.id);
            assert!(p.values.iter().all(|v| v.is_finite()), "{name}: {}", p.id);
        }
    }
}

#[test]
fn the_curves_end_in_the_values_of_the_checks() {
    for (name, text) in variants() {
        let a = run(&text);
        let most = |of: &str| {
            let all = a.profiles.iter().filter(|p| p.id.starts_with(of));
            all.flat_map(|p| p.values.iter().copied()).fold(0.0, f64::max)
        };
        for (id, of) in [
            ("burst.force.rig", "burst.force.rig.planning"),
            ("pull.joint-force", "burst.force.string.planning"),
            ("burst.heave", "burst.heave"),
        ] {
            let Some(acting) = check(&a, id).demand else { continue };
            assert!((most(of) / acting.value - 1.0).abs() < 1e-9, "{name}: {id}");
        }
        let ends =
            ["low", "planning", "high"].map(|end| curve(&a, &format!("burst.force.rig.{end}.1")).1);
        for ((low, planning), high) in ends[0].iter().zip(ends[1]).zip(ends[2]) {
            assert!(low <= planning && planning <= high, "{name}");
        }
    }
}

#[test]
fn what_is_not_given_is_not_assessed_and_never_a_pass() {
    for (text, ids, key) in [
        ("heave_limit = \"40 mm\"\n", &["burst.heave"][..], "/site/heave_limit"),
        ("settlement_limit = \"20 mm\"\n", &["burst.settlement"], "/site/settlement_limit"),
        ("allowance = \"8 mm\"\n", &["burst.neighbour.storm-drain"], "/site/neighbour/1/allowance"),
        ("temporary_supply = \"yes\"\n", &["host.supply"], "/host/temporary_supply"),
        ("launch_length = \"8 m\"\n", &["burst.pit"], "/pit/launch_length"),
        ("machine_width = \"4 m\"\n", &["burst.machine-pit"], "/pit/machine_width"),
        ("pullback = \"1000 kN\"\n", &["burst.force.rig", "burst.machine-pit"], "/rig/pullback"),
        (
            "plate_width = \"4 m\"\nplate_top = \"0.4 m\"\nplate_bottom = \"3.2 m\"\n",
            &["burst.reaction-wall"],
            "/pit/plate_width",
        ),
    ] {
        let less = street(&[(text, "")]);
        let borne = less.contains("heave_limit");
        let a = run(&if borne { bearing_heave(&less, "40 mm") } else { less });
        let open: Vec<_> = a.checks.iter().filter(|c| c.status == Status::NotAssessed).collect();
        assert_eq!(open.iter().map(|c| c.id.as_str()).collect::<Vec<_>>(), ids, "{text}");
        assert!(open.iter().all(|c| c.missing.iter().any(|m| m == key)), "{text}");
        assert_eq!(a.verdict.status, VerdictStatus::Incomplete);
        assert!(!a.all_met());
    }
}

#[test]
fn rock_around_the_main_is_not_assessed() {
    let rock = (
        "kind = \"medium dense sand\"\nunit_weight = \"18.5 kN/m3\"\nshear_modulus = \"8 MPa\"",
        "kind = \"rock\"\nunit_weight = \"25 kN/m3\"\nsaturated_unit_weight = \"26 kN/m3\"",
    );
    let Ok(reading) = project::read_design("x.toml", &street(&[rock]), &project::no_files) else {
        panic!("rock is a kind of ground")
    };
    let a = assess_design(&reading.design);
    for id in ["burst.force.rig", "burst.reaction-wall", "pull.joint-force", "pull.barrel"] {
        assert_eq!(status(&a, id), Status::NotAssessed, "{id}");
        assert!(check(&a, id).because.contains("rock"), "{}", check(&a, id).because);
    }
    assert!(a.forces.is_empty() && !a.all_met());
}

#[test]
fn an_own_pipe_without_a_socket_is_not_assessed() {
    let own = (
        "standard = \"EN 545\"\ndn = 250\nclass = \"K9\"",
        "standard = \"own\"\noutside_diameter = \"274 mm\"\nwall = \"6.8 mm\"",
    );
    let a = after(&[own, ("socket_diameter = \"345 mm\"\n", "")]);
    for id in
        ["burst.expander", "burst.class", "burst.force.rig", "burst.heave", "burst.settlement"]
    {
        assert_eq!(status(&a, id), Status::NotAssessed, "{id}");
        assert!(check(&a, id).missing.iter().any(|m| m == "/string/socket_diameter"), "{id}");
    }
    assert!(a.forces.is_empty());
}

#[test]
fn the_table_of_forces_holds_the_values_of_the_checks() {
    for (name, text) in variants() {
        let a = run(&text);
        let rig = part(&a, "on the machine and its wall");
        assert_eq!(check(&a, "burst.force.rig").demand.map(|r| r.value), Some(rig[1]), "{name}");
        if let Some(wall) = check(&a, "burst.reaction-wall").demand {
            assert!(wall.value <= rig[1], "{name}");
        }
    }
}
