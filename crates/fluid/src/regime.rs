use quantity::{Density, Flow, Length, Pressure, Velocity, unit};

use crate::annulus::with_wall_stress;
use crate::error::{annulus, between, finite, not_negative, positive};
use crate::{AnnulusFlow, FluidError, Rheology, annulus_loss};

/// Constant of the laminar slot, `f = 24/Re`; exact for a plane slot.
const SLOT: f64 = 24.0;

/// Diameter of a pipe that stands for a slot, over the difference of the slot's diameters.
///
/// Guo & Liu, Applied Drilling Circulation Systems, p. 45: their constants 109 000 and 21.1 hold it.
const EQUIVALENT_DIAMETER: f64 = 0.816;

/// Flow indices for which the turbulent friction factor is given.
// Judgement: no drilling fluid lies outside, and the fit turns senseless towards 0.
const LEAST_INDEX: f64 = 0.1;
const MOST_INDEX: f64 = 1.5;

/// Reynolds number of the flow in an annulus, for any fluid.
///
/// ```text
/// f = 2 τ_w/(ρ v²),   Re = 24/f = 12 ρ v²/τ_w
/// ```
/// | symbol | meaning                                      | unit  | argument      |
/// |--------|----------------------------------------------|-------|---------------|
/// | ρ      | density of the fluid                         | kg/m³ | `density`     |
/// | v      | mean velocity                                | m/s   | `velocity`    |
/// | τ_w    | shear stress at the walls *in laminar flow*  | Pa    | `wall_stress` |
///
/// The number for which the laminar friction factor of a slot is 24/Re, after Metzner and Reed. For
/// a power law it is that of the API form, `928 (D₂ − D₁) V ρ/μ_e` (a test holds it). Zero at rest.
///
/// # Source
/// Definition, derived; API RP 13D hydraulics equations of May 2002.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/annulus-regime.toml`; test against the API field form.
pub fn annulus_reynolds(
    density: Density,
    velocity: Velocity,
    wall_stress: Pressure,
) -> Result<f64, FluidError> {
    let rho = positive("density", density.si(), unit::KG_PER_M3)?;
    let v = not_negative("velocity", velocity.si(), unit::M_PER_S)?;
    if v == 0.0 {
        not_negative("wall stress", wall_stress.si(), unit::PA)?;
        return Ok(0.0);
    }
    let tau_w = positive("wall stress", wall_stress.si(), unit::PA)?;
    finite("Reynolds number", 0.5 * SLOT * rho * v * v / tau_w)
}

/// Reynolds number up to which flow is laminar, `3470 − 1370 n`; n is a [`Rheology`]'s flow index.
///
/// # Source
/// API RP 13D; the upper limit of the pair is printed for n = 0.8 by Guo & Liu, this one is from
/// memory.
#[must_use]
pub fn laminar_limit(flow_index: f64) -> f64 {
    3470.0 - 1370.0 * flow_index
}

/// Reynolds number from which flow is turbulent, `4270 − 1370 n`; n is a [`Rheology`]'s flow index.
///
/// # Source
/// API RP 13D; for n = 0.8 the 3174 of Guo & Liu, Applied Drilling Circulation Systems.
#[must_use]
pub fn turbulent_limit(flow_index: f64) -> f64 {
    4270.0 - 1370.0 * flow_index
}

/// Fanning's friction factor of turbulent flow, pipe or annulus.
///
/// ```text
/// f = a/Re^b,   a = (log₁₀ n + 3.93)/50,   b = (1.75 − log₁₀ n)/7
/// ```
/// | symbol | meaning                       | unit | argument     |
/// |--------|-------------------------------|------|--------------|
/// | Re     | Reynolds number, above 0      | –    | `reynolds`   |
/// | n      | flow index, 0.1 to 1.5        | –    | `flow_index` |
///
/// # Source
/// API RP 13D hydraulics equations of May 2002; the range of n is a judgement.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/rod-flow.toml` (computed).
pub fn turbulent_friction_factor(reynolds: f64, flow_index: f64) -> Result<f64, FluidError> {
    let re = positive("Reynolds number", reynolds, unit::ONE)?;
    let log = between("flow index", flow_index, unit::ONE, LEAST_INDEX, MOST_INDEX)?.log10();
    finite("friction factor", (log + 3.93) / 50.0 / re.powf((1.75 - log) / 7.0))
}

