use pipe::LayingType;
use quantity::{Length, Pressure, show, unit};

use super::{C150Load, earth_pressure, truck_pressure};
use crate::ServiceError;

/// Least cover for which C150 gives loads, 2.5 ft.
const LEAST_COVER: f64 = 2.5 * 0.3048;

/// Greatest cover of a pipe by C150.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct C150Cover {
    /// The cover.
    pub cover: Length,
    /// What the pipe bears.
    pub load: C150Load,
    /// Earth pressure at that cover.
    pub earth: Pressure,
    /// Truck pressure at that cover.
    pub truck: Pressure,
}

/// Greatest cover at which earth and truck load stay within what the pipe bears (AWWA C150).
///
/// Earth pressure rises with the cover, the truck's share falls: the sum has a least value at a few
/// feet. The greatest cover is the last crossing; it is bracketed from above, in steps of 0.1 % of
/// the range, and refined by [`numerics::root`] to 1e-10 m.
///
/// # Source
/// ANSI/AWWA C150/A21.50, see [`C150Load::of`], [`earth_pressure`] and [`truck_pressure`].
/// # Errors
/// [`ServiceError::NoCover`] where the pipe bears less than the least load from 2.5 ft downwards;
/// [`ServiceError::OutOfRange`] names an argument.
/// # Checked by
/// published table: `cases/service/c150-maximum-cover.toml`; property: falls with weaker bedding.
pub fn max_cover(
    outside_diameter: Length,
    wall_nominal: Length,
    casting_tolerance: Length,
    laying: &LayingType,
    reduction: f64,
) -> Result<C150Cover, ServiceError> {
    let load = C150Load::of(outside_diameter, wall_nominal, casting_tolerance, laying)?;
    let capacity = load.capacity().si();
    let total = |h: f64| -> Result<f64, ServiceError> {
        let h = Length::from_si(h);
        let truck = truck_pressure(outside_diameter, h, reduction)?;
        Ok(earth_pressure(h)?.si() + truck.si())
    };
    // Earth alone exceeds the capacity here, whatever the truck adds.
    let unit_weight = earth_pressure(Length::from_si(1.0))?.si();
    let deepest = (capacity / unit_weight).max(LEAST_COVER) * (1.0 + 1e-9) + 1e-6;
    let steps: u32 = 1000;
    let depth = |i: u32| LEAST_COVER + (deepest - LEAST_COVER) * f64::from(i) / f64::from(steps);
    let mut least = (f64::INFINITY, deepest);
    let mut bracket = None;
    for i in (0..steps).rev() {
        let load_here = total(depth(i))?;
        if load_here < least.0 {
            least = (load_here, depth(i));
        }
        if load_here <= capacity {
            bracket = Some((depth(i), depth(i + 1)));
            break;
        }
    }
    let Some((from, to)) = bracket else {
        return Err(ServiceError::NoCover {
            bears: show(capacity, unit::KPA),
            least: show(least.0, unit::KPA),
            at: show(least.1, unit::M),
        });
    };
    let difference = |h: f64| total(h).map_or(f64::NAN, |p| p - capacity);
    let cover = numerics::root(difference, from, to, 1e-10)
        .map_err(|e| ServiceError::NotConverged { what: "greatest cover", why: e.to_string() })?;
    let cover = Length::from_si(cover);
    Ok(C150Cover {
        cover,
        load,
        earth: earth_pressure(cover)?,
        truck: truck_pressure(outside_diameter, cover, reduction)?,
    })
}

#[cfg(test)]
mod tests {
    use pipe::laying_type;
    use proptest::prelude::*;

    use super::super::Criterion;
    use super::*;

    fn cover(od: f64, wall: f64, tolerance: f64, number: u32, r: f64) -> Option<C150Cover> {
        let laying = laying_type(number).expect("1 to 5");
        let inch = Length::inches;
        max_cover(inch(od), inch(wall), inch(tolerance), &laying, r).ok()
    }

    #[test]
    fn eight_inch_pipe_reproduces_the_published_covers_of_all_five_types() {
        for (number, feet) in [(1, 16.0), (2, 20.0), (3, 25.0), (4, 34.0), (5, 50.0)] {
            let c = cover(9.05, 0.25, 0.05, number, 1.0).expect("cover");
            assert_eq!(c.cover.to_feet().floor(), feet, "type {number}");
        }
    }

    #[test]
    fn at_the_greatest_cover_the_load_equals_what_the_pipe_bears() {
        let c = cover(38.3, 0.38, 0.07, 5, 1.0).expect("cover");
        assert_eq!(c.load.governs, Criterion::Deflection);
        assert!((c.earth.si() + c.truck.si() - c.load.capacity().si()).abs() < 1e-3);
    }

    #[test]
    fn a_pipe_too_weak_for_any_cover_is_an_error_with_both_pressures() {
        let laying = laying_type(1).expect("type");
        let inch = Length::inches;
        let e = max_cover(inch(65.67), inch(0.3), inch(0.09), &laying, 1.0).expect_err("accepted");
        assert_eq!(e.code(), "no_cover");
        let e = max_cover(inch(65.67), inch(0.15), inch(0.09), &laying, 1.0).expect_err("wall");
        assert!(e.to_string().starts_with("nominal wall must be more than"), "{e}");
    }

    proptest! {
        #[test]
        fn cover_never_grows_with_weaker_bedding_or_more_truck(
            od in 4.0f64..66.0, wall in 0.005f64..0.03, r in 0.5f64..0.99,
        ) {
            let nominal = od * wall + 0.16;
            let mut last = f64::INFINITY;
            for number in (1..=5).rev() {
                let Some(c) = cover(od, nominal, 0.07, number, r) else { break };
                prop_assert!(c.cover.si() <= last, "type {number}");
                last = c.cover.si();
                if let Some(more) = cover(od, nominal, 0.07, number, r + 0.01) {
                    prop_assert!(more.cover <= c.cover);
                }
            }
        }
    }
}
