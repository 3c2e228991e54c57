use quantity::{Angle, Length, Pressure, show, unit};

use crate::FluidError;
use crate::error::{between, finite, not_negative, positive, within};

/// Largest friction angle that is accepted, degrees.
// Judgement: no soil has more; rock that has is not to be treated as a continuum.
pub(crate) const MOST_FRICTION_DEGREES: f64 = 60.0;

/// Largest strain of the wall that is accepted.
// Judgement: small-strain theory has no say beyond; NEN 3650-1 allows 5 % in sand (from memory).
const MOST_WALL_STRAIN: f64 = 0.2;

/// A bore in ground with friction and cohesion, drained: how much pressure its wall bears.
///
/// Expansion of a cylindrical cavity in an elastic, perfectly plastic ground of Mohr and Coulomb
/// without change of volume in the plastic zone, the formula that horizontal drilling knows as
/// Delft's. All pressures of this type are *effective*: add the pore pressure for what a gauge
/// shows.
///
/// ```text
/// p'_f   = σ'₀ (1 + sin φ) + c cos φ                    first yield of the wall
/// Q      = (σ'₀ sin φ + c cos φ)/G
/// p'_max = (p'_f + c cot φ) ( (R₀/R_p)² + Q )^(−sin φ/(1 + sin φ)) − c cot φ
/// R_g²   = R₀² + Q R_p²                                  radius to which the bore has grown
/// ```
/// | symbol | meaning                                              | unit | field              |
/// |--------|------------------------------------------------------|------|--------------------|
/// | σ'₀    | mean effective stress across the bore                | Pa   | `effective_stress` |
/// | φ      | friction angle, 0 to 60°                             | rad  | `friction_angle`   |
/// | c      | cohesion                                             | Pa   | `cohesion`         |
/// | G      | shear modulus at strains of per cents, not the one of shear waves | Pa | `shear_modulus` |
/// | R₀     | radius of the bore of this pass                      | m    | `bore_radius`      |
/// | R_p    | radius of the plastic zone, from the axis            | m    | argument           |
///
/// The mean stress takes part with (1 + K₀)/2: the usual K₀ = 1 is unsafe in ground at rest.
/// Friction 0 gives the undrained formula with c as strength, see
/// [`UndrainedCavity`](crate::UndrainedCavity). Ground in which Q reaches 1 is refused: its strength
/// is as large as its modulus, and small-strain theory does not hold.
///
/// # Source
/// Luger & Hergarden 1988 as in general use; derived here again. Integration of the equilibrium
/// with the volume term that the formula drops differs by less than 0.12 %.
/// # Checked by
/// `cases/fluid/limit-pressure*.toml`; numerical integration; properties: rises with stress,
/// cohesion, modulus and, without cohesion, friction; falls with the radius of the bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cavity {
    /// Mean effective stress σ'₀ across the bore before it was drilled.
    pub effective_stress: Pressure,
    /// Friction angle φ.
    pub friction_angle: Angle,
    /// Cohesion c.
    pub cohesion: Pressure,
    /// Shear modulus G.
    pub shear_modulus: Pressure,
    /// Radius R₀ of the bore.
    pub bore_radius: Length,
}

/// The numbers of a valid cavity.
struct Ground {
    /// sin φ.
    sine: f64,
    /// c cos φ.
    cohesive: f64,
    /// p'_f.
    first_yield: f64,
    /// Q.
    ratio: f64,
    /// R₀.
    radius: f64,
}

impl Ground {
    /// p' for ln( (R₀/R_p)² + Q ); the form without cotangent keeps its digits down to φ = 0.
    fn pressure(&self, log: f64) -> f64 {
        let exponent = -self.sine / (1.0 + self.sine) * log;
        let grown = -log / (1.0 + self.sine) * relative_exp(exponent);
        self.first_yield * exponent.exp() + self.cohesive * grown
    }
}

/// (eˣ − 1)/x, 1 at 0.
fn relative_exp(x: f64) -> f64 {
    if x == 0.0 { 1.0 } else { x.exp_m1() / x }
}

