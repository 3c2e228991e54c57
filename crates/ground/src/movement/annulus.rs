use std::f64::consts::FRAC_PI_4;

use quantity::{Length, show, unit};

use crate::GroundError;
use crate::argument::within;

/// Volume per length that the ground loses when the annulus around a barrel closes, m³/m.
///
/// ```text
/// V = k π/4 (D² − d²)
/// ```
/// | symbol | meaning                                               | unit | argument          |
/// |--------|-------------------------------------------------------|------|-------------------|
/// | D      | diameter of the bore as reamed, up to 10 m            | m    | `bore_diameter`   |
/// | d      | outside diameter of the barrel, 0 for an empty bore   | m    | `barrel_diameter` |
/// | k      | share of the annulus that closes, 0 to 1              | –    | `closing_share`   |
///
/// The share is 0.1 to 0.5 where slurry sets and up to 1 where it runs away (from memory). The bore
/// follows the socket, so the annulus around the barrel is larger than the pipe's size suggests.
///
/// # Source
/// Area of a ring, exact (derived).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/annulus-closure.toml` (derived).
pub fn annulus_loss_volume(
    bore_diameter: Length,
    barrel_diameter: Length,
    closing_share: f64,
) -> Result<f64, GroundError> {
    let bore = bore_diameter.si();
    // Judgement: a bore wider than 10 m is a slip of the unit.
    let holds = bore > 0.0 && bore <= 10.0;
    within("bore diameter", bore, unit::MM, holds, "greater than 0 and at most 10 m")?;
    let barrel = barrel_diameter.si();
    if !(barrel >= 0.0 && barrel <= bore) {
        return Err(GroundError::OutOfRange {
            quantity: "barrel diameter",
            found: show(barrel, unit::MM),
            allowed: "0 to the bore diameter",
        });
    }
    let holds = (0.0..=1.0).contains(&closing_share);
    let share = within("closing share", closing_share, unit::PERCENT, holds, "0 % to 100 %")?;
    // The difference of squares as a product keeps the digits of a narrow annulus.
    Ok(share * FRAC_PI_4 * (bore - barrel) * (bore + barrel))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn a_full_bore_loses_nothing_and_an_empty_one_its_area(d in 0.01f64..5.0, k in 0f64..1.0) {
            let bore = Length::from_si(d);
            prop_assert_eq!(annulus_loss_volume(bore, bore, k).unwrap(), 0.0);
            let empty = annulus_loss_volume(bore, Length::ZERO, k).unwrap();
            prop_assert!((empty - k * FRAC_PI_4 * d * d).abs() < 1e-12);
        }

        #[test]
        fn two_rings_are_as_large_as_the_one_of_both(a in 0.1f64..1.0, b in 0.1f64..1.0) {
            let [inner, middle, outer] = [a, a + b, a + 2.0 * b].map(Length::from_si);
            let ring = |d, e| annulus_loss_volume(d, e, 1.0).unwrap();
            let sum = ring(outer, middle) + ring(middle, inner);
            prop_assert!((sum - ring(outer, inner)).abs() < 1e-12);
        }

        #[test]
        fn nothing_but_numbers_leaves(
            a in prop::num::f64::ANY, b in prop::num::f64::ANY, k in prop::num::f64::ANY,
        ) {
            let volume = annulus_loss_volume(Length::from_si(a), Length::from_si(b), k);
            prop_assert!(volume.is_err() || volume.is_ok_and(|v| v.is_finite() && v >= 0.0));
        }
    }
}
