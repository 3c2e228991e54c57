use std::f64::consts::PI;

use quantity::{Density, Flow, Length, Mass, Time, Velocity, Volume, unit};

use crate::ServiceError;
use crate::error::{finite, not_negative, positive, within};

/// Volume of water in a pipe, `π/4 D² L` with the *inside* diameter.
///
/// # Source
/// Geometry.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
pub fn pipe_volume(inside_diameter: Length, length: Length) -> Result<Volume, ServiceError> {
    let d = positive("inside diameter", inside_diameter.si(), unit::MM)?;
    let l = positive("length", length.si(), unit::M)?;
    finite("volume", PI / 4.0 * d * d * l).map(Volume::from_si)
}

/// Mass of chlorine that brings a volume to a dose, `V c`.
///
/// Continuous feed: at least 25 mg/l for 24 h, at least 10 mg/l left (AWWA field guide, read).
///
/// # Source
/// Conservation of mass.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/chlorine.toml`.
pub fn chlorine_mass(volume: Volume, dose: Density) -> Result<Mass, ServiceError> {
    let v = positive("volume", volume.si(), unit::M3)?;
    let c = positive("dose", dose.si(), unit::MG_PER_L)?;
    finite("mass of chlorine", v * c).map(Mass::from_si)
}

/// Mass of product that holds a mass of chlorine: divided by the fraction that is available.
///
/// # Source
/// Conservation of mass.
/// # Errors
/// [`ServiceError::OutOfRange`] for a fraction outside 0 to 1.
pub fn product_mass(chlorine: Mass, available_fraction: f64) -> Result<Mass, ServiceError> {
    let m = not_negative("mass of chlorine", chlorine.si(), unit::KG)?;
    let f = available_fraction;
    within("available fraction", f, unit::ONE, f > 0.0 && f <= 1.0, || {
        "greater than 0 and at most 1".to_owned()
    })?;
    finite("mass of product", m / f).map(Mass::from_si)
}

/// Volume of a solution that holds a mass of chlorine: divided by the strength of the solution.
///
/// # Source
/// Conservation of mass.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/chlorine-solution.toml`.
pub fn solution_volume(chlorine: Mass, strength: Density) -> Result<Volume, ServiceError> {
    let m = not_negative("mass of chlorine", chlorine.si(), unit::KG)?;
    let s = positive("strength of the solution", strength.si(), unit::G_PER_L)?;
    finite("volume of solution", m / s).map(Volume::from_si)
}

/// A slug of strongly chlorinated water that travels through the main.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slug {
    /// Volume of the slug.
    pub volume: Volume,
    /// Flow at which it travels, drawn off at the far end.
    pub flow: Flow,
    /// Time until its end has passed through a main of the whole length.
    pub time: Time,
}

/// Slug that touches every point of the main for a contact time (AWWA C651 slug method).
///
/// ```text
/// V_s = f V,   Q = V_s / t_c,   t = V / Q = t_c / f
/// ```
/// f share of the main that the slug fills, V volume of the main, t_c contact time (at least 3 h at
/// 100 mg/l).
///
/// # Source
/// AWWA disinfection field guide, read; formula from conservation of mass.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/slug.toml`, `cases/service/slug-time.toml` (published).
pub fn slug(volume: Volume, fraction: f64, contact_time: Time) -> Result<Slug, ServiceError> {
    let v = positive("volume", volume.si(), unit::M3)?;
    within("slug fraction", fraction, unit::ONE, fraction > 0.0 && fraction <= 1.0, || {
        "greater than 0 and at most 1".to_owned()
    })?;
    let t = positive("contact time", contact_time.si(), unit::H)?;
    Ok(Slug {
        volume: Volume::from_si(finite("slug volume", fraction * v)?),
        flow: Flow::from_si(finite("slug flow", fraction * v / t)?),
        time: Time::from_si(finite("slug time", t / fraction)?),
    })
}