impl Cavity {
    /// Effective pressure at which the wall begins to yield, p'_f.
    ///
    /// # Errors
    /// [`FluidError::OutOfRange`]: stress or cohesion below 0, friction angle outside 0 to 60°.
    pub fn first_yield(&self) -> Result<Pressure, FluidError> {
        let (sine, cohesive, stress) = self.strength()?;
        finite("first yield", stress * (1.0 + sine) + cohesive).map(Pressure::from_si)
    }

    /// Ratio Q of the strength at the wall to the shear modulus; twice the wall's strain at yield.
    ///
    /// # Errors
    /// As [`Cavity::first_yield`]; shear modulus not above 0.
    pub fn stiffness_ratio(&self) -> Result<f64, FluidError> {
        let (sine, cohesive, stress) = self.strength()?;
        let g = positive("shear modulus", self.shear_modulus.si(), unit::MPA)?;
        finite("stiffness ratio", (stress * sine + cohesive) / g)
    }

    /// Effective pressure p'_max at which the plastic zone reaches a radius.
    ///
    /// A zone up to R₀/√(1 − Q), a fraction of a per cent more than R₀, gives the pressure of first
    /// yield: below it there is no zone.
    ///
    /// # Errors
    /// [`FluidError::OutOfRange`]: as [`Cavity::stiffness_ratio`], modulus not above the strength,
    /// plastic radius less than the bore's.
    pub fn pressure(&self, plastic_radius: Length) -> Result<Pressure, FluidError> {
        let ground = self.ground()?;
        let rp = plastic_of(plastic_radius, ground.radius)?;
        let log = ((ground.radius / rp).powi(2) + ground.ratio).ln();
        let p = if log < 0.0 { ground.pressure(log) } else { ground.first_yield };
        finite("limit pressure", p).map(Pressure::from_si)
    }

    /// Effective pressure at which the plastic zone would grow without end; never for design.
    ///
    /// # Errors
    /// As [`Cavity::pressure`]; ground without any strength, Q = 0.
    pub fn unlimited(&self) -> Result<Pressure, FluidError> {
        let ground = self.ground()?;
        let ratio = self.strong(&ground)?;
        finite("limit pressure", ground.pressure(ratio.ln())).map(Pressure::from_si)
    }

    /// Radius of the plastic zone at a strain of the wall, `R_p = R₀ √(2ε/Q)`.
    ///
    /// From R_g² = R₀² + Q R_p² with R_g² = R₀² (1 + 2ε). The share R_p/R₀ does not depend on R₀,
    /// nor does the pressure. *Less than the bore's radius* where ε < Q/2: then the wall reaches the
    /// strain while it is still elastic, there is no plastic zone, and neither this radius nor first
    /// yield is the limit; [`Cavity::strain_limited_pressure`] covers that case, too.
    ///
    /// # Errors
    /// As [`Cavity::unlimited`]; strain not above 0 or more than 20 %.
    pub fn strain_limited_radius(&self, wall_strain: f64) -> Result<Length, FluidError> {
        let ground = self.ground()?;
        let ratio = self.strong(&ground)?;
        let strain = wall_strain_of(wall_strain)?;
        finite("plastic radius", ground.radius * (2.0 * strain / ratio).sqrt()).map(Length::from_si)
    }

    /// Effective pressure at which the wall has a strain.
    ///
    /// [`Cavity::pressure`] at [`Cavity::strain_limited_radius`]; where the wall is still elastic at
    /// that strain, ε < Q/2, `σ'₀ + 2 G ε`, which meets it at first yield.
    ///
    /// # Errors
    /// As [`Cavity::strain_limited_radius`].
    pub fn strain_limited_pressure(&self, wall_strain: f64) -> Result<Pressure, FluidError> {
        let radius = self.strain_limited_radius(wall_strain)?;
        if radius < self.bore_radius {
            let elastic = self.effective_stress.si() + 2.0 * self.shear_modulus.si() * wall_strain;
            return finite("limit pressure", elastic).map(Pressure::from_si);
        }
        self.pressure(radius)
    }

    /// Radius to which the bore has grown over its radius as drilled, `R_g/R₀ = √(1 + Q (R_p/R₀)²)`.
    ///
    /// # Errors
    /// As [`Cavity::pressure`].
    pub fn wall_growth(&self, plastic_radius: Length) -> Result<f64, FluidError> {
        let ground = self.ground()?;
        let rp = plastic_of(plastic_radius, ground.radius)?;
        let share = rp / ground.radius;
        finite("growth of the bore", (1.0 + ground.ratio * share * share).sqrt())
    }

