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
    use crate::evaluate;

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
