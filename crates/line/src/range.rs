//! The one place where values of a description are held against their range; nothing is clamped.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use quantity::{Unit, show, unit};

use crate::{Field, LineError};

/// Longest line, tangent or radius that is accepted, m. Judgement: a thousand times the longest
/// bores; keeps every sum of squares far from overflow.
const LONGEST: f64 = 1e6;
/// Largest radius that is accepted, m. Judgement: beyond it an arc of any bore is straight to a
/// micrometre.
const LARGEST_RADIUS: f64 = 1e9;

/// Collects the faults of one description.
#[derive(Debug, Default)]
pub(crate) struct Faults(pub Vec<LineError>);

impl Faults {
    fn check(&mut self, holds: bool, field: Field, si: f64, unit: Unit, allowed: &'static str) {
        if !holds {
            self.0.push(LineError::OutOfRange { field, found: show(si, unit), allowed });
        }
    }

    pub(crate) fn length(&mut self, field: Field, si: f64) {
        let holds = si > 0.0 && si <= LONGEST;
        self.check(holds, field, si, unit::M, "greater than 0 and at most 1000 km");
    }

    pub(crate) fn radius(&mut self, field: Field, si: f64) {
        let holds = si > 0.0 && si <= LARGEST_RADIUS;
        self.check(holds, field, si, unit::M, "greater than 0 and at most a million km");
    }

    pub(crate) fn place(&mut self, field: Field, si: f64) {
        let holds = si.abs() <= LARGEST_RADIUS;
        self.check(holds, field, si, unit::M, "finite and within a million km of zero");
    }

    pub(crate) fn steepness(&mut self, field: Field, si: f64) {
        let holds = (0.0..FRAC_PI_2).contains(&si);
        self.check(holds, field, si, unit::DEG, "0 deg or more and less than 90 deg");
    }

    pub(crate) fn inclination(&mut self, field: Field, si: f64) {
        let holds = si.abs() <= FRAC_PI_2 * (1.0 + 1e-15);
        self.check(holds, field, si, unit::DEG, "-90 deg to 90 deg");
    }

    pub(crate) fn azimuth(&mut self, field: Field, si: f64) {
        let holds = si.abs() <= TAU * (1.0 + 1e-15);
        self.check(holds, field, si, unit::DEG, "-360 deg to 360 deg");
    }

    pub(crate) fn bend(&mut self, field: Field, si: f64) {
        let holds = si != 0.0 && si.abs() <= PI;
        self.check(holds, field, si, unit::DEG, "-180 deg to 180 deg and not 0");
    }

    pub(crate) fn turn(&mut self, field: Field, si: f64) {
        let holds = si > 0.0 && si <= PI;
        self.check(holds, field, si, unit::DEG, "greater than 0 deg and at most 180 deg");
    }
}
