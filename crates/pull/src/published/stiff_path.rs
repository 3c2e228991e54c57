//! A path of straights and arcs by the stiff-pipe method.

use quantity::{Angle, Force, Length};

use super::{Arc, Contact, PublishedError, StiffPipe, arc_stiff, straight};

/// One part of a path, in the direction of the pull.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PathPart {
    /// A straight.
    Straight {
        /// Length.
        length: Length,
        /// Inclination, positive where the pipe climbs.
        inclination: Angle,
    },
    /// An arc.
    Arc(Arc),
}

/// Pull after each part of a path, from the pipe side to the rig side.
///
/// [`straight`] and [`arc_stiff`] one after another, each with the pull that the one before leaves.
///
/// # Source
/// [`super::STIFF_PIPE`].
/// # Errors
/// [`PublishedError::InPart`] with the number of the part and what is wrong in it.
/// # Checked by
/// `cases/pull/stiff-path.toml`.
pub fn stiff_path(
    pipe: &StiffPipe,
    contact: &Contact,
    force_in: Force,
    parts: &[PathPart],
) -> Result<Vec<Force>, PublishedError> {
    let mut force = force_in;
    let mut after = Vec::with_capacity(parts.len());
    for (index, part) in parts.iter().enumerate() {
        let out = match part {
            PathPart::Straight { length, inclination } => {
                straight(pipe, contact, force, *length, *inclination).map(|s| s.force_out)
            }
            PathPart::Arc(arc) => arc_stiff(pipe, contact, force, arc).map(|a| a.force_out),
        };
        force = out.map_err(|error| PublishedError::InPart {
            number: index + 1,
            error: Box::new(error),
        })?;
        after.push(force);
    }
    Ok(after)
}

#[cfg(test)]
mod tests {
    use quantity::ForcePerLength;

    use super::super::BendPlane;
    use super::super::fixtures::{arc, contact, steel};
    use super::*;

    #[test]
    fn path_of_the_reference_crossing_gives_its_forces() {
        let pipe = StiffPipe {
            outside_diameter: Length::metres(0.6096),
            net_weight: ForcePerLength::from_si(-1_601.293_41),
            ..steel(0.0)
        };
        let straight = |length: f64, inclination: f64| PathPart::Straight {
            length: Length::metres(length),
            inclination: Angle::degrees(inclination),
        };
        let path = [
            straight(100.0, -8.0),
            PathPart::Arc(arc(732.0, 8.0, -4.0, BendPlane::Sag)),
            straight(200.0, 0.0),
            PathPart::Arc(arc(732.0, 10.0, 5.0, BendPlane::Sag)),
            straight(120.0, 10.0),
        ];
        let forces = stiff_path(&pipe, &contact(0.3, 345.0), Force::ZERO, &path).unwrap();
        for (found, expected) in forces.iter().zip([135.93, 296.46, 524.68, 709.63, 812.32]) {
            assert!((found.to_kilonewtons() - expected).abs() <= 0.005, "{found}");
        }
    }

    #[test]
    fn inputs_outside_the_range_are_named_with_the_part() {
        let pipe = steel(-1600.0);
        let bad = PathPart::Arc(arc(732.0, 100.0, 0.0, BendPlane::Sag));
        let good = PathPart::Straight { length: Length::metres(1.0), inclination: Angle::ZERO };
        let error = stiff_path(&pipe, &contact(0.3, 0.0), Force::ZERO, &[good, bad]).unwrap_err();
        assert_eq!(
            error.to_string(),
            "part 2 of the path: arc angle must be 0 deg to 90 deg, but was 100 deg"
        );
        assert_eq!(error.quantity(), Some("arc angle"));
    }
}
