//! Changes that make a failing check of a renewal pass.

use assess::Status;

use crate::street::{run, status, street};

const PULL: &str = "pullback = \"1000 kN\"";

#[test]
fn a_larger_machine_is_the_smallest_that_serves() {
    let small =
        |kilonewtons: u32| run(&street(&[(PULL, &format!("pullback = \"{kilonewtons} kN\""))]));
    let a = small(300);
    assert_eq!(status(&a, "burst.force.rig"), Status::Fail);
    let found = a.remedies.iter().find(|r| r.parameter == "/machine/pullback").unwrap();
    let enough: u32 = found.to.trim_end_matches(" kN").parse().unwrap();
    assert_ne!(status(&small(enough), "burst.force.rig"), Status::Fail);
    assert_eq!(status(&small(enough - 50), "burst.force.rig"), Status::Fail);
}

#[test]
fn a_dry_string_is_told_to_be_lubricated() {
    let pairs = [("lubricated = \"yes\"", "lubricated = \"no\"")];
    let a = run(&street(&pairs));
    assert_eq!(status(&a, "pull.joint-force"), Status::Fail);
    let of = |parameter: &str| {
        a.remedies.iter().find(|r| r.check == "pull.joint-force" && r.parameter == parameter)
    };
    assert_eq!(of("/burst/lubricated").unwrap().to, "yes");
    assert!(of("/run").unwrap().to.contains("with a pit between"));
    assert_ne!(status(&run(&street(&[])), "pull.joint-force"), Status::Fail);
}

#[test]
fn a_short_launch_pit_is_made_longer() {
    let a = run(&street(&[("launch_length = \"8 m\"", "launch_length = \"3 m\"")]));
    let found = a.remedies.iter().find(|r| r.parameter == "/pit/launch_length").unwrap();
    let long = format!("launch_length = \"{}\"", found.to);
    let b = run(&street(&[("launch_length = \"8 m\"", &long)]));
    assert_ne!(status(&b, "burst.pit"), Status::Fail);
    assert_eq!(a.fixes.len(), 1);
}

#[test]
fn nothing_is_changed_where_nothing_fails() {
    let a = run(&street(&[]));
    assert!(a.remedies.is_empty() && a.fixes.is_empty() && a.search_complete);
}
