//! Correction of a forecast by forces measured so far.

use quantity::unit;
use working::Evidence;

use super::{Method, PublishedError, range};

/// The update of the forecast.
pub const CALIBRATION: Method = Method {
    name: "correction by measured forces",
    document: "normal prior and normal observations of the logarithm of measured over computed force; \
         their spreads are judgement",
    evidence: Evidence::Derived,
    validity: "independent readings of steady force at the head, without break-out peaks",
};

/// Standard normal deviate that 90 % lie below.
pub const NINETY_PERCENT: f64 = 1.281_551_565_544_600_4;

/// What [`calibration`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Calibration {
    /// Median of the correction, k.
    pub factor: f64,
    /// Standard deviation of ln k.
    pub sd_ln: f64,
    /// Correction that is exceeded in one case of ten.
    pub p90: f64,
}

/// Correction factor of computed forces after some ratios of measured to computed force.
///
/// ```text
/// 1/s² = 1/s₀² + m/s₁²        ln k = s²·Σ ln r / s₁²        k₉₀ = exp(ln k + 1.2816·s)
/// ```
/// | symbol | meaning                                   | unit | argument         |
/// |--------|-------------------------------------------|------|------------------|
/// | k, k₉₀ | median and 90 % value of the correction   | –    | `factor`, `p90`  |
/// | s      | standard deviation of ln k                | –    | `sd_ln`          |
/// | r, m   | measured over computed; their number      | –    | `ratios`         |
/// | s₀     | standard deviation of ln k before readings | –   | `prior_sd`       |
/// | s₁     | standard deviation of ln r of one reading | –    | `observation_sd` |
///
/// Without readings the prior is returned: k = 1, s = s₀. Valid for r > 0 and 0 < s₀, s₁ ≤ 3.
///
/// # Source
/// [`CALIBRATION`]: s₀ = 0.4 and s₁ = 0.1 are the judgement that goes with it.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/calibration.toml`; property: the order of readings does not matter.
pub fn calibration(
    ratios: &[f64],
    prior_sd: f64,
    observation_sd: f64,
) -> Result<Calibration, PublishedError> {
    let spread = |name, sd: f64| {
        range::positive(name, sd, unit::ONE)?;
        range::within(name, sd, (0.0, 3.0), unit::ONE)
    };
    let s0 = spread("prior sd", prior_sd)?;
    let s1 = spread("observation sd", observation_sd)?;
    let (mut precision, mut weighted) = (1.0 / (s0 * s0), 0.0);
    for ratio in ratios {
        weighted += range::positive("ratio", *ratio, unit::ONE)?.ln() / (s1 * s1);
        precision += 1.0 / (s1 * s1);
    }
    let (mean, sd_ln) = (weighted / precision, precision.sqrt().recip());
    Ok(Calibration {
        factor: range::result("factor", mean.exp())?,
        sd_ln: range::result("sd ln", sd_ln)?,
        p90: range::result("p90", (mean + NINETY_PERCENT * sd_ln).exp())?,
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn without_readings_the_prior_stays() {
        let k = calibration(&[], 0.4, 0.1).unwrap();
        assert_eq!((k.factor, k.sd_ln), (1.0, 0.4));
        approx::assert_relative_eq!(k.p90, (NINETY_PERCENT * 0.4).exp());
    }

    #[test]
    fn ratios_and_spreads_outside_the_range_are_named() {
        assert_eq!(calibration(&[0.0], 0.4, 0.1).unwrap_err().quantity(), Some("ratio"));
        assert_eq!(calibration(&[], 0.0, 0.1).unwrap_err().quantity(), Some("prior sd"));
        assert!(calibration(&[f64::NAN], 0.4, 0.1).is_err());
    }

    proptest! {
        #[test]
        fn order_of_readings_does_not_matter_and_each_narrows_the_spread(
            mut ratios in proptest::collection::vec(0.2f64..5.0, 1..12),
        ) {
            let first = calibration(&ratios, 0.4, 0.1).unwrap();
            let fewer = calibration(&ratios[1..], 0.4, 0.1).unwrap();
            prop_assert!(first.sd_ln < fewer.sd_ln);
            ratios.reverse();
            let turned = calibration(&ratios, 0.4, 0.1).unwrap();
            prop_assert!((first.factor / turned.factor - 1.0).abs() < 1e-12);
            let (low, high) = ratios.iter().fold((1.0f64, 1.0f64), |(l, h), r| (l.min(*r), h.max(*r)));
            prop_assert!((low - 1e-12..=high + 1e-12).contains(&first.factor));
        }
    }
}
