//! Geometry of the bore line and of the string in it.

use std::f64::consts::{FRAC_PI_2, TAU};

use working::{Evidence, Source};

use crate::definition::{Range, Worksheet};

mod barrel;
mod profile;
mod rods;
mod slide;
mod survey;

/// Worksheets of this topic.
pub(crate) static SHEETS: &[&Worksheet] = &[
    &barrel::JOINT_RADIUS,
    &barrel::COMBINED_RADIUS,
    &barrel::BORE_FOR_BARREL,
    &barrel::BARREL_TILT,
    &profile::LEVEL_LINE,
    &profile::FIRST_LEVEL,
    &profile::RISE_FROM_LEVEL,
    &profile::OVERBEND,
    &profile::ROAD_COVER,
    &survey::SURVEY_STEP,
    &survey::STEER,
    &survey::TOOLFACE,
    &slide::SLIDE_SHARE,
    &survey::POSITION_UNCERTAINTY,
    &rods::ROD_PLAN,
    &rods::ROD_STEP,
    &rods::ROD_GRADE_PLAN,
    &rods::ROD_RADIUS,
    &rods::ROD_BENDING,
];

/// Formulas of plane and spherical geometry without any other source.
const EXACT: Source = Source::new("geometry, exact", Evidence::Derived);

/// An angle between the horizontal and the vertical, neither included.
const STEEP: Range = Range::Between(0.0, FRAC_PI_2);
/// An inclination that leaves a direction in plan.
const NOT_VERTICAL: Range = Range::Between(-FRAC_PI_2, FRAC_PI_2);
/// Any inclination.
const INCLINATION: Range = Range::Within(-FRAC_PI_2, FRAC_PI_2);
/// Any azimuth or toolface.
const FULL_TURN: Range = Range::Within(-TAU, TAU);

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
                // Numbers near the ends of what a double holds need not recompute: products
                // overflow by their order.
                let ordinary = factors.iter().all(|f| *f == 0.0 || (0.1..10.0).contains(&f.abs()));
                let (difference, symbol) = worked.working.largest_difference().unwrap();
                prop_assert!(
                    difference < 1e-6 || !ordinary,
                    "{} {symbol} {difference}: {given:?}", sheet.id
                );
            }
        }
    }

    #[test]
    fn a_straight_step_says_so_in_words_and_has_no_radius() {
        let sheet = crate::find("survey-step").unwrap();
        let given = [
            ("course_length", "3 m"),
            ("inclination_from", "-90 deg"),
            ("azimuth_from", "0 deg"),
            ("inclination_to", "-90 deg"),
            ("azimuth_to", "360 deg"),
        ];
        let worked = evaluate(sheet, &given).unwrap();
        assert_eq!(worked.word("radius"), Some("straight"));
        assert_eq!(worked.number("ratio_factor"), Some(1.0));
        assert!((worked.number("rise").unwrap() + 3.0).abs() < 1e-12);
    }

    #[test]
    fn an_infeasible_profile_is_refused_at_its_key_with_the_numbers_that_would_do() {
        let sheet = crate::find("level-line").unwrap();
        let mut given = sheet.example.to_vec();
        for (key, text) in &mut given {
            if *key == "entry_radius" {
                *text = "500 m";
            }
        }
        let errors = evaluate(sheet, &given).unwrap_err();
        assert_eq!(errors[0].key(), "entry_radius");
        assert!(errors[0].to_string().contains("a radius of at most 366.09 m"), "{}", errors[0]);
    }
}
