//! What the old main is made of, and what is built into it.

use assess::{Status, VerdictStatus};

use crate::street::{LANE, STREET, after, changed, check, moved, run, status, street};

const AUTHORITY: &str = "authority = \"labour inspectorate of the demo\"";

fn lane_decided(decision: &str) -> String {
    let all = format!(
        "{AUTHORITY}\nnotice = \"invented 7/2031\"\ndecision = \"{decision}\"\ndisposal = \"land register\"\n\
         air_monitoring = \"at both pits\""
    );
    changed(LANE, &[(AUTHORITY, &all)])
}

#[test]
fn asbestos_cement_waits_for_the_authority() {
    let allowed = run(&lane_decided("burst"));
    assert_eq!(status(&allowed, "host.asbestos"), Status::Pass);
    assert_eq!(allowed.verdict.status, VerdictStatus::FeasibleWithAttention);
    assert!(allowed.all_met());
    for against in ["abandon", "push out"] {
        let a = run(&lane_decided(against));
        assert_eq!(status(&a, "host.asbestos"), Status::Fail, "{against}");
        assert!(check(&a, "host.asbestos").because.contains(against));
        assert_eq!(a.verdict.status, VerdictStatus::NotFeasible);
    }
}

#[test]
fn every_field_of_the_decision_is_asked_for() {
    let text = lane_decided("burst");
    for key in ["authority", "notice", "decision", "disposal", "air_monitoring"] {
        let at = text.find(&format!("\n{key} = ")).unwrap();
        let end = at + 1 + text[at + 1..].find('\n').unwrap();
        let a = run(&format!("{}{}", &text[..at], &text[end..]));
        let found = check(&a, "host.asbestos");
        assert_eq!(found.status, Status::NotAssessed, "{key}");
        assert_eq!(found.missing, [format!("/host/asbestos/{key}")]);
        assert!(!a.all_met());
    }
}

#[test]
fn a_decision_without_asbestos_changes_nothing() {
    let a = after(&[("# The fill of", "[host.asbestos]\ndecision = \"abandon\"\n\n# The fill of")]);
    assert!(a.check("host.asbestos").is_none());
    assert_eq!(moved(&a, &run(STREET)), [""; 0]);
}

#[test]
fn hosts_that_cannot_be_burst_are_refused_and_doubtful_ones_ask_for_attention() {
    for material in ["prestressed concrete", "GRP"] {
        let a = after(&[("grey cast iron", material)]);
        assert_eq!(status(&a, "host.material"), Status::Fail, "{material}");
        for id in ["burst.force.rig", "burst.reaction-wall", "pull.joint-force", "pull.barrel"] {
            assert_eq!(status(&a, id), Status::NotAssessed, "{material}: {id}");
            assert!(check(&a, id).because.contains(material), "{}", check(&a, id).because);
        }
        assert_eq!(a.verdict.status, VerdictStatus::NotFeasible);
    }
    let a = after(&[("grey cast iron", "reinforced concrete")]);
    assert_eq!(status(&a, "host.material"), Status::Attention);
    for material in ["ductile iron", "steel", "vitrified clay", "plain concrete", "PVC", "PE"] {
        let a = after(&[("grey cast iron", material)]);
        assert_eq!(status(&a, "host.material"), Status::Pass, "{material}");
    }
}

#[test]
fn only_what_lies_in_a_run_counts() {
    let rest = "to = \"60 m\"\nmaterial = \"grey cast iron\"\ninside_diameter = \"200 mm\"\nwall = \"12 mm\"\n\n\
                [[host.stretch]]\nfrom = \"60 m\"\nto = \"118 m\"\nmaterial = \"prestressed concrete\"";
    let mixed = ("to = \"118 m\"\nmaterial = \"grey cast iron\"", rest);
    let whole = after(&[mixed]);
    assert_eq!(status(&whole, "host.material"), Status::Fail);
    let short = ("launch = \"118 m\"", "launch = \"60 m\"");
    let a = after(&[mixed, short]);
    assert_eq!(status(&a, "host.material"), Status::Pass);
    assert_eq!(
        status(&a, "burst.force.rig"),
        after(&[short]).check("burst.force.rig").unwrap().status
    );
    // The valve at 84 m and four services lie beyond.
    assert_eq!((a.runs[0].services, a.runs[0].opened), (6, 0));
    let open = after(&[
        short,
        ("action = \"dig out\"\n", ""),
        ("at = \"66 m\"\ndug_up = \"yes\"", "at = \"66 m\"\ndug_up = \"no\""),
    ]);
    assert_eq!(status(&open, "host.features"), Status::Pass);
    assert_eq!(status(&open, "host.services"), Status::Pass);
}

