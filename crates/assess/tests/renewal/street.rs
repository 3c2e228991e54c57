//! The two demos, and ways to change and assess them.

use assess::{Assessment, Check, Status, assess_design};
use project::{Design, no_files, read_design};

pub(crate) const STREET: &str = include_str!("../../../../demo/street.toml");
pub(crate) const LANE: &str = include_str!("../../../../demo/lane-asbestos.toml");

/// A change of text: what stands in the file, and what takes its place.
pub(crate) type Change<'a> = (&'a str, &'a str);

pub(crate) fn changed(text: &str, changes: &[Change<'_>]) -> String {
    let mut text = text.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    text
}

/// The street with some of its text replaced.
pub(crate) fn street(changes: &[Change<'_>]) -> String {
    changed(STREET, changes)
}

pub(crate) fn design(text: &str) -> Design {
    read_design("x.toml", text, &no_files).unwrap_or_else(|list| panic!("{list:#?}")).design
}

pub(crate) fn run(text: &str) -> Assessment {
    assess_design(&design(text))
}

/// The street with the clamp dug out: the blades meet nothing but plain pipe.
pub(crate) const NO_CLAMP: Change<'_> = ("action = \"cutter\"", "action = \"dig out\"");

/// A text with another limit of the heave.
pub(crate) fn bearing_heave(text: &str, limit: &str) -> String {
    let line = text.lines().find(|line| line.starts_with("heave_limit")).unwrap_or("heave_limit");
    changed(text, &[(line, &format!("heave_limit = \"{limit}\""))])
}

/// The street with some of its text replaced, assessed.
pub(crate) fn after(changes: &[Change<'_>]) -> Assessment {
    run(&street(changes))
}

pub(crate) fn check<'a>(a: &'a Assessment, id: &str) -> &'a Check {
    a.check(id).unwrap_or_else(|| panic!("there is no {id}"))
}

pub(crate) fn status(a: &Assessment, id: &str) -> Status {
    check(a, id).status
}

/// What acts, in SI.
pub(crate) fn demand(a: &Assessment, id: &str) -> f64 {
    check(a, id).demand.unwrap_or_else(|| panic!("{id}: {}", check(a, id).because)).value
}

pub(crate) fn limit(a: &Assessment, id: &str) -> f64 {
    check(a, id).limit.unwrap_or_else(|| panic!("{id}: {}", check(a, id).because)).value
}

/// A part of the force: low, planning, high, in newtons.
pub(crate) fn part(a: &Assessment, name: &str) -> [f64; 3] {
    let part = a.forces.iter().find(|p| p.name == name).unwrap_or_else(|| panic!("no {name}"));
    [part.low.value, part.planning.value, part.high.value]
}

/// Values of a curve.
pub(crate) fn curve<'a>(a: &'a Assessment, id: &str) -> (&'a [f64], &'a [f64]) {
    let found = a.profiles.iter().find(|p| p.id == id).unwrap_or_else(|| panic!("no {id}"));
    (&found.md, &found.values)
}

/// Ids of the checks whose outcome, value or limit differ.
pub(crate) fn moved(a: &Assessment, b: &Assessment) -> Vec<String> {
    let differs = |x: &Check| {
        b.check(&x.id).is_none_or(|y| {
            (x.status, x.demand, x.limit) != (y.status, y.demand, y.limit)
                || x.utilisation != y.utilisation
        })
    };
    a.checks.iter().filter(|x| differs(x)).map(|x| x.id.clone()).collect()
}

pub(crate) fn near(found: f64, expected: f64, share: f64) {
    assert!((found / expected - 1.0).abs() <= share, "{found} against {expected}");
}