/// Loss in an annulus whatever the regime: flow, Reynolds number, and whether it is laminar.
///
/// Laminar up to [`laminar_limit`]: the result of [`annulus_loss`]. Above it, in transition and in
/// turbulence, the greater of the laminar loss and the turbulent one, `τ_w = f ρ v²/2` with
/// [`turbulent_friction_factor`]; the Reynolds number is that of laminar flow, see
/// [`annulus_reynolds`].
///
/// # Source
/// API RP 13D hydraulics equations of May 2002 for a power law.
// Judgement: the greater of both in transition, since there is no dependable interpolation and the
// loss must not be understated; for fluids with a yield stress the same with their own index.
/// # Errors
/// As [`annulus_loss`] and [`turbulent_friction_factor`].
/// # Checked by
/// `cases/fluid/annulus-regime.toml`; property: never below the laminar loss, rises with the flow.
pub fn annulus_loss_any_regime(
    rheology: &Rheology,
    hole_diameter: Length,
    string_diameter: Length,
    flow: Flow,
    density: Density,
) -> Result<(AnnulusFlow, f64, bool), FluidError> {
    let laminar = annulus_loss(rheology, hole_diameter, string_diameter, flow)?;
    let re = annulus_reynolds(density, laminar.velocity, laminar.wall_stress)?;
    let n = rheology.flow_index();
    if re <= laminar_limit(n) {
        return Ok((laminar, re, true));
    }
    let f = turbulent_friction_factor(re, n)?;
    let v = laminar.velocity.si();
    let wall = finite("wall stress", 0.5 * f * density.si() * v * v)?;
    if wall <= laminar.wall_stress.si() {
        return Ok((laminar, re, false));
    }
    let (outer, inner) = annulus(hole_diameter, string_diameter)?;
    Ok((with_wall_stress(v, wall, outer - inner)?, re, false))
}

/// Turbulent loss in an annulus by the diameter of an equal pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EqualPipeFlow {
    /// Reynolds number of the equal pipe.
    pub reynolds: f64,
    /// Fanning's friction factor.
    pub friction_factor: f64,
    /// Velocity, wall stress of the annulus and gradient.
    pub flow: AnnulusFlow,
}

/// Turbulent loss in an annulus taken as a pipe of 0.816 of the difference of its diameters.
///
/// ```text
/// Re = 0.816 · 12 ρ v²/τ_w,   f = 0.0791/Re^0.25,   dp/dL = 2 f ρ v² / (0.816 (D₂ − D₁))
/// ```
/// Symbols as in [`annulus_loss`] and [`annulus_reynolds`]; τ_w is that of laminar flow. An
/// oil-field form for comparison; [`annulus_loss_any_regime`] is what an assessment uses.
///
/// # Source
/// Guo & Liu, Applied Drilling Circulation Systems, p. 45, in field units (109 000, 0.0208, 21.1);
/// the friction factor is that of Blasius.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument; the flow must be above 0.
/// # Checked by
/// `cases/fluid/annulus-equal-pipe-guo-p45.toml` (published).
pub fn annulus_loss_equal_pipe(
    rheology: &Rheology,
    hole_diameter: Length,
    string_diameter: Length,
    flow: Flow,
    density: Density,
) -> Result<EqualPipeFlow, FluidError> {
    positive("flow", flow.si(), unit::L_PER_S)?;
    let (outer, inner) = annulus(hole_diameter, string_diameter)?;
    let laminar = annulus_loss(rheology, hole_diameter, string_diameter, flow)?;
    let re = annulus_reynolds(density, laminar.velocity, laminar.wall_stress)?;
    let reynolds = positive("Reynolds number", EQUIVALENT_DIAMETER * re, unit::ONE)?;
    let f = finite("friction factor", 0.0791 / reynolds.powf(0.25))?;
    let v = laminar.velocity.si();
    let wall = finite("wall stress", 0.5 * f * density.si() * v * v / EQUIVALENT_DIAMETER)?;
    let flow = with_wall_stress(v, wall, outer - inner)?;
    Ok(EqualPipeFlow { reynolds, friction_factor: f, flow })
}
