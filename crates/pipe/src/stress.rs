use std::f64::consts::PI;

use quantity::{Force, Length, Pressure, show, unit};

use crate::error::{finite, not_negative, positive, within};
use crate::{Pipe, PipeError};

/// How far one restrained joint slides while its lock seats under load, at most; read in one
/// manufacturer's trenchless manual, p. 120.
pub const JOINT_TAKE_UP: Length = Length::from_si(0.008);

/// Thermal expansion of ductile iron, 1/K. From memory (EN handbooks 10 to 11, US handbooks 11.2).
pub const THERMAL_EXPANSION: f64 = 11.0e-6;

/// Checks a diameter with its wall and returns both in metres.
fn round_wall(outside_diameter: Length, wall: Length) -> Result<(f64, f64), PipeError> {
    let de = positive("outside diameter", outside_diameter.si(), unit::MM)?;
    let e = positive("wall", wall.si(), unit::MM)?;
    within("wall", e, unit::MM, e < de / 2.0, || {
        format!("less than half the outside diameter ({})", show(de / 2.0, unit::MM))
    })?;
    Ok((de, e))
}

/// Hoop stress of a thin wall under internal pressure, `σ = p (DE − e) / (2 e)`.
///
/// # Source
/// Industry handbook on ductile iron pipe systems, chapter 5 (08.2018), eq. 5.1, read.
/// Mean-diameter form.
/// # Errors
/// [`PipeError::OutOfRange`] names the argument; the pressure may be zero.
pub fn hoop_stress(
    pressure: Pressure,
    outside_diameter: Length,
    wall: Length,
) -> Result<Pressure, PipeError> {
    let p = not_negative("pressure", pressure.si(), unit::BAR)?;
    let (de, e) = round_wall(outside_diameter, wall)?;
    finite("hoop stress", p * (de - e) / (2.0 * e), unit::MPA).map(Pressure::from_si)
}

/// Axial stress of a restrained line under internal pressure, `σ = p (DE − e) / (4 e)`; about zero
/// in unrestrained lines.
///
/// # Source
/// As [`hoop_stress`], eq. 5.2, read.
/// # Errors
/// As [`hoop_stress`].
pub fn axial_stress(
    pressure: Pressure,
    outside_diameter: Length,
    wall: Length,
) -> Result<Pressure, PipeError> {
    Ok(hoop_stress(pressure, outside_diameter, wall)? / 2.0)
}

/// Thrust of the pressure on a closed end, `N = p π DE² / 4`.
///
/// The outside diameter counts, because the seal runs on the spigot. Both EN 545 and the US manuals
/// take it so.
///
/// # Source
/// EN 545 / ISO 10804 end-thrust test and GW 368, concept read; statics.
/// # Errors
/// [`PipeError::OutOfRange`] for a diameter that is not positive or a pressure below zero.
/// # Checked by
/// `cases/pipe/end-thrust.toml`.
pub fn end_thrust(pressure: Pressure, outside_diameter: Length) -> Result<Force, PipeError> {
    let p = not_negative("pressure", pressure.si(), unit::BAR)?;
    let de = positive("outside diameter", outside_diameter.si(), unit::MM)?;
    finite("end thrust", p * PI * de * de / 4.0, unit::KN).map(Force::from_si)
}

/// Pressure whose thrust on a closed end is a given force, `p = F / (π DE² / 4)`: the inverse of
/// [`end_thrust`]. It sets a permitted pull beside a joint's pressure rating.
///
/// # Source
/// Statics.
/// # Errors
/// [`PipeError::OutOfRange`] for a diameter that is not positive or a force below zero.
/// # Checked by
/// `cases/pipe/joint-pull-as-pressure.toml` (computed).
pub fn pressure_of_thrust(force: Force, outside_diameter: Length) -> Result<Pressure, PipeError> {
    let f = not_negative("force", force.si(), unit::KN)?;
    let de = positive("outside diameter", outside_diameter.si(), unit::MM)?;
    finite("pressure", f / (PI * de * de / 4.0), unit::BAR).map(Pressure::from_si)
}

/// Axial force for which a joint of allowable operating pressure `pfa` has been proved, `(1.5 PFA +
/// 5 bar) π DE² / 4`.
///
/// # Source
/// EN 545 clauses 5 and 7, ISO 10804: pressure of the type test from memory.
/// # Errors
/// As [`end_thrust`].
pub fn joint_proof_force(pfa: Pressure, outside_diameter: Length) -> Result<Force, PipeError> {
    let p = positive("allowable operating pressure", pfa.si(), unit::BAR)?;
    end_thrust(Pressure::from_si(1.5 * p + 5.0e5), outside_diameter)
}

/// Axial force at which a barrel reaches its proof strength, `F = R_p0.2 π (DE − e) e`.
///
/// Take the least wall.
///
/// # Source
/// Statics of a thin ring; proof strength from memory (EN 545 table 5).
/// # Errors
/// [`PipeError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/pipe/barrel-capacity.toml`.
pub fn barrel_axial_capacity(
    proof_strength: Pressure,
    outside_diameter: Length,
    wall: Length,
) -> Result<Force, PipeError> {
    let r = positive("proof strength", proof_strength.si(), unit::MPA)?;
    let (de, e) = round_wall(outside_diameter, wall)?;
    finite("axial capacity", r * PI * (de - e) * e, unit::KN).map(Force::from_si)
}

