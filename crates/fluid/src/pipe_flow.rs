use std::f64::consts::FRAC_PI_4;

use quantity::{Area, Density, Flow, Length, Pressure, UnitWeight, Velocity, unit};

use crate::error::{finite, not_negative, positive, within};
use crate::regime::{laminar_limit, turbulent_friction_factor};
use crate::{FluidError, Rheology};

/// Constant of laminar flow in a round pipe, `f = 16/Re`; exact.
const ROUND_PIPE: f64 = 16.0;

/// Largest discharge coefficient: 1.03 was measured on oil-field bits (AADE-10-DF-HO-26).
// Judgement: a little room above the largest measured value.
const MOST_COEFFICIENT: f64 = 1.1;

/// Flow of a power-law fluid inside rods.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeFlow {
    /// Mean velocity.
    pub velocity: Velocity,
    /// Reynolds number after Metzner and Reed.
    pub reynolds: f64,
    /// Fanning's friction factor.
    pub friction_factor: f64,
    /// Pressure lost per length.
    pub gradient: UnitWeight,
    /// Whether the flow is laminar.
    pub laminar: bool,
}

/// Pressure lost per length inside rods by a power-law fluid, in any regime.
///
/// ```text
/// Re = ρ v^(2−n) dⁿ / ( K ((3n+1)/(4n))ⁿ 8^(n−1) )
/// f  = 16/Re up to Re = 3470 − 1370 n, above it the greater of 16/Re and a/Re^b
/// dp/dL = 2 f ρ v²/d
/// ```
/// | symbol | meaning                    | unit  | argument          |
/// |--------|----------------------------|-------|-------------------|
/// | d      | bore of the rods           | m     | `inside_diameter` |
/// | v      | mean velocity, Q/(π d²/4)  | m/s   | from `flow`       |
/// | ρ      | density                    | kg/m³ | `density`         |
/// | K, n   | consistency, flow index    |       | `rheology`        |
///
/// a and b as in [`turbulent_friction_factor`]. Take the power law of the high shear rates inside
/// rods ([`Model::PowerLawPipe`](crate::Model)); a yield stress is refused.
///
/// # Source
/// API RP 13D hydraulics equations of May 2002; laminar part exact.
// Judgement: the greater of both in transition, as in an annulus.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument; the flow must be above 0.
/// # Checked by
/// `cases/fluid/rod-flow.toml` (computed); property: laminar, Newtonian flow follows Poiseuille.
pub fn pipe_loss(
    rheology: &Rheology,
    inside_diameter: Length,
    flow: Flow,
    density: Density,
) -> Result<PipeFlow, FluidError> {
    let tau_y = rheology.yield_stress().si();
    within("yield stress inside rods", tau_y, unit::PA, tau_y == 0.0, || {
        "0: take the power law from 600 and 300".to_owned()
    })?;
    let d = positive("inside diameter", inside_diameter.si(), unit::MM)?;
    let q = positive("flow", flow.si(), unit::L_PER_S)?;
    let rho = positive("density", density.si(), unit::KG_PER_M3)?;
    let n = rheology.flow_index();
    let v = finite("velocity", q / (FRAC_PI_4 * d * d))?;
    // Wall stress of laminar flow; 16/Re is its friction factor.
    let wall = rheology.consistency() * (8.0 * v / d * (3.0 * n + 1.0) / (4.0 * n)).powf(n);
    let wall = positive("wall stress", wall, unit::PA)?;
    let reynolds = finite("Reynolds number", 0.5 * ROUND_PIPE * rho * v * v / wall)?;
    let reynolds = positive("Reynolds number", reynolds, unit::ONE)?;
    let laminar = reynolds <= laminar_limit(n);
    let mut f = ROUND_PIPE / reynolds;
    if !laminar {
        f = f.max(turbulent_friction_factor(reynolds, n)?);
    }
    let gradient = finite("pressure gradient", 2.0 * f * rho * v * v / d)?;
    Ok(PipeFlow {
        velocity: Velocity::from_si(v),
        reynolds,
        friction_factor: finite("friction factor", f)?,
        gradient: UnitWeight::from_si(gradient),
        laminar,
    })
}

