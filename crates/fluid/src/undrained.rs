use quantity::{Length, Pressure, show, unit};

use crate::FluidError;
use crate::error::{any, finite, positive, within};
use crate::limit::{below, grown_radius, plastic_of, wall_strain_of};

/// A bore in clay that does not drain: how much pressure its wall bears.
///
/// [`Cavity`](crate::Cavity) without friction; all pressures are *total*.
///
/// ```text
/// p_f   = σ₀ + s_u                                   first yield of the wall
/// p_max = σ₀ + s_u − s_u ln( (R₀/R_p)² + s_u/G )
/// p_∞   = σ₀ + s_u (1 + ln(G/s_u))                   zone without end
/// R_g²  = R₀² + (s_u/G) R_p²
/// ```
/// | symbol | meaning                                  | unit | field                |
/// |--------|------------------------------------------|------|----------------------|
/// | σ₀     | mean total stress across the bore        | Pa   | `total_stress`       |
/// | s_u    | undrained shear strength                 | Pa   | `undrained_strength` |
/// | G      | shear modulus at strains of per cents    | Pa   | `shear_modulus`      |
/// | R₀     | radius of the bore of this pass          | m    | `bore_radius`        |
/// | R_p    | radius of the plastic zone, from the axis | m   | argument             |
///
/// The strength must be less than the modulus. Where the stresses across the bore differ, the wall
/// yields earlier: [`undrained_yield_anisotropic`].
///
/// # Source
/// Exact limit of Delft's formula for φ → 0, derived; zone without end: Gibson & Anderson's
/// pressuremeter limit, as in Yu 2000 for a Tresca cylinder.
/// # Checked by
/// `cases/fluid/limit-pressure-undrained.toml`; test against [`Cavity`](crate::Cavity) at φ → 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UndrainedCavity {
    /// Mean total stress σ₀ across the bore before it was drilled.
    pub total_stress: Pressure,
    /// Undrained shear strength s_u.
    pub undrained_strength: Pressure,
    /// Shear modulus G.
    pub shear_modulus: Pressure,
    /// Radius R₀ of the bore.
    pub bore_radius: Length,
}

/// The numbers of a valid cavity.
struct Clay {
    strength: f64,
    first_yield: f64,
    ratio: f64,
    radius: f64,
}

impl UndrainedCavity {
    /// Total pressure at which the wall begins to yield.
    ///
    /// # Errors
    /// [`FluidError::OutOfRange`]: stress below 0, strength not above 0.
    pub fn first_yield(&self) -> Result<Pressure, FluidError> {
        let (stress, su) = self.stresses()?;
        finite("first yield", stress + su).map(Pressure::from_si)
    }

    /// Ratio of strength to modulus; twice the wall's strain at yield.
    ///
    /// # Errors
    /// As [`UndrainedCavity::first_yield`]; modulus not above the strength.
    pub fn stiffness_ratio(&self) -> Result<f64, FluidError> {
        Ok(self.clay()?.ratio)
    }

    /// Total pressure at which the plastic zone reaches a radius; as for
    /// [`Cavity::pressure`](crate::Cavity::pressure), never below first yield.
    ///
    /// # Errors
    /// As [`UndrainedCavity::stiffness_ratio`]; plastic radius less than the bore's.
    pub fn pressure(&self, plastic_radius: Length) -> Result<Pressure, FluidError> {
        let clay = self.clay()?;
        let rp = plastic_of(plastic_radius, clay.radius)?;
        let log = ((clay.radius / rp).powi(2) + clay.ratio).ln();
        finite("limit pressure", clay.first_yield - clay.strength * log.min(0.0))
            .map(Pressure::from_si)
    }

    /// Total pressure at which the plastic zone would grow without end; never for design.
    ///
    /// # Errors
    /// As [`UndrainedCavity::stiffness_ratio`].
    pub fn unlimited(&self) -> Result<Pressure, FluidError> {
        let clay = self.clay()?;
        finite("limit pressure", clay.first_yield - clay.strength * clay.ratio.ln())
            .map(Pressure::from_si)
    }

    /// Radius of the plastic zone at a strain of the wall, `R_p = R₀ √(2 ε G/s_u)`; less than the
    /// bore's where the wall is still elastic, as
    /// [`Cavity::strain_limited_radius`](crate::Cavity::strain_limited_radius) says.
    ///
    /// # Errors
    /// As [`UndrainedCavity::stiffness_ratio`]; strain not above 0 or more than 20 %.
    pub fn strain_limited_radius(&self, wall_strain: f64) -> Result<Length, FluidError> {
        let clay = self.clay()?;
        let strain = wall_strain_of(wall_strain)?;
        finite("plastic radius", clay.radius * (2.0 * strain / clay.ratio).sqrt())
            .map(Length::from_si)
    }