/// Elastic stretch of a string under an axial force, `F L / (E π (DE − e) e)`. Joint take-up comes
/// on top.
///
/// # Source
/// Hooke's law.
/// # Errors
/// [`PipeError::OutOfRange`] names the argument; force and length may be zero.
pub fn elastic_stretch(
    force: Force,
    length: Length,
    modulus: Pressure,
    outside_diameter: Length,
    wall: Length,
) -> Result<Length, PipeError> {
    let f = not_negative("force", force.si(), unit::KN)?;
    let l = not_negative("length", length.si(), unit::M)?;
    let e_modulus = positive("modulus of elasticity", modulus.si(), unit::GPA)?;
    let (de, e) = round_wall(outside_diameter, wall)?;
    finite("stretch", f * l / (e_modulus * PI * (de - e) * e), unit::MM).map(Length::from_si)
}

/// Elastic stretch of a closed restrained string under internal pressure, without Poisson's
/// shortening.
///
/// # Source
/// [`end_thrust`] and [`elastic_stretch`]; leaving out the shortening by the hoop stress errs to
/// the long side.
/// # Errors
/// As these two.
pub fn pressure_stretch(
    pressure: Pressure,
    length: Length,
    modulus: Pressure,
    outside_diameter: Length,
    wall: Length,
) -> Result<Length, PipeError> {
    let thrust = end_thrust(pressure, outside_diameter)?;
    elastic_stretch(thrust, length, modulus, outside_diameter, wall)
}

/// Movement of a free string for a change of temperature in kelvin, positive when it gets longer.
///
/// # Source
/// [`THERMAL_EXPANSION`].
/// # Errors
/// [`PipeError::OutOfRange`] for a length below zero or a temperature that is not finite.
/// # Checked by
/// `cases/pipe/thermal-movement.toml` (computed).
pub fn thermal_movement(length: Length, kelvin: f64) -> Result<Length, PipeError> {
    let l = not_negative("length", length.si(), unit::M)?;
    let t = within("temperature change", kelvin, unit::ONE, kelvin.is_finite(), || {
        "finite".to_owned()
    })?;
    finite("movement", THERMAL_EXPANSION * l * t, unit::MM).map(Length::from_si)
}

/// Length that a string gains while the locks of its joints seat, at most: [`JOINT_TAKE_UP`] a
/// joint.
#[must_use]
pub fn joint_take_up(joints: u32) -> Length {
    JOINT_TAKE_UP * f64::from(joints)
}

impl Pipe {
    /// Axial force at which the barrel reaches its proof strength, on the least wall.
    ///
    /// # Errors
    /// As [`barrel_axial_capacity`]; a valid pipe has none.
    pub fn axial_capacity(&self) -> Result<Force, PipeError> {
        barrel_axial_capacity(self.proof_strength(), self.outside_diameter(), self.wall_min())
    }

    /// Elastic stretch of a string of this pipe under an axial force, on the nominal wall.
    ///
    /// # Errors
    /// As [`elastic_stretch`].
    pub fn stretch(&self, force: Force, length: Length) -> Result<Length, PipeError> {
        let (d, e) = (self.outside_diameter(), self.wall_nominal());
        elastic_stretch(force, length, self.modulus(), d, e)
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::*;

    const DN600: f64 = 635.0;

    #[test]
    fn hoop_and_axial_stress_are_in_equilibrium_with_the_thrust() {
        let (p, d, e) = (Pressure::bar(15.0), Length::millimetres(DN600), Length::millimetres(9.9));
        let hoop = hoop_stress(p, d, e).expect("valid");
        let axial = axial_stress(p, d, e).expect("valid");
        assert_relative_eq!(hoop.si(), 2.0 * axial.si());
        // The axial stress of the boiler formula: it carries p on the mean circle.
        let ring = PI * (d.si() - e.si()) * e.si();
        let mean_circle = PI / 4.0 * (d.si() - e.si()).powi(2);
        assert_relative_eq!(axial.si() * ring, p.si() * mean_circle, max_relative = 1e-12);
    }

    #[test]
    fn five_hundred_kilonewtons_stretch_326_metres_of_dn_600_by_49_millimetres() {
        let s = elastic_stretch(
            Force::kilonewtons(500.0),
            Length::metres(326.0),
            Pressure::from_si(170e9),
            Length::millimetres(DN600),
            Length::millimetres(9.9),
        );
        assert_relative_eq!(s.expect("valid").to_millimetres(), 49.3, epsilon = 0.1);
    }

    #[test]
    fn take_up_and_temperature_follow_the_length() {
        assert_relative_eq!(joint_take_up(59).si(), 0.472);
        let t = thermal_movement(Length::metres(350.0), 10.0).expect("valid");
        assert_relative_eq!(t.to_millimetres(), 38.5, max_relative = 1e-12);
        assert!(thermal_movement(Length::metres(1.0), f64::NAN).is_err());
    }
}
