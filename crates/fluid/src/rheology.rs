use quantity::{Pressure, Viscosity, unit};

use crate::FluidError;
use crate::error::{finite, not_negative, positive, within};

/// Largest flow index that is accepted.
// Judgement: drilling fluids thin under shear (index below 1); a little room is left for readings
// with scatter, more is a slip of the reading.
const MOST_FLOW_INDEX: f64 = 1.5;

/// How a fluid resists shear: the three-parameter law of Herschel and Bulkley.
///
/// ```text
/// τ = τ_y + K γ̇ⁿ
/// ```
/// | symbol | meaning      | unit  | argument       |
/// |--------|--------------|-------|----------------|
/// | τ_y    | yield stress | Pa    | `yield_stress` |
/// | K      | consistency  | Pa·sⁿ | `consistency`  |
/// | n      | flow index   | –     | `flow_index`   |
///
/// Bingham's law is n = 1, a power law is τ_y = 0, water is both.
///
/// # Source
/// Definition; every text on drilling fluids.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rheology {
    yield_stress: f64,
    consistency: f64,
    flow_index: f64,
}

impl Rheology {
    /// A fluid by its three parameters; the consistency is in Pa·sⁿ.
    ///
    /// # Errors
    /// [`FluidError::OutOfRange`]: yield stress below 0, consistency not above 0, flow index not
    /// above 0 or more than 1.5.
    pub fn new(
        yield_stress: Pressure,
        consistency: f64,
        flow_index: f64,
    ) -> Result<Self, FluidError> {
        let yield_stress = not_negative("yield stress", yield_stress.si(), unit::PA)?;
        let consistency = positive("consistency", consistency, unit::ONE)?;
        let in_range = flow_index > 0.0 && flow_index <= MOST_FLOW_INDEX;
        let flow_index = within("flow index", flow_index, unit::ONE, in_range, || {
            format!("greater than 0 and at most {MOST_FLOW_INDEX}")
        })?;
        Ok(Self { yield_stress, consistency, flow_index })
    }

    /// A Bingham fluid, `τ = τ₀ + μ_p γ̇`.
    ///
    /// # Errors
    /// As [`Rheology::new`].
    pub fn bingham(
        plastic_viscosity: Viscosity,
        yield_point: Pressure,
    ) -> Result<Self, FluidError> {
        let viscosity = positive("plastic viscosity", plastic_viscosity.si(), unit::MPA_S)?;
        Self::new(yield_point, viscosity, 1.0)
    }

    /// Yield stress τ_y.
    #[must_use]
    pub const fn yield_stress(&self) -> Pressure {
        Pressure::from_si(self.yield_stress)
    }

    /// Consistency K, Pa·sⁿ.
    #[must_use]
    pub const fn consistency(&self) -> f64 {
        self.consistency
    }

    /// Flow index n.
    #[must_use]
    pub const fn flow_index(&self) -> f64 {
        self.flow_index
    }

    /// Shear stress at a shear rate in 1/s; at rest the stress at which the fluid begins to move.
    ///
    /// # Errors
    /// [`FluidError::OutOfRange`] for a shear rate below 0.
    pub fn stress(&self, shear_rate: f64) -> Result<Pressure, FluidError> {
        let rate = not_negative("shear rate", shear_rate, unit::ONE)?;
        let stress = self.yield_stress + self.consistency * rate.powf(self.flow_index);
        finite("shear stress", stress).map(Pressure::from_si)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bingham_fluid_is_the_one_of_index_one() {
        let fluid = Rheology::bingham(Viscosity::from_si(0.015), Pressure::pascals(9.576)).unwrap();
        assert_eq!(fluid.flow_index(), 1.0);
        assert!((fluid.stress(511.0).unwrap().si() - (9.576 + 0.015 * 511.0)).abs() < 1e-12);
        assert_eq!(fluid.stress(0.0).unwrap(), fluid.yield_stress());
    }

    #[test]
    fn parameters_out_of_range_are_named() {
        let code = |y: f64, k: f64, n: f64| match Rheology::new(Pressure::pascals(y), k, n) {
            Ok(_) => String::new(),
            Err(e) => e.to_string(),
        };
        assert!(code(-1.0, 1.0, 0.5).starts_with("yield stress must be 0 or greater"));
        assert!(code(1.0, 0.0, 0.5).starts_with("consistency"));
        for n in [0.0, -0.5, 1.500_1, f64::NAN] {
            assert!(code(1.0, 1.0, n).starts_with("flow index"), "{n}");
        }
        assert!(code(f64::INFINITY, 1.0, 0.5).starts_with("yield stress"));
        assert_eq!(code(0.0, 1.0, 1.5), "");
    }
}
