use std::f64::consts::FRAC_PI_4;

use quantity::{Density, Flow, Length, Velocity, Volume, show, unit};

use crate::FluidError;
use crate::error::{finite, not_negative, positive, within};

/// Most passes that are laid out; more are a slip.
// Judgement: the largest bores are reamed in fewer than a dozen.
const MOST_PASSES: u32 = 50;

/// Ground that a pass cuts, `V = π/4 (D_i² − D_{i−1}²) L`.
///
/// | symbol  | meaning                               | unit | argument          |
/// |---------|---------------------------------------|------|-------------------|
/// | L       | length of the pass                    | m    | `length`          |
/// | D_{i−1} | diameter before it; 0 for the pilot   | m    | `diameter_before` |
/// | D_i     | diameter after it                     | m    | `diameter_after`  |
///
/// The same formula gives the annulus around a string and, from 0, what a closed string displaces.
///
/// # Source
/// Geometry, exact.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/ream-volume*.toml`.
pub fn cut_volume(
    length: Length,
    diameter_before: Length,
    diameter_after: Length,
) -> Result<Volume, FluidError> {
    let l = not_negative("length", length.si(), unit::M)?;
    let area = cut_area(diameter_before, diameter_after)?;
    finite("cut volume", area * l).map(Volume::from_si)
}

fn cut_area(before: Length, after: Length) -> Result<f64, FluidError> {
    let b = not_negative("diameter before", before.si(), unit::MM)?;
    let a = within("diameter after", after.si(), unit::MM, after.si() > b, || {
        format!("greater than the diameter before it ({})", show(b, unit::MM))
    })?;
    finite("cut area", FRAC_PI_4 * (a - b) * (a + b))
}

/// Drilling fluid that a pass needs, `V_f = r V`.
///
/// | symbol | meaning                                            | unit | argument      |
/// |--------|----------------------------------------------------|------|---------------|
/// | V      | ground cut by this pass, see [`cut_volume`]        | m³   | `cut`         |
/// | r      | fluid over ground cut *in this pass*, not over the hole | – | `fluid_ratio` |
///
/// # Source
/// Definition of the ratio.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/ream-volume*.toml`.
pub fn fluid_volume(cut: Volume, fluid_ratio: f64) -> Result<Volume, FluidError> {
    let v = not_negative("cut volume", cut.si(), unit::M3)?;
    let r = positive("fluid ratio", fluid_ratio, unit::ONE)?;
    finite("fluid volume", r * v).map(Volume::from_si)
}

/// Density of the returns, `ρ_r = (ρ_soil + r ρ_f)/(1 + r)`.
///
/// | symbol | meaning                                            | unit  | argument        |
/// |--------|----------------------------------------------------|-------|-----------------|
/// | ρ_soil | saturated density of the ground                    | kg/m³ | `soil_density`  |
/// | ρ_f    | density of the fluid pumped                        | kg/m³ | `fluid_density` |
/// | r      | fluid over ground cut, as in [`fluid_volume`]      | –     | `fluid_ratio`   |
///
/// All ground stays in suspension; grains that settle leave the returns lighter.
///
/// # Source
/// Balance of mass, exact.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/returns-density.toml` (derived); property: between both densities.
pub fn returns_density(
    soil_density: Density,
    fluid_density: Density,
    fluid_ratio: f64,
) -> Result<Density, FluidError> {
    let soil = positive("soil density", soil_density.si(), unit::KG_PER_M3)?;
    let fluid = positive("fluid density", fluid_density.si(), unit::KG_PER_M3)?;
    let r = positive("fluid ratio", fluid_ratio, unit::ONE)?;
    finite("density of the returns", (soil + r * fluid) / (1.0 + r)).map(Density::from_si)
}

/// Share of solid grains in the returns by volume, `(1 − porosity)/(1 + r)`.
///
/// Porosity from 0 to below 1; r as in [`fluid_volume`].
///
/// # Source
/// Balance of volumes, exact.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/returns-density.toml` (derived).
pub fn solids_fraction(porosity: f64, fluid_ratio: f64) -> Result<f64, FluidError> {
    let in_range = (0.0..1.0).contains(&porosity);
    let p = within("porosity", porosity, unit::PERCENT, in_range, || {
        "0 or greater and less than 100 %".to_owned()
    })?;
    let r = positive("fluid ratio", fluid_ratio, unit::ONE)?;
    finite("solids fraction", (1.0 - p) / (1.0 + r))
}

