//! Rules of thumb for ductile iron pulled into drilled bores.

use quantity::{Force, ForcePerLength, Length, unit};
use working::Evidence;

use super::{Method, PublishedError, range};

/// The quick rule.
pub const QUICK_RULE: Method = Method {
    name: "quick rule for ductile iron",
    document: "one manufacturer's trenchless manual, German edition, p. 50",
    evidence: Evidence::Published,
    validity: "ductile iron, metres plus millimetres above 500; no angles, no weights, no fluid",
};

/// The weight rule.
pub const WEIGHT_SHARE: Method = Method {
    name: "40 to 70 % of the pipe's weight",
    document: "one manufacturer's trenchless manual, German edition, p. 50",
    evidence: Evidence::Published,
    validity: "what the pull usually was in practice; a bracket, not a limit",
};

/// Ground in the words of the quick rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ground {
    /// Good: X = 0.5.
    Good,
    /// Normal: X = 1.
    Normal,
    /// Difficult: X = 1.5.
    Difficult,
}

impl Ground {
    /// The factor X of the rule.
    #[must_use]
    pub fn factor(self) -> f64 {
        match self {
            Ground::Good => 0.5,
            Ground::Normal => 1.0,
            Ground::Difficult => 1.5,
        }
    }
}

/// Sum of metres and millimetres that the quick rule takes off, K.
const QUICK_OFFSET: f64 = 500.0;

/// Pull by the quick rule for ductile iron.
///
/// ```text
/// F[kN] = (L[m] + D[mm] − 500)·X        X = 0.5 good, 1 normal, 1.5 difficult ground
/// ```
/// | symbol | meaning          | unit | argument           |
/// |--------|------------------|------|--------------------|
/// | F      | pull             | kN   | returned           |
/// | L      | length of bore   | m    | `length`           |
/// | D      | outside diameter | mm   | `outside_diameter` |
/// | X      | ground           | –    | `ground`           |
///
/// Valid for L + D ≥ 500: below that the rule turns negative and says nothing.
///
/// # Source
/// [`QUICK_RULE`]. Deviation: none.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/quick-rule.toml`.
pub fn quick_rule(
    length: Length,
    outside_diameter: Length,
    ground: Ground,
) -> Result<Force, PublishedError> {
    let l = range::positive("length", length.si(), unit::M)?;
    range::positive("outside diameter", outside_diameter.si(), unit::MM)?;
    let sum = l + outside_diameter.to_millimetres();
    let sum = range::at_least("metres plus millimetres", sum, QUICK_OFFSET, unit::ONE)?;
    range::result("force", (sum - QUICK_OFFSET) * ground.factor()).map(Force::kilonewtons)
}

/// The bracket of [`weight_share`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeightShare {
    /// Weight of the whole string in air.
    pub weight: Force,
    /// 40 % of it.
    pub low: Force,
    /// 70 % of it.
    pub high: Force,
}

/// Bracket in which the pull of ductile iron usually lies.
///
/// ```text
/// G = w·L,   0.4·G ≤ F ≤ 0.7·G
/// ```
/// | symbol | meaning              | unit | argument     |
/// |--------|----------------------|------|--------------|
/// | w      | weight of pipe in air | N/m | `weight_air` |
/// | L      | length of the string | m    | `length`     |
///
/// Valid for w and L not negative.
///
/// # Source
/// [`WEIGHT_SHARE`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/weight-share.toml`.
pub fn weight_share(
    weight_air: ForcePerLength,
    length: Length,
) -> Result<WeightShare, PublishedError> {
    let w = range::not_negative("weight air", weight_air.si(), unit::N_PER_M)?;
    let l = range::not_negative("length", length.si(), unit::M)?;
    let weight = Force::newtons(range::result("weight", w * l)?);
    Ok(WeightShare { weight, low: 0.4 * weight, high: 0.7 * weight })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quick_rule_refuses_short_small_bores_where_it_turns_negative() {
        let rule =
            |l: f64, d: f64| quick_rule(Length::metres(l), Length::millimetres(d), Ground::Normal);
        approx::assert_relative_eq!(rule(82.0, 418.0).unwrap().si(), 0.0, epsilon = 1e-6);
        assert_eq!(rule(80.0, 326.0).unwrap_err().quantity(), Some("metres plus millimetres"));
        assert_eq!(rule(0.0, 738.0).unwrap_err().quantity(), Some("length"));
        assert_eq!(rule(486.0, 738.0).unwrap().to_kilonewtons(), 724.0);
    }

    #[test]
    fn negative_weight_is_refused_and_shares_keep_their_order() {
        let share = weight_share(ForcePerLength::from_si(1000.0), Length::metres(100.0)).unwrap();
        assert!(share.low < share.high && share.high < share.weight);
        assert!(weight_share(ForcePerLength::from_si(-1.0), Length::metres(100.0)).is_err());
    }
}
