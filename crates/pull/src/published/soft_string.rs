//! The soft string: a march of short elements, as torque and drag are computed for wells.

use std::f64::consts::PI;

use quantity::{Angle, Force, ForcePerLength, Length, Pressure, unit};
use working::Evidence;

use super::{Method, PublishedError, range};

/// The soft string.
pub const SOFT_STRING: Method = Method {
    name: "soft string",
    document: "torque-and-drag form of SPE 11380, balance of forces of a short element",
    evidence: Evidence::Derived,
    validity: "string without stiffness whose axis is the axis of the bore",
};

/// What holds for the whole string.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoftString {
    /// Diameter on which the fluid drags.
    pub diameter: Length,
    /// Net weight in the fluid, positive where the string sinks.
    pub net_weight: ForcePerLength,
    /// Friction on the wall of the bore.
    pub friction: f64,
    /// Fluid stress on the string.
    pub fluid_stress: Pressure,
}

/// A short element of the path, in the direction of the pull.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoftStringElement {
    /// Length.
    pub length: Length,
    /// Mean inclination, positive where the string climbs.
    pub inclination: Angle,
    /// Change of inclination over the element, positive in a sag bend.
    pub inclination_change: Angle,
    /// Change of azimuth over the element.
    pub azimuth_change: Angle,
}

/// Pull after each element of a soft string.
///
/// ```text
/// N_v = T·Δi − w·Δs·cos i        N_h = T·Δψ·cos i
/// ΔT  = μ·√(N_v² + N_h²) + τ·π·D·Δs + w·Δs·sin i
/// ```
/// | symbol  | meaning                              | unit | argument            |
/// |---------|--------------------------------------|------|---------------------|
/// | T       | pull behind the element              | N    | `force_in`, then the last returned |
/// | Δs, i   | length, mean inclination             | m, rad | `elements`        |
/// | Δi, Δψ  | change of inclination and of azimuth | rad  | `elements`          |
/// | w, D    | net weight, positive sinks; diameter | N/m, m | `string`          |
/// | μ, τ    | friction, fluid stress               | –, Pa | `string`           |
///
/// First order in the element: halving the elements halves the error; 0.05 m on radii above 100 m is exact to 1e-5.
/// Valid for |i| < 90° and elements that turn by less than 0.1 rad.
///
/// # Source
/// [`SOFT_STRING`].
/// # Errors
/// [`PublishedError::OutOfRange`], inside `InPart` for an element.
/// # Checked by
/// `cases/pull/soft-string-ductile-iron.toml`, `cases/pull/soft-string-closed-forms.toml`; property: one radian of
/// weightless string is the capstan law.
pub fn soft_string(
    string: &SoftString,
    force_in: Force,
    elements: &[SoftStringElement],
) -> Result<Vec<Force>, PublishedError> {
    let d = range::positive("diameter", string.diameter.si(), unit::MM)?;
    let w = range::any("net weight", string.net_weight.si(), unit::N_PER_M)?;
    let mu = range::friction("friction", string.friction)?;
    let tau = range::not_negative("fluid stress", string.fluid_stress.si(), unit::PA)?;
    let mut t = range::any("force in", force_in.si(), unit::KN)?;
    let mut forces = Vec::with_capacity(elements.len());
    for (index, element) in elements.iter().enumerate() {
        let step = || {
            let e = checked(element)?;
            let vertical = t * e.inclination_change - w * e.length * e.inclination.cos();
            let sideways = t * e.azimuth_change * e.inclination.cos();
            let rise = mu * vertical.hypot(sideways)
                + tau * PI * d * e.length
                + w * e.length * e.inclination.sin();
            range::result("force", t + rise)
        };
        t = step().map_err(|error| PublishedError::InPart {
            number: index + 1,
            error: Box::new(error),
        })?;
        forces.push(Force::newtons(t));
    }
    Ok(forces)
}

/// Greatest turn of one element, rad: beyond it a first-order march means nothing.
const MOST_TURN: f64 = 0.1;

/// An element in SI after its check.
struct Checked {
    length: f64,
    inclination: f64,
    inclination_change: f64,
    azimuth_change: f64,
}

fn checked(e: &SoftStringElement) -> Result<Checked, PublishedError> {
    let right = std::f64::consts::FRAC_PI_2;
    let turn = (-MOST_TURN, MOST_TURN);
    Ok(Checked {
        length: range::not_negative("length", e.length.si(), unit::M)?,
        inclination: range::between("inclination", e.inclination.si(), (-right, right), unit::DEG)?,
        inclination_change: range::within(
            "inclination change",
            e.inclination_change.si(),
            turn,
            unit::DEG,
        )?,
        azimuth_change: range::within("azimuth change", e.azimuth_change.si(), turn, unit::DEG)?,
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn string(net_weight: f64) -> SoftString {
        SoftString {
            diameter: Length::metres(0.635),
            net_weight: ForcePerLength::from_si(net_weight),
            friction: 0.3,
            fluid_stress: Pressure::ZERO,
        }
    }

    fn element(length: f64, di: f64, da: f64) -> SoftStringElement {
        SoftStringElement {
            length: Length::metres(length),
            inclination: Angle::ZERO,
            inclination_change: Angle::radians(di),
            azimuth_change: Angle::radians(da),
        }
    }

    #[test]
    fn one_radian_of_weightless_string_is_the_capstan_law_in_any_plane() {
        for (di, da) in [(1e-4, 0.0), (-1e-4, 0.0), (0.0, 1e-4), (0.6e-4, -0.8e-4)] {
            let elements = vec![element(0.02, di, da); 10_000];
            let forces = soft_string(&string(0.0), Force::newtons(1e5), &elements).unwrap();
            let ratio = forces[9999].si() / 1e5;
            assert!((ratio / 0.3f64.exp() - 1.0).abs() < 1e-5, "{ratio} for {di}, {da}");
        }
    }

    #[test]
    fn mirrored_plan_bend_gives_the_same_force() {
        let at = |sign: f64| {
            let elements = vec![element(0.05, 1e-4, sign * 2e-4); 3000];
            soft_string(&string(-1855.93), Force::newtons(1e5), &elements).unwrap()
        };
        assert_eq!(at(1.0), at(-1.0));
    }

    #[test]
    fn coarse_or_upright_elements_are_refused_by_number() {
        let elements = [element(0.05, 0.0, 0.0), element(5.0, 0.2, 0.0)];
        let error = soft_string(&string(0.0), Force::ZERO, &elements).unwrap_err();
        assert!(error.to_string().starts_with("part 2 of the path: inclination change"));
        let upright = SoftStringElement { inclination: Angle::degrees(90.0), ..elements[0] };
        assert!(soft_string(&string(0.0), Force::ZERO, &[upright]).is_err());
    }

    proptest! {
        #[test]
        fn straight_string_is_the_exact_sum(
            w in -3e3f64..3e3, i in -30.0f64..30.0, length in 1.0f64..500.0, n in 1usize..50,
        ) {
            #[expect(clippy::cast_precision_loss, reason = "n is below 50")]
            let part = SoftStringElement {
                inclination: Angle::degrees(i),
                ..element(length / n as f64, 0.0, 0.0)
            };
            let forces = soft_string(&string(w), Force::ZERO, &vec![part; n]).unwrap();
            let i = i.to_radians();
            let exact = length * (0.3 * w.abs() * i.cos() + w * i.sin());
            prop_assert!((forces[n - 1].si() - exact).abs() <= 1e-9 * (length * w).abs().max(1.0));
        }
    }
}
