use std::f64::consts::{PI, TAU};

use quantity::{Length, show, unit};

use super::elastic::deep_enough;
use crate::GroundError;
use crate::argument::{distance, unsigned_volume, volume, within};

/// How far ground that keeps its volume moves away from the axis of a cavity, far from any surface.
///
/// ```text
/// u = √(R² + V/π) − R
/// ```
/// | symbol | meaning                                             | unit | argument            |
/// |--------|-----------------------------------------------------|------|---------------------|
/// | V      | volume per length gained, −100 to 100               | m³/m | `volume_per_length` |
/// | R      | distance from the axis before, above 0; outside the volume lost where V is negative | m | `distance_from_axis` |
///
/// # Source
/// Volume of a ring that stays the same, exact (derived).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/near-displacement.toml` (derived).
pub fn near_displacement(
    volume_per_length: f64,
    distance_from_axis: Length,
) -> Result<Length, GroundError> {
    let v = volume(volume_per_length)?;
    let r = ring_radius(distance_from_axis)?;
    let after = r * r + v / PI;
    if after < 0.0 {
        return Err(GroundError::OutOfRange {
            quantity: "distance from the axis",
            found: show(r, unit::M),
            allowed: "at least the radius of the volume lost",
        });
    }
    // The same as the difference of the radii, without losing digits far away.
    Ok(Length::from_si(v / PI / (after.sqrt() + r)))
}

/// The displacement of [`near_displacement`] far from the axis, `u = V / (2π R)`.
///
/// The first term of its series; too large by `V/(4π R²)` of itself at first order.
///
/// # Source
/// Expansion of the exact form (derived).
/// # Errors
/// As [`near_displacement`].
/// # Checked by
/// `cases/ground/near-displacement.toml` (derived).
pub fn far_displacement(
    volume_per_length: f64,
    distance_from_axis: Length,
) -> Result<Length, GroundError> {
    let v = volume(volume_per_length)?;
    Ok(Length::from_si(v / (TAU * ring_radius(distance_from_axis)?)))
}

/// Judgement: a distance below a tenth of a millimetre lies in every cavity.
fn ring_radius(distance_from_axis: Length) -> Result<f64, GroundError> {
    let r = distance_from_axis.si();
    let holds = (1e-4..=1e6).contains(&r);
    within("distance from the axis", r, unit::M, holds, "0.0001 m to 1000 km")
}