#[test]
fn a_feature_needs_an_action_that_lets_the_head_through() {
    for (kind, action, met) in [
        ("repair clamp", "cutter", true),
        ("repair clamp", "pass", false),
        ("liner", "cutter", true),
        ("coupling", "pass", true),
        ("sag", "pass", true),
        ("valve", "cutter", false),
        ("hydrant", "pass", false),
        ("tee", "cutter", false),
        ("bend", "pass", false),
        ("encasement", "cutter", false),
        ("thrust block", "pass", false),
        ("collapse", "cutter", false),
        ("change of diameter", "pass", false),
    ] {
        let to = format!("kind = \"{kind}\"\naction = \"{action}\"");
        let a = after(&[("kind = \"repair clamp\"\naction = \"cutter\"", &to)]);
        let expected = if met { Status::Pass } else { Status::Fail };
        assert_eq!(status(&a, "host.features"), expected, "{kind}, {action}");
        for through in ["dig out", "reroute"] {
            let to = format!("kind = \"{kind}\"\naction = \"{through}\"");
            let a = after(&[("kind = \"repair clamp\"\naction = \"cutter\"", &to)]);
            assert_eq!(status(&a, "host.features"), Status::Pass, "{kind}, {through}");
        }
    }
    let open = after(&[("action = \"cutter\"\n", "")]);
    assert_eq!(status(&open, "host.features"), Status::Fail);
    assert!(check(&open, "host.features").because.contains("nothing decided"));
    assert_eq!(check(&open, "host.features").at, Some(38.0));
}

#[test]
fn services_are_dug_up_and_customers_supplied() {
    let a = after(&[("at = \"47 m\"\ndug_up = \"yes\"", "at = \"47 m\"\ndug_up = \"no\"")]);
    assert_eq!(status(&a, "host.services"), Status::Fail);
    assert!(check(&a, "host.services").because.contains("1 of 11"));
    let dry = after(&[("temporary_supply = \"yes\"", "temporary_supply = \"no\"")]);
    assert_eq!(status(&dry, "host.supply"), Status::Fail);
}

#[test]
fn the_class_is_that_of_the_worst_criterion() {
    let class = |changes: &[(&str, &str)]| {
        let a = after(changes);
        (check(&a, "burst.class").demand.unwrap().value, status(&a, "burst.class"))
    };
    // Length of 118 m, one of two criteria in class B.
    assert_eq!(class(&[]), (2.0, Status::Attention));
    let old = "\ndn = 200";
    assert_eq!(class(&[(old, "\ndn = 100")]).0, 3.0);
    assert_eq!(class(&[(old, "\ndn = 400")]).0, 2.0);
    assert_eq!(class(&[(old, "\ndn = 600")]).0, 3.0);
}

#[test]
fn curves_of_the_old_main_turn_the_new_joints() {
    let angle =
        |changes: &[(&str, &str)]| check(&after(changes), "line.joint-angle").demand.unwrap().value;
    let on_radius = 2.0 * (6.0f64 / 320.0).asin();
    assert!((angle(&[]) - on_radius).abs() < 1e-12);
    // A bend without a radius turns one joint by all of it; a short curve by no more than all of it.
    let all = 2.2f64.to_radians();
    assert!((angle(&[("radius = \"160 m\"\n", "")]) - all).abs() < 1e-12);
    assert!((angle(&[("radius = \"160 m\"", "radius = \"20 m\"")]) - all).abs() < 1e-12);
    let fitting = after(&[("radius = \"160 m\"\n", ""), ("2.2 deg", "15 deg")]);
    assert_eq!(status(&fitting, "line.joint-angle"), Status::Fail);
    assert!(check(&fitting, "line.joint-angle").because.contains("fitting"));
    let straight =
        street(&[("[[host.bend]]\nat = \"61 m\"\nangle = \"2.2 deg\"\nradius = \"160 m\"\n", "")]);
    assert_eq!(check(&run(&straight), "line.joint-angle").demand.unwrap().value, 0.0);
}