    /// Radius of the plastic zone at an effective pressure: the inverse of [`Cavity::pressure`].
    ///
    /// `None` below first yield.
    ///
    /// # Errors
    /// [`FluidError::OutOfRange`]: as [`Cavity::unlimited`]; pressure not below the one at which the
    /// zone grows without end.
    pub fn plastic_radius_at(
        &self,
        effective_pressure: Pressure,
    ) -> Result<Option<Length>, FluidError> {
        let ground = self.ground()?;
        let p = effective_pressure.si();
        let unlimited = self.unlimited()?.si();
        within("effective pressure", p, unit::KPA, p < unlimited, || below(unlimited))?;
        if p < ground.first_yield {
            return Ok(None);
        }
        let surplus =
            (p - ground.first_yield) / (ground.first_yield * ground.sine + ground.cohesive);
        let scaled = ground.sine * surplus;
        let relative = if scaled == 0.0 { 1.0 } else { scaled.ln_1p() / scaled };
        let log = -(1.0 + ground.sine) * surplus * relative;
        grown_radius(ground.radius, log.exp() - ground.ratio).map(Some)
    }

    /// sin φ, c cos φ and σ'₀, validated.
    fn strength(&self) -> Result<(f64, f64, f64), FluidError> {
        let stress = not_negative("effective stress", self.effective_stress.si(), unit::KPA)?;
        let most = MOST_FRICTION_DEGREES.to_radians();
        let phi = between("friction angle", self.friction_angle.si(), unit::DEG, 0.0, most)?;
        let c = not_negative("cohesion", self.cohesion.si(), unit::KPA)?;
        Ok((phi.sin(), c * phi.cos(), stress))
    }

    fn ground(&self) -> Result<Ground, FluidError> {
        let (sine, cohesive, stress) = self.strength()?;
        let ratio = self.stiffness_ratio()?;
        let g = self.shear_modulus.si();
        within("shear modulus", g, unit::KPA, ratio < 1.0, || {
            let strength = show(stress * sine + cohesive, unit::KPA);
            format!("greater than the strength of the ground ({strength})")
        })?;
        let radius = positive("bore radius", self.bore_radius.si(), unit::MM)?;
        let first_yield = finite("first yield", stress * (1.0 + sine) + cohesive)?;
        Ok(Ground { sine, cohesive, first_yield, ratio, radius })
    }

    /// Q of ground that has some strength.
    fn strong(&self, ground: &Ground) -> Result<f64, FluidError> {
        let strength = ground.ratio * self.shear_modulus.si();
        positive("strength of the ground", strength, unit::KPA)?;
        positive("stiffness ratio", ground.ratio, unit::ONE)
    }
}

/// A plastic radius that is at least the bore's.
pub(crate) fn plastic_of(plastic_radius: Length, bore: f64) -> Result<f64, FluidError> {
    let rp = plastic_radius.si();
    within("plastic radius", rp, unit::M, rp >= bore, || {
        format!("at least the bore radius ({})", show(bore, unit::M))
    })
}

/// A strain of the wall in range.
pub(crate) fn wall_strain_of(wall_strain: f64) -> Result<f64, FluidError> {
    let in_range = wall_strain > 0.0 && wall_strain <= MOST_WALL_STRAIN;
    within("wall strain", wall_strain, unit::PERCENT, in_range, || {
        format!("greater than 0 and at most {}", show(MOST_WALL_STRAIN, unit::PERCENT))
    })
}

/// Radius whose squared share `(R₀/R_p)²` is given.
pub(crate) fn grown_radius(bore: f64, squared_share: f64) -> Result<Length, FluidError> {
    finite("plastic radius", bore / squared_share.max(0.0).sqrt()).map(Length::from_si)
}

/// What is allowed below the pressure of a zone without end.
pub(crate) fn below(unlimited: f64) -> String {
    format!("less than {}, where the plastic zone grows without end", show(unlimited, unit::KPA))
}
