use std::f64::consts::FRAC_PI_4;

use numerics::root;
use quantity::{Flow, Length, Pressure, UnitWeight, Velocity, Viscosity, unit};

use crate::error::{annulus, finite, not_negative, positive};
use crate::{FluidError, Rheology};

/// Accuracy of the wall stress, as a share of yield stress and viscous stress together.
const ACCURACY: f64 = 1e-15;

/// By how much the bracket of the wall stress is widened, so that rounding cannot close it.
const ROOM: f64 = 1e-12;

/// Laminar flow in the annulus between hole and string.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AnnulusFlow {
    /// Mean velocity.
    pub velocity: Velocity,
    /// Shear stress at the walls.
    pub wall_stress: Pressure,
    /// Pressure lost per length.
    pub gradient: UnitWeight,
}

/// Pressure lost per length in a concentric annulus, taken as a plane slot, laminar.
///
/// ```text
/// v     = Q / (π/4 (D₂² − D₁²)),   h = (D₂ − D₁)/2
/// v     = h/2 · n/(2n+1) · (τ_w/K)^(1/n) · (1−φ)^((n+1)/n) · (1 + n/(n+1) φ),   φ = τ_y/τ_w
/// dp/dL = 4 τ_w / (D₂ − D₁)
/// ```
/// | symbol    | meaning                             | unit | argument          |
/// |-----------|-------------------------------------|------|-------------------|
/// | D₂        | diameter of the hole                | m    | `hole_diameter`   |
/// | D₁        | outside diameter of rods or string  | m    | `string_diameter` |
/// | Q         | flow along the annulus              | m³/s | `flow`            |
/// | τ_y, K, n | yield stress, consistency, index    |      | `rheology`        |
/// | τ_w       | shear stress at the walls           | Pa   | solved for        |
///
/// Exact in a slot for Herschel–Bulkley, Bingham and power-law fluids. At zero flow the wall
/// stress is the yield stress: the fluid is about to move, and the gradient is the least one that
/// moves it. A plane slot overstates the loss of an annulus: Newtonian, by 2.3 % at D₁/D₂ = 0.3
/// and 7.4 % at 0.1 (a test holds these); the safe side where the ground's limit is checked. A
/// string that lies on the wall loses less, see [`eccentric_factor`](crate::eccentric_factor).
///
/// The wall stress less the yield stress lies between T and T + n τ_y, where T is the wall stress
/// of the same fluid without yield; Brent's method finds it there.
///
/// # Source
/// Mechanics of a plane slot, derived; for τ_y = 0 the same as Guo & Liu, Applied Drilling
/// Circulation Systems, eq. 2.65, and as the API RP 13D equations of May 2002.
/// # Errors
/// [`FluidError::OutOfRange`]: no annulus, flow below 0. [`FluidError::NotConverged`] where numbers
/// overflow.
/// # Checked by
/// `cases/fluid/annulus-loss-*.toml`; numerical integration of the velocity profile; properties:
/// inverse of [`slot_velocity`], rises with flow, falls with the gap.
pub fn annulus_loss(
    rheology: &Rheology,
    hole_diameter: Length,
    string_diameter: Length,
    flow: Flow,
) -> Result<AnnulusFlow, FluidError> {
    let (outer, inner) = annulus(hole_diameter, string_diameter)?;
    let v = mean_velocity(outer, inner, flow)?;
    let tau_w = wall_stress(rheology, v, (outer - inner) / 2.0)?;
    with_wall_stress(v, tau_w, outer - inner)
}

/// Velocity, wall stress and gradient of an annulus whose diameters differ by `difference`.
pub(crate) fn with_wall_stress(
    velocity: f64,
    wall_stress: f64,
    difference: f64,
) -> Result<AnnulusFlow, FluidError> {
    let gradient = finite("pressure gradient", 4.0 * wall_stress / difference)?;
    Ok(AnnulusFlow {
        velocity: Velocity::from_si(velocity),
        wall_stress: Pressure::from_si(wall_stress),
        gradient: UnitWeight::from_si(gradient),
    })
}

/// Mean velocity of a flow of at least zero in an annulus.
fn mean_velocity(outer: f64, inner: f64, flow: Flow) -> Result<f64, FluidError> {
    let q = not_negative("flow", flow.si(), unit::L_PER_S)?;
    finite("velocity", q / (FRAC_PI_4 * (outer - inner) * (outer + inner)))
}

