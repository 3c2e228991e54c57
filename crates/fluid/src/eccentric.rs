use quantity::unit;

use crate::FluidError;
use crate::error::{between, finite};

/// Share of the concentric loss that an eccentric string leaves, laminar, power law.
///
/// ```text
/// R = 1 − 0.072 (e/n) k^0.8454 − 1.5 e² √n k^0.1852 + 0.96 e³ √n k^0.2527
/// ```
/// | symbol | meaning                                          | unit | argument         |
/// |--------|--------------------------------------------------|------|------------------|
/// | n      | flow index, 0.4 to 1                             | –    | `flow_index`     |
/// | k      | string diameter over hole diameter, 0.3 to 0.9   | –    | `diameter_ratio` |
/// | e      | offset of the axes over the gap, 0 centred, 1 touching | – | `eccentricity` |
///
/// The fit was made for e up to 0.95; a string on the floor of the hole has 1, which lies a little
/// outside. The loss is smaller than the concentric one: leaving the factor out is the safe side
/// against the limit of the ground, and the unsafe one where the loss is taken as a sign of flow.
///
/// # Source
/// Haciislamoglu & Langlinais 1990, from memory, with its range.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/eccentric-annulus.toml` (from memory).
pub fn eccentric_factor(
    flow_index: f64,
    diameter_ratio: f64,
    eccentricity: f64,
) -> Result<f64, FluidError> {
    let n = between("flow index", flow_index, unit::ONE, 0.4, 1.0)?;
    let k = between("diameter ratio", diameter_ratio, unit::ONE, 0.3, 0.9)?;
    let e = between("eccentricity", eccentricity, unit::ONE, 0.0, 1.0)?;
    let root = n.sqrt();
    let factor = 1.0 - 0.072 * e / n * k.powf(0.8454) - 1.5 * e * e * root * k.powf(0.1852)
        + 0.96 * e.powi(3) * root * k.powf(0.2527);
    finite("eccentric factor", factor)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn a_centred_string_loses_all_and_an_eccentric_one_less(
            n in 0.4f64..=1.0, k in 0.3f64..=0.9, e in 0.01f64..=1.0,
        ) {
            prop_assert_eq!(eccentric_factor(n, k, 0.0).unwrap(), 1.0);
            let r = eccentric_factor(n, k, e).unwrap();
            prop_assert!(r < 1.0 && r > 0.3, "{}", r);
        }
    }

    #[test]
    fn outside_the_fit_nothing_is_extrapolated() {
        for (n, k, e) in [(0.39, 0.5, 0.5), (0.5, 0.29, 0.5), (0.5, 0.5, 1.01), (0.5, 0.91, 0.0)] {
            assert!(eccentric_factor(n, k, e).is_err(), "{n} {k} {e}");
        }
    }
}