/// Heave of the surface along the pull, in ground that keeps its volume.
///
/// ```text
/// s = V/(2π) · h/(x² + h²) · [ 1 + y/√(x² + y² + h²) ]
/// ```
/// | symbol | meaning                                               | unit | argument      |
/// |--------|-------------------------------------------------------|------|---------------|
/// | V      | volume per length behind the head, −100 to 100        | m³/m | `volume_per_length` |
/// | h      | depth of the axis, deeper than the radius of V        | m    | `axis_depth`  |
/// | x      | offset of the place to either side                    | m    | `offset`      |
/// | y      | distance of the place behind the head, negative ahead | m    | `behind_head` |
///
/// Above the head half of the final heave is there; far behind it the form is that of
/// [`surface_heave`](crate::surface_heave) with ν = 0.5.
///
/// # Source
/// Integral of point sources below a free surface (after Sagaseta 1987), derived and tested.
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/along-pull.toml` (derived).
pub fn along_pull(
    volume_per_length: f64,
    axis_depth: Length,
    offset: Length,
    behind_head: Length,
) -> Result<Length, GroundError> {
    let v = volume(volume_per_length)?;
    let h = deep_enough(v, axis_depth)?;
    let x = distance("offset", offset.si())?;
    let y = distance("distance behind the head", behind_head.si())?;
    let across = x * x + h * h;
    let reach = (across + y * y).sqrt();
    // Ahead of the head 1 + y/reach loses its digits; the product form keeps them.
    let share = if y >= 0.0 { 1.0 + y / reach } else { across / (reach * (reach - y)) };
    Ok(Length::from_si(v / TAU * h / across * share))
}

/// Heave of a trench whose stiff walls let all displaced ground leave upwards only.
///
/// ```text
/// s = η V / W
/// ```
/// | symbol | meaning                                              | unit | argument       |
/// |--------|------------------------------------------------------|------|----------------|
/// | V      | volume per length displaced, 0 to 100                | m³/m | `volume_per_length` |
/// | η      | share that reaches the surface, 0 to 1: clay 1.0, medium to dense sand 0.5 to 0.8, loose backfill 0.2 to 0.5 (from memory) | – | `heave_ratio` |
/// | W      | width of the trench, 0.05 m to 100 m                 | m    | `trench_width` |
///
/// An upper bound: nothing goes sideways.
///
/// # Source
/// Volume that stays the same (derived).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/trench-heave.toml` (derived).
pub fn trench_wedge(
    volume_per_length: f64,
    heave_ratio: f64,
    trench_width: Length,
) -> Result<Length, GroundError> {
    let v = unsigned_volume(volume_per_length)?;
    let holds = (0.0..=1.0).contains(&heave_ratio);
    let ratio = within("heave ratio", heave_ratio, unit::ONE, holds, "0 to 1")?;
    let width = trench_width.si();
    // Judgement: no trench is narrower or wider.
    let holds = (0.05..=100.0).contains(&width);
    within("trench width", width, unit::M, holds, "0.05 m to 100 m")?;
    Ok(Length::from_si(ratio * v / width))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::surface_heave;

    fn m(x: f64) -> Length {
        Length::from_si(x)
    }

    proptest! {
        #[test]
        fn a_ring_keeps_its_area(v in -0.1f64..1.0, r in 0.2f64..50.0) {
            let after = r + near_displacement(v, m(r)).unwrap().si();
            prop_assert!((PI * (after * after - r * r) - v).abs() < 1e-11 * (r * r).max(1.0));
        }

        #[test]
        fn the_far_form_is_the_first_term_of_the_exact_one(v in 0.01f64..0.1, r in 5f64..50.0) {
            let (exact, far) = (near_displacement(v, m(r)).unwrap(), far_displacement(v, m(r)).unwrap());
            let excess = far / exact - 1.0;
            prop_assert!((excess / (v / (4.0 * PI * r * r)) - 1.0).abs() < 1e-2);
        }

        #[test]
        fn half_of_the_final_heave_is_above_the_head_and_all_far_behind(
            v in -0.1f64..0.1, h in 0.5f64..10.0, x in -10f64..10.0, y in 0f64..100.0,
        ) {
            let at = |y| along_pull(v, m(h), m(x), m(y)).unwrap().si();
            let (flat, _) = surface_heave(v, m(h), m(x), 0.5).unwrap();
            let scale = 1e-12 * flat.si().abs().max(1e-12);
            prop_assert!((at(0.0) - 0.5 * flat.si()).abs() <= scale);
            prop_assert!((at(1e5) - flat.si()).abs() < 1e-7 * flat.si().abs().max(1e-12));
            prop_assert!((at(y) + at(-y) - flat.si()).abs() <= scale);
        }

        #[test]
        fn the_heave_along_the_pull_is_a_sum_of_point_sources(
            h in 0.5f64..5.0, x in 0f64..5.0, y in -5f64..5.0,
        ) {
            // A source of a volume dV heaves the surface by dV/(2π) h/r³; all behind the head add up.
            let (v, step) = (0.03, 0.02);
            let sum: f64 = (0..50_000)
                .map(|n| y - (f64::from(n) + 0.5) * step)
                .map(|along| (x * x + h * h + along * along).powf(-1.5) * step)
                .sum();
            let s = along_pull(v, m(h), m(x), m(y)).unwrap().si();
            prop_assert!((v / TAU * h * sum / s - 1.0).abs() < 3e-4, "{}", v / TAU * h * sum / s);
        }

        #[test]
        fn a_trench_as_wide_as_its_heave_is_high_takes_the_volume(v in 0f64..1.0, w in 0.1f64..3.0) {
            let s = trench_wedge(v, 1.0, m(w)).unwrap().si();
            prop_assert!((s * w - v).abs() < 1e-12);
        }

        #[test]
        fn nothing_but_numbers_leaves(
            v in prop_oneof![-100f64..100.0, prop::num::f64::ANY],
            a in prop_oneof![0.01f64..1000.0, prop::num::f64::ANY],
            b in prop_oneof![-1e6f64..1e6, prop::num::f64::ANY],
            c in prop_oneof![-1e6f64..1e6, prop::num::f64::ANY],
        ) {
            for moved in [
                near_displacement(v, m(a)),
                far_displacement(v, m(a)),
                along_pull(v, m(a), m(b), m(c)),
                trench_wedge(v, b, m(a)),
            ] {
                prop_assert!(moved.is_err() || moved.is_ok_and(Length::is_finite));
            }
        }
    }

    #[test]
    fn a_place_inside_the_volume_lost_is_refused() {
        assert!(near_displacement(-PI, m(0.99)).is_err());
        assert_eq!(near_displacement(-PI, m(1.0)), Ok(m(-1.0)));
        assert!(near_displacement(0.1, Length::ZERO).is_err());
        assert!(along_pull(PI, m(0.99), m(0.0), m(0.0)).is_err());
    }
}