/// Pressure lost in the nozzles of the bit, `Δp = ρ Q² / (2 C_d² A²)`.
///
/// | symbol | meaning                                              | unit  | argument      |
/// |--------|------------------------------------------------------|-------|---------------|
/// | ρ      | density                                              | kg/m³ | `density`     |
/// | Q      | flow                                                 | m³/s  | `flow`        |
/// | A      | area of all nozzles together                         | m²    | `nozzle_area` |
/// | C_d    | discharge coefficient, above 0 to 1.1; 0.95 is usual | –     | `coefficient` |
///
/// # Source
/// Energy balance; coefficient 0.95 by Guo & Liu, Applied Drilling Circulation Systems, p. 53.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/nozzle-loss.toml` (computed).
pub fn nozzle_loss(
    density: Density,
    flow: Flow,
    nozzle_area: Area,
    coefficient: f64,
) -> Result<Pressure, FluidError> {
    let rho = positive("density", density.si(), unit::KG_PER_M3)?;
    let q = not_negative("flow", flow.si(), unit::L_PER_S)?;
    let area = positive("nozzle area", nozzle_area.si(), unit::MM2)?;
    let in_range = coefficient > 0.0 && coefficient <= MOST_COEFFICIENT;
    let c = within("coefficient", coefficient, unit::ONE, in_range, || {
        format!("greater than 0 and at most {MOST_COEFFICIENT}")
    })?;
    let jet = q / (c * area);
    finite("nozzle loss", 0.5 * rho * jet * jet).map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn laminar_newtonian_flow_follows_poiseuille_and_turbulence_adds_to_it(
            mu in 0.001f64..1.0, d in 0.02f64..0.2, q in 1e-5f64..0.02,
        ) {
            let fluid = Rheology::new(Pressure::ZERO, mu, 1.0).unwrap();
            let rho = Density::from_si(1000.0);
            let p = pipe_loss(&fluid, Length::metres(d), Flow::from_si(q), rho).unwrap();
            let v = p.velocity.si();
            let poiseuille = 32.0 * mu * v / (d * d);
            prop_assert!((p.reynolds / (1000.0 * v * d / mu) - 1.0).abs() < 1e-12);
            if p.laminar {
                prop_assert!((p.gradient.si() / poiseuille - 1.0).abs() < 1e-12);
            } else {
                prop_assert!(p.gradient.si() >= poiseuille * (1.0 - 1e-12));
            }
        }

        #[test]
        fn any_numbers_give_a_finite_result_or_an_error(
            k in proptest::num::f64::ANY, n in 0.0f64..1.6, d in proptest::num::f64::ANY,
            q in proptest::num::f64::ANY, rho in proptest::num::f64::ANY,
        ) {
            let Ok(fluid) = Rheology::new(Pressure::ZERO, k, n) else { return Ok(()) };
            let (d, q, rho) = (Length::from_si(d), Flow::from_si(q), Density::from_si(rho));
            if let Ok(p) = pipe_loss(&fluid, d, q, rho) {
                let all = [p.velocity.si(), p.reynolds, p.friction_factor, p.gradient.si()];
                prop_assert!(all.iter().all(|x| x.is_finite()));
            }
        }
    }

    #[test]
    fn a_yield_stress_is_refused() {
        let fluid = Rheology::new(Pressure::pascals(1.0), 0.1, 1.0).unwrap();
        let rho = Density::from_si(1000.0);
        let refused =
            pipe_loss(&fluid, Length::metres(0.05), Flow::litres_per_second(1.0), rho).unwrap_err();
        assert!(refused.to_string().contains("power law from 600 and 300"), "{refused}");
    }
}
