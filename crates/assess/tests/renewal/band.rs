//! What the band spans, and what is said about it.

use assess::{Status, explain_design};

use crate::street::{
    NO_CLAMP, STREET, after, check, demand, design, near, part, run, status, street,
};

const RIG: &str = "burst.force.rig";
const BREAKING: &str = "breaking or splitting the host";
const STEEL: (&str, &str) = ("grey cast iron", "steel");

fn notes(text: &str, id: &str) -> String {
    explain_design(&design(text), id).unwrap().notes.join(" ")
}

#[test]
fn the_cone_spreads_as_the_friction_of_the_string_does() {
    let cone = part(&after(&[NO_CLAMP]), "cone against the ground");
    assert!(cone[0] < cone[1] && cone[1] < cone[2]);
    let wide = part(
        &after(&[NO_CLAMP, ("[factors]", "[factors]\nfriction_high = 0.6")]),
        "cone against the ground",
    );
    assert!(wide[2] > cone[2] && wide[..2] == cone[..2]);
}

#[test]
fn a_clamp_that_blades_cut_pulls_harder_there() {
    let (cut, plain) = (run(STREET), after(&[NO_CLAMP]));
    let (a, b) = (part(&cut, BREAKING), part(&plain, BREAKING));
    assert_eq!((check(&cut, RIG).at, check(&plain, RIG).at), (Some(38.0), Some(0.0)));
    near(a[1], 1.5 * b[1], 1e-9);
    near(a[0], b[0], 1e-9);
    assert!(a[2] > 1.5 * b[2] && a[2] < 3.0 * b[2]);
    assert!(check(&cut, RIG).because.contains("clamp or coupling"));
}

#[test]
fn a_clamp_in_a_pit_is_not_there() {
    let moved = ("at = \"38 m\"", "at = \"0 m\"");
    near(demand(&after(&[moved]), RIG), demand(&after(&[NO_CLAMP]), RIG), 1e-9);
}

#[test]
fn split_pipe_has_a_wide_band_and_asks_for_attention() {
    let strong = ("pullback = \"1000 kN\"", "pullback = \"9000 kN\"");
    let a = after(&[NO_CLAMP, STEEL, strong]);
    let split = part(&a, BREAKING);
    assert!(split[0] < 0.5 * split[1] && split[2] > 2.0 * split[1]);
    assert_eq!(status(&a, RIG), Status::Attention);
    assert_eq!(status(&after(&[NO_CLAMP, strong]), RIG), Status::Pass);
    assert!(notes(&street(&[STEEL]), RIG).contains("must not be compared"));
    let bars = street(&[("grey cast iron", "reinforced concrete"), strong, NO_CLAMP]);
    assert_eq!(status(&run(&bars), RIG), Status::Attention);
    assert!(notes(&bars, RIG).contains("leaves its steel out"));
}

#[test]
fn the_high_end_of_every_run_counts() {
    // The clamp lies in the short run, whose planning value is the lower one; the thick iron there makes its high end
    // the higher.
    let two = "launch = \"20 m\"\nmachine = \"0 m\"\n\n[[run]]\nname = \"B\"\nlaunch = \"118 m\"\nmachine = \"20 m\"";
    let short = ("at = \"38 m\"", "at = \"10 m\"");
    let text = |pull: &str| {
        street(&[
            ("launch = \"118 m\"\nmachine = \"0 m\"", two),
            short,
            ("pullback = \"1000 kN\"", &format!("pullback = \"{pull}\"")),
        ])
    };
    let a = run(&text("1750 kN"));
    assert_eq!(status(&a, RIG), Status::Attention);
    let why = &check(&a, RIG).because;
    assert!(why.starts_with("run B") && why.contains("run A reaches"), "{why}");
    assert_eq!(status(&run(&text("3000 kN")), RIG), Status::Pass);
}

#[test]
fn what_is_left_out_is_said() {
    assert!(notes(STREET, RIG).contains("Traffic"));
    assert!(notes(STREET, "burst.heave").contains("Traffic"));
    assert!(notes(STREET, RIG).contains("Bends ahead of the head"));
    assert!(run(STREET).forces.iter().all(|p| !p.remark.contains("upper bound")));
}