/// Wall stress at which a slot of this gap carries the velocity.
fn wall_stress(rheology: &Rheology, v: f64, gap: f64) -> Result<f64, FluidError> {
    let (n, tau_y) = (rheology.flow_index(), rheology.yield_stress().si());
    // Wall stress of the same fluid without yield stress.
    let viscous = rheology.consistency() * (2.0 * v / gap * (2.0 * n + 1.0) / n).powf(n);
    let viscous = finite("wall stress", viscous)?;
    if viscous == 0.0 {
        return Ok(tau_y);
    }
    if tau_y == 0.0 {
        return Ok(viscous);
    }
    let share = n / (n + 1.0);
    // The velocity formula to the power n, in what the wall stress has above the yield stress:
    // it neither overflows nor loses digits where the plug nearly fills the slot.
    let residual = |surplus: f64| {
        let wall = tau_y + surplus;
        surplus * (surplus / wall * (1.0 + share * tau_y / wall)).powf(n) - viscous
    };
    let (from, to) = (viscous * (1.0 - ROOM), (viscous + n * tau_y) * (1.0 + ROOM));
    let surplus = root(residual, from, to, ACCURACY * (viscous + tau_y))
        .map_err(|e| FluidError::NotConverged { what: "wall stress", why: e.to_string() })?;
    finite("wall stress", tau_y + surplus)
}

/// Mean velocity in a plane slot at a wall stress, laminar; zero up to the yield stress.
///
/// ```text
/// v = h/2 · n/(2n+1) · (τ_w/K)^(1/n) · (1−φ)^((n+1)/n) · (1 + n/(n+1) φ),   φ = τ_y/τ_w
/// ```
/// Symbols as in [`annulus_loss`], whose inverse this is; h is `gap`.
///
/// # Source
/// Mechanics of a plane slot, derived.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/slot-velocity.toml` (derived); numerical integration of the velocity profile.
pub fn slot_velocity(
    rheology: &Rheology,
    wall_stress: Pressure,
    gap: Length,
) -> Result<Velocity, FluidError> {
    let tau_w = not_negative("wall stress", wall_stress.si(), unit::PA)?;
    let h = positive("gap", gap.si(), unit::MM)?;
    let (n, tau_y) = (rheology.flow_index(), rheology.yield_stress().si());
    if tau_w <= tau_y {
        return Ok(Velocity::ZERO);
    }
    let phi = tau_y / tau_w;
    let v = h / 2.0 * n / (2.0 * n + 1.0)
        * (tau_w / rheology.consistency()).powf(1.0 / n)
        * (1.0 - phi).powf((n + 1.0) / n)
        * (1.0 + n / (n + 1.0) * phi);
    finite("velocity", v).map(Velocity::from_si)
}

/// Pressure lost per length by a Bingham fluid, by the usual high-flow asymptote; for comparison.
///
/// ```text
/// dp/dL = 48 μ_p v / (D₂ − D₁)² + 6 τ₀ / (D₂ − D₁)
/// ```
/// Symbols as in [`annulus_loss`]; μ_p plastic viscosity, τ₀ yield point. It is the asymptote of
/// [`annulus_loss`] for fast flow and never less; at rest the yield term is half as large again as
/// the true one.
///
/// # Source
/// Guo & Liu, Applied Drilling Circulation Systems, eq. 2.59 in field units (constants 1/1000 and
/// 1/200); limit of the slot, derived.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/bingham-asymptote*.toml`; property: never less than the exact slot, and its limit.
pub fn bingham_asymptote(
    plastic_viscosity: Viscosity,
    yield_point: Pressure,
    hole_diameter: Length,
    string_diameter: Length,
    flow: Flow,
) -> Result<UnitWeight, FluidError> {
    let mu = positive("plastic viscosity", plastic_viscosity.si(), unit::MPA_S)?;
    let tau = not_negative("yield point", yield_point.si(), unit::PA)?;
    let (outer, inner) = annulus(hole_diameter, string_diameter)?;
    let v = mean_velocity(outer, inner, flow)?;
    let difference = outer - inner;
    let gradient = 48.0 * mu * v / (difference * difference) + 6.0 * tau / difference;
    finite("pressure gradient", gradient).map(UnitWeight::from_si)
}
