//! Every published case holds, and every worksheet has one.

use testkit::cases::{Case, OTHER_METHODS, read_all, run_all};
use testkit::workspace_root;

/// Worksheets without a case, each with the reason.
const WITHOUT_CASE: &[(&str, &str)] = &[];

fn cases() -> Vec<Case> {
    read_all(&workspace_root().join("cases")).unwrap_or_else(|e| panic!("\n{e}\n"))
}

#[test]
fn every_case_holds() {
    let summary = run_all(&cases());
    println!("{summary}");
    for row in &summary.known_failing {
        println!("known to fail: {row}");
    }
    assert!(summary.cases > 0, "there are no cases");
    assert!(summary.failures.is_empty(), "\n{}\n{summary}", summary.failures.join("\n"));
}

#[test]
fn every_worksheet_is_checked_by_a_case() {
    let cases = cases();
    let missing: Vec<_> = worksheet::all()
        .into_iter()
        .map(|sheet| sheet.id)
        .filter(|id| !cases.iter().any(|case| case.method == *id))
        .filter(|id| !WITHOUT_CASE.iter().any(|(without, _)| without == id))
        .collect();
    assert!(missing.is_empty(), "worksheets without a case: {}", missing.join(", "));
    for (id, reason) in WITHOUT_CASE {
        assert!(!reason.is_empty(), "{id} is left out without a reason");
        assert!(!cases.iter().any(|case| case.method == *id), "{id} has a case: take it off");
        assert!(worksheet::find(id).is_some(), "{id} is left out, but is no worksheet");
    }
}

#[test]
fn every_method_of_a_case_exists() {
    for case in cases() {
        let known = worksheet::find(&case.method).is_some()
            || OTHER_METHODS.iter().any(|(name, ..)| *name == case.method);
        assert!(known, "{}: there is no method \"{}\"", case.id, case.method);
    }
}
