//! Pulling a string into a bore: published methods, rules of thumb and the chain on a bend.

use pull::published::PublishedError;

use crate::definition::{Input, Worksheet};
use crate::run::Failure;

mod barrel;
mod calibration;
mod capstan;
mod f1962;
mod quick;
mod stage;
mod stiff;
mod uplift;

/// Worksheets of this topic.
pub(crate) static SHEETS: &[&Worksheet] = &[
    &capstan::CHAIN_CAPSTAN,
    &capstan::JOINT_SIDE_FORCE,
    &f1962::PULL_F1962,
    &f1962::HYDROKINETIC_SHEET,
    &f1962::PULL_MINI,
    &uplift::MINI_UPLIFT,
    &stiff::PULL_STRAIGHT,
    &stiff::PULL_ARC_STIFF,
    &stage::PULL_STAGE,
    &stage::BEND_REACTION_SHEET,
    &quick::PULL_QUICK,
    &quick::PULL_WEIGHT_SHARE,
    &barrel::STRETCH_SHEET,
    &barrel::BARREL_BENDING,
    &calibration::CALIBRATION_SHEET,
];

/// The refusal of a calculation, at the input whose key is the name of the quantity at fault.
fn refused(sheet: &'static Worksheet, error: &PublishedError) -> Failure {
    let names = |input: &&Input| Some(input.key.replace('_', " ").as_str()) == error.quantity();
    let key = sheet.inputs.iter().find(names).map_or("", |input| input.key);
    Failure::at(key, error)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::SHEETS;
    use crate::definition::Shape;
    use crate::evaluate;

    proptest! {
        #[test]
        fn any_inputs_are_worked_out_or_refused_and_every_working_recomputes(
            index in 0..SHEETS.len(),
            factors in proptest::collection::vec(
                prop_oneof![
                    8 => 0.2f64..5.0,
                    1 => Just(0.0),
                    1 => Just(-1.0),
                    1 => prop::num::f64::NORMAL,
                ],
                20,
            ),
        ) {
            let sheet = SHEETS[index];
            let mut given = Vec::new();
            for ((key, text), factor) in sheet.example.iter().zip(&factors) {
                let shape = sheet.inputs.iter().find(|i| i.key == *key).map(|i| i.shape);
                let changed = match shape {
                    Some(Shape::Quantity(unit, _)) => {
                        let (si, _) = quantity::parse(text, unit.kind()).unwrap();
                        format!("{:e}", si * factor)
                    }
                    _ => (*text).to_owned(),
                };
                given.push((*key, changed));
            }
            if let Ok(worked) = evaluate(sheet, &given) {
                for output in sheet.outputs {
                    let finite = worked.number(output.key).is_some_and(f64::is_finite);
                    prop_assert!(finite || worked.word(output.key).is_some(), "{}", output.key);
                }
                let finite = worked.working.steps.iter().all(|s| s.value.is_finite());
                prop_assert!(finite, "{}: {given:?}", sheet.id);
                // Numbers near the ends of what a double holds need not recompute: products overflow by their order.
                let ordinary = factors.iter().all(|f| *f == 0.0 || (0.1..10.0).contains(&f.abs()));
                let (difference, symbol) = worked.working.largest_difference().unwrap();
                prop_assert!(
                    difference < 1e-6 || !ordinary,
                    "{} {symbol} {difference}: {given:?}", sheet.id
                );
            }
        }
    }
}
