//! Verdict, the tightest checks and the table of all checks.

use assess::{Check, Sense, Status, VerdictStatus};
use serde_json::{Value, json};

use super::Writer;

/// How many checks the summary shows.
const TIGHTEST: usize = 10;

/// Outcome in a word.
pub(super) const fn outcome(status: Status) -> &'static str {
    match status {
        Status::Pass => "pass",
        Status::Attention => "attention",
        Status::Fail => "fail",
        Status::NotAssessed => "not assessed",
    }
}

/// The verdict with the check that governs.
pub(super) fn verdict(w: &Writer<'_>) -> Value {
    let a = &w.subject.assessment;
    let word = match a.verdict.status {
        VerdictStatus::Feasible => "Feasible",
        VerdictStatus::FeasibleWithAttention => "Feasible, with attention",
        VerdictStatus::NotFeasible => "Not feasible as described",
        VerdictStatus::Incomplete => "Incomplete",
    };
    // The sentence of a verdict begins with its word, which stands above it here.
    let sentence = a.verdict.sentence.as_str();
    let sentence =
        sentence.strip_prefix(word).and_then(|rest| rest.strip_prefix(": ")).unwrap_or(sentence);
    json!({
        "word": word,
        "sentence": w.letters.sentence(sentence),
        "fails": a.verdict.status == VerdictStatus::NotFeasible,
        "governing": w.subject.governing().map(|check| json!({
            "id": w.letters.id(&check.id),
            "title": w.letters.line(&check.title),
            "because": w.letters.sentence(&check.because),
            "place": place_in_list(w, check),
        })),
    })
}

/// What fails, then what uses most of its limit.
pub(super) fn tightest(w: &Writer<'_>) -> Value {
    let checks = &w.subject.assessment.checks;
    let mut list: Vec<&Check> = checks
        .iter()
        .filter(|c| c.status == Status::Fail || (!c.rule && c.utilisation.is_some()))
        .collect();
    let rank = |c: &Check| {
        (c.status == Status::Fail, if c.rule { 0.0 } else { c.utilisation.unwrap_or(0.0) })
    };
    list.sort_by(|a, b| {
        let (a, b) = (rank(a), rank(b));
        b.0.cmp(&a.0).then(b.1.total_cmp(&a.1))
    });
    list.into_iter().take(TIGHTEST).map(|check| row(w, check)).collect()
}

/// Every check in the order of the work.
pub(super) fn all(w: &Writer<'_>) -> Value {
    w.subject.assessment.checks.iter().map(|check| row(w, check)).collect()
}

/// A check in a table.
pub(super) fn row(w: &Writer<'_>, check: &Check) -> Value {
    let sign = match check.sense {
        Sense::AtMost => "≤",
        Sense::AtLeast => "≥",
    };
    let used = if check.rule { None } else { check.utilisation };
    json!({
        "id": w.letters.id(&check.id),
        "title": w.letters.line(&check.title),
        "demand": check.demand.map_or_else(|| "–".to_owned(), |r| w.value(r)),
        "limit": check.limit.map_or_else(|| "–".to_owned(), |r| format!("{sign} {}", w.value(r))),
        "used": if check.rule { "rule".to_owned() } else { check.share_used().unwrap_or_else(|| "–".to_owned()) },
        "share": used.map(|u| u.clamp(0.0, 1.25)),
        "over": used.is_some_and(|u| u > 1.25),
        "at": check.at.map_or_else(|| "–".to_owned(), |at| w.place(at)),
        "outcome": outcome(check.status),
        "place": place_in_list(w, check),
        "short": check.title.len() < super::SHORT,
    })
}

/// Where the working of a check stands among the workings.
fn place_in_list(w: &Writer<'_>, check: &Check) -> Option<usize> {
    w.subject.explanations.iter().position(|e| e.check.id == check.id)
}