/// Chemical that takes residual chlorine out of water before it is let go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dechlorinator {
    /// Sodium bisulfite.
    SodiumBisulfite,
    /// Sodium metabisulfite.
    SodiumMetabisulfite,
    /// Sodium sulfite.
    SodiumSulfite,
    /// Sodium thiosulfate.
    SodiumThiosulfate,
    /// Calcium thiosulfate.
    CalciumThiosulfate,
    /// Ascorbic acid.
    AscorbicAcid,
    /// Sodium ascorbate.
    SodiumAscorbate,
}

impl Dechlorinator {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::SodiumBisulfite,
        Self::SodiumMetabisulfite,
        Self::SodiumSulfite,
        Self::SodiumThiosulfate,
        Self::CalciumThiosulfate,
        Self::AscorbicAcid,
        Self::SodiumAscorbate,
    ];

    /// Word in inputs.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::SodiumBisulfite => "sodium-bisulfite",
            Self::SodiumMetabisulfite => "sodium-metabisulfite",
            Self::SodiumSulfite => "sodium-sulfite",
            Self::SodiumThiosulfate => "sodium-thiosulfate",
            Self::CalciumThiosulfate => "calcium-thiosulfate",
            Self::AscorbicAcid => "ascorbic-acid",
            Self::SodiumAscorbate => "sodium-ascorbate",
        }
    }

    /// The chemical with this word.
    #[must_use]
    pub fn find(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|d| d.word() == word)
    }

    /// Mass needed per mass of chlorine; AWWA disinfection field guide, table 7-2, read.
    #[must_use]
    pub const fn dose(self) -> f64 {
        match self {
            Self::SodiumBisulfite => 1.61,
            Self::SodiumMetabisulfite => 1.47,
            Self::SodiumSulfite => 1.96,
            Self::SodiumThiosulfate => 1.9,
            Self::CalciumThiosulfate => 1.22,
            Self::AscorbicAcid => 2.5,
            Self::SodiumAscorbate => 2.8,
        }
    }
}

/// Mass of chemical that takes a residual out of a volume, `V c_res d` with the dose d of
/// [`Dechlorinator::dose`].
///
/// # Source
/// AWWA disinfection field guide, tables 7-2 and 7-5, read.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// published table: `cases/service/dechlorination.toml`.
pub fn dechlorination_mass(
    volume: Volume,
    residual: Density,
    chemical: Dechlorinator,
) -> Result<Mass, ServiceError> {
    let v = positive("volume", volume.si(), unit::M3)?;
    let c = not_negative("residual", residual.si(), unit::MG_PER_L)?;
    finite("mass of chemical", v * c * chemical.dose()).map(Mass::from_si)
}

/// Flow that flushes a main at a velocity, `π/4 D² v`.
///
/// 2.5 ft/s in the field guide of 2006 (read), 3.0 ft/s in C651 of 2014 (from memory).
///
/// # Source
/// Continuity.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// published table: `cases/service/flushing.toml`.
pub fn flushing_flow(inside_diameter: Length, velocity: Velocity) -> Result<Flow, ServiceError> {
    let d = positive("inside diameter", inside_diameter.si(), unit::MM)?;
    let v = positive("velocity", velocity.si(), unit::M_PER_S)?;
    finite("flow", PI / 4.0 * d * d * v).map(Flow::from_si)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_chemical_is_found_by_its_word() {
        for d in Dechlorinator::ALL {
            assert_eq!(Dechlorinator::find(d.word()), Some(d));
        }
        assert_eq!(Dechlorinator::find("salt"), None);
    }

    #[test]
    fn the_slug_stays_at_every_point_for_the_contact_time() {
        let s = slug(Volume::from_si(196.35), 0.2, Time::hours(3.0)).expect("valid");
        assert!((s.volume.si() / s.flow.si() - 3.0 * 3600.0).abs() < 1e-6);
        assert!((196.35 / s.flow.si() - s.time.si()).abs() < 1e-6);
        assert!(slug(Volume::from_si(1.0), 0.0, Time::hours(3.0)).is_err());
    }
}
