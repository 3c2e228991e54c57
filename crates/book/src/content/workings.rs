//! Every check with its working.

use assess::{Explanation, JointRow, Reading};
use quantity::Unit;
use quantity::unit::{DEG, KN, M, MM};
use serde_json::{Value, json};
use working::{Formula, Step, Working, expression};

use super::{Writer, checks};
use crate::formula;

/// Most joints that are shown for a check.
const JOINTS: usize = 12;

/// Every check with its working, in the order of the work.
pub(super) fn all(w: &Writer<'_>) -> Value {
    w.subject.explanations.iter().map(|e| one(w, e)).collect()
}

fn one(w: &Writer<'_>, e: &Explanation) -> Value {
    let last = e.working.steps.len().saturating_sub(1);
    json!({
        "check": checks::row(w, &e.check),
        "because": w.letters.sentence(&e.check.because),
        "short": e.check.because.len() + e.check.basis.text.len() < super::SHORT,
        "basis": w.references.cite(&e.check.basis),
        "basis_text": w.letters.line(&e.check.basis.text),
        "missing": e.check.missing.iter().map(|key| w.letters.id(key)).collect::<Vec<_>>(),
        "steps": e.working.steps.iter().enumerate()
            .map(|(k, s)| step(w, &e.working, s, k == last)).collect::<Vec<_>>(),
        "notes": e.notes.iter().map(|note| w.letters.sentence(note)).collect::<Vec<_>>(),
        "joints": joints(w, e),
    })
}

fn step(w: &Writer<'_>, working: &Working, step: &Step, last: bool) -> Value {
    let mut shown = json!({
        "symbol": formula::symbol(&w.letters.line(&step.symbol)),
        "name": w.letters.line(&step.symbol),
        "meaning": w.letters.line(&step.meaning),
        "value": w.value(Reading::new(step.value, step.unit)),
        "source": w.references.cite(&step.source),
        "last": last,
        "short": step.meaning.len() < super::SHORT,
    });
    let Some(object) = shown.as_object_mut() else { return shown };
    match &step.formula {
        Formula::Given => {}
        Formula::Procedure(text) => {
            object.insert("procedure".to_owned(), json!(w.letters.line(text)));
        }
        Formula::Expression(text) => match expression::read(text) {
            Ok(node) => {
                let number =
                    |symbol: &str| working.step(symbol).map(|s| quantity::significant(s.value, 5));
                object.insert("formula".to_owned(), formula::tree(&node, &|_| None));
                object.insert("plain".to_owned(), json!(format!("{} = {node}", step.symbol)));
                object.insert("numbers".to_owned(), formula::tree(&node, &number));
                object.insert(
                    "plain_numbers".to_owned(),
                    json!(working.numbers_put_in(step).unwrap_or_default()),
                );
            }
            Err(_) => {
                object.insert("procedure".to_owned(), json!(w.letters.line(text)));
            }
        },
    }
    shown
}

/// The joints that are loaded most, in the order of the string.
fn joints(w: &Writer<'_>, e: &Explanation) -> Value {
    if e.joints.is_empty() {
        return Value::Null;
    }
    let by_angle = e.check.id.contains("angle");
    let load = |j: &JointRow| if by_angle { j.angle } else { j.tension };
    let mut order: Vec<usize> = (0..e.joints.len()).collect();
    order.sort_by(|a, b| {
        let of = |k: &usize| e.joints.get(*k).map_or(f64::NEG_INFINITY, load);
        of(b).total_cmp(&of(a)).then(a.cmp(b))
    });
    order.truncate(JOINTS);
    order.sort_unstable();
    let shown = |value: f64, unit: Unit| w.value(Reading::new(tidy(value, unit), unit));
    let rows: Vec<Value> = order
        .iter()
        .filter_map(|k| e.joints.get(*k))
        .map(|j| {
            json!([
                shown(j.md, M),
                shown(j.tension, KN),
                shown(j.side_force, KN),
                shown(j.angle, DEG),
                shown(j.up, MM),
                shown(j.right, MM),
                shown(j.clearance, MM),
            ])
        })
        .collect();
    let count = e.joints.len();
    let what = if by_angle { "angle" } else { "tension" };
    let says = if count > JOINTS {
        format!(
            "The {JOINTS} joints with the greatest {what} of {count} in the bore, from the tail to the head."
        )
    } else {
        format!("All {count} joints in the bore, from the tail to the head.")
    };
    json!({ "says": says, "rows": rows })
}

/// A value of the march with as many digits as it can bear: a thousandth of the unit, a hundredth of a newton less.
fn tidy(value: f64, unit: Unit) -> f64 {
    unit.to_si((unit.from_si(value) * 1000.0).round() / 1000.0)
}