#[test]
fn a_run_longer_than_usual_asks_for_attention() {
    let a = after(&[("[factors]", "[factors]\nlongest_run = \"117 m\"")]);
    assert_eq!(status(&a, "burst.run-length"), Status::Attention);
}

#[test]
fn services_of_which_nothing_is_said_are_left_open() {
    let a = after(&[("at = \"17 m\"\ndug_up = \"yes\"", "at = \"17 m\"")]);
    let found = check(&a, "host.services");
    assert_eq!(found.status, Status::NotAssessed);
    assert_eq!(found.missing, ["/host/service/1/dug_up"]);
}

#[test]
fn a_service_at_a_shared_pit_is_counted_once() {
    let two = "launch = \"58 m\"\nmachine = \"0 m\"\n\n[[run]]\nname = \"B\"\nlaunch = \"58 m\"\nmachine = \"118 m\"";
    let a = after(&[("launch = \"118 m\"\nmachine = \"0 m\"", two)]);
    assert_eq!(a.runs.iter().map(|r| r.services).collect::<Vec<_>>(), [6, 5]);
}

#[test]
fn fragments_of_iron_ask_for_a_coating_that_bears_them() {
    let coated = |coating: &str, host: &str| {
        let a = after(&[
            ("coating_thickness = \"5 mm\"\n", ""),
            ("\"fibre mortar\"", coating),
            ("grey cast iron", host),
        ]);
        status(&a, "burst.coating")
    };
    for coating in ["\"none\"", "\"polyethylene\"", "\"zinc and finishing layer\""] {
        assert_eq!(coated(coating, "ductile iron"), Status::Attention, "{coating}");
    }
    assert_eq!(coated("\"fibre mortar\"", "ductile iron"), Status::Pass);
    assert_eq!(coated("\"polyethylene\"", "PVC"), Status::Pass);
}

#[test]
fn sub_strings_need_a_pit_for_their_length_and_save_joints() {
    let with = |list: &str| {
        let text = format!("assembly = \"sub-strings\"\nsub_strings = {list}");
        after(&[("assembly = \"pipe by pipe\"", &text)])
    };
    let long = with("[10, 10]");
    assert_eq!(status(&long, "burst.pit"), Status::Fail);
    assert!(check(&long, "burst.pit").because.contains("10 pipes or 60 m"));
    let singles = with(&format!("{:?}", [1; 20]));
    assert_eq!(status(&singles, "burst.pit"), Status::Pass);
    // 118 m at 0.6 m/min, one joint, two resets.
    let minutes = 118.0 / 0.6 + 15.0 + 2.0 * 2.0;
    assert!((long.runs[0].time.value / 60.0 - minutes).abs() < 1e-9);
}

#[test]
fn an_expander_smaller_than_the_sockets_fails() {
    let a =
        after(&[("lubricated = \"yes\"", "lubricated = \"yes\"\nexpander_diameter = \"340 mm\"")]);
    assert_eq!(status(&a, "burst.expander"), Status::Fail);
    assert!(!a.all_met());
}

#[test]
fn an_encasement_with_a_length_is_named_from_end_to_end() {
    let encased = |action: &str| {
        let text = format!(
            "[[host.feature]]\nat = \"50 m\"\nto = \"56 m\"\nkind = \"encasement\"\n{action}\n[[host.feature]]\nat = \"84 m\""
        );
        after(&[("[[host.feature]]\nat = \"84 m\"", &text)])
    };
    let open = encased("");
    assert_eq!(status(&open, "host.features"), Status::Fail);
    assert!(check(&open, "host.features").because.contains("encasement from 50 m to 56 m"));
    let dug = encased("action = \"dig out\"\n");
    assert_eq!(status(&dug, "host.features"), Status::Pass);
    assert!(check(&dug, "host.features").because.contains("valve at 84 m: dig out"));
    assert_eq!(dug.runs[0].opened, 2);
}
