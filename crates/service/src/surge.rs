use pipe::WATER_DENSITY;
use quantity::{Length, Pressure, Velocity, unit};

use crate::ServiceError;
use crate::error::{finite, positive, within};

/// Bulk modulus of cold water, Pa; common handbook value. From memory.
pub const WATER_MODULUS: Pressure = Pressure::from_si(2.1e9);

/// How the pipe is held along its axis, which decides how far the ring may stretch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Restraint {
    /// Unrestrained sockets throughout: no axial stress.
    Joints,
    /// Held against any axial movement, as a restrained string in the ground.
    Anchored,
    /// Held at the upstream end only.
    OneEnd,
}

impl Restraint {
    /// Factor c of the wave speed: 1, 1 − ν², 1 − ν/2.
    ///
    /// # Source
    /// Wylie and Streeter's forms in a solver's public documentation, read. Some texts use 5/4 − ν
    /// for one end.
    #[must_use]
    pub fn factor(self, poisson: f64) -> f64 {
        match self {
            Restraint::Joints => 1.0,
            Restraint::Anchored => 1.0 - poisson * poisson,
            Restraint::OneEnd => 1.0 - poisson / 2.0,
        }
    }
}

/// Speed of a pressure wave in a full pipe (Korteweg, Joukowsky).
///
/// ```text
/// a = √(K/ρ) / √( 1 + (K/E) (D/e) c )
/// ```
/// | symbol | meaning                             | unit  | argument            |
/// |--------|-------------------------------------|-------|---------------------|
/// | K      | bulk modulus of water, 2.1 GPa      | Pa    | [`WATER_MODULUS`]   |
/// | ρ      | density of water                    | kg/m³ | [`WATER_DENSITY`]   |
/// | E      | modulus of the pipe                 | Pa    | `modulus`           |
/// | D, e   | inside diameter, wall               | m     | `inside_diameter`, `wall` |
/// | c      | [`Restraint::factor`]               | –     | `restraint`, `poisson` |
///
/// The lining's stiffness is left out, which errs to the low side by about 1 %.
///
/// # Source
/// General solver documentation, read.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/wave-speed.toml` (computed).
pub fn wave_speed(
    inside_diameter: Length,
    wall: Length,
    modulus: Pressure,
    poisson: f64,
    restraint: Restraint,
) -> Result<Velocity, ServiceError> {
    let d = positive("inside diameter", inside_diameter.si(), unit::MM)?;
    let e = positive("wall", wall.si(), unit::MM)?;
    let modulus = positive("modulus of elasticity", modulus.si(), unit::GPA)?;
    let nu = within("Poisson's ratio", poisson, unit::ONE, (0.0..0.5).contains(&poisson), || {
        "0 or more and less than 0.5".to_owned()
    })?;
    let k = WATER_MODULUS.si();
    let stretch = k / modulus * d / e * restraint.factor(nu);
    finite("wave speed", (k / WATER_DENSITY.si()).sqrt() / (1.0 + stretch).sqrt())
        .map(Velocity::from_si)
}

/// Pressure rise of a sudden change of velocity, `Δp = ρ a Δv` (Joukowsky).
///
/// Full for a closing time up to 2 L / a.
///
/// # Source
/// General solver documentation, read.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
pub fn pressure_rise(speed: Velocity, change: Velocity) -> Result<Pressure, ServiceError> {
    let a = positive("wave speed", speed.si(), unit::M_PER_S)?;
    let v = positive("change of velocity", change.si(), unit::M_PER_S)?;
    finite("pressure rise", WATER_DENSITY.si() * a * v).map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use pipe::EN545_MODULUS;

    use super::*;
    use crate::POISSON;

    #[test]
    fn a_stiffer_hold_makes_a_faster_wave_and_a_rigid_pipe_the_speed_of_sound() {
        let at = |r| {
            wave_speed(
                Length::millimetres(302.0),
                Length::millimetres(7.2),
                EN545_MODULUS,
                POISSON,
                r,
            )
            .expect("valid")
        };
        assert!(at(Restraint::Joints) < at(Restraint::Anchored));
        assert!(at(Restraint::Anchored) < at(Restraint::OneEnd));
        let rigid = wave_speed(
            Length::metres(0.3),
            Length::metres(0.01),
            Pressure::from_si(1e20),
            POISSON,
            Restraint::Joints,
        );
        assert!((rigid.expect("valid").si() - 2.1e6f64.sqrt()).abs() < 1e-3);
    }
}