    /// Total pressure at which the wall has a strain, elastic or not.
    ///
    /// # Errors
    /// As [`UndrainedCavity::strain_limited_radius`].
    pub fn strain_limited_pressure(&self, wall_strain: f64) -> Result<Pressure, FluidError> {
        let radius = self.strain_limited_radius(wall_strain)?;
        if radius < self.bore_radius {
            let elastic = self.total_stress.si() + 2.0 * self.shear_modulus.si() * wall_strain;
            return finite("limit pressure", elastic).map(Pressure::from_si);
        }
        self.pressure(radius)
    }

    /// Radius to which the bore has grown over its radius as drilled.
    ///
    /// # Errors
    /// As [`UndrainedCavity::pressure`].
    pub fn wall_growth(&self, plastic_radius: Length) -> Result<f64, FluidError> {
        let clay = self.clay()?;
        let share = plastic_of(plastic_radius, clay.radius)? / clay.radius;
        finite("growth of the bore", (1.0 + clay.ratio * share * share).sqrt())
    }

    /// Radius of the plastic zone at a total pressure; `None` below first yield.
    ///
    /// # Errors
    /// As [`UndrainedCavity::stiffness_ratio`]; pressure not below the one of a zone without end.
    pub fn plastic_radius_at(
        &self,
        total_pressure: Pressure,
    ) -> Result<Option<Length>, FluidError> {
        let clay = self.clay()?;
        let p = total_pressure.si();
        let unlimited = self.unlimited()?.si();
        within("total pressure", p, unit::KPA, p < unlimited, || below(unlimited))?;
        if p < clay.first_yield {
            return Ok(None);
        }
        let squared = (-(p - clay.first_yield) / clay.strength).exp() - clay.ratio;
        grown_radius(clay.radius, squared).map(Some)
    }

    fn stresses(&self) -> Result<(f64, f64), FluidError> {
        let stress = crate::error::not_negative("total stress", self.total_stress.si(), unit::KPA)?;
        let su = positive("undrained strength", self.undrained_strength.si(), unit::KPA)?;
        Ok((stress, su))
    }

    fn clay(&self) -> Result<Clay, FluidError> {
        let (stress, strength) = self.stresses()?;
        let g = positive("shear modulus", self.shear_modulus.si(), unit::KPA)?;
        within("shear modulus", g, unit::KPA, strength < g, || {
            format!("greater than the undrained strength ({})", show(strength, unit::KPA))
        })?;
        let radius = positive("bore radius", self.bore_radius.si(), unit::MM)?;
        let first_yield = finite("first yield", stress + strength)?;
        let ratio = positive("stiffness ratio", strength / g, unit::ONE)?;
        Ok(Clay { strength, first_yield, ratio, radius })
    }
}

/// Total pressure at which the wall begins to yield where the stresses across the bore differ.
///
/// ```text
/// p = s_u + (3 σ_min − σ_max)/2
/// ```
/// | symbol       | meaning                                             | unit | argument |
/// |--------------|-----------------------------------------------------|------|----------|
/// | σ_min, σ_max | lesser and greater of total vertical and horizontal | Pa   | `vertical_total`, `horizontal_total` |
/// | s_u          | undrained shear strength                            | Pa   | `undrained_strength` |
///
/// Yield at the place of the wall with the least hoop stress; negative where the stresses differ so
/// much that the empty bore already yields.
///
/// # Source
/// Elastic stresses around a hole (Kirsch) with Tresca's criterion, derived.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/undrained-yield.toml` (derived); property: equal stresses give `σ₀ + s_u`.
pub fn undrained_yield_anisotropic(
    vertical_total: Pressure,
    horizontal_total: Pressure,
    undrained_strength: Pressure,
) -> Result<Pressure, FluidError> {
    let v = any("vertical total", vertical_total.si(), unit::KPA)?;
    let h = any("horizontal total", horizontal_total.si(), unit::KPA)?;
    let su = positive("undrained strength", undrained_strength.si(), unit::KPA)?;
    finite("yield pressure", su + (3.0 * v.min(h) - v.max(h)) / 2.0).map(Pressure::from_si)
}