/// Fastest advance at which the pump delivers the fluid that the ratio asks for.
///
/// ```text
/// v = Q η / ( r π/4 (D_i² − D_{i−1}²) )
/// ```
/// | symbol | meaning                                          | unit | argument     |
/// |--------|--------------------------------------------------|------|--------------|
/// | Q      | rated flow of the pump                           | m³/s | `flow`       |
/// | η      | share of it that the pump delivers, 0 to 1       | –    | `efficiency` |
///
/// The other symbols as in [`cut_volume`] and [`fluid_volume`].
///
/// # Source
/// Balance of volumes, exact.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/advance-limit.toml` (derived).
pub fn largest_advance(
    flow: Flow,
    efficiency: f64,
    fluid_ratio: f64,
    diameter_before: Length,
    diameter_after: Length,
) -> Result<Velocity, FluidError> {
    let q = positive("flow", flow.si(), unit::L_PER_MIN)?;
    let in_range = efficiency > 0.0 && efficiency <= 1.0;
    let eta = within("efficiency", efficiency, unit::PERCENT, in_range, || {
        "greater than 0 and at most 100 %".to_owned()
    })?;
    let r = positive("fluid ratio", fluid_ratio, unit::ONE)?;
    let area = cut_area(diameter_before, diameter_after)?;
    finite("advance", q * eta / r / area).map(Velocity::from_si)
}

/// Diameters after each reaming pass when every pass cuts the same area.
///
/// ```text
/// D_i = √( D_0² + (i/m) (D_m² − D_0²) ),   i = 1 … m
/// ```
/// | symbol | meaning                              | unit | argument |
/// |--------|--------------------------------------|------|----------|
/// | D_0    | diameter of the pilot bore           | m    | `pilot`  |
/// | D_m    | diameter of the last pass            | m    | `last`   |
/// | m      | number of passes, 1 to 50            | –    | `passes` |
///
/// Equal areas take equal time where the pump sets the pace. Real reamers come in steps: round up.
///
/// # Source
/// Geometry, exact.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/ream-steps.toml` (derived); property: equal areas.
pub fn pass_diameters(pilot: Length, last: Length, passes: u32) -> Result<Vec<Length>, FluidError> {
    let whole = cut_area(pilot, last)? / FRAC_PI_4;
    let in_range = (1..=MOST_PASSES).contains(&passes);
    within("passes", f64::from(passes), unit::ONE, in_range, || format!("1 to {MOST_PASSES}"))?;
    (1..=passes)
        .map(|i| {
            let share = f64::from(i) / f64::from(passes);
            let d = if i == passes {
                last.si()
            } else {
                (pilot.si() * pilot.si() + share * whole).sqrt()
            };
            finite("diameter of a pass", d).map(Length::from_si)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn balanced_passes_cut_equal_areas_and_end_at_the_last_diameter(
            pilot in 0.05f64..0.3, step in 0.01f64..1.0, passes in 1u32..=50,
        ) {
            let last = Length::metres(pilot + step);
            let list = pass_diameters(Length::metres(pilot), last, passes).unwrap();
            prop_assert_eq!(list.len(), passes as usize);
            prop_assert_eq!(*list.last().unwrap(), last);
            let first = cut_area(Length::metres(pilot), list[0]).unwrap();
            for pair in list.windows(2) {
                prop_assert!((cut_area(pair[0], pair[1]).unwrap() / first - 1.0).abs() < 1e-9);
            }
        }

        #[test]
        fn returns_lie_between_soil_and_fluid(
            soil in 1200f64..2400.0, fluid in 1000f64..1150.0, r in 0.1f64..20.0,
        ) {
            let of = |r: f64| {
                returns_density(Density::from_si(soil), Density::from_si(fluid), r).unwrap().si()
            };
            prop_assert!(of(r) < soil && of(r) > fluid);
            prop_assert!(of(r * 1.1) < of(r));
        }

        #[test]
        fn the_advance_uses_up_the_pump(
            q in 1e-3f64..0.1, eta in 0.1f64..=1.0, r in 0.5f64..6.0, before in 0.0f64..0.5,
            step in 0.01f64..0.5,
        ) {
            let (b, a) = (Length::metres(before), Length::metres(before + step));
            let v = largest_advance(Flow::from_si(q), eta, r, b, a).unwrap().si();
            let cut = cut_volume(Length::metres(v), b, a).unwrap();
            prop_assert!((fluid_volume(cut, r).unwrap().si() / (q * eta) - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn passes_and_diameters_out_of_range_are_refused() {
        let (pilot, last) = (Length::metres(0.165), Length::metres(0.615));
        for passes in [0, 51] {
            assert!(pass_diameters(pilot, last, passes).is_err());
        }
        assert!(pass_diameters(last, pilot, 2).is_err());
        assert!(cut_volume(Length::metres(1.0), pilot, pilot).is_err());
        assert!(solids_fraction(1.0, 2.0).is_err());
        assert!(largest_advance(Flow::from_si(0.01), 1.01, 1.0, pilot, last).is_err());
    }
}
